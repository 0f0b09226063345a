"""The rear axle stays within its rating in every load case.

Moments about the front axle decide: what sits behind the rear axle counts there for more than its own weight, and
takes load off the front. A legal total can still hide an axle that is over. Every mix of water, waste, fuel, gas,
people and baggage is looked at; the worst one is named.
"""

from pydantic import Field

from engine import cautions
from engine.build import Build, Figures
from engine.rule import (
    MASS_TIGHT,
    AtMost,
    Example,
    Inputs,
    Rule,
    Source,
    Unknown,
    chance_words,
    fact,
    heaviest_words,
    if_all_weighed,
)

MOVE = "Move load towards the front, or take something out that sits far back"
OUT = "Take something out that sits far back, or carry less there: the front axle has no room to spare"


class RearAxle(Inputs):
    """The load case that puts most on the rear axle, found among all that are possible."""

    case: str = fact("load case", "computed")
    axle_kg: float = fact("load on the rear axle", "computed", gt=0)
    spread_kg: float = fact("half-width of its 90 % band", "computed", ge=0)
    rating_kg: float = fact("rear axle rating", "catalogue", gt=0)
    exceed_frac: float = fact("chance that the rating is exceeded", "computed", default=0, ge=0, le=1)
    most: str = fact("what presses most on it", "computed", default="")
    way: str = Field(default=MOVE, description="the way out")

    @property
    def chance(self) -> str:
        """A sentence on the chance, where there is one worth naming."""
        return chance_words(self.exceed_frac)


def read(build: Build, figures: Figures) -> Inputs | Unknown | list[Inputs | Unknown]:
    """The worst of all load cases; not known while nobody stated a mass that presses on this axle."""
    m = figures.mass
    worst, pressing = m.rear_worst, m.rear_pressing
    over_kg = worst.axles.rear_kg - m.rear_rating_kg
    room_kg = MASS_TIGHT * m.front_rating_kg - m.front_worst.axles.front_kg
    found = RearAxle(
        options=pressing.option_ids,
        case=worst.name,
        axle_kg=worst.axles.rear_kg,
        spread_kg=worst.rear_spread_kg,
        rating_kg=build.vehicle.masses.rear_axle_rating_kg,
        exceed_frac=m.rear_exceed_frac,
        most=heaviest_words(build, pressing.most_kg),
        way=MOVE if max(0.0, over_kg) <= room_kg else OUT,
    )
    return if_all_weighed(build, found, judge(found), pressing.not_stated)


def judge(x: RearAxle) -> AtMost:
    """Masses warn from 95 % of the rating, or when the band reaches over it."""
    return AtMost(
        x.axle_kg, x.rating_kg, "kg", tight_from=MASS_TIGHT, low=x.axle_kg - x.spread_kg, high=x.axle_kg + x.spread_kg
    )


_VAN = {"case": "full fresh water, all aboard", "spread_kg": 0, "rating_kg": 2000}
RULE = Rule(
    code="rear-axle-load",
    title="Rear axle load",
    topic="mass",
    category="legal",
    inputs=RearAxle,
    read=read,
    judge=judge,
    formula="R_rear = Σ(m·x) / wheelbase;  R_front = Σm − R_rear;  R_rear ≤ rating",
    sources=(
        Source("49 CFR 571.3", "definition of GAWR, measured where the tyres stand", "2026-11-25", "us"),
        Source("Statics, balance of moments", "any mechanics text"),
    ),
    says={
        "ok": "Rear axle carries {measured}{spread_kg:|, give or take #,|, give or take #,} of {limit} ({case}); "
        "{margin:nothing is|# is|# are} left.",
        "tight": "Rear axle carries {measured}{spread_kg:|, give or take #,|, give or take #,} of {limit} ({case}): "
        "{margin:nothing is|# is|# are} left."
        "{chance}",
        "fails": "Rear axle is {over} over: {measured} on a rating of {limit} ({case})."
        "{most:| Most of that: #.| Most of that: #.}"
        "{chance}",
    },
    remedy="{way}.",
    examples=lambda: (
        Example(_VAN | {"axle_kg": 1899}, "ok", "just under 95 %"),
        Example(_VAN | {"axle_kg": 1900}, "tight", "exactly 95 %"),
        Example(_VAN | {"axle_kg": 2000}, "tight", "exactly at the rating"),
        Example(_VAN | {"axle_kg": 1960, "spread_kg": 45, "exceed_frac": 0.072}, "tight", "a chance of 7 % is said"),
        Example(_VAN | {"axle_kg": 2028}, "fails", "28 kg over"),
    ),
    caution=f"{cautions.WEIGHBRIDGE} {cautions.AXLE}",
)
