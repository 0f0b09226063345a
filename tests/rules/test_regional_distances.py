"""Distances are the region's own to the last hair: 3 ft in the United States, not 0.9 m told in inches."""

from dataclasses import replace

import pytest

from engine.build import Build, work_out
from engine.build.plan_escape import least_opening_m, windows_to_climb
from engine.catalogue.facets import Facet, FlueTerminal, GasLocker, Window
from engine.rule import Finding
from engine.rules import all_rules, judge
from engine.units import System
from site_build.pages.rules import handbook_pages
from tests.shops import catalogue, enquiry, resolver

FOOT_M = 0.3048
SHOPS = {
    "quillback": {"gas-locker": 1, "gas-cylinder-20": 1, "water-heater-gas-6": 1, "window-large": 1},
    "hallamoor": {"gas-locker": 1, "cylinder-6": 1, "boiler-gas-10": 1},
}


def with_data(shop: str, kind: type[Facet], **changes: object) -> Build:
    """A build with gas locker and flue, with other data of one kind of facet, or without that kind."""
    build = resolver(shop).resolve(enquiry(shop, options=SHOPS[shop]))

    def changed(facets: tuple[Facet, ...]) -> tuple[Facet, ...]:
        kept = facets if changes else tuple(f for f in facets if not isinstance(f, kind))
        return tuple(f.model_copy(update=changes) if isinstance(f, kind) else f for f in kept)

    parts = (replace(p, option=p.option.model_copy(update={"facets": changed(p.option.facets)})) for p in build.parts)
    return replace(build, parts=tuple(parts))


def found(code: str, shop: str, kind: type[Facet], **changes: object) -> list[Finding]:
    """What one rule says of that build."""
    build = with_data(shop, kind, **changes)
    return [f for f in judge(build, work_out(build)) if f.rule == code]


@pytest.mark.parametrize(
    ("shop", "distance_m", "verdict"),
    [
        ("quillback", 3 * FOOT_M, "ok"), ("quillback", 0.905, "fails"), ("quillback", 0.9, "fails"),
        ("hallamoor", 0.9, "ok"), ("hallamoor", 0.899, "tight"), ("hallamoor", 0.44, "fails"),
    ],
)  # fmt: skip
def test_a_gas_locker_keeps_three_feet_from_what_lights_gas(shop: str, distance_m: float, verdict: str) -> None:
    got = found("gas-locker-vent", shop, GasLocker, vent_to_ignition_m=distance_m)
    assert [f.verdict for f in got if "lights gas" in f.cause] == [verdict]


@pytest.mark.parametrize(
    ("shop", "distance_m", "verdict"),
    [("quillback", 3 * FOOT_M, "ok"), ("quillback", 0.914, "fails"), ("hallamoor", 0.5, "ok"),
     ("hallamoor", 0.499, "fails")],
)  # fmt: skip
def test_a_flue_keeps_its_distance_from_the_filler(shop: str, distance_m: float, verdict: str) -> None:
    got = found("flue-clearance", shop, FlueTerminal, to_filler_m=distance_m)
    assert [f.verdict for f in got if "filler" in f.cause] == [verdict]


@pytest.mark.parametrize(
    ("code", "shop", "words"),
    [
        ("gas-locker-vent", "quillback", "19.7 in and 36 in are wanted"),
        ("gas-locker-vent", "hallamoor", "0.5 m and 0.9 m are wanted"),
        ("flue-clearance", "quillback", "11.8 in and 36 in are wanted"),
        ("flue-clearance", "hallamoor", "0.3 m and 0.5 m are wanted"),
    ],
)
def test_where_nobody_measured_both_distances_are_the_regions(code: str, shop: str, words: str) -> None:
    if code == "gas-locker-vent":
        [got] = found(code, shop, GasLocker, vent_to_opening_m=None, vent_to_ignition_m=None)
    else:
        [got] = found(code, shop, FlueTerminal)
    assert got.verdict == "note" and words in got.cause
    shop_ = catalogue(shop).workshop
    page = handbook_pages(all_rules(), shop_.units, shop_.currency, shop_.region)[f"handbook/{code}.md"]
    assert words in page


def test_an_opening_to_climb_through_is_17_in_by_24_in_in_the_united_states() -> None:
    assert windows_to_climb(with_data("quillback", Window, width_m=0.43, height_m=0.6)) == 0
    assert windows_to_climb(with_data("quillback", Window, width_m=24 * FOOT_M / 12, height_m=17 * FOOT_M / 12)) == 1
    assert least_opening_m(with_data("hallamoor", Window)) == (0.43, 0.6)


def examples_shown(code: str, system: System, region: str) -> str:
    """What a region's handbook works out for a rule."""
    page = handbook_pages(all_rules(), system, "USD", region)[f"handbook/{code}.md"]
    return page.partition("## Worked examples")[2].partition("## What helps")[0]


@pytest.mark.parametrize(
    ("system", "region", "has", "lacks"),
    [
        ("us", "us", "gives 11 in w.c.", ("20.1 in w.c.", "30 mbar")),
        ("metric", "eu", "gives 30 mbar", ("27.5 mbar", "27.4 mbar")),
        ("metric", "uk", "gives 50 mbar; new vehicles here have 30 mbar", ("27.5 mbar", "27.4 mbar")),
        ("metric", "au", "gives 27.5 mbar", ("30 mbar", "50 mbar")),
    ],
)
def test_gas_pressures_shown_are_the_regions(system: System, region: str, has: str, lacks: tuple[str, ...]) -> None:
    shown = examples_shown("gas-pressure", system, region)
    assert has in shown and not any(words in shown for words in lacks)


@pytest.mark.parametrize(
    ("system", "region", "has", "lacks"),
    [
        ("us", "us", "17 A; its breaker trips at 15 A", "for an hour: tight"),
        ("metric", "uk", "to give 11 A, and its breaker is made for 10 A", "15 A"),
        ("metric", "au", "to give 17 A, and its breaker is made for 15 A", "10 A"),
    ],
)
def test_what_a_breaker_bears_is_the_regions(system: System, region: str, has: str, lacks: str) -> None:
    shown = examples_shown("shore-supply", system, region)
    assert has in shown and lacks not in shown
