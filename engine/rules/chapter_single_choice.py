"""Of a chapter from which one thing is picked, one thing is picked.

Two main heaters or two toilets are a slip in a form, or a link from an older catalogue.
"""

from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtMost, Example, Inputs, Rule, fact


class Picked(Inputs):
    """How many options of a pick-one chapter are chosen."""

    chapter: str = fact("the chapter", "catalogue")
    picked_count: float = fact("how many of its options are chosen", "chosen", ge=1)


def read(build: Build, figures: Figures) -> list[Picked]:
    """One question for each pick-one chapter from which several are chosen; where there is none, one for the first."""
    by_section: dict[str, list[str]] = {}
    for p in build.parts:
        by_section.setdefault(p.section_id, []).append(p.option.id)
    picked = [(title, tuple(by_section[i])) for i, title in build.sections_one if i in by_section]
    asked = [(title, ids) for title, ids in picked if len(ids) > 1] or picked[:1]
    return [Picked(options=ids, chapter=title, picked_count=float(len(ids))) for title, ids in asked]


def judge(x: Picked) -> AtMost:
    """One is right, more is not."""
    return AtMost(x.picked_count, 1, "count", tight_from=JUST_ENOUGH)


RULE = Rule(
    code="chapter-single-choice",
    title="One choice from a chapter",
    topic="choices",
    category="function",
    inputs=Picked,
    read=read,
    judge=judge,
    formula="options chosen in a pick-one chapter ≤ 1",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{chapter} has one choice, and no chapter that allows one has more.",
        "fails": "{measured} choices under {chapter}, where one can be made.",
    },
    remedy="Keep one of them.",
    examples=lambda: (
        Example({"chapter": "Main heater", "picked_count": 1}, "ok", "one heater"),
        Example({"chapter": "Main heater", "picked_count": 2}, "fails", "two heaters"),
    ),
)
