"""Winter for the eye: through the wall, where heat goes, the coldest night and a damp day by the hour.

Slow figures that only charts show. Rules compare the quick ones, which are made from the same parts.
"""

from functools import lru_cache
from typing import NamedTuple

from engine.build.damp import (
    DRIEST_DEGC,
    NIGHT_FRAC,
    WET_GEAR_KG_D,
    DampFigures,
    cooking_kg_d,
    sleepers_count,
    still_air_m,
)
from engine.build.model import Build
from engine.build.openings import OpeningFigures
from engine.build.shell import Ply
from engine.build.warm_room import (
    DAY_RANGE_K,
    EVENING_H,
    MORNING_H,
    MOST_HEAT_W,
    living_room,
    night_hours,
    winter_air_degc,
)
from engine.build.warmth import WarmthFigures, living_air_m3
from engine.catalogue.facets import WaterOutlet
from engine.physics.air_change import stack_m3_h, together_m3_h, wind_m3_h
from engine.physics.condensation import dry_up_to_frac, layer_faces_degc, surface_degc
from engine.physics.damp import ASLEEP_KG_H, AWAKE_KG_H, SHOWER_KG_MIN
from engine.physics.damp_hours import DampHour, damp_hours
from engine.physics.heat import SURFACE_INSIDE_M2K_W, SURFACE_OUTSIDE_M2K_W
from engine.physics.moist_air import dew_point_degc, relative_humidity_frac, vapour_kpa, water_kg_m3
from engine.physics.room_heat import Room, RoomHour, room_hours
from engine.physics.solar_gain import air_day_degc

ASLEEP = frozenset((22, 23, 0, 1, 2, 3, 4, 5, 6))
AWAKE = frozenset((7, 8, 18, 19, 20, 21))
DRYING = frozenset(range(17, 22))
MEALS, SHOWERS = (19, 8, 13), (7, 21)
"""Hours from midnight in which people sleep, sit inside, dry their things, cook and shower (assumptions; a fourth meal
is cooked with the third)."""

WIND_M_S, VENT_HEIGHT_M = 2.0, 1.8
"""A light wind at the vehicle, and from low to high vents (assumptions)."""

CUTS = 6
"""Points inside a layer, for the bend of the dew point's line."""

DRIEST_KPA = 0.0011
"""The dew point is told of no drier air."""


class Through(NamedTuple):
    """Temperature and dew point through a wall on the coldest night, from the room outwards."""

    surface: str
    layers_m: tuple[tuple[str, str, float], ...]
    """(name, part, thickness in m)."""
    films_degc: tuple[float, float]
    """Air inside and outside."""
    faces_degc: tuple[float, ...]
    """Between film and first layer, between layers, outermost."""
    room_dew_degc: float
    dew_degc: tuple[tuple[int, float, float, float], ...]
    """(layer, share of its depth, temperature, dew point) along the way; empty where a layer is not known."""
    unknown: str
    """Name of that layer."""

    @property
    def wet(self) -> bool:
        """Whether the dew point lies above the temperature anywhere."""
        return any(dew > t for _, _, t, dew in self.dew_degc)


class Night(NamedTuple):
    """Air by the hour from evening to morning; the first value is that of the evening's start."""

    hours: tuple[int, ...]
    outside_degc: tuple[float, ...]
    heated_degc: tuple[float, ...]
    """Empty without a heater."""
    off_degc: tuple[float, ...]
    """With no heat since the evening."""


class DampDay(NamedTuple):
    """An ordinary day of the coldest month, lived in and kept warm."""

    humidity_frac: tuple[float, ...]
    """Inside at the end of each hour from 1 to 24."""
    source_kg: tuple[float, ...]
    """Water that goes into the air in each hour."""
    glass: str
    glass_frac: tuple[float, ...]
    """Humidity up to which the coldest glass or door stays dry; empty without any."""
    structure: str
    structure_frac: tuple[float, ...]
    """The same of the coldest place of the structure."""
    wiped_kg: float
    """Water that settles on that glass in the day and is still there in the evening."""
    still_m3_h: float
    """What the fixed vents move without wind, by warmth alone."""
    wind_m3_h: float
    """The same in a light wind."""


@lru_cache(maxsize=64)
def through(surface: str, plies: tuple[Ply, ...], inside: float, humidity_frac: float, outside: float) -> Through:
    """A section between ribs and battens. Vapour flows as if nothing condensed, as in the first step of ISO 13788."""
    layers = tuple((p.name, str(p.part), p.layer.thickness_m) for p in plies)
    each = tuple(p.layer.thickness_m / p.layer.conductivity_w_mk for p in plies)
    faces = layer_faces_degc((SURFACE_INSIDE_M2K_W[surface], *each, SURFACE_OUTSIDE_M2K_W), inside, outside)[:-1]
    room = vapour_kpa(inside, humidity_frac)
    air_m = [still_air_m(p) for p in plies]
    unknown = next((p.name for p, a in zip(plies, air_m, strict=True) if a is None), "")
    known = [a for a in air_m if a is not None]
    dew: list[tuple[int, float, float, float]] = []
    if not unknown:
        drop = (room - vapour_kpa(max(DRIEST_DEGC, outside), NIGHT_FRAC)) / (
            sum(known) + sum(p.barrier_m for p in plies)
        )
        before = 0.0
        for i, (p, m) in enumerate(zip(plies, known, strict=True)):
            before += p.barrier_m
            for k in range(CUTS + 1):
                share = k / CUTS
                held = max(DRIEST_KPA, room - drop * (before + share * m))
                dew.append((i, share, faces[i] + share * (faces[i + 1] - faces[i]), dew_point_degc(held)))
            before += m
    return Through(
        surface, layers, (inside, outside), faces, dew_point_degc(max(DRIEST_KPA, room)), tuple(dew), unknown
    )


@lru_cache(maxsize=64)
def _night(room: Room, inside: float, coldest: float, output_w: float) -> Night:
    air, order = winter_air_degc(coldest), night_hours()
    hours = tuple(RoomHour(air[h], air[h], heat_to_degc=inside, heating_w=output_w) for h in order)

    def run(hours: tuple[RoomHour, ...]) -> tuple[float, ...]:
        return (inside, *(s.air_degc for s in room_hours(room, hours, inside)))

    return Night(
        (*order, MORNING_H),
        (air[EVENING_H - 1], *(air[h] for h in order)),
        run(hours) if output_w else (),
        run(tuple(h._replace(heating_w=0.0) for h in hours)),
    )


def cold_night(build: Build, warmth: WarmthFigures) -> Night | None:
    """The coldest night of the trip; None where none is colder than the warmth wanted."""
    room = living_room(build, warmth) if warmth.design_loss_w > 0 else None
    if room is None:
        return None
    return _night(room, float(build.trip.inside_degc), warmth.design_degc, min(MOST_HEAT_W, warmth.output_w))


def _spread(amount: float, at: tuple[int, ...]) -> dict[int, float]:
    """One after the other a whole one to each hour, what is over to the last."""
    shares = {h: min(1.0, max(0.0, amount - i)) for i, h in enumerate(at)}
    shares[at[-1]] += max(0.0, amount - len(at))
    return shares


@lru_cache(maxsize=64)
def _damp_day(
    source_kg: tuple[float, ...], air_m3_h: tuple[float, ...], inside: float, outside: tuple[float, ...],
    outside_kg_m3: float, coldest_frac: float, glass_m2: float, volume_m3: float,
) -> tuple[tuple[float, ...], float]:  # fmt: skip
    hours = tuple(
        DampHour(
            source, air, inside, t, min(1.0, relative_humidity_frac(t, outside_kg_m3)),
            surface_degc(inside, t, coldest_frac),
        )
        for source, air, t in zip(source_kg, air_m3_h, outside, strict=True)
    )  # fmt: skip
    # Two days before it, so that the evening's damp is there in the morning; glass is wiped dry before the last.
    lead = damp_hours(hours * 2, volume_m3, glass_m2, 0.5)[-1]
    start = min(1.0, relative_humidity_frac(inside, lead.held_kg_m3))
    day = damp_hours(hours, volume_m3, glass_m2, start)
    return tuple(min(1.0, s.humidity_frac) for s in day), day[-1].on_surface_kg


def damp_day(
    build: Build, warmth: WarmthFigures, damp: DampFigures | None, openings: OpeningFigures, room_gas_kg_d: float
) -> DampDay | None:
    """Damp by the hour; None for trips that need no heating."""
    if damp is None:
        return None
    trip, inside = build.trip, damp.mean_inside_degc
    air = tuple(
        max(DRIEST_DEGC, t) for t in air_day_degc(damp.mean_degc - DAY_RANGE_K / 2, damp.mean_degc + DAY_RANGE_K / 2)
    )
    sleepers = sleepers_count(trip)
    meals = _spread(trip.hot_meals_per_day, MEALS)
    meal_kg = cooking_kg_d(trip, room_gas_kg_d) / max(1e-9, trip.hot_meals_per_day)
    indoors = any(f.use == "shower" for _, f in build.facets(WaterOutlet))
    showers = trip.showers_per_day * trip.people * trip.shower_minutes * SHOWER_KG_MIN if indoors else 0.0
    source, moved = [], []
    for h in range(24):
        cooked = meal_kg * meals.get(h, 0.0)
        washed = showers / len(SHOWERS) if h in SHOWERS else 0.0
        kg = damp.flueless_kg_h + cooked + washed
        kg += sleepers * (ASLEEP_KG_H if h in ASLEEP else AWAKE_KG_H if h in AWAKE else 0.0)
        kg += WET_GEAR_KG_D / len(DRYING) if h in DRYING else 0.0
        source.append(kg)
        moved.append(damp.air_m3_h + (damp.fan_m3_h if cooked or washed else 0.0))
    glass = next((s for s in damp.spots if s.glass), None)
    wall = next((s for s in damp.spots if not s.glass), None)
    area = sum(s.area_m2 for s in warmth.surfaces if s.kind != "surface")
    coldest = glass or wall
    humidity, wiped = _damp_day(
        tuple(source), tuple(min(2000.0, m) for m in moved), inside, air,
        water_kg_m3(max(DRIEST_DEGC, damp.mean_degc), damp.mean_frac),
        coldest.factor_frac if coldest else 1.0, min(50.0, area) if glass else 0.0,
        min(200.0, max(1.0, living_air_m3(build))),
    )  # fmt: skip
    low, high = min(5.0, openings.low_m2), min(5.0, openings.high_m2)
    still = stack_m3_h(low, high, VENT_HEIGHT_M, inside, max(-50.0, damp.mean_degc))
    return DampDay(
        humidity_frac=humidity,
        source_kg=tuple(source),
        glass=glass.name if glass else "",
        glass_frac=tuple(dry_up_to_frac(inside, t, glass.factor_frac) for t in air) if glass else (),
        structure=wall.name if wall else "",
        structure_frac=tuple(dry_up_to_frac(inside, t, wall.factor_frac) for t in air) if wall else (),
        wiped_kg=wiped,
        still_m3_h=still,
        wind_m3_h=together_m3_h(still, wind_m3_h(low, high, WIND_M_S, 0.3)),
    )
