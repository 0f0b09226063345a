"""Remedies of power name only what a build has, and what feeds its mains appliances is said once."""

from dataclasses import replace

import pytest

from engine.build import work_out
from engine.build.energy_changes import ideas
from engine.build.energy_inputs import asked
from engine.rule import Finding
from engine.rules import judge
from tests.shops import enquiry, resolver

LONG = {"days_off_grid_d": 30, "months": (12,), "driving_h": 0}


def findings(shop: str, options: dict[str, int]) -> tuple[Finding, ...]:
    """All that is said of this build."""
    build = resolver(shop).resolve(enquiry(shop, options=options))
    return judge(build, work_out(build))


def remedy(code: str, shop: str, options: dict[str, int], **trip: object) -> str:
    """What the rule says helps this build."""
    build = resolver(shop).resolve(enquiry(shop, options=options, **trip))
    return next(f.remedy for f in judge(build, work_out(build)) if f.rule == code)


@pytest.mark.parametrize(
    ("options", "said", "unsaid"),
    [
        ({"lfp-100": 1}, ("Add battery",), ("drive more", "hook up sooner")),
        ({"lfp-100": 1, "shore-charger-60": 1}, ("or hook up sooner.",), ("drive more",)),
        ({}, ("Choose a house battery.",), ("drive more", "hook up", "panels")),
    ],
)
def test_power_s_ways_out_are_those_of_the_build(
    options: dict[str, int], said: tuple[str, ...], unsaid: tuple[str, ...]
) -> None:
    found = remedy("energy-days", "proving-yard", options | {"fridge-12-24": 1}, **LONG)
    assert all(x in found for x in said) and not any(x in found for x in unsaid)


@pytest.mark.parametrize(
    ("options", "verdict", "cause"),
    [
        ({"microwave-1100": 1}, "fails", "It takes an inverter and a house battery, and none is chosen."),
        ({"microwave-1100": 1, "inverter-2000": 1}, "fails", "It takes a house battery, and none is chosen."),
        ({"microwave-1100": 1, "inverter-2000": 1, "lfp-200": 1}, "ok", "an inverter on the house battery feeds:"),
        ({"inverter-2000": 1}, "fails", "nothing feeds: the inverter."),
        ({"lfp-200": 1}, None, ""),
    ],
)
def test_what_feeds_mains_appliances_is_said_once(options: dict[str, int], verdict: str | None, cause: str) -> None:
    build = resolver("proving-yard").resolve(enquiry("proving-yard", options=options))
    found = [f for f in judge(build, work_out(build)) if f.rule == "mains-loads-fed"]
    assert [f.verdict for f in found] == ([verdict] if verdict else [])
    assert all(cause in f.cause for f in found)
    if "microwave-1100" in options and verdict == "fails":
        assert "Microwave" in found[0].cause and "the inverter," not in found[0].cause


@pytest.mark.parametrize("code", ["inverter-surge", "battery-peak"])
def test_a_microwave_is_not_called_a_motor(code: str) -> None:
    options = {"battery-12v-300": 1, "inverter-12v-2000": 1, "microwave": 1}
    build = resolver("quillback").resolve(enquiry("quillback", options=options))
    found = next(f for f in judge(build, work_out(build)) if f.rule == code)
    assert "Microwave" in found.cause
    assert "motor" not in " ".join((found.title, found.cause, found.remedy, *(f.name for f in found.facts))).casefold()


def test_a_compressor_s_start_may_be_made_softer() -> None:
    options = {"battery-12v-100": 1, "inverter-12v-2000": 1, "ac-roof-13500": 1}
    asked = enquiry("quillback", "bus", options, place="phoenix", months=(7,), cooling=True)
    build = resolver("quillback").resolve(asked)
    found = next(f for f in judge(build, work_out(build)) if f.rule == "inverter-surge")
    assert found.verdict == "fails" and "motor with a soft start" in found.remedy


def test_a_charger_without_an_inlet_fills_nothing() -> None:
    kit = {"shore-charger-60": 1, "lfp-100": 1, "light-5": 1}
    bare = {f.rule: f for f in findings("proving-yard", kit)}
    assert bare["hookup-inlet"].verdict == "fails" and bare["hookup-inlet"].lacks == "shore-inlet"
    assert bare["battery-refilled"].verdict == "fails" and "hookup-inlet" in bare["battery-refilled"].because
    whole = {f.rule: f for f in findings("proving-yard", kit | {"inlet-16": 1})}
    assert whole["hookup-inlet"].verdict == whole["battery-refilled"].verdict == "ok"


def test_a_shop_without_inlets_is_asked_where_the_hook_up_comes_in() -> None:
    build = resolver("proving-yard").resolve(
        enquiry("proving-yard", options={"shore-charger-60": 1, "lfp-100": 1, "light-5": 1})
    )
    build = replace(build, offered_kinds=build.offered_kinds - {"shore-inlet"})
    told = {f.rule: f for f in judge(build, work_out(build))}
    assert (told["hookup-inlet"].verdict, told["battery-refilled"].verdict) == ("note", "ok")


def test_a_generator_feeds_what_is_not_always_on() -> None:
    def fed(**options: int) -> Finding:
        chosen = {k.replace("_", "-"): n for k, n in options.items()} | {"generator-2200": 1, "shore-inlet-30": 1}
        build = resolver("quillback").resolve(enquiry("quillback", "box", chosen, months=[7], cooling=True))
        return next(f for f in judge(build, work_out(build)) if f.rule == "mains-loads-fed")

    cooled = fed(ac_roof_11000_soft=1, microwave=1)
    assert cooled.verdict == "ok" and "Portable generator, 2.2 kVA (while it runs) feeds:" in cooled.cause
    fridge = fed(ac_roof_11000_soft=1, fridge_residential=1)
    assert fridge.verdict == "fails" and fridge.options == ("fridge-residential",)


@pytest.mark.parametrize(("hookup_a", "way"), [(6, "Choose something smaller"), (10, "Run them one after another")])
def test_what_is_too_much_for_a_hook_up_alone_is_not_told_to_take_turns(hookup_a: int, way: str) -> None:
    options = {"hob-induction": 1, "microwave": 1, "hookup": 1}
    said = remedy("shore-supply", "hallamoor", options, hookup_a=hookup_a)
    assert said.startswith(way)


@pytest.mark.parametrize(
    ("place", "month", "panels"), [("northway", 12, False), ("northway", 6, True), ("london", 12, True)]
)
def test_panels_are_advised_only_where_there_is_sun(place: str, month: int, panels: bool) -> None:
    trip = LONG | {"place": place, "months": (month,)}
    kit = {"lfp-100": 1, "fridge-12-24": 1}
    assert ("Add battery or panels" in remedy("energy-days", "proving-yard", kit, **trip)) == panels
    assert remedy("battery-refilled", "proving-yard", kit, **trip).endswith("or more panels.") == panels


@pytest.mark.parametrize(
    ("ready", "largest", "instead"),
    [
        ("high-fell", "Waste tank 180 L, insulated and heated", "Two-zone induction hob"),
        ("long-winter-box", "Gray tank, 30 gal, heated", "Compressor fridge-freezer, 9 ft³"),
    ],
)
def test_nobody_is_told_to_keep_a_tank_less_from_frost(ready: str, largest: str, instead: str) -> None:
    shop = "hallamoor" if ready == "high-fell" else "quillback"
    wish = enquiry(shop, ready=ready, place="northway", months=(12,), days_off_grid_d=20)
    build = resolver(shop).resolve(wish)
    figures = work_out(build)
    found = next(f for f in judge(build, figures) if f.rule == "energy-days")
    assert f"largest load: {largest}" in found.cause
    assert f"use less of {instead}," in found.remedy
    tried = ideas(build, figures.power, figures.roof, asked(build, figures.power, figures.roof))
    assert f"half as much of {instead}" in [x.what for x in tried]
    assert not any(largest in x.what for x in tried)
