"""Without a house battery fans, pumps and controls stand still, and with them what they serve."""

import pytest

from engine.build import work_out
from engine.catalogue.facets import Battery
from engine.rule import Finding
from engine.rules import all_rules
from engine.saying import findings_of
from engine.sheets.figure_text import night_held
from tests.shops import enquiry, resolver

READY = [("hallamoor", "dry-stone"), ("hallamoor", "high-fell"), ("quillback", "long-winter-box")]
RULES = {r.code: r for r in all_rules()}


def out_of(shop: str, ready: str) -> dict[str, int]:
    return dict.fromkeys(resolver(shop).resolve(enquiry(shop, ready=ready)).ids(Battery), 0)


def said(code: str, shop: str, ready: str, battery: bool, **options: int) -> list[Finding]:
    out = {} if battery else out_of(shop, ready)
    more = {i.replace("_", "-"): n for i, n in options.items()}
    build = resolver(shop).resolve(enquiry(shop, ready=ready, options=out | more, months=[1]))
    return findings_of(RULES[code], build, work_out(build))


@pytest.mark.parametrize(("shop", "ready"), READY)
def test_a_heater_with_a_fan_is_dead_without_a_battery(shop: str, ready: str) -> None:
    [with_it] = said("heater-capacity", shop, ready, battery=True)
    [without] = said("heater-capacity", shop, ready, battery=False)
    assert with_it.verdict in ("ok", "tight")
    assert without.verdict == "fails" and "needs a house battery to run" in without.cause
    assert without.remedy.startswith("Add a house battery")
    assert said("warm-up-time", shop, ready, battery=True)
    assert not said("warm-up-time", shop, ready, battery=False)
    assert not said("heater-fuel-days", shop, ready, battery=False)
    build = resolver(shop).resolve(enquiry(shop, ready=ready, options=out_of(shop, ready), months=[1]))
    assert night_held(work_out(build).warmth, "metric") == ("no heat", "needs a battery")


@pytest.mark.parametrize(("shop", "ready"), READY)
def test_no_water_and_no_warm_shower_either(shop: str, ready: str) -> None:
    assert {f.verdict for f in said("taps-fed", shop, ready, battery=True)} == {"ok"}
    assert [f.verdict for f in said("taps-fed", shop, ready, battery=False)] == ["ok", "fails"]
    assert all(f.verdict != "note" for f in said("shower-hot", shop, ready, battery=True))
    assert all("cold" in f.cause for f in said("shower-hot", shop, ready, battery=False))


@pytest.mark.parametrize(("shop", "ready"), READY)
def test_a_tank_is_not_heated_from_a_battery_that_is_not_there(shop: str, ready: str) -> None:
    assert not said("tank-heater", shop, ready, battery=False)


@pytest.mark.parametrize(("shop", "ready"), READY)
def test_fans_stand_still_and_air_nothing(shop: str, ready: str) -> None:
    fans = {"roof_fan": 2}
    with_it, without = (said("fan-pair", shop, ready, battery, **fans) for battery in (True, False))
    assert "still" not in with_it[0].cause
    assert [(f.verdict, "Without a house battery they stand still." in f.cause) for f in without] == [("note", True)]
    air = []
    for battery in (True, False):
        out = {} if battery else out_of(shop, ready)
        build = resolver(shop).resolve(enquiry(shop, ready=ready, options=out | {"roof-fan": 2}, months=[1]))
        air.append(work_out(build).damp.fan_m3_h)
    assert air[0] > 0 == air[1]


def test_what_burns_without_electricity_goes_on() -> None:
    # A catalytic heater and the stove have neither fan nor control; the geyser is lit by hand. At Denver's 1,650 m the
    # heater of 6,000 BTU/h gives 86 % of that.
    [fire] = said("heater-capacity", "quillback", "long-winter-box", battery=False, heater_gas_catalytic=1)
    assert "heating gives 5,180 BTU/h" in fire.cause
    for boiler, lifeless in (("geyser-gas", False), ("boiler-gas-10", False), ("combi-gas-4", True)):
        build = resolver("hallamoor").resolve(enquiry("hallamoor", "box-72", {boiler: 1}))
        hot = work_out(build).hot_water
        assert bool(hot.lifeless) == lifeless
        assert bool(hot.stores or hot.instants) != lifeless


def test_a_stove_still_wants_an_alarm() -> None:
    build = resolver("hallamoor").resolve(enquiry("hallamoor", "box-72", {"stove": 1}))
    [alarm] = findings_of(RULES["carbon-monoxide-alarm"], build, work_out(build))
    assert alarm.verdict == "fails"
    electric = resolver("hallamoor").resolve(enquiry("hallamoor", "box-72", {"floor-heat-12v": 1}))
    assert not findings_of(RULES["carbon-monoxide-alarm"], electric, work_out(electric))


@pytest.mark.parametrize(("driving_h", "cause"), [
    (0, "The shower is cold, for no driving of the trip warms it: Boiler 16 L, warmed by the engine."),
    (0.1, "The shower is cold, for so little driving does not warm it: Boiler 16 L, warmed by the engine."),
    (0.25, "Boiler 16 L, warmed by the engine: warm shower for "),
])  # fmt: skip
def test_an_engine_that_does_not_run_warms_no_water(driving_h: float, cause: str) -> None:
    build = resolver("hallamoor").resolve(
        enquiry("hallamoor", ready="high-fell", driving_h=driving_h, showers_per_day=1)
    )
    f = work_out(build)
    [shower] = findings_of(RULES["shower-hot"], build, f)
    assert shower.cause.startswith(cause)
    # 2.4 kW for a quarter of an hour warm 16 L by 32 K, to 42 °C.
    assert [round(s.hot_degc) for s in f.hot_water.stores] == ([42] if driving_h > 0.2 else [])


def test_the_battery_is_filled_by_driving_only_where_the_trip_has_some() -> None:
    for driving_h, words in ((1, "by a hook-up and driving."), (0, "by a hook-up.")):
        build = resolver("hallamoor").resolve(enquiry("hallamoor", ready="high-fell", driving_h=driving_h))
        [filled] = findings_of(RULES["battery-refilled"], build, work_out(build))
        assert filled.cause.endswith(words)


@pytest.mark.parametrize("main", [None, "heater-gas-furnace"])
def test_a_branch_without_its_heater_gives_neither_heat_nor_hot_water(main: str | None) -> None:
    out = {"heater_diesel_hydronic": 0} | ({main.replace("-", "_"): 1} if main else {})
    ready = ("quillback", "long-winter-box", True)
    [whole] = said("shower-hot", *ready)
    assert whole.verdict == "ok" and whole.cause.startswith("Hot water from the diesel hydronic heater: warm shower")
    [cold] = said("shower-hot", *ready, **out)
    assert cold.verdict == "note"
    assert cold.cause == (
        "The shower is cold, for “Diesel hydronic heater, two fan coils”, which feeds this, is not chosen: "
        "Hot water from the diesel hydronic heater."
    )
    [heating] = said("heater-capacity", *ready, **out)
    assert heating.verdict == ("ok" if main else "fails")
    if not main:
        assert "nothing heats it. Not counted, for it is a branch of “Diesel hydronic heater" in heating.cause
        assert heating.cause.endswith("which is not chosen: Warm-water floor, two loops.")
        assert heating.remedy.startswith("Add “Diesel hydronic heater, two fan coils”, or")
    assert not said("heater-fuel-days", *ready, **out)
    changes = {i.replace("_", "-"): n for i, n in out.items()}
    build = resolver("quillback").resolve(enquiry("quillback", ready="long-winter-box", options=changes, months=[1]))
    figures = work_out(build)
    assert figures.warmth.heater_ids == ((main,) if main else ())
    assert figures.gas.diesel_l_d == 0 and not figures.hot_water.stores
    assert not [x for x in figures.power.all_loads if x.option_id == "floor-heat-hydronic"]


def test_only_a_heater_that_needs_another_of_its_fuel_is_a_branch() -> None:
    found = {shop: resolver(shop).resolve(enquiry(shop)).branches for shop in ("quillback", "hallamoor")}
    source = (("heater-diesel-hydronic",),)
    assert found == {
        "quillback": {"floor-heat-hydronic": source, "water-heater-hydronic": source},
        "hallamoor": {},
    }
