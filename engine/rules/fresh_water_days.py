"""Fresh water lasts from one fill to the next, with the trip's own habits."""

from pydantic import Field

from engine.build import Build, Figures
from engine.catalogue.facets import FreshTank, WaterOutlet
from engine.rule import EXACT, AtLeast, Example, Inputs, Rule, Softened, Source, fact

HABITS_FRAC = 0.05
"""Nobody's habits are known better than to a twentieth (assumption)."""


SOONER = ", or fill sooner"
LARGER = f"Choose a larger tank{SOONER}"
FIRST = "Choose a fresh tank"
CANS = "Carry fresh water in cans: no tank is offered"


class Fresh(Inputs):
    """Fresh water and its use."""

    tank_l: float = fact("fresh water when full", "catalogue", ge=0)
    use_l: float = fact("used a day", "computed", gt=0)
    shower_l: float = fact("of that for showers", "computed", ge=0)
    wanted_d: float = fact("days from one fill to the next", "chosen", gt=0)
    way: str = Field(default=LARGER, description="the way out")


def read(build: Build, figures: Figures) -> Fresh:
    """The tank, even an absent one, against the habits."""
    w = figures.water
    return Fresh(
        options=build.ids(FreshTank, WaterOutlet),
        lacks="" if build.ids(FreshTank) else "fresh-tank",
        tank_l=w.fresh_l,
        use_l=w.use_l_d,
        shower_l=w.shower_l_d,
        wanted_d=build.trip.days_between_fills_d,
        way=_way(build, w.shower_l_d),
    )


def _way(build: Build, shower_l: float) -> str:
    """Without a tank neither sparing nor filling helps."""
    if not build.ids(FreshTank):
        return FIRST if "fresh-tank" in build.offered_kinds else CANS
    return f"Choose a larger tank{', shower less or shorter' if shower_l else ''}{SOONER}"


def lasts(available_d: float, wanted_d: float) -> AtLeast | Softened:
    """Days of a supply against days wanted; what habits may make of it is no failure, only tight."""
    days = AtLeast(available_d, wanted_d, "d")
    return Softened(days, "tight") if 0 < -days.margin <= HABITS_FRAC * wanted_d + EXACT else days


def judge(x: Fresh) -> AtLeast | Softened:
    """Days of water against days wanted."""
    return lasts(x.tank_l / x.use_l, x.wanted_d)


_TWO = {"use_l": 25, "shower_l": 9, "wanted_d": 4, "way": f"Choose a larger tank, shower less or shorter{SOONER}"}
_OF_IT = "{shower_l:|, # of it for showers|, # of it for showers}"
RULE = Rule(
    code="fresh-water-days",
    title="Days of fresh water",
    topic="water",
    category="comfort",
    inputs=Fresh,
    read=read,
    judge=judge,
    formula="days = tank / (drinking + cooking + washing + dishes + showers + flush + pets)",
    sources=(
        Source("Sphere Handbook 2018", "water for drinking, cooking and hygiene", "2026-11-25"),
        Source("Common practice", "washing up, shower flow and flush"),
    ),
    says={
        "ok": "Fresh water lasts {measured}; {limit:# is|# are} wanted ({use_l} a day" + _OF_IT + ").",
        "tight": "Fresh water lasts {measured}, close to the {limit} wanted ({use_l} a day" + _OF_IT + ").",
        "fails": "Fresh water lasts {measured}, not {limit}: {tank_l:no tank|#|#} at {use_l} a day" + _OF_IT + ".",
    },
    remedy="{way}.",
    examples=lambda: (
        Example(_TWO | {"tank_l": 150}, "ok", "six days"),
        Example(_TWO | {"tank_l": 105}, "tight", "95 % asked for"),
        Example(_TWO | {"tank_l": 100}, "tight", "exactly enough"),
        Example(_TWO | {"tank_l": 96}, "tight", "4 % short: less than habits differ"),
        Example(_TWO | {"tank_l": 80}, "fails", "a small tank"),
        Example(_TWO | {"use_l": 16, "shower_l": 0, "tank_l": 60, "way": LARGER}, "fails", "nobody showers"),
        Example(_TWO | {"tank_l": 0, "way": FIRST}, "fails", "no tank at all"),
    ),
    offers="fresh-tank",
)
