"""What frost asks of the battery: heaters of tanks outside, and fans that nobody states."""

from dataclasses import replace

import pytest

from engine.build import Build, work_out
from engine.build.loads import Load, build_loads
from engine.catalogue.facets import SpaceHeater
from engine.rules import all_rules
from engine.saying import findings_of
from tests.build.test_hot_and_cold_water import _with
from tests.shops import enquiry, resolver

RULES = {r.code: r for r in all_rules()}


def build_of(shop: str, vehicle: str, options: dict[str, int], place: str) -> Build:
    return resolver(shop).resolve(enquiry(shop, vehicle, options, place=place, months=[1]))


def load_of(build: Build, option_id: str) -> Load:
    f = work_out(build)
    [found] = [x for x in build_loads(build, f.warmth, f.water, 1) if x.option_id == option_id]
    return found


def test_a_tank_is_warmed_as_long_as_the_month_wants() -> None:
    # 30 gal: 6.8·0.11356^(2/3) = 1.595 m², 1 in of foam over 8 W/(m²K): 1/(0.125 + 0.0254/0.035) = 1.1755 W/(m²K).
    loss_w_k = 6.8 * 0.113562**0.666667 / (1 / 8 + 0.0254 / 0.035)
    assert loss_w_k == pytest.approx(1.875, abs=0.001)
    north = build_of("quillback", "box", {"gray-30-heated": 1}, "northway")
    mean = north.climate.mean_degc[0]
    assert mean == pytest.approx(-24.2, abs=0.3)
    assert load_of(north, "gray-30-heated").daily_wh == pytest.approx(24 * loss_w_k * -mean, rel=1e-3)
    # At −4 °C on the mean its usual three hours of 60 W do, and in the mild nothing is asked but them.
    for place in ("denver", "london"):
        assert load_of(build_of("quillback", "box", {"gray-30-heated": 1}, place), "gray-30-heated").daily_wh == 180


def test_a_tank_whose_heater_stands_by_itself_takes_power_too() -> None:
    stated = build_of("hallamoor", "van-35", {"grey-80-heated": 1}, "northway")
    parts = tuple(
        replace(
            p, option=p.option.model_copy(update={"facets": tuple(x for x in p.option.facets if x.kind != "dc-load")})
        )
        for p in stated.parts
    )
    alone = load_of(replace(stated, parts=parts), "grey-80-heated")
    assert alone.daily_wh == pytest.approx(load_of(stated, "grey-80-heated").daily_wh) and alone.in_season


def test_a_diesel_heater_has_a_fan_though_nobody_states_it() -> None:
    silent = _with(
        build_of("hallamoor", "van-35", {"diesel-8": 1, "foam-32": 1}, "london"), SpaceHeater, electric_w=None
    )
    [said] = findings_of(RULES["heater-capacity"], silent, work_out(silent))
    assert said.verdict == "fails" and "needs a house battery" in said.cause
    assert load_of(silent, "diesel-8").power_w == 80
    # Of gas there are heaters without any.
    gas = _with(silent, SpaceHeater, fuel="gas")
    assert [x.verdict for x in findings_of(RULES["heater-capacity"], gas, work_out(gas))] == ["ok"]


def test_a_heated_floor_starts_with_what_it_takes() -> None:
    build = build_of("hallamoor", "van-35", {"floor-heat-12v": 1, "lfp-230": 1}, "london")
    floor = load_of(build, build.ids(SpaceHeater)[0])
    assert floor.start_va == floor.apparent_va == floor.power_w > 0


def test_fans_take_power_in_the_cold_where_the_damp_is_left_to_them() -> None:
    kit = {"roof-fan": 1, "lfp-230": 1, "diesel-2": 1, "foam-32": 1, "cab-curtain": 1}
    # In London two people want 33 m³/h of fresh air in December and have 29; in Garmisch's January 16 do.
    for place, month, runs in (("london", 12, True), ("garmisch", 1, False)):
        build = resolver("hallamoor").resolve(enquiry("hallamoor", "van-35", kit, place=place, months=[month]))
        f = work_out(build)
        [fan] = [x for x in build_loads(build, f.warmth, f.water, month) if x.option_id == "roof-fan"]
        assert (fan.hours_d > 0) is runs
        [damp] = findings_of(RULES["fresh-air-humidity"], build, f)
        assert (damp.verdict == "tight") is runs
