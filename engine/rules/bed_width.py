"""Each sleeper has enough width on the bed."""

from engine.build import Build, Figures
from engine.build.plan_inside import reached_m
from engine.catalogue.facets import Berth
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtLeast, Example, Inputs, Rule, fact

EACH_M = 0.6
"""Width for each sleeper (common practice)."""


class BedWidth(Inputs):
    """A bed and who sleeps on it."""

    name: str = fact("the bed", "chosen")
    mattress_m: float = fact("width of its mattress", "catalogue", gt=0)
    room_m: float = fact("clear width or length beside it", "computed", ge=0)
    sleepers_count: float = fact("people it is made for", "catalogue", ge=1)


def read(build: Build, figures: Figures) -> list[BedWidth]:
    """One question for each kind of bed. A bed along the vehicle has the clear width, one across the clear length."""
    inside = figures.plan.inside
    return [
        BedWidth(
            options=(p.option.id,),
            name=p.option.name,
            mattress_m=f.width_m,
            room_m=inside.length_m if f.lies == "across" else inside.width_m,
            sleepers_count=float(f.sleeps),
        )
        for p, f in build.facets(Berth)
    ]


def judge(x: BedWidth) -> AtLeast:
    """Mattress, or what the room leaves of it, against the sleepers."""
    wanted_m = EACH_M * x.sleepers_count
    return AtLeast(reached_m(min(x.mattress_m, x.room_m), wanted_m), wanted_m, "m", tight_from=JUST_ENOUGH)


_BED = {"name": "Bed", "room_m": 1.7}
RULE = Rule(
    code="bed-width",
    title="Width of the bed",
    topic="space",
    category="comfort",
    inputs=BedWidth,
    read=read,
    judge=judge,
    formula="min(mattress, clear room) ≥ 0.60 m · sleepers",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{name}: {measured} wide for {sleepers_count:# sleeper|# sleepers}.",
        "fails": "{name}: {measured} wide; {limit:# is|# are} wanted for {sleepers_count:# sleeper|# sleepers}.",
    },
    remedy="Choose a wider bed, or count on fewer sleepers in it.",
    examples=lambda: (
        Example(_BED | {"mattress_m": 1.4, "sleepers_count": 2}, "ok", "two with room"),
        Example(_BED | {"mattress_m": 1.2, "sleepers_count": 2}, "ok", "exactly enough"),
        Example(_BED | {"mattress_m": 1.1, "sleepers_count": 2}, "fails", "10 cm short"),
    ),
    offers="berth",
)
