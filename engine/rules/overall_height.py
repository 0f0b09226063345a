"""The finished vehicle passes under what it has to pass under.

Bare height and the tallest thing on the roof as it stands on the road: a panel with its brackets, a fan, a cooler, a
rack with what is on it. Tilted panels lie flat on the road. The limit is the buyer's own: a garage, a ferry deck, a low
bridge on the way home. Tyres, springs and load move a vehicle by a finger or two, so a small margin is none.
"""

from pydantic import Field

from engine import cautions
from engine.build import Build, Figures
from engine.build.roof_load import RoofLoadFigures
from engine.rule import COMMON_PRACTICE, AtMost, Example, Holds, Inputs, Rule, Verdict, fact

TIGHT_FROM = 0.98
VEHICLE = "Choose a lower vehicle, or another way"


class Height(Inputs):
    """Height of it all against the lowest thing on the way."""

    height_m: float = fact("height with what stands on the roof", "computed", gt=0)
    bare_m: float = fact("height of the bare roof", "catalogue", gt=0)
    tallest: str = fact("what reaches highest", "computed", default="the roof itself")
    way: str = Field(default="", description="the way out")
    limit_m: float | None = fact("lowest thing it has to pass under", "chosen", default=None)


def read(build: Build, figures: Figures) -> Height:
    """Always asked: a driver needs the number."""
    load = figures.roof_load
    return Height(
        options=load.tallest_ids,
        height_m=load.height_m,
        bare_m=build.vehicle.height_m,
        tallest=load.tallest or "the roof itself",
        way=_way(load, build.trip.height_limit_m),
        limit_m=build.trip.height_limit_m,
    )


def _way(load: RoofLoadFigures, limit_m: float | None) -> str:
    """No choice is to blame where the vehicle as it comes is just as bad."""
    if limit_m is not None and _against(load.own_height_m, limit_m) != _against(load.height_m, limit_m):
        return f"Choose something lower than {load.tallest}, or a lower vehicle"
    return VEHICLE


def _against(height_m: float, limit_m: float) -> Verdict:
    return AtMost(height_m, limit_m, "m", tight_from=TIGHT_FROM).verdict()


def judge(x: Height) -> AtMost | Holds:
    """Warns from 98 % of the limit; without a limit the height is worth a note."""
    if x.limit_m is None:
        return Holds(False, otherwise="note")
    return AtMost(x.height_m, x.limit_m, "m", tight_from=TIGHT_FROM)


_HIGH = {"bare_m": 2.58, "tallest": "Roof fan", "way": "Choose something lower than Roof fan, or a lower vehicle"}
RULE = Rule(
    code="overall-height",
    title="Height on the road",
    topic="roof",
    category="function",
    inputs=Height,
    read=read,
    judge=judge,
    formula="bare height + tallest thing on the roof ≤ lowest thing on the way",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "It stands {measured} high ({tallest} reaches highest) and passes under {limit}.",
        "tight": "It stands {measured} high ({tallest} reaches highest): {margin} below the {limit} it has to pass "
        "under. Load and tyres move that much.",
        "fails": "It stands {measured} high ({tallest} reaches highest), {over} more than the {limit} it has to pass "
        "under.",
        "note": "It stands {height_m} high ({tallest} reaches highest). Say in the trip what it has to pass under, "
        "and it is compared.",
    },
    remedy="{way}.",
    examples=lambda: (
        Example(_HIGH | {"height_m": 2.68, "limit_m": 2.8}, "ok", "12 cm to spare"),
        Example(_HIGH | {"height_m": 2.68, "limit_m": 2.7}, "tight", "2 cm to spare"),
        Example(_HIGH | {"height_m": 2.7, "limit_m": 2.7}, "tight", "exactly"),
        Example(_HIGH | {"height_m": 2.83, "limit_m": 2.8}, "fails", "3 cm too high"),
        Example(_HIGH | {"height_m": 2.68, "limit_m": 2.5, "way": VEHICLE}, "fails", "the bare roof is too high"),
        Example(_HIGH | {"height_m": 2.83}, "note", "no limit stated"),
    ),
    caution=cautions.HEIGHT,
)
