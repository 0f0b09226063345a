"""Openings that cannot be shut are large enough, high up and at the floor.

People need air with every window shut, and a flame that burns the room's air needs far more. Gas that leaks out of a
hob sinks to the floor and must find a way out.
"""

from typing import Literal

from engine.build import Build, Figures
from engine.catalogue.facets import Berth, GasStore
from engine.rule import AtLeast, Example, Holds, Inputs, Rule, Softened, Source, Unknown, fact, listed


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
    beyond = _BEYOND if o.want_low_m2 > o.sure_low_m2 else ""
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
    areas = AtLeast(x.have_cm2, x.want_cm2, "cm2", tight_from=1.0001)
    short = AtLeast(x.have_cm2, x.sure_cm2, "cm2").verdict() == "fails"
    return areas if x.breathes and short else Softened(areas, "tight")


_BEYOND = " The table that was seen ends at a floor of 10 m² (108 ft²) and is carried on by area."

_PEOPLE = {"where": "high up", "stated": True, "breathes": False, "want_cm2": 15, "low_cm2": 5, "sure_cm2": 15}
_FLAME = {"where": "high up", "stated": True, "breathes": True, "want_cm2": 100, "low_cm2": 15, "sure_cm2": 100}
_LARGE = _FLAME | {"want_cm2": 120, "low_cm2": 18, "beyond": _BEYOND}
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
    examples=(
        Example(_PEOPLE | {"have_cm2": 30}, "ok", "two mushroom vents"),
        Example(_PEOPLE | {"have_cm2": 15}, "ok", "exactly enough for people"),
        Example(_PEOPLE | {"have_cm2": 10}, "tight", "less"),
        Example(_FLAME | {"have_cm2": 30}, "fails", "two mushroom vents and a flame that burns the room's air"),
        Example(_LARGE | {"have_cm2": 120}, "ok", "a floor of 12 m², exactly enough"),
        Example(_LARGE | {"have_cm2": 110}, "tight", "the further rows were not seen"),
        Example(_LARGE | {"have_cm2": 90}, "fails", "less than even 10 m² ask for"),
        Example(
            _FLAME
            | {
                "breathes": False,
                "have_cm2": 40,
                "cooking": " Counted too: Hob, four burners. Open a window while you cook.",
            },
            "tight",
            "a gas hob in Europe over vents for people alone",
        ),
        Example(_PEOPLE | {"stated": False, "have_cm2": 0}, "note", "nobody lists any"),
    ),
    offers="fixed-vent",
    caution="Never cover a vent that cannot be shut. Carbon monoxide kills, and an alarm is a must.",
)
