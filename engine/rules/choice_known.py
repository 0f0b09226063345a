"""Every choice is one that the catalogue still has, and for this vehicle.

A link or file may be older than the catalogue. Such a choice is kept and named, and left out of every sum.
"""

from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, fact


class Choice(Inputs):
    """A choice that cannot be honoured, or none such."""

    name: str = fact("its name, or the choice as it came", "chosen")
    reason: str = fact("why it cannot be honoured", "catalogue")
    known: bool = fact("whether it can", "catalogue")


def read(build: Build, figures: Figures) -> list[Choice]:
    """One question for each choice that fell out of the sums."""
    return [Choice(options=(s.option_id,), name=s.name, reason=s.reason, known=False) for s in build.strays]


def judge(x: Choice) -> Holds:
    """Holds when the catalogue can honour the choice."""
    return Holds(x.known)


RULE = Rule(
    code="choice-known",
    title="Choices against today's catalogue",
    topic="choices",
    category="function",
    inputs=Choice,
    read=read,
    judge=judge,
    formula="every chosen id is in the catalogue and fits the vehicle",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "“{name}” is in the catalogue.",
        "fails": "“{name}” is left out of all sums: {reason}.",
    },
    remedy="Pick something in its place, or ask the workshop what became of it.",
    examples=(
        Example({"name": "panel-200", "reason": "the catalogue has it", "known": True}, "ok", "still sold"),
        Example(
            {"name": "panel-90", "reason": "the catalogue no longer has it", "known": False},
            "fails",
            "from an old link",
        ),
    ),
)
