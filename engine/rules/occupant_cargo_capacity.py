"""Occupants and cargo may weigh as much as the seats with belts ask for.

The yellow label of an American motor home states one figure for everything that comes aboard: people, baggage and fresh
water. It is the gross rating less the unloaded vehicle, which is weighed with fuel, fluids and propane full. The label
may not say less than 150 lb for each belted seat. Weight added before the first sale, beyond 100 lb or 1.5 % of the
rating, whichever is less, must be on the label too. The last word is the authority's.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.legal_limits import CHECKED
from engine.catalogue.facets import Seat
from engine.rule import MASS_TIGHT, AtLeast, Example, Inputs, Rule, Source, Unknown, fact, mass_unknown


class Capacity(Inputs):
    """The label's figure and what it must reach."""

    capacity_kg: float = fact("gross rating less the unloaded vehicle", "computed")
    spread_kg: float = fact("half-width of its 90 % band", "computed", ge=0)
    least_kg: float = fact("68 kg (150 lb) for each belted seat", "regulation", ge=0)
    rating_kg: float = fact("gross rating", "catalogue", gt=0)
    unloaded_kg: float = fact("vehicle with parts, fuel, fluids and propane", "computed", gt=0)
    belts_count: float = fact("belted seats", "catalogue", ge=0)
    water_kg: float = fact("fresh water when full, counted as cargo at 1 kg/L (8.3 lb/gal)", "computed", ge=0)

    @property
    def excess_kg(self) -> float:
        """What the empty vehicle weighs over its rating."""
        return max(0.0, -self.capacity_kg)


def read(build: Build, figures: Figures) -> Capacity | Unknown | None:
    """Asked in the United States only; parts without a mass leave it open."""
    legal, mass = figures.legal, figures.mass
    if legal.capacity is None:
        return None
    if mass.not_stated:
        return mass_unknown(build, mass.not_stated, mass.not_stated)
    return Capacity(
        options=build.ids(Seat),
        capacity_kg=legal.capacity.allowed_kg,
        spread_kg=legal.spread_kg,
        least_kg=legal.capacity.least_kg,
        rating_kg=legal.gross_kg,
        unloaded_kg=legal.capacity.empty_kg,
        belts_count=float(legal.belted_count),
        water_kg=mass.fresh_water_kg,
    )


def judge(x: Capacity) -> AtLeast:
    """The figure against the seats; tight when close, or when the band reaches below."""
    return AtLeast(
        x.capacity_kg,
        x.least_kg,
        "kg",
        tight_from=MASS_TIGHT,
        low=x.capacity_kg - x.spread_kg,
        high=x.capacity_kg + x.spread_kg,
    )


_BOX = {"spread_kg": 0, "rating_kg": 6577.1, "least_kg": 272, "belts_count": 4, "water_kg": 302.8}
RULE = Rule(
    code="occupant-cargo-capacity",
    title="Capacity for occupants and cargo",
    topic="mass",
    category="legal",
    inputs=Capacity,
    read=read,
    judge=judge,
    formula="gross rating − (delivered + parts + propane) ≥ belted seats · 150 lb",
    sources=(
        Source("49 CFR 571.110 and 571.120", "S9.3 and S10.4, occupant and cargo carrying capacity", CHECKED),
        Source("49 CFR 567.4(g)(3)", "150 lb (68 kg) for each designated seat", CHECKED),
        Source("72 FR 68442", "final rule of 4 December 2007", CHECKED),
    ),
    says={
        "ok": "Occupants and cargo may weigh {measured} together; "
        "{belts_count:its one belted seat asks|its # belted seats ask} for {limit}. "
        "{water_kg:|A full fresh tank takes # of it. |A full fresh tank takes # of it. }Check with your authority.",
        "tight": "Occupants and cargo may weigh {measured} together{spread_kg:|, give or take #|, give or take #}; "
        "{belts_count:its one belted seat alone asks|its # belted seats alone ask} for {limit}. "
        "{water_kg:|A full fresh tank takes #. |A full fresh tank takes #. }Check with your authority.",
        "fails": "{measured:No occupants or cargo may come aboard|Occupants and cargo may weigh # together|Occupants "
        "and cargo may weigh # together}. {excess_kg:|It weighs # too much without them. |It weighs # too much without "
        "them. }{belts_count:Its one belted seat asks|Its # belted seats ask} for {limit}{excess_kg:, {over} more||}. "
        "The empty vehicle weighs {unloaded_kg} of {rating_kg}. Check with your authority.",
    },
    remedy="Leave out something heavy or a belted seat, or choose a vehicle with a higher rating. The label's figure "
    "is weighed, not computed: check with your authority.",
    examples=lambda: (
        Example(_BOX | {"capacity_kg": 900, "unloaded_kg": 5677.1}, "ok", "four belts, 1,984 lb left"),
        Example(_BOX | {"capacity_kg": 287, "unloaded_kg": 6290.1}, "ok", "just outside 95 %"),
        Example(_BOX | {"capacity_kg": 272, "unloaded_kg": 6305.1}, "tight", "exactly what the seats ask for"),
        Example(_BOX | {"capacity_kg": 271.1, "unloaded_kg": 6306}, "fails", "2 lb less"),
        Example(_BOX | {"capacity_kg": -600, "unloaded_kg": 7177.1}, "fails", "over its rating with nobody aboard"),
        Example(_BOX | {"capacity_kg": 350, "spread_kg": 90, "unloaded_kg": 6227.1}, "tight", "the band reaches below"),
    ),
    follows=("gross-mass",),
    regions="us",
    caution=f"{cautions.WEIGHBRIDGE} {cautions.AUTHORITY} The label is the builder's to certify.",
)
