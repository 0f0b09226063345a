"""People get into the living space from outside, not only through the cab."""

from engine.build import Build, Figures
from engine.catalogue.facets import Door
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, Unknown, fact


class Entrance(Inputs):
    """Doors for people."""

    doors_count: float = fact("doors that people walk in by", "computed", ge=0)
    through_cab: bool = fact("whether one can get in from the cab", "computed")


def read(build: Build, figures: Figures) -> Entrance | Unknown:
    """Doors of the body and chosen ones; not known while neither is stated."""
    chosen = tuple(p.option.id for p, f in build.facets(Door) if f.use == "entry")
    if build.vehicle.interior is None and not chosen:
        return Unknown("where the vehicle's doors are", "Ask the workshop for the doors of this vehicle.")
    doors = [o for o in build.plan.openings if o.serves == "people" and o.wall != "roof"]
    own = sum(o.kind != "pass-through" for o in doors)
    return Entrance(
        options=chosen,
        doors_count=float(max(own, len(chosen))),
        through_cab=any(o.kind == "pass-through" for o in doors),
    )


def judge(x: Entrance) -> Holds:
    """One door at least."""
    return Holds(x.doors_count > 0)


RULE = Rule(
    code="way-in",
    title="Door to the living space",
    topic="space",
    category="function",
    inputs=Entrance,
    read=read,
    judge=judge,
    formula="doors for people of the body and chosen ones ≥ 1",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "People walk in by a door of the living space.",
        "fails": "No door leads into the living space from outside. Climbing in through the cab, where there is a way, "
        "is no entrance and, in a fire, no door.",
    },
    remedy="Add an entry door.",
    examples=lambda: (
        Example({"doors_count": 1, "through_cab": False}, "ok", "one door"),
        Example({"doors_count": 0, "through_cab": True}, "fails", "only through the cab"),
    ),
    offers="door",
)
