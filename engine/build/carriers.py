"""Bicycles that travel on a carrier outside, and so neither go through the garage's door nor weigh in the garage."""

from typing import NamedTuple

from engine.build.model import Build, Part
from engine.catalogue.facets import BikeCarrier
from engine.catalogue.trip import CargoBox

BIKE_KG = 15.0
"""A bicycle whose mass is not stated (assumption)."""


class Carried(NamedTuple):
    """What one carrier takes."""

    part: Part
    bikes: tuple[CargoBox, ...]
    mass_kg: float
    load_kg: float
    """What it, or all pieces of it, may carry."""
    too_heavy: CargoBox | None
    """A bicycle that no carrier takes, though this one has an arm free for it: it bears no more."""


def is_bike(box: CargoBox) -> bool:
    """Whether it has the shape of a bicycle, a child's to a long one, and stays upright (sizes: common practice)."""
    return not box.any_way_up and 1.0 <= box.length_m <= 2.1 and box.width_m <= 0.8 and 0.6 <= box.height_m <= 1.3


def bike_kg(box: CargoBox) -> float:
    """Its mass, stated or assumed."""
    return BIKE_KG if box.mass_kg is None else box.mass_kg


def carried(build: Build) -> tuple[Carried, ...]:
    """The bicycles of the trip on the chosen carriers, as many as these have arms and strength for."""
    waiting = [b for b in build.trip.boxes for _ in range(b.count) if is_bike(b)]
    found = []
    for part, f in build.facets(BikeCarrier):
        bikes: list[CargoBox] = []
        for _ in range(part.count):
            arms, left_kg = f.bikes, f.load_kg
            for bike in tuple(waiting):
                if arms and bike_kg(bike) <= left_kg + 1e-9:
                    waiting.remove(bike)
                    bikes.append(bike)
                    arms, left_kg = arms - 1, left_kg - bike_kg(bike)
        found.append((part, f, tuple(bikes)))
    return tuple(
        Carried(part, bikes, sum(map(bike_kg, bikes)), f.load_kg * part.count, waiting[0] if heavy else None)
        for part, f, bikes in found
        if (heavy := bool(waiting) and len(bikes) < f.bikes * part.count) or bikes
    )


def garage_kg(build: Build, outside: tuple[Carried, ...]) -> float:
    """Baggage that is left for the garage: bicycles are part of what was stated."""
    return max(0.0, build.trip.baggage_kg - sum(c.mass_kg for c in outside))
