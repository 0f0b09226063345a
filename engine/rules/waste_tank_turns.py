"""The waste tank holds what a filling of fresh water becomes.

A fresh tank far larger than the waste tank does not make the stay longer where water may not run on the ground.
"""

from math import ceil

from engine.build import Build, Figures
from engine.catalogue.facets import FreshTank, GreyTank
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtMost, Example, Inputs, Rule, Softened, fact


class Turns(Inputs):
    """Waste of one filling against the waste tank."""

    fresh_l: float = fact("fresh water when full", "catalogue", gt=0)
    waste_l: float = fact("waste water of one filling", "computed", ge=0)
    tank_l: float = fact("waste water it holds", "catalogue", gt=0)

    @property
    def left_l(self) -> float:
        """Fresh water that is still aboard when the waste tank is full."""
        return self.fresh_l * max(0.0, 1 - self.tank_l / self.waste_l) if self.waste_l else 0.0

    @property
    def often(self) -> str:
        """A sentence, with its space before it, where it must clearly be emptied more than once for each filling."""
        times = self.waste_l / self.tank_l
        return f" It must be emptied {min(100, ceil(times - 1e-9))} times for each filling." if times >= 1.5 else ""


def read(build: Build, figures: Figures) -> Turns | None:
    """Nothing to ask without both tanks."""
    w = figures.water
    if not w.fresh_l or not w.grey_l or not w.grey_l_d:
        return None
    waste_l = w.fresh_l * w.grey_l_d / w.use_l_d
    return Turns(
        options=build.ids(GreyTank, FreshTank),
        fresh_l=w.fresh_l,
        waste_l=waste_l,
        tank_l=w.grey_l,
    )


def judge(x: Turns) -> Softened:
    """A filling's waste fits once, or it is worth a note."""
    return Softened(AtMost(x.waste_l, x.tank_l, "l", tight_from=JUST_ENOUGH), "note")


RULE = Rule(
    code="waste-tank-turns",
    title="Emptying the waste tank",
    topic="water",
    category="comfort",
    inputs=Turns,
    read=read,
    judge=judge,
    formula="fresh · (waste a day / use a day) ≤ waste tank",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "A filling of fresh water makes {measured} of waste; its tank holds {limit}.",
        "note": "A filling of {fresh_l} fresh water makes {measured} of waste; its tank holds {limit} and is full "
        "while {left_l} of fresh water are still aboard.{often}",
    },
    remedy="Choose a larger waste tank.",
    examples=lambda: (
        Example({"fresh_l": 100, "waste_l": 68, "tank_l": 80}, "ok", "tanks that match"),
        Example({"fresh_l": 100, "waste_l": 80, "tank_l": 80}, "ok", "exactly full"),
        Example({"fresh_l": 300, "waste_l": 210, "tank_l": 80}, "note", "far more fresh than waste"),
        Example({"fresh_l": 345, "waste_l": 185, "tank_l": 180}, "note", "a little more"),
    ),
    offers="grey-tank",
)
