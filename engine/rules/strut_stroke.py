"""Gas struts are long enough when drawn out and short enough when pressed in.

A strut that is drawn out before the bed is open stops it on the way or tears out its eye; one that is pressed in before
the bed is shut keeps it ajar.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtLeast, AtMost, Example, Inputs, Rule, fact


class Reach(Inputs):
    """What the arc needs and what the strut has."""

    name: str = fact("what is lifted", "chosen")
    shortest_m: float = fact("shortest distance of its eyes on the way", "computed", gt=0)
    longest_m: float = fact("longest distance of its eyes on the way", "computed", gt=0)
    pressed_in_m: float = fact("length of the strut pressed in", "catalogue", gt=0)
    drawn_out_m: float = fact("length of the strut drawn out", "catalogue", gt=0)


def read(build: Build, figures: Figures) -> list[Reach]:
    """One question for each lift whose struts state length and stroke."""
    return [
        Reach(
            options=lift.option_ids[:1],
            name=lift.name,
            shortest_m=lift.arc.shortest_m,
            longest_m=lift.arc.longest_m,
            pressed_in_m=lift.struts.long_m - lift.struts.stroke_m,
            drawn_out_m=lift.struts.long_m,
        )
        for lift in figures.moving.lifts
        if lift.struts.long_m is not None and lift.struts.stroke_m is not None
    ]


def judge(x: Reach) -> AtMost | AtLeast:
    """The end at which less is to spare; the whole stroke may be used."""
    ends: tuple[AtMost | AtLeast, ...] = (
        AtMost(x.longest_m, x.drawn_out_m, "m", tight_from=JUST_ENOUGH),
        AtLeast(x.shortest_m, x.pressed_in_m, "m", tight_from=JUST_ENOUGH),
    )
    return min(ends, key=lambda end: end.margin)


_BED = {"name": "Bed over the garage", "pressed_in_m": 0.34, "drawn_out_m": 0.60}
RULE = Rule(
    code="strut-stroke",
    title="Length and stroke of gas struts",
    topic="space",
    category="function",
    inputs=Reach,
    read=read,
    judge=judge,
    formula="drawn out ≥ longest distance of the eyes, pressed in ≤ shortest",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{name}: its struts reach from {pressed_in_m} to {drawn_out_m}; "
        "the way needs {shortest_m} to {longest_m}.",
        "fails": "{name}: its struts reach from {pressed_in_m} to {drawn_out_m}; the way needs {shortest_m} to "
        "{longest_m}, and {over:# is|# are} missing.",
    },
    remedy="Choose struts of another length or stroke, or move their eyes.",
    examples=lambda: (
        Example(_BED | {"shortest_m": 0.345, "longest_m": 0.59}, "ok", "5 mm and 10 mm to spare"),
        Example(_BED | {"shortest_m": 0.34, "longest_m": 0.60}, "ok", "exactly the whole stroke"),
        Example(_BED | {"shortest_m": 0.345, "longest_m": 0.62}, "fails", "20 mm too short when open"),
        Example(_BED | {"shortest_m": 0.32, "longest_m": 0.59}, "fails", "20 mm too long when shut"),
    ),
    offers="gas-strut-lift",
    caution=cautions.LIFTED_BED,
)
