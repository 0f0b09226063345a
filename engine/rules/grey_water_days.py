"""The waste tank does not end the stay before the fresh tank does."""

from engine.build import Build, Figures
from engine.catalogue.facets import GreyTank
from engine.rule import COMMON_PRACTICE, AtLeast, Example, Inputs, Rule, Softened, fact
from engine.rules.fresh_water_days import lasts


class Grey(Inputs):
    """Waste water and its tank."""

    tank_l: float = fact("waste water it holds", "catalogue", gt=0)
    waste_l: float = fact("waste water a day", "computed", gt=0)
    left_l: float = fact("fresh water left when it is full", "computed", ge=0)
    wanted_d: float = fact("days from one fill to the next", "chosen", gt=0)


def read(build: Build, figures: Figures) -> Grey | None:
    """Nothing to ask without a waste tank, when the water leaves in a way the owner answers for, or without water."""
    w = figures.water
    if not w.grey_days or not w.grey_l_d:
        return None
    return Grey(
        options=build.ids(GreyTank),
        tank_l=w.grey_l,
        waste_l=w.grey_l_d,
        left_l=max(0.0, w.fresh_l - w.use_l_d * w.grey_days),
        wanted_d=build.trip.days_between_fills_d,
    )


def judge(x: Grey) -> AtLeast | Softened:
    """Days until it is full against days wanted."""
    return lasts(x.tank_l / x.waste_l, x.wanted_d)


_TWO = {"waste_l": 17, "left_l": 0, "wanted_d": 4}
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
        "fails": "The waste tank is full after {measured}, not {limit}: {tank_l} at {waste_l} a day."
        "{left_l:| Fresh water left then: #.| Fresh water left then: #.}",
    },
    remedy="Choose a larger waste tank, shower less, or empty it sooner.",
    examples=lambda: (
        Example(_TWO | {"tank_l": 90}, "ok", "five days"),
        Example(_TWO | {"tank_l": 68}, "tight", "exactly enough"),
        Example(_TWO | {"tank_l": 50, "left_l": 26.5}, "fails", "a waste tank half as large as the fresh one"),
        Example(_TWO | {"tank_l": 60}, "fails", "the fresh tank is empty before"),
    ),
    offers="grey-tank",
)
