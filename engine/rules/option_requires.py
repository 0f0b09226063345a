"""Everything that a chosen option needs is chosen too.

Some options make no sense alone: a rack needs the reinforcement under it, a hob needs a gas store. The reason is the
workshop's own.
"""

from engine.build import Build, Figures
from engine.build.model import Part
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, asked_by, fact, sentence


class Needs(Inputs):
    """An option that needs another; where that one is missing, all that need it together."""

    name: str = fact("what needs it", "chosen")
    askers_count: float = fact("how many options need it", "chosen", default=1.0)
    needed: str = fact("what it needs", "catalogue")
    because: str = fact("the workshop's reasons, where they are few", "catalogue", default="")
    present: bool = fact("whether that is chosen", "chosen")


def read(build: Build, figures: Figures) -> list[Needs]:
    """One question for each requirement of each chosen option that is met, and one for each option that is missing."""
    names = build.option_names
    found = []
    missing: dict[str, list[tuple[Part, str]]] = {}
    for part in build.parts:
        for need in part.option.requires:
            if build.has(need.option):
                ids, name, needed = (part.option.id, need.option), part.option.name, names[need.option]
                found.append(Needs(options=ids, name=name, needed=needed, present=True))
            else:
                missing.setdefault(need.option, []).append((part, sentence(need.because)))
    for option_id, askers in missing.items():
        found.append(
            Needs(
                options=(*(p.option.id for p, _ in askers), option_id),
                needed=names.get(option_id, option_id),
                present=False,
                **asked_by([(p.option.name, reason) for p, reason in askers]),
            )
        )
    return found


def judge(x: Needs) -> Holds:
    """Holds when the needed option is chosen."""
    return Holds(x.present)


_RACK = {"name": "Roof rack", "needed": "Roof reinforcement", "because": " The bare roof carries no rack."}
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
        "fails": "{name} {askers_count:needs|need} {needed}, which is not chosen.{because}",
    },
    remedy="Add {needed}, or leave out what needs it.",
    examples=lambda: (
        Example(_RACK | {"present": True}, "ok", "the reinforcement is chosen"),
        Example(_RACK | {"present": False}, "fails", "the reinforcement is missing"),
        Example(
            {"name": "“Gas hob” and “Gas oven”", "askers_count": 2, "needed": "Gas pipes", "because": " They burn gas."}
            | {"present": False},
            "fails",
            "two that need the same are told together",
        ),
    ),
)
