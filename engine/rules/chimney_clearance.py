"""A chimney keeps its distance from fans and hatches.

Flue gas that a roof fan draws back in carries carbon monoxide, and sparks and heat age lids and seals. The stove's
maker states how far openings have to be from its chimney; panels are laid out clear of it by the same distance.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.roof_heat import near_chimneys
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtLeast, Example, Inputs, Rule, fact


class Clearance(Inputs):
    """A chimney and the opening nearest to it."""

    chimney: str = fact("the chimney", "chosen")
    opening: str = fact("the opening nearest to it", "chosen")
    distance_m: float = fact("distance between them", "computed", ge=0)
    clear_m: float = fact("distance its maker asks for", "catalogue", gt=0)


def read(build: Build, figures: Figures) -> list[Clearance]:
    """One question for each chimney whose clearance the catalogue states, if there is a fan or hatch at all."""
    return [
        Clearance(
            options=tuple(i for i in (n.chimney.option_id, n.opening.option_id) if i),
            chimney=n.chimney.name,
            opening=n.opening.name,
            distance_m=n.distance_m,
            clear_m=n.clear_m,
        )
        for n in near_chimneys(figures.roof.obstacles)
    ]


def judge(x: Clearance) -> AtLeast:
    """The distance asked for is enough; more needs no warning."""
    return AtLeast(x.distance_m, x.clear_m, "m", tight_from=JUST_ENOUGH)


RULE = Rule(
    code="chimney-clearance",
    title="Chimney and openings in the roof",
    topic="roof",
    category="safety",
    inputs=Clearance,
    read=read,
    judge=judge,
    formula="distance from chimney to the nearest fan or hatch ≥ distance its maker asks for",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{opening} is {measured} from the chimney of {chimney}; {limit:# is|# are} asked for.",
        "fails": "{opening} is {measured} from the chimney of {chimney}; {limit:# is|# are} asked for. "
        "It could draw smoke in.",
    },
    remedy="Leave out one of them, or ask the workshop for another spot.",
    examples=lambda: (
        Example({"chimney": "Stove", "opening": "Roof fan", "distance_m": 1.2, "clear_m": 0.6}, "ok", "far apart"),
        Example({"chimney": "Stove", "opening": "Roof fan", "distance_m": 0.6, "clear_m": 0.6}, "ok", "exactly"),
        Example({"chimney": "Stove", "opening": "Roof fan", "distance_m": 0.4, "clear_m": 0.6}, "fails", "too near"),
    ),
    caution=f"{cautions.CARBON_MONOXIDE} {cautions.GAS}",
)
