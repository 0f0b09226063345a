"""Openings that cannot be shut are large enough, high up and at the floor.

People need air with every window shut, and a flame that burns the room's air needs far more. Gas that leaks out of a
hob sinks to the floor and must find a way out.
"""

from typing import Literal

from engine import cautions
from engine.build import Build, Figures
from engine.catalogue.facets import Berth, GasStore
from engine.physics.fixed_vents import fixed_vents, flame_opening_m2
from engine.rule import (
    ELSEWHERE,
    JUST_ENOUGH,
    AtLeast,
    Example,
    Holds,
    Inputs,
    Rule,
    Softened,
    Source,
    Unknown,
    fact,
    listed,
)
from engine.spelling import spelled


class Vents(Inputs):
    """Free areas in one place."""

    where: Literal["high up", "at the floor", "high and low together"] = fact("where", "computed")
    stated: bool = fact("whether the build has vents with stated areas", "catalogue")
    breathes: bool = fact("whether anything burns the room's air", "catalogue")
    have_cm2: float = fact("free area", "catalogue", ge=0)
    want_cm2: float = fact("free area wanted", "regulation", gt=0)
    low_cm2: float = fact("of that, wanted at the floor", "regulation", gt=0)
    sure_cm2: float = fact("wanted by the last row of the table that was seen", "regulation", gt=0)
    beyond: str = fact("what to say of a floor beyond it", "computed", default="")
    cooking: str = fact("what to say of hobs and ovens", "computed", default="")


def read(build: Build, figures: Figures) -> list[Vents] | Unknown | None:
    """Nothing to ask where nobody sleeps and nothing burns; unknown where a flame needs them and nobody states them."""
    o = figures.openings
    if not o.breathers and not o.cookers and not build.ids(Berth, GasStore):
        return None
    us = build.workshop.region == "us"
    flames = o.breathers + (() if us and o.airs else o.cookers)
    if not o.vent_ids and flames:
        names = listed(dict.fromkeys(b.name for b in flames))
        return Unknown(
            "free area of vents that cannot be shut",
            f"Needed for: {names}. Ask the workshop, or choose what takes its air from outside.",
            tuple(b.option_id for b in flames),
            "fixed-vent",
        )
    cooks = listed(dict.fromkeys(b.name for b in o.cookers))
    air = "Run a fan" if o.fan_only else "Open a window"
    counted = "Not counted" if us else "Counted too"
    cooking = f" {counted}: {cooks}. {air} while you cook." if cooks else ""
    breathes, low = bool(o.breathers), o.want_low_m2 * 1e4
    beyond = spelled(_BEYOND, build.workshop.units) if o.want_low_m2 > o.sure_low_m2 else ""
    if o.together:
        have = (o.high_m2 + o.low_m2) * 1e4
        return [Vents(options=o.vent_ids, where="high and low together", stated=True, breathes=True, have_cm2=have,
                      want_cm2=o.want_high_m2 * 1e4, low_cm2=low, sure_cm2=o.sure_high_m2 * 1e4,
                      cooking=cooking)]  # fmt: skip
    found = [
        Vents(options=o.vent_ids, where="high up", stated=bool(o.vent_ids), breathes=breathes,
              have_cm2=o.high_m2 * 1e4, want_cm2=o.want_high_m2 * 1e4, low_cm2=low,
              sure_cm2=o.sure_high_m2 * 1e4, beyond=beyond if o.want_high_m2 > o.sure_high_m2 else "",
              cooking=cooking),
        Vents(options=o.vent_ids, where="at the floor", stated=bool(o.vent_ids), breathes=breathes,
              have_cm2=o.low_m2 * 1e4, want_cm2=low, low_cm2=low, sure_cm2=o.sure_low_m2 * 1e4, beyond=beyond),
    ]  # fmt: skip
    return found if o.vent_ids else found[:1]


def judge(x: Vents) -> AtLeast | Softened | Holds:
    """For a flame that burns the room's air they must be there; for people and hobs, who have windows, it is a
    warning, and so it is where only a row of the table that was not seen may ask for more."""
    if not x.stated:
        return Holds(False, "note")
    areas = AtLeast(x.have_cm2, x.want_cm2, "cm2", tight_from=JUST_ENOUGH)
    short = AtLeast(x.have_cm2, x.sure_cm2, "cm2").verdict() == "fails"
    return areas if x.breathes and short else Softened(areas, "tight")


_BEYOND = " The table that was seen ends at a floor of 10 m² (108 ft²) and is carried on by area."


def _vents(have_cm2: float | None, breathes: bool = False, floor_m2: float = 8.0) -> dict[str, str | float | bool]:
    """Openings high up by the table; by default just enough of them."""
    found, more = fixed_vents(min(10.0, floor_m2), breathes), max(1.0, floor_m2 / 10)
    return {
        "where": "high up", "stated": True, "breathes": breathes, "want_cm2": 1e4 * found.roof_m2 * more,
        "low_cm2": 1e4 * found.low_m2 * more, "sure_cm2": 1e4 * found.roof_m2, "beyond": _BEYOND if more > 1 else "",
        "have_cm2": 1e4 * found.roof_m2 * more if have_cm2 is None else have_cm2,
    }  # fmt: skip


def _together(have_cm2: float | None = None) -> dict[str, str | float | bool]:
    """Openings anywhere for a flame of 6,000 BTU/h in the United States; by default just enough of them."""
    want_cm2 = 1e4 * flame_opening_m2(6000 * 0.29307107)
    return _vents(want_cm2 if have_cm2 is None else have_cm2) | {
        "where": "high and low together", "breathes": True, "want_cm2": want_cm2, "sure_cm2": want_cm2,
    }  # fmt: skip


_HOB = "Hob, four burners. Open a window while you cook."
RULE = Rule(
    code="fixed-vents",
    title="Openings that cannot be shut",
    topic="gas",
    category="safety",
    inputs=Vents,
    read=read,
    judge=judge,
    formula="free area ≥ table by floor and flames, beyond 10 m² by area; flames also 1 in² for each 1,000 BTU/h",
    sources=(
        Source(
            "EN 721",
            "safety ventilation, as told in a TÜV leaflet on motor caravans, up to 10 m² of floor (the standard was "
            "not seen; that cooking flames count among what burns the room's air is common practice)",
        ),
        Source("Common practice", "1 in² for each 1,000 BTU/h of a flame that burns the room's air (United States)"),
    ),
    says={
        "ok": "Free openings {where}: {measured}; {limit:# is|# are} wanted.{beyond}{cooking}",
        "tight": "Free openings {where}: {measured}; {limit:# is|# are} wanted with every window shut.{beyond}"
        "{cooking}",
        "fails": "Free openings {where}: only {measured}; {limit:# is|# are} wanted, for something burns the room's "
        "air.{beyond}{cooking}",
        "note": "No openings that cannot be shut are listed. Ask the workshop for {want_cm2} in the roof and {low_cm2} "
        "at the floor, free area.{cooking}",
    },
    remedy="Add vents that cannot be shut, or choose appliances that take their air from outside.",
    examples=lambda: (
        Example(_vents(30), "ok", "two mushroom vents"),
        Example(_vents(None), "ok", "exactly enough for people"),
        Example(_vents(10), "tight", "less"),
        Example(_together(), "ok", "exactly enough for a heater that burns the room's air", "us"),
        Example(_together(30), "fails", "two mushroom vents and such a heater", "us"),
        Example(_vents(20) | {"cooking": f" Not counted: {_HOB}"}, "ok", "a gas hob over vents for people", "us"),
        Example(_vents(30, True), "fails", "two mushroom vents and a flame that burns the room's air", ELSEWHERE),
        Example(_vents(None, True, 12), "ok", "a floor of 12 m², exactly enough", ELSEWHERE),
        Example(_vents(110, True, 12), "tight", "the further rows were not seen", ELSEWHERE),
        Example(_vents(90, True, 12), "fails", "less than even 10 m² ask for", ELSEWHERE),
        Example(
            _vents(40, True) | {"breathes": False, "cooking": f" Counted too: {_HOB}"},
            "tight",
            "a gas hob over vents for people alone",
            ELSEWHERE,
        ),
        Example(_vents(0) | {"stated": False}, "note", "nobody lists any"),
    ),
    offers="fixed-vent",
    caution=f"Never cover a vent that cannot be shut. {cautions.CARBON_MONOXIDE}",
)
