"""Masses and axle loads of a build in the load cases that matter."""

from functools import lru_cache
from math import sqrt
from typing import NamedTuple

from engine.build.model import Build
from engine.catalogue.facets import BlackTank, Cassette, FreshTank, GasStore, GreyTank
from engine.physics.axle import AxleLoads, PointLoad, axle_loads
from engine.physics.fuel import tank_content_kg

ADULT_KG = {"us": 68.0, "eu": 75.0, "uk": 75.0, "au": 75.0}
"""Mass of a grown-up by region: 150 lb (49 CFR 567.4(g)(3)); 75 kg (Regulation (EU) 1230/2012, Annex I)."""

CHILD_KG = 40.0
"""A child (assumption)."""

PET_KG = 25.0
"""A dog with its gear (assumption)."""

CONTENT_TOLERANCE_FRAC = 0.10
"""How far people and baggage may differ from what was stated (assumption)."""


class Item(NamedTuple):
    """A mass with its place and its uncertainty."""

    name: str
    mass_kg: float
    x_m: float
    sigma_kg: float
    """Half-width within which the mass lies nine times in ten."""


class LoadCase(NamedTuple):
    """Axle loads in one state of filling and occupancy."""

    name: str
    axles: AxleLoads
    spread_kg: float
    """Half-width of the total's 90 % band."""
    front_spread_kg: float
    rear_spread_kg: float


class MassFigures(NamedTuple):
    """What a build weighs and where."""

    gross_rating_kg: float
    front_rating_kg: float
    rear_rating_kg: float
    fit_out_kg: float
    fresh_water_kg: float
    grey_water_kg: float
    people_kg: float
    cases: tuple[LoadCase, ...]
    heaviest: LoadCase
    not_stated: tuple[str, ...]
    """Ids of chosen options whose mass the catalogue does not state."""
    largest: tuple[Item, ...]
    """The heaviest items of the fully loaded state, heaviest first."""
    largest_ids: tuple[str, ...]
    """Ids of the heaviest chosen options, heaviest first."""

    @property
    def front_worst(self) -> LoadCase:
        """The load case with most on the front axle."""
        return max(self.cases, key=lambda c: c.axles.front_kg)

    @property
    def rear_worst(self) -> LoadCase:
        """The load case with most on the rear axle."""
        return max(self.cases, key=lambda c: c.axles.rear_kg)

    @property
    def steer_lightest(self) -> LoadCase:
        """The load case with the smallest share of its mass on the front axle."""
        return min(self.cases, key=lambda c: c.axles.front_kg / c.axles.total_kg)


def _spread(items: tuple[Item, ...], wheelbase_m: float) -> tuple[float, float, float]:
    """Half-widths of total, front and rear: the items' errors are independent, so their squares add."""
    total = front = rear = 0.0
    for item in items:
        share = item.x_m / wheelbase_m
        total += item.sigma_kg**2
        rear += (item.sigma_kg * share) ** 2
        front += (item.sigma_kg * (1 - share)) ** 2
    return sqrt(total), sqrt(front), sqrt(rear)


@lru_cache(maxsize=4096)
def _case(name: str, items: tuple[Item, ...], wheelbase_m: float) -> LoadCase:
    axles = axle_loads((PointLoad(i.mass_kg, i.x_m) for i in items), wheelbase_m)
    return LoadCase(name, axles, *_spread(items, wheelbase_m))


def _people(build: Build) -> tuple[Item, ...]:
    """Grown-ups first into the cab seats, then children, then everybody else at the seats of the living space."""
    adult = ADULT_KG[build.workshop.region]
    spots = [seat.x_m for seat in build.vehicle.seats]
    beyond = build.vehicle.place("seating").x_m
    masses = [adult] * build.trip.adults + [CHILD_KG] * build.trip.children
    items = [
        Item("people", m, spots[i] if i < len(spots) else beyond, m * CONTENT_TOLERANCE_FRAC)
        for i, m in enumerate(masses)
    ]
    if build.trip.pets:
        items.append(Item("pets", PET_KG * build.trip.pets, beyond, 10.0))
    return tuple(items)


def gas_content_kg(store: GasStore) -> float:
    """Gas a store legally holds when full."""
    if store.content_kg is not None:
        return store.content_kg
    assert store.total_volume_l is not None  # the model has one or the other
    return tank_content_kg(store.total_volume_l, store.fill_frac)


def mass_figures(build: Build) -> MassFigures:
    """Masses and axle loads of a build: dry and empty, ready to leave, and on the way home."""
    v = build.vehicle
    m = v.masses
    bare = (
        Item("front axle as delivered", m.empty_front_kg, 0.0, m.empty_front_kg * m.tolerance_frac),
        Item("rear axle as delivered", m.empty_rear_kg, v.wheelbase_m, m.empty_rear_kg * m.tolerance_frac),
    )
    parts = tuple(
        Item(p.option.name, p.mass_kg, p.x_m, p.mass_kg * p.mass_tolerance_frac)
        for p in build.parts
        if p.mass_kg is not None
    )
    fresh = _fluids(build, FreshTank, "fresh water")
    grey = _fluids(build, GreyTank, "grey water")
    toilet = _fluids(build, BlackTank, "toilet waste") + _fluids(build, Cassette, "toilet waste")
    gas = tuple(Item("gas", gas_content_kg(f) * p.count, p.x_m, 0.5) for p, f in build.facets(GasStore))
    people = _people(build)
    baggage_kg = build.trip.baggage_kg
    baggage = (Item("baggage", baggage_kg, v.place("garage").x_m, baggage_kg * CONTENT_TOLERANCE_FRAC),)
    fixed = bare + parts
    aboard = people + gas + (baggage if baggage_kg else ())
    leaving = fixed + aboard + fresh
    cases = (
        _case("dry and empty", fixed, v.wheelbase_m),
        _case("full fresh water, all aboard", leaving, v.wheelbase_m),
        _case("full waste tanks, all aboard", fixed + aboard + grey + toilet, v.wheelbase_m),
    )
    return MassFigures(
        gross_rating_kg=m.gross_kg,
        front_rating_kg=m.front_axle_rating_kg,
        rear_rating_kg=m.rear_axle_rating_kg,
        fit_out_kg=sum(i.mass_kg for i in parts),
        fresh_water_kg=sum(i.mass_kg for i in fresh),
        grey_water_kg=sum(i.mass_kg for i in grey),
        people_kg=sum(i.mass_kg for i in people),
        cases=cases,
        heaviest=max(cases, key=lambda c: c.axles.total_kg),
        not_stated=tuple(p.option.id for p in build.parts if p.mass_kg is None),
        largest=tuple(sorted(parts + aboard + fresh, key=lambda i: -i.mass_kg)[:6]),
        largest_ids=tuple(p.option.id for p in sorted(build.parts, key=lambda p: -(p.mass_kg or 0.0))[:3]),
    )


def _fluids(build: Build, kind: type[FreshTank | GreyTank | BlackTank | Cassette], name: str) -> tuple[Item, ...]:
    return tuple(Item(name, f.volume_l * p.count, p.x_m, 0.5) for p, f in build.facets(kind))
