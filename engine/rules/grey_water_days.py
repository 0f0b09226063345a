"""The waste tank does not end the stay before the fresh tank does."""

from engine.build import Build, Figures
from engine.catalogue.facets import GreyTank
from engine.rule import COMMON_PRACTICE, AtLeast, Example, Inputs, Rule, fact


class Grey(Inputs):
    """Waste water and its tank."""

    tank_l: float = fact("waste water it holds", "catalogue", gt=0)
    waste_l: float = fact("waste water a day", "computed", gt=0)
    fresh_l: float = fact("fresh water when full", "catalogue", ge=0)
    wanted_d: float = fact("days from one fill to the next", "chosen", gt=0)


def read(build: Build, figures: Figures) -> Grey | None:
    """Nothing to ask without a waste tank: the water then leaves in a way the owner answers for."""
    w = figures.water
    if not w.grey_l or not w.grey_l_d:
        return None
    return Grey(
        options=build.ids(GreyTank),
        tank_l=w.grey_l,
        waste_l=w.grey_l_d,
        fresh_l=w.fresh_l,
        wanted_d=build.trip.days_between_fills_d,
    )


def judge(x: Grey) -> AtLeast:
    """Days until it is full against days wanted."""
    return AtLeast(x.tank_l / x.waste_l, x.wanted_d, "d")


_TWO = {"waste_l": 17, "fresh_l": 100, "wanted_d": 4}
RULE = Rule(
    code="grey-water-days",
    title="Days until the waste tank is full",
    topic="water",
    category="comfort",
    inputs=Grey,
    read=read,
    judge=judge,
    formula="days = waste tank / (washing + dishes + indoor showers)",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "The waste tank is full after {measured}; {limit:# is|# are} wanted.",
        "tight": "The waste tank is full after {measured}, close to the {limit} wanted ({waste_l} a day).",
        "fails": "The waste tank is full after {measured}, not {limit}: {tank_l} at {waste_l} a day. It ends the stay "
        "although {fresh_l} of fresh water are aboard.",
    },
    remedy="Choose a larger waste tank, shower less, or empty it sooner.",
    examples=(
        Example(_TWO | {"tank_l": 90}, "ok", "five days"),
        Example(_TWO | {"tank_l": 68}, "tight", "exactly enough"),
        Example(_TWO | {"tank_l": 50}, "fails", "a waste tank half as large as the fresh one"),
    ),
    offers="grey-tank",
)
