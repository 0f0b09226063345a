"""Everything that a chosen option needs is chosen too.

Some options make no sense alone: a rack needs the reinforcement under it, a hob needs a gas store. The reason is the
workshop's own.
"""

from engine.build import Build, Figures
from engine.build.model import Part
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, asked_by, fact, sentence


class Needs(Inputs):
    """All options that need one that is missing; or all that need any, where none is missing."""

    name: str = fact("what needs it", "chosen", default="")
    askers_count: float = fact("how many options need another", "chosen", ge=1)
    needed: str = fact("what they need and is missing", "catalogue", default="")
    because: str = fact("the workshop's reasons, where they are few", "catalogue", default="")


def read(build: Build, figures: Figures) -> list[Needs]:
    """One question for each option that is missing; where none is, one for all."""
    names = build.option_names
    asking = [p for p in build.parts if p.option.requires]
    missing: dict[str, list[tuple[Part, str]]] = {}
    for part in asking:
        for need in part.option.requires:
            if not build.has(need.option):
                missing.setdefault(need.option, []).append((part, sentence(need.because)))
    if not missing:
        ids = tuple(p.option.id for p in asking)
        return [Needs(options=ids, askers_count=float(len(ids)))] if asking else []
    return [
        Needs(
            options=(*(p.option.id for p, _ in askers), option_id),
            needed=names[option_id],
            **asked_by([(p.option.name, reason) for p, reason in askers]),
        )
        for option_id, askers in missing.items()
    ]


def judge(x: Needs) -> Holds:
    """Holds where nothing needed is missing."""
    return Holds(not x.needed)


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
        "ok": "{askers_count:The choice that needs another has it|# choices need another and have it}.",
        "fails": "{name} {askers_count:needs|need} {needed}, which is not chosen.{because}",
    },
    remedy="Add {needed}, or leave out what needs it.",
    examples=lambda: (
        Example({"askers_count": 2}, "ok", "both have what they need"),
        Example(
            {"name": "Roof rack", "askers_count": 1, "needed": "Roof reinforcement"}
            | {"because": " The bare roof carries no rack."},
            "fails",
            "the reinforcement is missing",
        ),
        Example(
            {
                "name": "“Gas hob” and “Gas oven”",
                "askers_count": 2,
                "needed": "Gas pipes",
                "because": " They burn gas.",
            },
            "fails",
            "two that need the same are told together",
        ),
    ),
)
