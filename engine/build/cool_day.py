"""A cooler's work on the hottest day of the trip: hours, electricity, and how warm it gets all the same."""

from functools import lru_cache
from typing import NamedTuple

from engine.build.habits import COOLING_FROM_DEGC, hottest_degc
from engine.build.model import Build
from engine.build.shell import SurfaceLoss
from engine.build.warm_room import MOST_HEAT_W, living_room
from engine.build.warmth import WarmthFigures
from engine.catalogue.facets import AirConditioner
from engine.physics.cooling import PERSON_SENSIBLE_W, SENSIBLE_FRAC, capacity_frac, input_frac
from engine.physics.room_heat import Room, RoomHour, room_hours
from engine.physics.solar_gain import LIGHT_PAINT_FRAC, air_day_degc, shell_sun, sol_air_degc, sun_through_w

COOL_TO_DEGC = 26.0
"""Warmth that a cooler is set to (common practice)."""

DAY_RANGE_K = 12.0
"""From the coldest hour of the hottest day to its hottest (common practice)."""

TURBIDITY_MULTIPLE = 3.5
"""Haze of country air in summer (Linke)."""

GLASS_GAIN_FRAC = 0.5
"""Sun's heat through glass with its blind half drawn (assumption)."""

EQUIPMENT_W = 60.0
"""Fridge, lights and chargers (assumption)."""

CURVE_DEGC = (18.0, 46.1)
"""Outside air for which the curve of coolers holds; beyond it its end counts."""


class Heat(NamedTuple):
    """What the hottest day is made from."""

    latitude_deg: float
    altitude_m: float
    day_of_year: int
    hottest_degc: float
    shell_w_k: tuple[tuple[str, float], ...]
    """(surface, heat lost for each kelvin) of walls, roof, floor and doors."""
    glass_m2: tuple[float, float]
    """In walls, in the roof."""
    people_count: int


class CoolDay(NamedTuple):
    """The hottest day with the cooler on, day and night, and everybody aboard."""

    hottest_degc: float
    """Outside."""
    running_h: float
    """Hours at full power that its work makes."""
    electric_wh_d: float
    warmest_degc: float
    """Inside with the cooler."""
    alone_degc: float
    """Inside without it."""


def _in_curve(outside_degc: float) -> float:
    return min(max(outside_degc, CURVE_DEGC[0]), CURVE_DEGC[1])


@lru_cache(maxsize=256)
def _day(room: Room, heat: Heat, cooling_w: float, input_w: float) -> CoolDay:
    sun = shell_sun(heat.latitude_deg, heat.day_of_year, heat.altitude_m, TURBIDITY_MULTIPLE)
    air = air_day_degc(heat.hottest_degc - DAY_RANGE_K, heat.hottest_degc)
    whole = sum(w for _, w in heat.shell_w_k)
    hours, alone = [], []
    for light, t in zip(sun, air, strict=True):
        on = {"roof": light.roof_w_m2, "floor": 0.0}
        skin = sum(
            w * sol_air_degc(t, on.get(name, light.wall_w_m2), LIGHT_PAINT_FRAC) for name, w in heat.shell_w_k
        ) / max(1e-9, whole)
        walls_m2, roof_m2 = heat.glass_m2
        through = sun_through_w(walls_m2, GLASS_GAIN_FRAC, light.wall_w_m2)
        through += sun_through_w(roof_m2, GLASS_GAIN_FRAC, light.roof_w_m2)
        free = RoomHour(t, skin, PERSON_SENSIBLE_W * heat.people_count + EQUIPMENT_W, through)
        alone.append(free)
        hours.append(
            free._replace(cool_to_degc=COOL_TO_DEGC, cooling_w=cooling_w * SENSIBLE_FRAC * capacity_frac(_in_curve(t)))
        )
    # A day before it, so that the evening's warmth is in walls and furniture in the morning.
    cooled = room_hours(room, tuple(hours) * 2, COOL_TO_DEGC)[24:]
    warm = room_hours(room, tuple(alone) * 2, air[-1])[24:]
    shares = [s.cooling_w / h.cooling_w for s, h in zip(cooled, hours, strict=True)]
    power = sum(x * input_w * input_frac(_in_curve(t)) for x, t in zip(shares, air, strict=True))
    return CoolDay(
        heat.hottest_degc, sum(shares), power, max(s.mean_air_degc for s in cooled), max(s.mean_air_degc for s in warm)
    )


def _glass_m2(surfaces: tuple[SurfaceLoss, ...], build: Build) -> tuple[float, float]:
    glass = sum(s.area_m2 for s in surfaces if s.kind == "glass")
    net_roof = next(s.area_m2 for s in surfaces if s.name == "roof")
    in_roof = min(glass, max(0.0, build.vehicle.shell.roof_m2 - net_roof))
    return glass - in_roof, in_roof


def cool_day(build: Build, warmth: WarmthFigures) -> CoolDay | None:
    """The hottest day of the trip; None without a cooler or where it is not used."""
    coolers = build.facets(AirConditioner)
    hottest = hottest_degc(build)
    if not coolers or not build.trip.cooling or hottest <= COOLING_FROM_DEGC:
        return None
    climate = build.climate
    month = max(build.trip.months, key=lambda m: (climate.hottest_day_degc[m - 1], -m))
    heat = Heat(
        climate.latitude_deg,
        max(-100.0, climate.altitude_m),
        round((month - 0.5) * 365 / 12),
        hottest,
        tuple((s.name, s.loss_w_k) for s in warmth.surfaces if s.kind != "glass"),
        _glass_m2(warmth.surfaces, build),
        build.trip.people,
    )
    room = living_room(build, warmth)
    if room is None:
        return None
    cooling_w = min(MOST_HEAT_W, sum(f.cooling_w * p.count for p, f in coolers))
    return _day(room, heat, cooling_w, sum(f.input_w * p.count for p, f in coolers))
