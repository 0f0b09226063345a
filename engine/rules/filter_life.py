"""A filter's cartridge lasts from one fill to the next and longer, and water passes it no faster than it is made for.

A cartridge that is worn out, or rushed, lets through what it should hold. By time it is changed once a year at least.
"""

from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtLeast, AtMost, Example, Inputs, Rule, Softened, fact


class Cartridge(Inputs):
    """A cartridge on this trip."""

    name: str = fact("filter", "chosen")
    life_l: float = fact("water that a cartridge lasts for", "catalogue", gt=0)
    through_l: float = fact("water through it a day", "computed", gt=0)
    lasts_d: float = fact("days of such use", "computed", gt=0)
    wanted_d: float = fact("days from one fill to the next", "chosen", gt=0)
    rated_l_min: float = fact("highest flow it is made for", "catalogue", gt=0)
    asked_l_min: float = fact("flow of the strongest tap that it serves", "catalogue", ge=0)


def read(build: Build, figures: Figures) -> list[Cartridge]:
    """One question for each filter."""
    return [
        Cartridge(
            options=(f.option_id,), name=f.name, life_l=f.life_l, through_l=f.through_l_d,
            lasts_d=f.life_l / f.through_l_d, wanted_d=build.trip.days_between_fills_d, rated_l_min=f.rated_l_min,
            asked_l_min=f.asked_l_min,
        )
        for f in figures.filters
    ]  # fmt: skip


def judge(x: Cartridge) -> Softened | AtLeast:
    """A flow beyond the rating is worth a note; a life shorter than a fill fails."""
    if x.lasts_d >= x.wanted_d and x.asked_l_min > x.rated_l_min:
        return Softened(AtMost(x.asked_l_min, x.rated_l_min, "l_min", tight_from=JUST_ENOUGH), "note")
    return AtLeast(x.lasts_d, x.wanted_d, "d")


_CARBON = {"name": "Carbon filter", "rated_l_min": 6, "asked_l_min": 5, "wanted_d": 4}
RULE = Rule(
    code="filter-life",
    title="Life and flow of water filters",
    topic="water",
    category="function",
    inputs=Cartridge,
    read=read,
    judge=judge,
    formula="days = what the cartridge filters / water a day through it; flow of the tap ≤ rated flow",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{name}: {through_l} a day run through it, so a cartridge lasts {measured} of such use. Change it once a "
        "year at least.",
        "tight": "{name}: with {through_l} a day a cartridge lasts only {measured}; {limit:# is|# are} from "
        "one fill to the next.",
        "fails": "{name}: with {through_l} a day a cartridge lasts only {measured}; {limit:# is|# are} from "
        "one fill to the next.",
        "note": "{name} is made for {rated_l_min}; the tap lets {asked_l_min} through. Open it less, or it filters "
        "poorly.",
    },
    remedy="Carry spare cartridges, or choose a larger filter.",
    examples=lambda: (
        Example(_CARBON | {"life_l": 2000, "through_l": 14, "lasts_d": 143}, "ok", "a tap for drinking water"),
        Example(_CARBON | {"life_l": 56, "through_l": 14, "lasts_d": 4}, "tight", "exactly one fill"),
        Example(_CARBON | {"life_l": 100, "through_l": 60, "lasts_d": 1.7}, "fails", "all water through a small one"),
        Example(_CARBON | {"life_l": 2000, "through_l": 14, "lasts_d": 143, "rated_l_min": 2}, "note", "rushed"),
    ),
    offers="water-filter",
)
