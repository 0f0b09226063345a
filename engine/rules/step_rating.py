"""The entry step carries a heavy person with something in both arms."""

from engine.build import Build, Figures
from engine.build.moving import CARRIED_KG, HEAVY_PERSON_KG
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, Source, Unknown, fact


class Tread(Inputs):
    """A person on the step, and its rating."""

    load_kg: float = fact("a large grown-up on the step, with full arms", "assumed", gt=0)
    rating_kg: float = fact("load the step is rated for", "catalogue", gt=0)


def read(build: Build, figures: Figures) -> Tread | Unknown | None:
    """The weakest of the chosen steps."""
    entry = figures.moving.entry
    if not entry.option_ids:
        return None
    if entry.rating_kg is None:
        return Unknown("load rating of the entry step", "Copy it from its data sheet.", entry.option_ids)
    return Tread(options=entry.option_ids, load_kg=HEAVY_PERSON_KG + CARRIED_KG, rating_kg=entry.rating_kg)


def judge(x: Tread) -> AtMost:
    """Load against rating."""
    return AtMost(x.load_kg, x.rating_kg, "kg")


RULE = Rule(
    code="step-rating",
    title="Load on the entry step",
    topic="space",
    category="safety",
    inputs=Tread,
    read=read,
    judge=judge,
    formula="120 kg + 30 kg ≤ rating",
    sources=(
        COMMON_PRACTICE,
        Source("EN 131-1", "ladders carry a person and load of 150 kg (from memory; not for vehicles)"),
    ),
    says={
        "ok": "The step is rated for {limit}; a large grown-up with full arms weighs {measured}.",
        "tight": "The step is rated for {limit}; a large grown-up with full arms weighs {measured}.",
        "fails": "The step is rated for {limit}; a large grown-up with full arms weighs {measured}, {over} more.",
    },
    remedy="Choose a stronger step.",
    examples=lambda: (
        Example({"load_kg": 150, "rating_kg": 200}, "ok", "a usual step of 200 kg"),
        Example({"load_kg": 150, "rating_kg": 166.6}, "tight", "just 90 %"),
        Example({"load_kg": 150, "rating_kg": 150}, "tight", "exactly the rating"),
        Example({"load_kg": 150, "rating_kg": 120}, "fails", "a light folding step"),
    ),
    offers="entry-step",
    caution="Two people on one tread, or a jump, load it with more than this.",
)
