"""Every choice is one that the catalogue still has, and for this vehicle.

A link or file may be older than the catalogue, and what was chosen for one vehicle need not be made for the next. Such
a choice is kept and named, and left out of every sum. Nothing is unsafe then; only a wish is not met.
"""

from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, fact


class Choice(Inputs):
    """A choice that cannot be honoured, or none such."""

    name: str = fact("its name, or the choice as it came", "chosen")
    reason: str = fact("why it cannot be honoured", "catalogue")
    known: bool = fact("whether it can", "catalogue")
    not_for: str = fact("vehicle it is not made for, where others have it", "catalogue", default="")


def read(build: Build, figures: Figures) -> list[Choice]:
    """One question for each choice that fell out of the sums."""
    return [
        Choice(options=(s.option_id,), name=s.name, reason=s.reason, known=False, not_for=s.not_for)
        for s in build.strays
    ]


def judge(x: Choice) -> Holds:
    """Holds when the catalogue can honour the choice; on another vehicle it has only to be seen that it is left out."""
    return Holds(x.known, "note" if x.not_for else "fails")


RULE = Rule(
    code="choice-known",
    title="Choices that can be had",
    topic="choices",
    category="comfort",
    inputs=Choice,
    read=read,
    judge=judge,
    formula="every chosen id is in the catalogue and fits the vehicle",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "“{name}” is in the catalogue.",
        "note": "“{name}” is left out: it is not for the {not_for}. No price, mass or figure has it. "
        "Take it out, or choose something else in its place.",
        "fails": "“{name}” is left out of all sums: {reason}.",
    },
    remedy="Take it out and choose something in its place, or ask the workshop what became of it.",
    examples=lambda: (
        Example({"name": "panel-200", "reason": "the catalogue has it", "known": True}, "ok", "still sold"),
        Example(
            {"name": "panel-90", "reason": "the catalogue no longer has it", "known": False},
            "fails",
            "from an old link",
        ),
        Example(
            {"name": "Curtain", "reason": "it does not fit the Bus", "known": False, "not_for": "Bus"},
            "note",
            "chosen for the van, before the bus was",
        ),
    ),
)
