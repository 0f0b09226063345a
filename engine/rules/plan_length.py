"""What stands in a row along a wall fits between the ends, with its partitions and the linings.

Sums that forget the thickness of partitions and end linings come out short on paper and long in the vehicle.
"""

from engine.build import Build, Figures
from engine.build.plan_people import ruled_out
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtMost, Example, Inputs, Rule, fact


class Row(Inputs):
    """The fullest wall."""

    side: str = fact("which wall", "computed")
    modules_m: float = fact("modules and partitions in a row", "computed", ge=0)
    linings_m: float = fact("insulation and lining of both ends", "computed", ge=0)
    bare_m: float = fact("bare inside length", "catalogue", gt=0)


def read(build: Build, figures: Figures) -> Row | None:
    """The wall that has least length left; nothing to ask while nothing stands on the floor, or while two that rule
    each other out stand there."""
    walls = [w for w in figures.plan.walls if w.option_ids and not ruled_out(build, w.option_ids)]
    if not walls:
        return None
    w = max(walls, key=lambda w: w.modules_m)
    return Row(options=w.option_ids, side=w.side, modules_m=w.modules_m, linings_m=w.linings_m, bare_m=w.bare_length_m)


def judge(x: Row) -> AtMost:
    """The sum against the bare length; a row that just fits is as good as any."""
    return AtMost(x.modules_m + x.linings_m, x.bare_m, "m", tight_from=JUST_ENOUGH)


_BUS = {"side": "left", "bare_m": 7.112}
RULE = Rule(
    code="plan-length",
    title="Length along the wall",
    topic="space",
    category="function",
    inputs=Row,
    read=read,
    judge=judge,
    formula="Σ modules and partitions + linings of both ends ≤ bare inside length",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "The fuller wall takes {measured} of {limit}, partitions and linings counted.",
        "fails": "The {side} wall takes {measured} of {limit}, {over} too much. The modules take {modules_m}, "
        "the end linings {linings_m}.",
    },
    remedy="Choose a shorter module, leave out a partition, or put one module on the other side.",
    examples=lambda: (
        Example(_BUS | {"modules_m": 6.9088, "linings_m": 0.0508}, "ok", "272 in of furniture alone in 280 in"),
        Example(_BUS | {"modules_m": 7.0612, "linings_m": 0.0508}, "ok", "exactly the length"),
        Example(
            _BUS | {"modules_m": 7.0993, "linings_m": 0.0508}, "fails", "with three partitions of 2.5 in: 1.5 in over"
        ),
    ),
    offers="furniture",
)
