"""A step that folds or slides out is in before the vehicle moves.

Left out, it hits kerbs, posts and legs. Steps that come in when the engine starts, or warn until they are in, do not
depend on anybody's memory.
"""

from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, fact, listed


class Stowed(Inputs):
    """Whether somebody has to remember the step."""

    by_hand: bool = fact("somebody must put it away", "catalogue")
    names: str = fact("steps", "chosen")


def read(build: Build, figures: Figures) -> Stowed | None:
    """Nothing to ask without an entry step."""
    entry = figures.moving.entry
    if not entry.option_ids:
        return None
    names = entry.to_stow or tuple(build.option_names[i] for i in entry.option_ids)
    return Stowed(options=entry.option_ids, by_hand=bool(entry.to_stow), names=listed(names))


def judge(x: Stowed) -> Holds:
    """Worth a note, no more: many people live well with it."""
    return Holds(not x.by_hand, "note")


RULE = Rule(
    code="step-stowed",
    title="Entry step stowed before driving",
    topic="space",
    category="safety",
    inputs=Stowed,
    read=read,
    judge=judge,
    formula="fixed, or coming in with the ignition",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{names}: nobody has to think of it before driving off.",
        "note": "{names}: to be put away by hand before driving off. A switch on it with a lamp or a buzzer in the cab "
        "helps to remember.",
    },
    remedy="Choose a step that comes in with the ignition, or add a switch and a buzzer.",
    examples=lambda: (
        Example({"by_hand": False, "names": "Electric step"}, "ok", "comes in with the ignition"),
        Example({"by_hand": True, "names": "Slide-out stairs"}, "note", "stowed by hand"),
    ),
    offers="entry-step",
    caution="A step left out catches kerbs and people. Look along the vehicle before driving off.",
)
