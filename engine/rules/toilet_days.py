"""The toilet does not have to be emptied before the trip's next stop."""

from engine.build import Build, Figures
from engine.catalogue.facets import BlackTank, Cassette
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtLeast, Example, Inputs, Rule, Softened, fact


class Toilet(Inputs):
    """How long the toilet lasts."""

    available_d: float = fact("days until it must be emptied", "computed", gt=0)
    wanted_d: float = fact("days from one fill to the next", "chosen", gt=0)


def read(build: Build, figures: Figures) -> Toilet | None:
    """Nothing to ask without a toilet."""
    days = figures.water.toilet_days
    if days is None:
        return None
    return Toilet(options=build.ids(Cassette, BlackTank), available_d=days, wanted_d=build.trip.days_between_fills_d)


def judge(x: Toilet) -> Softened:
    """Emptying it on the way is a chore, no fault of the build."""
    return Softened(AtLeast(x.available_d, x.wanted_d, "d", tight_from=JUST_ENOUGH), "tight")


RULE = Rule(
    code="toilet-days",
    title="Days until the toilet is full",
    topic="water",
    category="comfort",
    inputs=Toilet,
    read=read,
    judge=judge,
    formula="days = waste volume / ((1.5 L + 5·flush)·people), or what its maker states",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "The toilet lasts {measured}; {limit:# is|# are} wanted.",
        "tight": "The toilet must be emptied after {measured}; {limit:# is|# are} wanted from one stop to the next.",
    },
    remedy="Plan a stop to empty it, or choose one that holds more.",
    examples=lambda: (
        Example({"available_d": 5, "wanted_d": 4}, "ok", "lasts longer than the water"),
        Example({"available_d": 4, "wanted_d": 4}, "ok", "exactly long enough"),
        Example({"available_d": 3, "wanted_d": 4}, "tight", "a cassette for two"),
    ),
    offers="cassette",
)
