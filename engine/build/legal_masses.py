"""What the law makes of a build's masses: what may be carried, what must be carried, who may drive it."""

from typing import NamedTuple

from engine.build.legal_limits import LICENCES, SIZES, SLOWER, Size, Slower, Step, step_of
from engine.build.mass_items import FUEL_KG_L, gas_held_kg
from engine.build.masses import MassFigures
from engine.build.model import Build
from engine.build.plan_people import belted_places
from engine.catalogue.facets import FreshTank, WaterHeater
from engine.physics.payload_law import (
    capacity_us_kg,
    least_capacity_us_kg,
    least_payload_eu_kg,
    payload_eu_kg,
    running_order_eu_kg,
)


class Allowance(NamedTuple):
    """What the law lets a build carry, and the least it must be able to."""

    empty_kg: float
    """The vehicle as that law counts it before anything is carried."""
    allowed_kg: float
    least_kg: float


class LegalFigures(NamedTuple):
    """Masses and sizes in the words of the region's law."""

    gross_kg: float
    spread_kg: float
    """Half-width of the 90 % band of all that is built in."""
    travel_water_kg: float
    """Fresh water at the filling that tanks are made to travel with, and the water heater's content."""
    belted_count: int
    """Seats with belts that have a place in the plan, those of the cab with them."""
    capacity: Allowance | None
    """United States: occupants and cargo together."""
    payload: Allowance | None
    """European Union: belongings, with all seats taken."""
    ordinary: Step
    """The ordinary car licence of the region."""
    needed: Step
    """The licence class in which the gross rating falls."""
    size: Size
    unladen_kg: float
    """All that is built in, without fuel, water, gas, people or belongings."""
    slower: Slower | None


def legal_figures(build: Build, mass: MassFigures) -> LegalFigures:
    """Masses as the region's law counts them. Parts whose mass is not stated are missing here: the rules say so."""
    v, region = build.vehicle, build.workshop.region
    dry = min(mass.cases, key=lambda c: c.axles.total_kg)  # all that is built in, tank full, nobody aboard
    built_kg = dry.axles.total_kg
    gas_kg = gas_held_kg(build)
    water_kg = sum(
        (f.volume_l if f.travel_fill_l is None else min(f.travel_fill_l, f.volume_l)) * p.count
        for p, f in build.facets(FreshTank)
    ) + sum(f.volume_l * p.count for p, f in build.facets(WaterHeater))
    belted = belted_places(build)  # seats that cannot be built in are no designated seats
    fuel_kg = v.engine.fuel_l * FUEL_KG_L[v.engine.fuel]
    capacity = payload = None
    if region == "us":
        unloaded_kg = built_kg + gas_kg
        capacity = Allowance(
            unloaded_kg, capacity_us_kg(v.masses.gross_kg, unloaded_kg), least_capacity_us_kg(float(belted))
        )
    elif region == "eu":
        order_kg = running_order_eu_kg(built_kg, fuel_kg, gas_kg, water_kg)
        payload = Allowance(
            order_kg,
            payload_eu_kg(v.masses.gross_kg, order_kg, float(belted - 1)),
            least_payload_eu_kg(float(belted), v.length_m),
        )
    return LegalFigures(
        gross_kg=v.masses.gross_kg,
        spread_kg=dry.spread_kg,
        travel_water_kg=water_kg,
        belted_count=belted,
        capacity=capacity,
        payload=payload,
        ordinary=LICENCES[region].steps[0],
        needed=step_of(region, v.masses.gross_kg),
        size=SIZES[region],
        unladen_kg=built_kg - fuel_kg,
        slower=SLOWER.get(region),
    )
