"""With every seat taken something is left for belongings.

Type approval in the European Union asks of a motor caravan that it can still carry 10 kg for each person and 10 kg for
each metre of its length, after a driver and passengers of 75 kg each, fuel, gas and water as filled for travel. A tank
that an overflow keeps low while driving counts with that filling. The last word is the authority's.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.legal_limits import CHECKED
from engine.catalogue.facets import FreshTank, Seat
from engine.physics.payload_law import least_payload_eu_kg, payload_eu_kg
from engine.rule import MASS_TIGHT, AtLeast, Example, Inputs, Rule, Source, Unknown, fact, mass_unknown


class Payload(Inputs):
    """What is left for belongings, and the least that must be."""

    payload_kg: float = fact("gross rating less running order and all passengers", "computed")
    spread_kg: float = fact("half-width of its 90 % band", "computed", ge=0)
    least_kg: float = fact("least pay-mass, 10·(people + metres)", "regulation", gt=0)
    rating_kg: float = fact("gross rating", "catalogue", gt=0)
    order_kg: float = fact("mass in running order, driver aboard", "computed", gt=0)
    people_count: float = fact("belted seats, the driver's with them", "catalogue", ge=1)
    length_m: float = fact("outside length", "catalogue", gt=0)
    water_kg: float = fact("water as filled for travel, heater included", "computed", ge=0)

    @property
    def excess_kg(self) -> float:
        """What it weighs over its rating before any belongings."""
        return max(0.0, -self.payload_kg)


def read(build: Build, figures: Figures) -> Payload | Unknown | None:
    """Asked in the European Union only; parts without a mass leave it open."""
    legal, mass = figures.legal, figures.mass
    if legal.payload is None:
        return None
    if mass.not_stated:
        return mass_unknown(build, mass.not_stated, mass.not_stated)
    return Payload(
        options=build.ids(Seat, FreshTank),
        payload_kg=legal.payload.allowed_kg,
        spread_kg=legal.spread_kg,
        least_kg=legal.payload.least_kg,
        rating_kg=legal.gross_kg,
        order_kg=legal.payload.empty_kg,
        people_count=float(legal.belted_count),
        length_m=build.vehicle.length_m,
        water_kg=legal.travel_water_kg,
    )


def judge(x: Payload) -> AtLeast:
    """What is left against the least; tight when close, or when the band reaches below."""
    return AtLeast(
        x.payload_kg,
        x.least_kg,
        "kg",
        tight_from=MASS_TIGHT,
        low=x.payload_kg - x.spread_kg,
        high=x.payload_kg + x.spread_kg,
    )


def _van(order_kg: float, spread_kg: float = 0.0) -> dict[str, float]:
    return {
        "payload_kg": payload_eu_kg(3500, order_kg, 3), "spread_kg": spread_kg, "rating_kg": 3500,
        "least_kg": least_payload_eu_kg(4, 5.99), "order_kg": order_kg, "people_count": 4, "length_m": 5.99,
        "water_kg": 100,
    }  # fmt: skip


RULE = Rule(
    code="minimum-payload",
    title="Least payload of a motor caravan",
    topic="mass",
    category="legal",
    inputs=Payload,
    read=read,
    judge=judge,
    formula="gross rating − running order − 75 kg · passengers ≥ 10 · (people + length in m)",
    sources=(
        Source("Regulation (EU) 2021/535", "Annex XIII, pay-mass of motor caravans", CHECKED),
        Source("Regulation (EU) 1230/2012", "Annex I, Part A, 2.6.4.1.2, and Article 2(4)", CHECKED),
    ),
    says={
        "ok": "With {people_count:its one seat|all # seats} taken {measured:nothing is|# is|# are} left for "
        "belongings; the law "
        "asks for {limit}. "
        "Check with your authority.",
        "tight": "With {people_count:its one seat|all # seats} taken "
        "{measured}{spread_kg:|, give or take #,|, give or take #,} are left "
        "for belongings; "
        "the law asks for {limit}.",
        "fails": "With {people_count:its one seat|all # seats} taken {measured:nothing is|# is|# are} left for "
        "belongings. {excess_kg:That is {over} less than the law's {limit}|It weighs # too much; the law asks for "
        "{limit}|It weighs # too much; the law asks for {limit}}. Ready to drive it weighs {order_kg} of {rating_kg}, "
        "{water_kg} of it water. Check with your authority.",
    },
    remedy="Leave out something heavy or a belted seat, limit the tank's filling for travel, or choose a vehicle with "
    "a higher rating. Check with your authority.",
    examples=lambda: (
        Example(_van(3080), "ok", "3,500 kg, 2,900 kg and 180 kg of equipment: 195 kg left of 99.9 kg"),
        Example(_van(3175.1), "tight", "the largest equipment of 275.1 kg: exactly 99.9 kg left"),
        Example(_van(3176), "fails", "0.9 kg more"),
        Example(_van(3400), "fails", "too heavy with its passengers alone"),
        Example(_van(3080, 100), "tight", "the band reaches below"),
    ),
    follows=("gross-mass",),
    regions="eu",
    caution=f"{cautions.WEIGHBRIDGE} {cautions.AUTHORITY}",
)
