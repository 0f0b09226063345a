"""Remedies fit the build they are told of."""

import re
from dataclasses import replace

import pytest

from engine.build import work_out
from engine.rule import Finding
from engine.rules import all_rules
from engine.rules.escape_route import _helps
from engine.saying import findings_of, say
from engine.units import System
from tests.shops import catalogue, enquiry, resolver

RULES = {r.code: r for r in all_rules()}


def found(code: str, shop: str, vehicle: str | None, options: dict[str, int], **more: object) -> list[Finding]:
    ready = more.pop("ready", None)
    build = resolver(shop).resolve(enquiry(shop, vehicle, options, ready, **more))  # type: ignore[arg-type]
    return findings_of(RULES[code], build, work_out(build))


POWER = {"battery-12v-100": 1, "inverter-12v-2000": 1}


@pytest.mark.parametrize(("cooler", "soft"), [("ac-roof-11000-soft", True), ("ac-roof-13500", False)])
def test_nobody_makes_a_soft_start_softer(cooler: str, soft: bool) -> None:
    trip = {"place": "phoenix", "months": [7], "cooling": True}
    seen = 0
    for code in ("inverter-surge", "battery-peak", "battery-sag", "generator-start"):
        for f in found(code, "quillback", "bus", POWER | {cooler: 1, "generator-2200": 1}, **trip):
            if f.remedy:
                seen += 1
                assert ("soft start" in f.remedy) != soft, f.remedy
    assert seen >= 2


def test_a_tank_outside_is_not_warmed_by_the_room() -> None:
    frost = {"place": "helsinki", "months": [1]}
    [outside] = found("tank-freezes", "hallamoor", "van-35", {"grey-80": 1, "diesel-4": 1, "lfp-100": 1}, **frost)
    assert outside.remedy.startswith("Choose a tank with its own heater")
    [inside] = found("tank-freezes", "hallamoor", "van-35", {"fresh-100": 1}, **frost)
    assert inside.remedy.startswith("Heat the room")
    [pad] = found("tank-freezes", "hallamoor", "van-35", {"grey-80-heated": 1}, **frost)
    assert pad.remedy.startswith("Add a house battery for its heater")


@pytest.mark.parametrize(
    ("options", "helps"),
    [
        ({}, "Choose a main heater, or"),
        ({"diesel-2": 1}, "Add a house battery, choose a heater that needs none, or"),
        ({"diesel-2": 1, "lfp-100": 1}, "Close off the cab with “Quilted cab curtain and windscreen mats”, insulate"),
        ({"diesel-2": 1, "lfp-100": 1, "cab-curtain": 1}, "Insulate it (first: "),
        ({"diesel-2": 1, "lfp-100": 1, "cab-curtain": 1, "foam-32": 1}, "Insulate more (first: "),
    ],
)
def test_warmth_is_helped_by_what_the_build_lacks(options: dict[str, int], helps: str) -> None:
    [cold] = found("heater-capacity", "hallamoor", "van-35", options, place="helsinki", months=[1], inside_degc=24)
    assert not cold.remedy or cold.remedy.startswith(helps)
    assert cold.remedy or "foam-32" in options


@pytest.mark.parametrize(
    ("options", "month", "verdict"),
    [
        ({}, 1, "tight"),  # a room at -14 °C: ice within the hour
        ({}, 5, None),  # no frost inside
        ({"diesel-4": 1, "lfp-100": 1}, 1, None),  # heated
    ],
)
def test_pipes_freeze_in_a_room_that_nothing_heats(options: dict[str, int], month: int, verdict: str | None) -> None:
    for f in found("pipe-freezes", "hallamoor", "van-35", {"fresh-100": 1} | options, place="garmisch", months=[month]):
        assert f.verdict == verdict
        assert f.remedy.startswith("Heat the room, or drain it")
        assert "outside" not in f.cause
        verdict = None
    assert verdict is None


def test_frost_of_next_to_nothing_reads_as_such() -> None:
    tank, pipe = RULES["tank-freezes"], RULES["pipe-freezes"]
    asked: tuple[tuple[System, float, str], ...] = (
        ("metric", -0.3, "just below 0 °C"), ("us", -0.3, "just below 32 °F"), ("metric", -4.0, "at −4 °C"),
    )  # fmt: skip
    for units, degc, said in asked:
        for rule, changes in ((tank, {"cold_degc": degc, "night_degc": degc}), (pipe, {"night_degc": degc})):
            for example in rule.examples():
                cause = say(rule, rule.inputs.model_validate(dict(example.inputs) | changes), units, "EUR").cause
                assert said in cause and "at 0 °C" not in cause and "at 32 °F" not in cause


@pytest.mark.parametrize(
    ("shop", "vehicle", "heater", "verdict"),
    [
        ("hallamoor", "box-72", "stove", "ok"),  # its own air duct through the floor
        ("quillback", "bus", "wood-stove", "ok"),  # its own outside air
        ("quillback", "bus", "heater-gas-catalytic", "fails"),
    ],
)
def test_what_has_its_own_air_does_not_burn_the_rooms(shop: str, vehicle: str, heater: str, verdict: str) -> None:
    [flame] = found("room-sealed", shop, vehicle, {heater: 1})
    assert flame.verdict == verdict
    text = {o.id: o.summary for s in catalogue(shop).sections for o in s.options}[heater]
    assert (" own " in text) == (verdict == "ok")


@pytest.mark.parametrize(
    ("cylinders", "helps"), [(0, "Add a cylinder or a tank, or choose what burns no gas."), (1, "Carry more gas, heat")]
)
def test_gas_is_refilled_sooner_only_where_something_holds_it(cylinders: int, helps: str) -> None:
    options = {"range-gas-oven": 1, "heater-gas-furnace": 1, "battery-12v-300": 1, "gas-cylinder-11": cylinders}
    [gas] = found("gas-days", "quillback", "bus", options, place="denver", months=[1], days_off_grid_d=30)
    assert gas.verdict == "fails" and gas.remedy.startswith(helps)
    assert ("no gas at all" in gas.cause) == (not cylinders)


def test_a_window_makes_up_for_a_second_door_only() -> None:
    build = resolver("quillback").resolve(enquiry("quillback", ready="sun-porch-bus"))
    opens = "a window or hatch that opens at least 17 in × 24 in near the bed"
    assert _helps(build, 1, 0) == f"Add {opens}, or free the way to a second door"
    assert _helps(build, 0, 3) == "Free the way from the bed to a door"
    assert (
        _helps(build, 0, 0) == f"Free the way from the bed to a door, and add {opens} or free the way to a second door"
    )


def test_heaters_left_out_for_one_reason_are_told_in_one_sentence() -> None:
    options = {"heater-electric-1500": 1, "floor-heat-electric": 1, "battery-12v-100": 1}
    [cold] = found("heater-capacity", "quillback", "van", options, place="toronto", months=[1])
    assert cold.cause.count("Not counted") == 1 and "for each runs on a hook-up only: " in cold.cause
    # A name begins with a capital letter, so it never stands in the middle of a sentence behind “the”.
    [glass] = found("heater-capacity", "quillback", "bus", {}, place="toronto", months=[1])
    assert re.search(r"loses [\d,]+ BTU/h \(most: \S", glass.cause)


@pytest.mark.parametrize(
    ("shop", "options", "trip", "verdict", "ends", "helps"),
    [
        ("quillback", {}, {"cooling": False}, "note", "most heat: ", None),
        ("quillback", {}, {}, "fails", "Above 95 °F a fan cools nobody. The trip asks for cooling, and no cooler is "
         "chosen.", "Choose a cooler, or"),
        ("quillback", {}, {"pets": 2}, "fails", "2 animals bear at most 85 °F. The trip asks for",
         "Never leave animals alone in it. Choose a cooler"),
        ("quillback", {"ac-roof-dc-8000": 1}, {}, "fails", "nothing feeds this: Roof air conditioner on the battery, "
         "8,000 BTU/h.", "Add a house battery for the cooler"),
        ("quillback", {"ac-roof-13500": 1}, {}, "fails", "nothing feeds this: Roof air conditioner, 13,500 BTU/h.",
         "Add a hook-up inlet, a generator, or an inverter on a house battery"),
        ("quillback", {"ac-roof-13500": 1, "inverter-12v-2000": 1}, {}, "fails", "nothing feeds this: ", "Add a hook"),
        ("hallamoor", {}, {"place": "tucson"}, "fails", "no cooler is chosen.", "Choose a cooler"),
        ("hallamoor", {"cooler-12v": 1}, {"place": "tucson"}, "fails", "nothing feeds this: ", "Add a house battery"),
        ("hallamoor", {}, {"place": "garmisch"}, "note", "no cooler is chosen.", ""),
        ("hallamoor", {"cooler-12v": 1}, {"place": "garmisch"}, "note", "nothing feeds this: ", ""),
    ],
)  # fmt: skip
def test_a_wish_for_cooling_that_nothing_meets_fails_where_it_is_hot(
    shop: str, options: dict[str, int], trip: dict[str, object], verdict: str, ends: str, helps: str | None
) -> None:
    usual: dict[str, object] = {"place": "phoenix", "months": [7], "cooling": True, "pets": 0}
    [hot] = found("hot-day", shop, None, options, **usual | trip)
    assert hot.verdict == verdict and ends in hot.cause
    assert ("asks for cooling" in hot.cause) == (helps is not None)
    assert hot.remedy.startswith(helps or "") and bool(hot.remedy) == bool(helps)


@pytest.mark.parametrize("more", ["generator-2200", "shore-inlet-30"])
def test_a_cooler_at_mains_voltage_runs_where_something_feeds_it(more: str) -> None:
    trip = {"place": "phoenix", "months": [7], "cooling": True}
    assert not found("hot-day", "quillback", "bus", {"ac-roof-13500": 1, more: 1}, **trip)
    assert found("cooling-day", "quillback", "bus", {"ac-roof-13500": 1, more: 1}, **trip)
    assert not found("cooling-day", "quillback", "bus", {"ac-roof-13500": 1}, **trip)
    build = resolver("quillback").resolve(enquiry("quillback", "bus", {"ac-roof-13500": 1}, **trip))  # type: ignore[arg-type]
    without_inlets = replace(build, offered_kinds=build.offered_kinds - {"shore-inlet"})
    assert findings_of(RULES["cooling-day"], without_inlets, work_out(without_inlets))


def test_a_wish_for_cooling_makes_no_noise_where_it_is_mild() -> None:
    mild = found("hot-day", "quillback", "van", {}, place="helsinki", months=[5], cooling=True)
    assert all(f.verdict == "ok" for f in mild)


@pytest.mark.parametrize(
    ("limit_m", "options", "verdict", "helps"),
    [
        (2.0, {"roof-fan": 1}, "fails", "Choose a lower vehicle, or another way."),
        (2.6, {"roof-fan": 1}, "fails", "Choose a lower vehicle, or another way."),  # its aerial reaches 2.63 m
        (2.65, {"roof-fan": 1}, "fails", "Choose something lower than Roof fan, 400 x 400 mm, reversible, or a lower"),
        (2.72, {"roof-fan": 1}, "tight", "Choose something lower than Roof fan"),
        (2.65, {}, "tight", "Choose a lower vehicle"),
        (3.5, {"roof-fan": 1}, "ok", ""),
    ],
)
def test_a_lower_thing_helps_only_where_the_vehicle_is_low_enough(
    limit_m: float, options: dict[str, int], verdict: str, helps: str
) -> None:
    [high] = found("overall-height", "hallamoor", "van-35", options, height_limit_m=limit_m)
    assert high.verdict == verdict and high.remedy.startswith(helps) and bool(high.remedy) == bool(helps)


@pytest.mark.parametrize(
    ("options", "showers", "helps"),
    [
        ({}, 0.0, "Choose a fresh tank."),
        ({}, 1.0, "Choose a fresh tank."),
        ({"fresh-100": 1}, 0.0, "Choose a larger tank, or fill sooner."),
        (
            {"fresh-100": 1, "washroom-van": 1, "pump": 1},
            1.0,
            "Choose a larger tank, shower less or shorter, or fill so",
        ),
    ],
)
def test_water_is_filled_sooner_only_where_something_holds_it(
    options: dict[str, int], showers: float, helps: str
) -> None:
    [dry] = found("fresh-water-days", "hallamoor", "van-35", options, days_between_fills_d=20, showers_per_day=showers)
    assert dry.verdict == "fails" and dry.remedy.startswith(helps)


def test_no_tank_is_advised_where_none_is_offered() -> None:
    build = resolver("hallamoor").resolve(enquiry("hallamoor", "van-35", {}))
    build = replace(build, offered_kinds=build.offered_kinds - {"fresh-tank"})
    [dry] = findings_of(RULES["fresh-water-days"], build, work_out(build))
    assert dry.remedy == "Carry fresh water in cans: no tank is offered."
