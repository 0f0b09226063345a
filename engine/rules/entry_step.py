"""The way up to the door has steps that a person can climb with full hands.

Floor height over the number of steps, all of them alike. 25 cm (10 in) are comfortable; beyond 35 cm (14 in) it is
a climb for children, for knees, and for dogs. Fixed treads of the body count.
"""

from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtMost, Example, Inputs, Rule, Softened, fact

EASY_M = 0.25
"""A comfortable rise (common practice)."""

STEEP_M = 0.35
"""The highest that one cares to climb every day (common practice)."""


class Climb(Inputs):
    """Floor and steps."""

    rise_m: float = fact("height of each step", "computed", gt=0)
    floor_m: float = fact("floor above the road", "catalogue", gt=0)
    treads_count: float = fact("treads between road and floor", "catalogue", ge=0)
    chosen: bool = fact("an entry step is chosen", "chosen")

    @property
    def none(self) -> str:
        """A sentence, with its space behind it, where no step is chosen."""
        return "" if self.chosen else "No entry step is chosen. "

    @property
    def way(self) -> str:
        """The way out."""
        return "Choose steps with more treads" if self.chosen else "Choose an entry step"


def read(build: Build, figures: Figures) -> Climb:
    """Floor of the vehicle and all treads."""
    entry = figures.moving.entry
    return Climb(
        options=entry.option_ids,
        rise_m=entry.rise_m,
        floor_m=entry.floor_m,
        treads_count=float(entry.treads_count),
        chosen=bool(entry.option_ids),
    )


def judge(x: Climb) -> AtMost | Softened:
    """The rise against a steep one. As long as no step is chosen any stool may stand there: what is merely
    uncomfortable is a note, and what a stool makes bearable is tight."""
    if not x.chosen and x.rise_m <= STEEP_M:
        return Softened(AtMost(x.rise_m, EASY_M, "m", tight_from=JUST_ENOUGH), "note")
    if not x.chosen and x.floor_m / (x.treads_count + 2) <= STEEP_M:
        return Softened(AtMost(x.rise_m, STEEP_M, "m"), "tight")
    return AtMost(x.rise_m, STEEP_M, "m", tight_from=EASY_M / STEEP_M * 1.0001)


_BOX = {"floor_m": 1.13, "chosen": True}
_BARE = {"treads_count": 0, "chosen": False}
RULE = Rule(
    code="entry-step",
    title="Steps up to the door",
    topic="space",
    category="comfort",
    inputs=Climb,
    read=read,
    judge=judge,
    formula="floor height / (treads + 1) ≤ 350 mm, comfortable up to 250 mm",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "The floor is {floor_m} above the road; with {treads_count:# tread|# treads} each step rises {measured}.",
        "note": "No entry step is chosen: the floor is {floor_m} above the road, and each step up "
        "to it rises {measured}.",
        "tight": "{none}The floor is {floor_m} above the road; with {treads_count:no tread|# tread|# treads} each "
        "step rises {measured}, more than is comfortable.",
        "fails": "{none}The floor is {floor_m} above the road; with {treads_count:no tread|# tread|# treads} each "
        "step rises {measured}, {over} more than one cares to climb every day.",
    },
    remedy="{way}.",
    examples=lambda: (
        Example(_BOX | {"rise_m": 0.226, "treads_count": 4}, "ok", "four treads to a floor of 1.13 m"),
        Example(_BOX | {"rise_m": 0.25, "floor_m": 0.5, "treads_count": 1}, "ok", "exactly 250 mm"),
        Example(_BOX | {"rise_m": 0.2825, "treads_count": 3}, "tight", "three treads"),
        Example(_BOX | {"rise_m": 0.35, "floor_m": 0.7, "treads_count": 1}, "tight", "exactly 350 mm"),
        Example(_BOX | {"rise_m": 0.377, "treads_count": 2}, "fails", "two treads"),
        Example({"rise_m": 0.29, "floor_m": 0.58, "treads_count": 1, "chosen": False}, "note", "nothing chosen"),
        Example(_BARE | {"rise_m": 0.58, "floor_m": 0.58}, "tight", "a stool would halve it"),
        Example(_BARE | {"rise_m": 1.13, "floor_m": 1.13}, "fails", "no stool is enough"),
    ),
    offers="entry-step",
)
