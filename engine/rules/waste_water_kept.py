"""Waste water of sinks and indoor showers runs into a tank.

Letting it run out on the ground is forbidden in most places where campers stand. A canister under a sink can be enough
for a little washing up; a shower fills one in a few minutes.
"""

from engine.build import Build, Figures
from engine.catalogue.facets import GreyTank, WaterOutlet
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, fact, listed


class Waste(Inputs):
    """Where waste water comes from, and whether a tank takes it."""

    name: str = fact("what gives waste water", "chosen")
    shower: bool = fact("whether an indoor shower is among them", "chosen")
    kept: bool = fact("whether a waste tank is chosen", "chosen")


def read(build: Build, figures: Figures) -> Waste | None:
    """Nothing to ask without taps inside."""
    inside = [(p, f) for p, f in build.facets(WaterOutlet) if f.use != "outdoor-shower"]
    if not inside:
        return None
    ids = tuple(dict.fromkeys(p.option.id for p, _ in inside))
    return Waste(
        options=ids + build.ids(GreyTank),
        lacks="" if build.ids(GreyTank) else "grey-tank",
        name=listed(dict.fromkeys(p.option.name for p, _ in inside)),
        shower=any(f.use == "shower" for _, f in inside),
        kept=bool(build.ids(GreyTank)),
    )


def judge(x: Waste) -> Holds:
    """Holds with a tank; without one a shower fails, a sink alone is tight."""
    return Holds(x.kept, otherwise="fails" if x.shower else "tight")


_SINK = {"name": "Galley with sink", "shower": False}
RULE = Rule(
    code="waste-water-kept",
    title="Tank for waste water",
    topic="water",
    category="legal",
    inputs=Waste,
    read=read,
    judge=judge,
    formula="sink, basin or indoor shower → waste tank chosen",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "A waste tank takes the water of: {name}.",
        "tight": "No waste tank takes the water of: {name}. A canister must be set under it; letting it run out on the "
        "ground is forbidden in most places.",
        "fails": "No waste tank takes the water of: {name}. A shower fills a canister in minutes, and letting it run "
        "out on the ground is forbidden in most places.",
    },
    remedy="Add a waste tank.",
    examples=lambda: (
        Example(_SINK | {"kept": True}, "ok", "a tank is chosen"),
        Example(_SINK | {"kept": False}, "tight", "a sink alone"),
        Example({"name": "Bath", "shower": True, "kept": False}, "fails", "an indoor shower"),
    ),
    offers="grey-tank",
)
