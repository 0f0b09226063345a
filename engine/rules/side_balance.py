"""Left and right of each axle carry about the same.

A kitchen, a bathroom and a full tank on one side make a vehicle lean, pull on one brake sooner and wear one tyre. A few
per cent are in every vehicle; more is worth moving something for, and is no fault as long as the tyres carry it.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtMost, Example, Inputs, Rule, Softened, fact

MOST_FRAC = 0.06
"""Difference of left and right over an axle's load that nobody feels (common practice)."""


class Sides(Inputs):
    """The axle that stands most unevenly, fully laden."""

    axle: str = fact("axle", "computed")
    heavier: str = fact("heavier side", "computed")
    case: str = fact("load case", "computed")
    difference_kg: float = fact("difference between its sides", "computed", ge=0)
    axle_kg: float = fact("load on that axle", "computed", gt=0)


def read(build: Build, figures: Figures) -> Sides | None:
    """Nothing to say where the tracks are not stated; the tyres' check asks for them."""
    a = figures.mass.askew
    if a is None:
        return None
    return Sides(
        options=a.option_ids,
        axle=a.axle,
        heavier=a.heavier,
        case=a.case,
        difference_kg=a.difference_kg,
        axle_kg=a.axle_kg,
    )


def judge(x: Sides) -> Softened:
    """Worth a word above six per cent of the axle's load."""
    return Softened(AtMost(x.difference_kg / x.axle_kg, MOST_FRAC, "frac", tight_from=JUST_ENOUGH), "note")


_VAN = {"axle": "rear", "heavier": "left", "case": "full fresh water, all aboard", "axle_kg": 1500}
RULE = Rule(
    code="side-balance",
    title="Balance of left and right",
    topic="mass",
    category="function",
    inputs=Sides,
    read=read,
    judge=judge,
    formula="|R_right − R_left| / (R_right + R_left) ≤ 6 % on each axle",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "Left and right differ by {measured} of the {axle} axle's load at most ({case}).",
        "note": "The {axle} axle carries {difference_kg} more on the {heavier}, {measured} of its load ({case}).",
    },
    remedy="Move something heavy across: battery, tank or the kitchen's drawers.",
    examples=lambda: (
        Example(_VAN | {"difference_kg": 50}, "ok", "3 %"),
        Example(_VAN | {"difference_kg": 90}, "ok", "exactly 6 %"),
        Example(_VAN | {"difference_kg": 135}, "note", "9 %"),
    ),
    caution=cautions.WEIGHBRIDGE,
)
