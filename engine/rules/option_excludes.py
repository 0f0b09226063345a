"""No two chosen options rule each other out.

Two things can want the same place or the same task. The reason is the workshop's own.
"""

from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, fact, sentence


class Pair(Inputs):
    """Two options, one of which rules out the other; or all that rule something out, where nothing of it is chosen."""

    asked_count: float = fact("how many exclusions the choices name", "catalogue", ge=1)
    name: str = fact("the chosen option", "chosen", default="")
    other: str = fact("the choice that it rules out", "chosen", default="")
    because: str = fact("the workshop's reason", "catalogue", default="")


def read(build: Build, figures: Figures) -> list[Pair]:
    """One question for each two that cannot be together; where there are none, one for all."""
    names = build.option_names
    asked = [(p.option, other) for p in build.parts for other in p.option.excludes]
    met = [(option, other) for option, other in asked if build.has(other.option)]
    count = float(len(asked))
    if not met:
        return [Pair(options=tuple(dict.fromkeys(o.id for o, _ in asked)), asked_count=count)] if asked else []
    return [
        Pair(
            options=(option.id, other.option),
            asked_count=count,
            name=option.name,
            other=names[other.option],
            because=sentence(other.because),
        )
        for option, other in met
    ]


def judge(x: Pair) -> Holds:
    """Holds where nothing that is ruled out is chosen."""
    return Holds(not x.other)


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
        "ok": "Nothing chosen rules out another choice.",
        "fails": "{name} and {other} cannot be together. {because}",
    },
    remedy="Keep one of the two.",
    examples=lambda: (
        Example({"asked_count": 1}, "ok", "one bed of two that want the same place"),
        Example(
            {"asked_count": 1, "name": "Bed across", "other": "Bed along", "because": "Both stand in the same place."},
            "fails",
            "both of them",
        ),
    ),
)
