"""What heaters take from the battery, in the plain balance and hour by hour."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.build import Build, Figures, work_out
from engine.build.day_plan import day_plan, warmth_loads
from engine.build.energy_inputs import asked
from engine.build.loads import COMFORT_H, build_loads
from engine.catalogue.facets import DcLoad, Facet, SpaceHeater
from engine.physics.warmth_loads import load_w
from engine.rules import all_rules
from engine.saying import findings_of
from tests.shops import enquiry, resolver


def figures(ready: str = "dry-stone", options: dict[str, int] | None = None, **trip: object):
    build = resolver("hallamoor").resolve(enquiry("hallamoor", None, options, ready, **{"months": [1]} | trip))
    return build, work_out(build)


def test_a_heaters_power_follows_the_cold_and_rests_when_it_is_warm() -> None:
    build, f = figures()
    heater = next(x for x in f.power.all_loads if x.heats_degc)
    full, inside = heater.heats_degc
    mean = build.climate.mean_degc[0]
    # It rests at the warmth wanted, and runs all the time where the shell loses all its 2 kW.
    assert inside == 18 and f.warmth.total_w_k * (inside - full) == pytest.approx(2000)
    load = next(x for x in warmth_loads(f.power, 18.0) if x.duty_frac_k < 0)
    assert 24 * load_w(load, mean) == pytest.approx(heater.daily_wh)
    assert load_w(load, mean - 5) > load_w(load, mean) > load_w(load, mean + 5) > load_w(load, inside) == 0
    # Twice as cold against the room is twice the power.
    assert load_w(load, inside - 2 * (inside - mean)) == pytest.approx(2 * load_w(load, mean))
    assert load_w(load, full - 9) == pytest.approx(20) and load_w(load, full) == pytest.approx(20)


def test_nothing_is_counted_twice() -> None:
    build, f = figures()
    without = f.power._replace(all_loads=tuple(x for x in f.power.all_loads if not x.heats_degc))
    assert day_plan(f.power, 1.0).dc_w == day_plan(without, 1.0).dc_w
    assert asked(build, f.power, f.roof).system.by_warmth != asked(build, without, f.roof).system.by_warmth


FOIL = {"floor-heat-12v": 1}


def altered(build: Build, option_id: str, *more: Facet, **changed: object) -> tuple[Build, Figures]:
    """The build with another heater in one option, and further facets beside it."""

    def new(x: Facet) -> Facet:
        return x.model_copy(update=changed) if isinstance(x, SpaceHeater) else x

    parts = tuple(
        replace(p, option=p.option.model_copy(update={"facets": (*map(new, p.option.facets), *more)}))
        if p.option.id == option_id
        else p
        for p in build.parts
    )
    found = replace(build, parts=parts)
    return found, work_out(found)


def hourly_wh(f: Figures, mean_degc: float) -> float:
    """What a day of that mean takes at the battery in the hourly reckoning."""
    plan = day_plan(f.power, 0.0)
    return sum(plan.dc_w) + 24 * sum(load_w(x, mean_degc) for x in warmth_loads(f.power, 18.0))


def takes_wh(f: Figures, option_id: str) -> float:
    return sum(x.energy_wh_d for x in f.power.loads if x.option_id == option_id)


def test_a_floor_warmed_from_the_battery_beside_a_heater_is_a_comfort_and_no_heater() -> None:
    cold = {"place": "helsinki"}
    (build, plain), (warmed, warm) = figures(**cold), figures(options=FOIL, **cold)
    # 120 W for half an hour, in the daily balance and hour by hour; the diesel heater's fan runs as without it.
    assert takes_wh(warm, "floor-heat-12v") == pytest.approx(60)
    assert warm.power.use_wh_d - plain.power.use_wh_d == pytest.approx(60)
    mean = build.climate.mean_degc[0]
    assert hourly_wh(warm, mean) - hourly_wh(plain, mean) == pytest.approx(60)
    assert warm.warmth.output_w == plain.warmth.output_w == 2000
    assert warm.gas.diesel_l_d == pytest.approx(plain.gas.diesel_l_d)
    assert warm.warm_up is not None and plain.warm_up is not None
    assert warm.warm_up.fuel.battery_wh == pytest.approx(plain.warm_up.fuel.battery_wh, rel=0.01)
    told = {x.code: findings_of(x, warmed, warm) for x in all_rules()}
    [capacity] = told["heater-capacity"]
    assert capacity.verdict == "fails" and "is a comfort beside another heater: Heating foil" in capacity.cause
    [electric] = told["heating-electricity"]
    assert [(x.value, x.origin) for x in electric.facts if x.unit == "h"] == [(COMFORT_H, "assumed")]


def test_a_comfort_takes_its_cable_whenever_it_runs_and_nothing_where_nobody_heats() -> None:
    _, warm = figures(options=FOIL)
    assert any(x.option_id == "floor-heat-12v" for x in warm.power.demand.dc_together)
    _, summer = figures(options=FOIL, months=[7], place="tucson")
    assert takes_wh(summer, "floor-heat-12v") == 0


def test_stated_hours_of_a_comfort_hold() -> None:
    build, _ = figures(options=FOIL)
    load = DcLoad.model_validate({"kind": "dc-load", "power": 120, "hours_per_day": 2, "habit": "heating"})
    _, stated = altered(build, "floor-heat-12v", load)
    assert takes_wh(stated, "floor-heat-12v") == pytest.approx(240)


def test_a_floor_that_is_the_only_heat_runs_as_long_as_warmth_is_wanted() -> None:
    build, f = figures(options=FOIL | {"diesel-2": 0}, place="helsinki")
    assert takes_wh(f, "floor-heat-12v") == pytest.approx(24 * 120)
    assert f.warmth.output_w == 120 and not f.warmth.uncounted
    # Of 4 kW it makes what the shell loses.
    _, strong = altered(build, "floor-heat-12v", output_w=4000)
    mean = build.climate.mean_degc[0]
    assert takes_wh(strong, "floor-heat-12v") == pytest.approx(24 * strong.warmth.total_w_k * (18 - mean))


def test_one_spot_warmed_from_the_battery_is_a_comfort_beside_a_heater_or_alone() -> None:
    for diesel in (1, 0):
        build, _ = figures(options=FOIL | {"diesel-2": diesel})
        _, spot = altered(build, "floor-heat-12v", role="spot")
        assert takes_wh(spot, "floor-heat-12v") == pytest.approx(60)
        assert spot.warmth.output_w == 2000 * diesel


@pytest.mark.parametrize(("diesel_w", "share"), [(800, 0.7), (2000, 0.0), (300, 1.0)])
def test_a_main_heater_on_the_battery_makes_what_fuel_leaves_lacking(diesel_w: float, share: float) -> None:
    plain, _ = figures(options=FOIL, place="helsinki")
    small, _ = altered(plain, "diesel-2", output_w=diesel_w, min_output_w=100)
    build, f = altered(small, "floor-heat-12v", role="main", output_w=500)
    mean = build.climate.mean_degc[0]
    need_w = f.warmth.total_w_k * (18 - mean)
    assert f.warmth.output_w == diesel_w + 500
    made_wh = 24 * min(500, max(0, need_w - diesel_w))
    assert takes_wh(f, "floor-heat-12v") == pytest.approx(made_wh)
    assert made_wh == pytest.approx(24 * 500 * share, rel=0.1)
    assert f.gas.diesel_l_d == pytest.approx(24 * min(diesel_w, need_w) / 1000 / 0.8 / 9.95)
    # The hourly reckoning has the same at the mean, and on colder days as much more as the shell loses more.
    one = f.power._replace(all_loads=tuple(x for x in f.power.all_loads if x.option_id == "floor-heat-12v"))
    [line] = warmth_loads(one, 18.0)
    for degc in (mean, mean - 7, mean - 20, mean + 7):
        lacking_w = max(0, f.warmth.total_w_k * (18 - degc) - diesel_w)
        assert load_w(line, degc) == pytest.approx(min(500, lacking_w), abs=1e-6)


@given(st.floats(-60, 30), st.floats(5, 26), st.floats(60, 20000), st.floats(0, 20000))
def test_heaters_on_the_battery_stay_within_what_the_hourly_sums_hold_for(
    degc: float, inside: float, output_w: float, first_w: float
) -> None:
    build, f = figures(options=FOIL | {"diesel-2": 0}, place="helsinki")
    build = replace(build, trip=build.trip.model_copy(update={"inside_degc": inside}))
    warmth = f.warmth._replace(output_w=first_w + output_w, burning_w=first_w)
    loads = build_loads(build, warmth, f.water, 1)
    for line in warmth_loads(f.power._replace(all_loads=loads), 18.0):
        assert -60 <= line.at_degc <= 60 and 0 <= line.duty_frac <= 1 and abs(line.duty_frac_k) <= 1
        assert 0 <= load_w(line, degc) <= line.power_w


def test_no_heating_in_months_that_need_none() -> None:
    _, f = figures(months=[7], place="tucson")
    assert not any(x.heats_degc for x in f.power.all_loads)
