"""The finished vehicle passes under what it has to pass under.

Bare height and the tallest thing on the roof as it stands on the road: a panel with its brackets, a fan, a cooler, a
rack with what is on it. Tilted panels lie flat on the road. The limit is the buyer's own: a garage, a ferry deck, a low
bridge on the way home. Tyres, springs and load move a vehicle by a finger or two, so a small margin is none.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, AtMost, Example, Holds, Inputs, Rule, fact


class Height(Inputs):
    """Height of it all against the lowest thing on the way."""

    height_m: float = fact("height with what stands on the roof", "computed", gt=0)
    bare_m: float = fact("height of the bare roof", "catalogue", gt=0)
    tallest: str = fact("what reaches highest", "computed", default="the roof itself")
    limit_m: float | None = fact("lowest thing it has to pass under", "chosen", default=None)


def read(build: Build, figures: Figures) -> Height:
    """Always asked: a driver needs the number."""
    load = figures.roof_load
    return Height(
        options=load.tallest_ids,
        height_m=load.height_m,
        bare_m=build.vehicle.height_m,
        tallest=load.tallest or "the roof itself",
        limit_m=build.trip.height_limit_m,
    )


def judge(x: Height) -> AtMost | Holds:
    """Warns from 98 % of the limit; without a limit the height is worth a note."""
    if x.limit_m is None:
        return Holds(False, otherwise="note")
    return AtMost(x.height_m, x.limit_m, "m", tight_from=0.98)


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
    remedy="Choose something lower than {tallest}, or a lower vehicle.",
    examples=lambda: (
        Example({"height_m": 2.68, "bare_m": 2.58, "tallest": "Roof fan", "limit_m": 2.8}, "ok", "12 cm to spare"),
        Example({"height_m": 2.68, "bare_m": 2.58, "tallest": "Roof fan", "limit_m": 2.7}, "tight", "2 cm to spare"),
        Example({"height_m": 2.7, "bare_m": 2.58, "tallest": "Roof fan", "limit_m": 2.7}, "tight", "exactly"),
        Example({"height_m": 2.83, "bare_m": 2.58, "tallest": "Cooler", "limit_m": 2.8}, "fails", "3 cm too high"),
        Example({"height_m": 2.83, "bare_m": 2.58, "tallest": "Cooler"}, "note", "no limit stated"),
    ),
    caution=cautions.HEIGHT,
)
