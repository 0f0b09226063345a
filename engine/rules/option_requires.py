"""Everything that a chosen option needs is chosen too.

Some options make no sense alone: a rack needs the reinforcement under it, a hob needs a gas store. The reason is the
workshop's own.
"""

from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, fact, sentence


class Needs(Inputs):
    """One option that needs another."""

    name: str = fact("the chosen option", "chosen")
    needed: str = fact("what it needs", "catalogue")
    because: str = fact("the workshop's reason", "catalogue")
    present: bool = fact("whether that is chosen", "chosen")


def read(build: Build, figures: Figures) -> list[Needs]:
    """One question for each requirement of each chosen option."""
    names = build.option_names
    return [
        Needs(
            options=(part.option.id, need.option),
            name=part.option.name,
            needed=names.get(need.option, need.option),
            because=sentence(need.because),
            present=build.has(need.option),
        )
        for part in build.parts
        for need in part.option.requires
    ]


def judge(x: Needs) -> Holds:
    """Holds when the needed option is chosen."""
    return Holds(x.present)


_RACK = {"name": "Roof rack", "needed": "Roof reinforcement", "because": "The bare roof carries no rack."}
RULE = Rule(
    code="option-requires",
    title="What an option needs",
    topic="choices",
    category="function",
    inputs=Needs,
    read=read,
    judge=judge,
    formula="every option named under “requires” is among the choices",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{name} has {needed}, which it needs.",
        "fails": "{name} needs {needed}, which is not chosen. {because}",
    },
    remedy="Add {needed}, or leave out {name}.",
    examples=(
        Example(_RACK | {"present": True}, "ok", "the reinforcement is chosen"),
        Example(_RACK | {"present": False}, "fails", "the reinforcement is missing"),
    ),
)
