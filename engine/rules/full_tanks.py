"""Fresh water filled in before waste is let out does not overload the vehicle.

The other checks count water once: what leaves the fresh tank fills the waste tanks. Whoever fills up where waste cannot
be let out drives with both full. Where that would go over a rating, the order matters and the owner has to know.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.catalogue.facets import BlackTank, Cassette, FreshTank, GreyTank
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtMost, Example, Inputs, Rule, Softened, fact


class FullTanks(Inputs):
    """The rating that comes nearest with every tank full."""

    rating: str = fact("rating", "computed")
    loaded_kg: float = fact("load with every tank full, all aboard", "computed", gt=0)
    rating_kg: float = fact("what the rating allows", "catalogue", gt=0)


def read(build: Build, figures: Figures) -> FullTanks | None:
    """Nothing to ask without both kinds of tanks, or where a rating is exceeded as it is."""
    m = figures.mass
    if not m.fresh_water_kg or m.all_tanks.axles.total_kg <= m.heaviest.axles.total_kg:
        return None
    axles = m.all_tanks.axles
    each = (
        ("gross rating", axles.total_kg, m.gross_rating_kg, m.heaviest.axles.total_kg),
        ("front axle's rating", axles.front_kg, m.front_rating_kg, m.front_worst.axles.front_kg),
        ("rear axle's rating", axles.rear_kg, m.rear_rating_kg, m.rear_worst.axles.rear_kg),
    )
    if any(worst_kg > rating_kg for _, _, rating_kg, worst_kg in each):
        return None
    rating, loaded_kg, rating_kg, _ = max(each, key=lambda e: e[1] / e[2])
    if m.not_stated and loaded_kg <= rating_kg:
        return None  # a part's mass is not known, which the ratings' own checks say
    tanks = build.ids(FreshTank, GreyTank, BlackTank, Cassette)
    return FullTanks(options=tanks, rating=rating, loaded_kg=loaded_kg, rating_kg=rating_kg)


def judge(x: FullTanks) -> Softened:
    """Over the rating it is worth a word, for the owner can avoid it."""
    return Softened(AtMost(x.loaded_kg, x.rating_kg, "kg", tight_from=JUST_ENOUGH), "note")


_VAN = {"rating": "gross rating", "rating_kg": 3500}
RULE = Rule(
    code="full-tanks",
    title="Fresh water filled in before waste is let out",
    topic="mass",
    category="legal",
    inputs=FullTanks,
    read=read,
    judge=judge,
    formula="vehicle + everybody and everything + fresh water + waste ≤ each rating",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "Even with every tank full {measured} of the {rating} of {limit} are used.",
        "note": "With fresh water and waste tanks full at once it is {over} over its {rating}, {measured} of {limit}. "
        "Let waste out before filling up.",
    },
    remedy="Let waste out before filling up.",
    examples=lambda: (
        Example(_VAN | {"loaded_kg": 3400}, "ok", "97 %"),
        Example(_VAN | {"loaded_kg": 3500}, "ok", "exactly at the rating"),
        Example(_VAN | {"loaded_kg": 3570}, "note", "70 kg over"),
    ),
    follows=("gross-mass", "front-axle-load", "rear-axle-load"),
    caution=f"{cautions.WEIGHBRIDGE} {cautions.AUTHORITY}",
)
