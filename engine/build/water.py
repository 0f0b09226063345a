"""Fresh, grey and toilet: litres a day and days to the next stop."""

from typing import NamedTuple

from engine.build.habits import meals_for_two
from engine.build.model import Build
from engine.catalogue.facets import BlackTank, Cassette, FreshTank, GreyTank, WaterOutlet

DRINK_COOK_L = 6.0
"""Drinking and cooking for each person a day (Sphere Handbook 2018: drinking 2.5 to 3 L, cooking 3 to 6 L)."""

WASH_L = 4.0
"""Hands, teeth and face for each person a day (Sphere Handbook 2018, basic hygiene 2 to 6 L)."""

DISHES_L_PER_MEAL = 4.0
"""Washing up after a cooked meal for two (common practice); for others it grows as the meal does, for pots are shared
and plates are not (assumption)."""

PET_L = 1.5
"""Drinking water of a dog a day (common practice)."""

SHOWER_FLOW_L_MIN = 6.0
"""Flow of a camp shower while none is chosen (common practice)."""

TOILET_USES = 5.0
"""Uses of the toilet for each person a day (common practice)."""

BODY_WASTE_L = 1.5
"""Body waste for each person a day (common practice)."""

BLACK_FLUSH_L = 1.0
"""Flush of a toilet on a fixed waste tank (common practice)."""

BLACK_L = BODY_WASTE_L + BLACK_FLUSH_L * TOILET_USES
"""What each person brings into such a tank in a day."""

COLD_DEGC = 10.0
"""Cold water as it comes from the tank (assumption)."""


class WaterFigures(NamedTuple):
    """Litres and days."""

    fresh_l: float
    grey_l: float
    use_l_d: float
    shower_l_d: float
    dishes_l_d: float
    grey_l_d: float
    fresh_days: float | None
    """None without a fresh tank."""
    grey_days: float | None
    """None without a grey tank, or a fresh one whose water could fill it."""
    toilet_l: float
    toilet_days: float | None
    """None without a toilet."""
    shower_flow_l_min: float


def water_figures(build: Build) -> WaterFigures:
    """Daily use by the trip's habits against the tanks."""
    trip = build.trip
    people = trip.people
    flows = [f.flow_l_min for _, f in build.facets(WaterOutlet) if f.use == "shower"]
    outdoor = [f.flow_l_min for _, f in build.facets(WaterOutlet) if f.use == "outdoor-shower"]
    flow = min(flows or outdoor or [SHOWER_FLOW_L_MIN])
    # Where no shower is, inside or out, nobody takes one.
    shower_l = trip.showers_per_day * people * trip.shower_minutes * flow if flows or outdoor else 0.0
    cassettes = build.facets(Cassette)
    blacks = build.facets(BlackTank)
    flush_l = (cassettes[0][1].flush_l if cassettes else BLACK_FLUSH_L if blacks else 0.0) * TOILET_USES * people
    dishes_l = DISHES_L_PER_MEAL * meals_for_two(trip)
    wash_l = WASH_L * people + dishes_l
    use = DRINK_COOK_L * people + PET_L * trip.pets + wash_l + shower_l + flush_l
    grey = wash_l + (shower_l if flows else 0.0)
    fresh_l = sum(f.volume_l * p.count for p, f in build.facets(FreshTank))
    grey_l = sum(f.volume_l * p.count for p, f in build.facets(GreyTank))
    toilet = 0.0
    for part, c in cassettes:
        if c.people_days_per_fill is not None:
            toilet += c.people_days_per_fill * part.count / people
        else:
            toilet += c.volume_l * part.count / ((BODY_WASTE_L + c.flush_l * TOILET_USES) * people)
    for part, b in blacks:
        toilet += b.volume_l * part.count / (BLACK_L * people)
    return WaterFigures(
        fresh_l=fresh_l,
        grey_l=grey_l,
        use_l_d=use,
        shower_l_d=shower_l,
        dishes_l_d=dishes_l,
        grey_l_d=grey,
        fresh_days=fresh_l / use if fresh_l else None,
        grey_days=grey_l / grey if grey_l and fresh_l else None,
        toilet_l=sum(c.volume_l * p.count for p, c in cassettes) + sum(b.volume_l * p.count for p, b in blacks),
        toilet_days=toilet if cassettes or blacks else None,
        shower_flow_l_min=flow,
    )
