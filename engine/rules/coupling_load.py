"""The towing coupling carries the trailer's nose.

What a trailer's nose may weigh is on the coupling's plate and in the vehicle's papers; the smaller figure counts. It is
much less than a rear axle could bear, and the lever behind that axle makes it press there for more than its own weight.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.rule import ELSEWHERE, MASS_TIGHT, AtMost, Example, Inputs, Rule, Source, Unknown, fact


class Nose(Inputs):
    """Nose and coupling."""

    nose_kg: float = fact("load of the trailer's nose", "chosen", gt=0)
    rating_kg: float = fact("what the coupling and the vehicle allow", "catalogue", gt=0)


def read(build: Build, figures: Figures) -> Nose | Unknown | None:
    """Nothing to ask without a trailer; not known where the vehicle's file states no rating."""
    v, nose_kg = build.vehicle, build.trip.nose_kg
    if not nose_kg:
        return None
    if v.coupling_rating_kg is None:
        return Unknown(
            f"nose load that the coupling of the {v.name} carries",
            "Read it from the coupling's plate and from the vehicle's papers; the smaller one counts.",
        )
    return Nose(nose_kg=nose_kg, rating_kg=v.coupling_rating_kg)


def judge(x: Nose) -> AtMost:
    """Masses warn from 95 % of the rating."""
    return AtMost(x.nose_kg, x.rating_kg, "kg", tight_from=MASS_TIGHT)


RULE = Rule(
    code="coupling-load",
    title="Trailer's nose on the coupling",
    topic="mass",
    category="legal",
    inputs=Nose,
    read=read,
    judge=judge,
    formula="nose load ≤ rating of coupling and vehicle",
    sources=(
        Source("UNECE Regulation 55", "value S of a coupling (from memory)", region=ELSEWHERE),
        Source("SAE J684", "tongue weight of a hitch (from memory)", region="us"),
    ),
    says={
        "ok": "The trailer's nose presses on the coupling with {measured} of the {limit} it carries.",
        "tight": "The trailer's nose presses on the coupling with {measured}, close to the {limit} it carries.",
        "fails": "The trailer's nose presses on the coupling with {measured}; it carries {limit}.",
    },
    remedy="Load the trailer so that its nose is lighter, as far as its maker allows, or tow a smaller one.",
    examples=lambda: (
        Example({"nose_kg": 75, "rating_kg": 100}, "ok", "three quarters of it"),
        Example({"nose_kg": 95, "rating_kg": 100}, "tight", "exactly 95 %"),
        Example({"nose_kg": 100, "rating_kg": 100}, "tight", "exactly what it carries"),
        Example({"nose_kg": 110, "rating_kg": 100}, "fails", "10 kg over"),
    ),
    caution=f"{cautions.WEIGHBRIDGE} A trailer whose nose is too heavy or too light is dangerous to tow. "
    f"{cautions.AUTHORITY}",
)
