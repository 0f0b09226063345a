"""No two chosen options rule each other out.

Two things can want the same place or the same task. The reason is the workshop's own.
"""

from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, fact, sentence


class Pair(Inputs):
    """Two options, one of which rules out the other."""

    name: str = fact("the chosen option", "chosen")
    other: str = fact("what it rules out", "catalogue")
    because: str = fact("the workshop's reason", "catalogue")
    both: bool = fact("whether both are chosen", "chosen")


def read(build: Build, figures: Figures) -> list[Pair]:
    """One question for each exclusion of each chosen option."""
    names = build.option_names
    return [
        Pair(
            options=(part.option.id, other.option),
            name=part.option.name,
            other=names.get(other.option, other.option),
            because=sentence(other.because),
            both=build.has(other.option),
        )
        for part in build.parts
        for other in part.option.excludes
    ]


def judge(x: Pair) -> Holds:
    """Holds unless both are chosen."""
    return Holds(not x.both)


_BEDS = {"name": "Bed across", "other": "Bed along", "because": "Both stand in the same place."}
RULE = Rule(
    code="option-excludes",
    title="Options that rule each other out",
    topic="choices",
    category="function",
    inputs=Pair,
    read=read,
    judge=judge,
    formula="no option named under “excludes” is among the choices",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{name} stands without {other}, as it must.",
        "fails": "{name} and {other} cannot be together. {because}",
    },
    remedy="Keep one of the two.",
    examples=lambda: (
        Example(_BEDS | {"both": False}, "ok", "only one of them"),
        Example(_BEDS | {"both": True}, "fails", "both of them"),
    ),
)
