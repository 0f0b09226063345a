"""At least one of several companions of an option is chosen.

A hob needs some gas store, whichever; an inverter needs some battery of its voltage.
"""

from engine.build import Build, Figures
from engine.build.model import Part
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, asked_by, fact, listed, sentence


class OneOf(Inputs):
    """All options that need one of the same companions, none of which is chosen; or all that need any, where none lacks
    one."""

    name: str = fact("what needs it", "chosen", default="")
    askers_count: float = fact("how many options need a companion", "chosen", ge=1)
    companions: str = fact("what they need one of, where none is chosen", "catalogue", default="")
    because: str = fact("the workshop's reasons, where they are few", "catalogue", default="")


def read(build: Build, figures: Figures) -> list[OneOf]:
    """One question for each group of companions that is missing; where none is, one for all."""
    names = build.option_names
    asking = [p for p in build.parts if p.option.needs_one_of]
    missing: dict[frozenset[str], list[tuple[Part, str]]] = {}
    companions: dict[frozenset[str], str] = {}
    for part in asking:
        for group in part.option.needs_one_of:
            if not any(build.has(o) for o in group.options):
                key = frozenset(group.options)
                companions.setdefault(key, listed(names[o] for o in group.options))
                missing.setdefault(key, []).append((part, sentence(group.because)))
    if not missing:
        ids = tuple(p.option.id for p in asking)
        return [OneOf(options=ids, askers_count=float(len(ids)))] if asking else []
    return [
        OneOf(
            options=tuple(p.option.id for p, _ in askers),
            companions=companions[key],
            **asked_by([(p.option.name, reason) for p, reason in askers]),
        )
        for key, askers in missing.items()
    ]


def judge(x: OneOf) -> Holds:
    """Holds where no group of companions is missing."""
    return Holds(not x.companions)


_HOB = {"companions": "Cylinder, Fixed tank", "because": " It has nothing to burn otherwise."}
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
        "ok": "{askers_count:The choice that needs a companion has one|# choices need a companion and have one}.",
        "fails": "{name} {askers_count:needs|need} one of these, and none is chosen: {companions}.{because}",
    },
    remedy="Add one of them, or leave out what needs them.",
    examples=lambda: (
        Example({"askers_count": 1}, "ok", "a cylinder is chosen"),
        Example(_HOB | {"name": "Gas hob", "askers_count": 1}, "fails", "no gas store at all"),
        Example(
            _HOB | {"name": "“Gas hob” and “Gas oven”", "askers_count": 2},
            "fails",
            "two that need the same are told together",
        ),
    ),
)
