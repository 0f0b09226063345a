"""At least one of several companions of an option is chosen.

A hob needs some gas store, whichever; an inverter needs some battery of its voltage.
"""

from engine.build import Build, Figures
from engine.build.model import Part
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, asked_by, fact, listed, sentence


class OneOf(Inputs):
    """An option and the companions of which one is enough; where all are missing, all options that need one."""

    name: str = fact("what needs it", "chosen")
    askers_count: float = fact("how many options need it", "chosen", default=1.0)
    companions: str = fact("what it needs one of", "catalogue")
    because: str = fact("the workshop's reasons, where they are few", "catalogue", default="")
    present: bool = fact("whether one of them is chosen", "chosen")


def read(build: Build, figures: Figures) -> list[OneOf]:
    """One question for each such group of each chosen option that is met, and one for each group that is missing."""
    names = build.option_names
    found = []
    missing: dict[frozenset[str], list[tuple[Part, str]]] = {}
    companions: dict[frozenset[str], str] = {}
    for part in build.parts:
        for group in part.option.needs_one_of:
            key = frozenset(group.options)
            if key not in companions:
                companions[key] = listed(names.get(o, o) for o in group.options)
            chosen = tuple(o for o in group.options if build.has(o))
            if not chosen:
                missing.setdefault(key, []).append((part, sentence(group.because)))
                continue
            found.append(
                OneOf(
                    options=(part.option.id, *chosen),
                    name=part.option.name,
                    companions=companions[key],
                    present=True,
                )
            )
    for key, askers in missing.items():
        found.append(
            OneOf(
                options=tuple(p.option.id for p, _ in askers),
                companions=companions[key],
                present=False,
                **asked_by([(p.option.name, reason) for p, reason in askers]),
            )
        )
    return found


def judge(x: OneOf) -> Holds:
    """Holds when at least one companion is chosen."""
    return Holds(x.present)


_HOB = {"name": "Gas hob", "companions": "Cylinder, Fixed tank", "because": " It has nothing to burn otherwise."}
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
        "fails": "{name} {askers_count:needs|need} one of these, and none is chosen: {companions}.{because}",
    },
    remedy="Add one of them, or leave out what needs them.",
    examples=lambda: (
        Example(_HOB | {"present": True}, "ok", "a cylinder is chosen"),
        Example(_HOB | {"present": False}, "fails", "no gas store at all"),
        Example(
            _HOB | {"name": "“Gas hob” and “Gas oven”", "askers_count": 2, "present": False},
            "fails",
            "two that need the same are told together",
        ),
    ),
)
