"""Every mass of a build with its place: what is built in, and what can be aboard."""

from functools import lru_cache

from engine.build.carriers import carried, garage_kg
from engine.build.model import Build, Part
from engine.catalogue.facets import BlackTank, Cassette, FreshTank, GasStore, GreyTank, WaterHeater
from engine.catalogue.facets import Seat as SeatFacet
from engine.catalogue.vehicle import Place
from engine.physics.fuel import tank_content_kg
from engine.physics.gas_supply import content_kg
from engine.physics.load_cases import Load, Loading, Seat, sums

ADULT_KG = {"us": 68.0, "eu": 75.0, "uk": 75.0, "au": 75.0}
"""Mass of a grown-up by region: 150 lb (49 CFR 567.4(g)(3)); 75 kg (Regulation (EU) 1230/2012, Annex I)."""

ADULT_SOURCE = {"us": "49 CFR 567.4(g)(3)"}
OTHER_SOURCE = "Regulation (EU) 1230/2012"
"""Where that comes from, in a reader's words: for a region, and for all others."""

CHILD_KG = 40.0
"""A child (assumption)."""

PET_KG = 25.0
"""A dog with its gear (assumption)."""

CONTENT_TOLERANCE_FRAC = 0.10
"""How far people and baggage may differ from what was stated (assumption)."""

FUEL_KG_L = {"diesel": 0.835, "petrol": 0.748, "electric": 0.0}
"""Middle of what EN 590 and EN 228 allow at 15 °C: 0.820 to 0.845 and 0.720 to 0.775 (from memory)."""

UNLISTED = "fixings, glue, wire and plumbing"
CORRECTION = "correction from the weighbridge"
NOSE = "trailer's nose"
FUEL = "burnt fuel"
BIKES = "bicycles"


def gas_content_kg(store: GasStore) -> float:
    """Gas a store legally holds when full."""
    if store.content_kg is not None:
        return store.content_kg
    assert store.total_volume_l is not None  # the model has one or the other
    if store.container == "cylinder":
        return content_kg(store.total_volume_l)  # filled by weight
    return tank_content_kg(store.total_volume_l, store.fill_frac)


def gas_held_kg(build: Build) -> float:
    """Gas in all stores when full."""
    return sum(gas_content_kg(f) * p.count for p, f in build.facets(GasStore))


def delivered(build: Build) -> tuple[Load, Load]:
    """The base vehicle on its two axles. One scale weighed both, so that their errors go together."""
    v, m = build.vehicle, build.vehicle.masses
    front_kg, rear_kg = m.empty_front_kg, m.empty_rear_kg
    group, z = "delivered vehicle", m.cg_height_m
    return (
        Load("front axle as delivered", front_kg, 0.0, 0.0, z, front_kg * m.tolerance_frac, group),
        Load("rear axle as delivered", rear_kg, v.wheelbase_m, 0.0, z, rear_kg * m.tolerance_frac, group),
    )


@lru_cache(maxsize=512)
def parts(chosen: tuple[Part, ...]) -> tuple[Load, ...]:
    """The chosen parts whose mass is stated. Pieces of one option share its error; options do not."""
    return tuple(_part(p) for p in chosen if p.mass_kg is not None)


@lru_cache(maxsize=8192)
def _part(p: Part) -> Load:
    mass_kg = p.mass_kg or 0.0
    return Load(p.option.name, mass_kg, p.x_m, p.y_m, p.z_m, mass_kg * p.mass_tolerance_frac)


def unlisted(build: Build, fitted: tuple[Load, ...]) -> Load | None:
    """The workshop's allowance for what nobody lists, where the fit-out has its centre; None without one."""
    share = build.workshop.unlisted_work_frac
    all_ = sums(fitted)
    if not share or all_.mass_kg <= 0:
        return None
    mass_kg = share * all_.mass_kg
    return Load(
        UNLISTED, mass_kg, all_.x_kgm / all_.mass_kg, all_.y_kgm / all_.mass_kg, all_.z_kgm / all_.mass_kg,
        mass_kg * build.workshop.unlisted_work_tolerance_frac, "unlisted work",
    )  # fmt: skip


def _seats(build: Build, people: int) -> list[Seat]:
    """Driver's seat, the other seats of the cab, fitted seats with belts, and the living space for all beyond."""
    cab_z, beyond = build.vehicle.place("cab").z_m, build.vehicle.place("seating")
    seats = [Seat(s.x_m, s.y_m, cab_z) for s in build.vehicle.seats]
    for part, facet in build.facets(SeatFacet):
        seats += [Seat(part.x_m, part.y_m, part.z_m)] * (facet.belted * part.count)
    return seats + [Seat(beyond.x_m, beyond.y_m, beyond.z_m)] * max(0, people - len(seats))


def travellers(build: Build, masses: list[float]) -> tuple[tuple[Load, ...], tuple[Seat, ...]]:
    """People of these masses, seated in order from the driver's seat on, and all seats there are."""
    seats = _seats(build, len(masses))
    people = tuple(
        Load("people", m, s.x_m, s.y_m, s.z_m, m * CONTENT_TOLERANCE_FRAC, "people")
        for m, s in zip(masses, seats, strict=False)
    )
    return people, tuple(seats)


def fresh_tanks(build: Build) -> tuple[Load, ...]:
    """Drinking water, every tank full."""
    return tuple(
        Load("fresh water", f.volume_l * p.count, p.x_m, p.y_m, p.z_m, 0.5) for p, f in build.facets(FreshTank)
    )


def waste_tanks(build: Build) -> tuple[Load, ...]:
    """Grey water and toilet waste, every tank full."""
    grey = tuple(Load("grey water", f.volume_l * p.count, p.x_m, p.y_m, p.z_m, 0.5) for p, f in build.facets(GreyTank))
    black = [(f.volume_l * p.count, p) for p, f in build.facets(BlackTank)]
    cassettes = [(f.volume_l * p.count, p) for p, f in build.facets(Cassette)]
    return grey + tuple(Load("toilet waste", kg, p.x_m, p.y_m, p.z_m, 0.5) for kg, p in black + cassettes)


def boiler_water(build: Build) -> tuple[Load, ...]:
    """What stands in water heaters with a store."""
    return tuple(
        Load("water in the boiler", f.volume_l * p.count, p.x_m, p.y_m, p.z_m, 0.5)
        for p, f in build.facets(WaterHeater)
        if f.volume_l
    )


def gas(build: Build) -> tuple[Load, ...]:
    """Gas, every cylinder and tank full."""
    return tuple(Load("gas", gas_content_kg(f) * p.count, p.x_m, p.y_m, p.z_m, 0.5) for p, f in build.facets(GasStore))


def fuel_burnt(build: Build, share_frac: float = 1.0) -> tuple[Load, ...]:
    """What the delivered mass has too much when so much of the fuel is gone; nothing where the tank's place is not
    stated, so that fuel then stays as delivered."""
    e = build.vehicle.engine
    mass_kg = e.fuel_l * FUEL_KG_L[e.fuel] * share_frac
    if e.fuel_x_m is None or mass_kg <= 0:
        return ()
    return (Load(FUEL, -mass_kg, e.fuel_x_m, e.fuel_y_m, e.fuel_z_m),)


def _belongings(build: Build) -> tuple[Load, ...]:
    v, trip = build.vehicle, build.trip
    garage, lockers, beyond = v.place("garage"), v.place("overhead"), v.place("seating")
    found = []
    if trip.pets:
        found.append(Load("pets", PET_KG * trip.pets, beyond.x_m, beyond.y_m, beyond.z_m, 10.0))
    outside = carried(build)
    stowed: list[tuple[str, float, Place | Part]] = [
        ("baggage", garage_kg(build, outside), garage),
        ("things in cupboards", trip.cupboards_kg, lockers),
        *((BIKES, c.mass_kg, c.part) for c in outside),
    ]
    for name, kg, at in stowed:
        if kg:
            found.append(Load(name, kg, at.x_m, at.y_m, at.z_m, kg * CONTENT_TOLERANCE_FRAC, "baggage"))
    if trip.nose_kg:
        x_m = v.coupling_x_m if v.coupling_x_m is not None else v.length_m - v.front_overhang_m
        found.append(Load(NOSE, trip.nose_kg, x_m, 0.0, 0.5, trip.nose_kg * CONTENT_TOLERANCE_FRAC))
    return tuple(found)


def loading(build: Build) -> Loading:
    """All that this trip can put aboard."""
    adult_kg = build.trip.adult_kg or ADULT_KG[build.workshop.region]
    masses = [adult_kg] * build.trip.adults + [CHILD_KG] * build.trip.children
    people, seats = travellers(build, masses)
    fresh, waste = fresh_tanks(build), waste_tanks(build)
    return Loading(
        always=people[:1],
        free=gas(build) + _belongings(build) + boiler_water(build) + fuel_burnt(build),
        water=fresh + waste,
        water_kg=max(sum(t.mass_kg for t in fresh), sum(t.mass_kg for t in waste)),
        people=people[1:],
        seats=seats[1:],
    )
