"""No option is chosen more often than the workshop fits it."""

from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtMost, Example, Inputs, Rule, fact


class Count(Inputs):
    """How many of one option are chosen."""

    name: str = fact("the option", "chosen")
    chosen_count: float = fact("how many are chosen", "chosen", ge=1)
    most_count: float = fact("how many the workshop fits", "catalogue", ge=1)


def read(build: Build, figures: Figures) -> list[Count]:
    """One question for each option chosen too often; where there is none, one for that which is nearest to it."""
    several = [p for p in build.parts if p.count > 1]
    asked = [p for p in several if p.count > p.option.most] or sorted(several, key=lambda p: -p.count / p.option.most)[
        :1
    ]
    return [
        Count(
            options=(p.option.id,),
            name=p.option.name,
            chosen_count=float(p.count),
            most_count=float(p.option.most),
        )
        for p in asked
    ]


def judge(x: Count) -> AtMost:
    """Compares the two counts; the full number is no reason for a warning."""
    return AtMost(x.chosen_count, x.most_count, "count", tight_from=JUST_ENOUGH)


RULE = Rule(
    code="option-count",
    title="How many of one option",
    topic="choices",
    category="function",
    inputs=Count,
    read=read,
    judge=judge,
    formula="number chosen ≤ number the workshop fits",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "Nothing is chosen more often than it can be fitted. Nearest: {name}, {measured} of up to {limit}.",
        "fails": "{measured} × {name} chosen; the workshop fits at most {limit}.",
    },
    remedy="Choose {limit:only #|# or fewer}.",
    examples=lambda: (
        Example({"name": "Panel", "chosen_count": 3, "most_count": 4}, "ok", "one under the most"),
        Example({"name": "Panel", "chosen_count": 4, "most_count": 4}, "ok", "exactly the most"),
        Example({"name": "Panel", "chosen_count": 5, "most_count": 4}, "fails", "one over"),
    ),
)
