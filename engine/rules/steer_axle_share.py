"""The front axle keeps enough load to steer and brake.

A heavy garage behind the rear axle lifts the nose. Below about a fifth of the mass on the front axle steering grows
vague and front brakes lock early; a quarter leaves something to spare.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, AtLeast, Example, Inputs, Rule, Source, Unknown, fact, if_all_weighed, listed

LEAST_FRAC = 0.25
"""The fifth below which steering grows vague, with something to spare (common practice)."""


class SteerShare(Inputs):
    """The load case with the lightest front."""

    case: str = fact("load case", "computed")
    front_frac: float = fact("share of the mass on the front axle", "computed", ge=-1, le=1)
    most: str = fact("what takes most from it", "computed", default="")


def read(build: Build, figures: Figures) -> Inputs | Unknown | list[Inputs | Unknown]:
    """The case with the smallest share in front; not known while a mass that takes from it is not stated."""
    case, lifting = figures.mass.steer_lightest, figures.mass.steer_pressing
    found = SteerShare(
        options=lifting.option_ids,
        case=case.name,
        front_frac=case.axles.front_kg / case.axles.total_kg,
        most=listed(name for name, _ in lifting.most_kg),
    )
    return if_all_weighed(build, found, judge(found), lifting.not_stated)


def judge(x: SteerShare) -> AtLeast:
    """At least a quarter belongs in front."""
    return AtLeast(x.front_frac, LEAST_FRAC, "frac", tight_from=0.95)


RULE = Rule(
    code="steer-axle-share",
    title="Share of the mass on the front axle",
    topic="mass",
    category="safety",
    inputs=SteerShare,
    read=read,
    judge=judge,
    formula="R_front / (R_front + R_rear) ≥ 25 %",
    sources=(
        COMMON_PRACTICE,
        Source(
            "Regulation (EU) No 1230/2012, annex I",
            "at least 20 % on steered axles, of buses (from memory)",
            region="eu uk",
        ),
    ),
    says={
        "ok": "The front axle keeps {measured} of the mass ({case}).",
        "tight": "The front axle keeps only {measured} of the mass ({case}); {limit} is the least.",
        "fails": "The front axle keeps {measured} of the mass ({case}), less than {limit}: it steers and brakes badly."
        "{most:| What takes most from it: #.| What takes most from it: #.}",
    },
    remedy="Move load towards the front, or take something out that sits far back.",
    examples=lambda: (
        Example({"case": "dry and empty", "front_frac": 0.389}, "ok", "a van as it should be"),
        Example({"case": "dry and empty", "front_frac": 0.25}, "tight", "exactly a quarter"),
        Example({"case": "dry and empty", "front_frac": 0.20}, "fails", "a fifth"),
    ),
    caution=cautions.WEIGHBRIDGE,
)
