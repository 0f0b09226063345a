"""At least one of several companions of an option is chosen.

A hob needs some gas store, whichever; an inverter needs some battery of its voltage.
"""

from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, fact, listed, sentence


class OneOf(Inputs):
    """An option and the companions of which one is enough."""

    name: str = fact("the chosen option", "chosen")
    companions: str = fact("what it needs one of", "catalogue")
    because: str = fact("the workshop's reason", "catalogue")
    present: bool = fact("whether one of them is chosen", "chosen")


def read(build: Build, figures: Figures) -> list[OneOf]:
    """One question for each such group of each chosen option."""
    names = build.option_names
    return [
        OneOf(
            options=(part.option.id, *(o for o in group.options if build.has(o))),
            name=part.option.name,
            companions=listed(names.get(o, o) for o in group.options),
            because=sentence(group.because),
            present=any(build.has(o) for o in group.options),
        )
        for part in build.parts
        for group in part.option.needs_one_of
    ]


def judge(x: OneOf) -> Holds:
    """Holds when at least one companion is chosen."""
    return Holds(x.present)


_HOB = {"name": "Gas hob", "companions": "Cylinder, Fixed tank", "because": "It has nothing to burn otherwise."}
RULE = Rule(
    code="option-needs-one-of",
    title="Companions an option needs",
    topic="choices",
    category="function",
    inputs=OneOf,
    read=read,
    judge=judge,
    formula="at least one option of each group under “needs_one_of” is among the choices",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{name} has a companion it needs.",
        "fails": "{name} needs one of these, and none is chosen: {companions}. {because}",
    },
    remedy="Add one of {companions}, or leave out {name}.",
    examples=(
        Example(_HOB | {"present": True}, "ok", "a cylinder is chosen"),
        Example(_HOB | {"present": False}, "fails", "no gas store at all"),
    ),
)
