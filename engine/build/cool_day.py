"""Heat of the trip's hottest day: how warm it gets in sun and shade, and what a cooler does about it and takes."""

from functools import lru_cache
from typing import NamedTuple

from engine.build.fan_air import WINDOW_M2, roof_fan
from engine.build.habits import COOLING_FROM_DEGC, altitude_m, hottest_degc
from engine.build.model import Build
from engine.build.shell import SurfaceLoss
from engine.build.standstill import running_coolers, running_fans
from engine.build.warm_room import MOST_HEAT_W, MOST_W_K, living_room
from engine.build.warmth import WarmthFigures
from engine.physics.air_change import fan_m3_h, wind_m3_h
from engine.physics.cooling import PERSON_SENSIBLE_W, SENSIBLE_FRAC, Sunlit, capacity_frac, heat_gains, input_frac
from engine.physics.heat import air_loss_w_k
from engine.physics.room_heat import Room, RoomHour, RoomState, room_hours
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

WEEK_FRAC = 0.7
"""The one day that stands for the hottest week lies so far from the month's usual warmest hour to its hottest: in the
summers of typical years (Denver, Greensboro, Miami) its warmest hour is the week's mean one, or up to 2.5 K above."""

WIND_M_S = 1.0
"""What stirs the air on a hot day (assumption)."""

LEAD_H = 12
"""Hours of the same day that go before it, so that the evening's warmth is in walls and furniture in the morning."""

CURVE_DEGC = (18.0, 46.1)
"""Outside air for which the curve of coolers holds; beyond it its end counts."""


class Heat(NamedTuple):
    """What a hot day is made from."""

    latitude_deg: float
    altitude_m: float
    day_of_year: int
    hottest_degc: float
    shell_w_m2k: tuple[tuple[str, float, float], ...]
    """(surface, area, U-value) of walls, roof, floor and doors."""
    glass_m2: tuple[float, float]
    """In walls, in the roof."""
    people_count: int


class CoolDay(NamedTuple):
    """A hot day in the open sun, with everybody aboard."""

    hottest_degc: float
    """Outside."""
    running_h: float
    """Hours at full power that a cooler's work makes, day and night; 0 without one."""
    electric_wh_d: float
    warmest_degc: float
    """Inside with the cooler, or as it is without."""
    alone_degc: float
    """Inside without it, all shut."""
    shade_degc: float
    """Inside in full shade, with a window open and the strongest fan on; a light wind without one."""
    largest: str
    """What brings most heat in the hottest hour, at the warmth that a cooler is set to."""
    week_wh_d: float
    """What the cooler takes on the one day that stands for the hottest week: so much the battery's sums count."""
    unused_wh_d: float
    """What coolers aboard would take on that day, where the trip uses none: nothing counts it."""


def _in_curve(outside_degc: float) -> float:
    return min(max(outside_degc, CURVE_DEGC[0]), CURVE_DEGC[1])


class _Sunny(NamedTuple):
    """One hour in the sun."""

    hour: RoomHour
    skins: tuple[Sunlit, ...]


@lru_cache(maxsize=256)
def _hours(heat: Heat) -> tuple[_Sunny, ...]:
    sun = shell_sun(heat.latitude_deg, heat.day_of_year, heat.altitude_m, TURBIDITY_MULTIPLE)
    air = air_day_degc(heat.hottest_degc - DAY_RANGE_K, heat.hottest_degc)
    whole = sum(area * u for _, area, u in heat.shell_w_m2k)
    walls_m2, roof_m2 = heat.glass_m2
    found = []
    for light, t in zip(sun, air, strict=True):
        on = {"roof": light.roof_w_m2, "floor": 0.0}
        skins = tuple(
            Sunlit(name, area, u, sol_air_degc(t, on.get(name, light.wall_w_m2), LIGHT_PAINT_FRAC))
            for name, area, u in heat.shell_w_m2k
        )
        skin = sum(x.area_m2 * x.u_w_m2k * x.skin_degc for x in skins) / max(1e-9, whole)
        through = sun_through_w(walls_m2, GLASS_GAIN_FRAC, light.wall_w_m2)
        through += sun_through_w(roof_m2, GLASS_GAIN_FRAC, light.roof_w_m2)
        inside_w = PERSON_SENSIBLE_W * heat.people_count + EQUIPMENT_W
        found.append(_Sunny(RoomHour(t, skin, inside_w, through), skins))
    return tuple(found)


def _run(room: Room, hours: tuple[RoomHour, ...], start_degc: float) -> tuple[RoomState, ...]:
    return room_hours(room, hours[-LEAD_H:] + hours, start_degc)[LEAD_H:]


@lru_cache(maxsize=256)
def _free(room: Room, heat: Heat, aired: Room) -> tuple[float, float, str]:
    """Warmest hour shut in the sun, and aired in the shade; and what brings most heat in the hottest hour."""
    hours = _hours(heat)
    sunny = tuple(h.hour for h in hours)
    shady = tuple(h._replace(skin_degc=h.outside_degc, mass_gain_w=0.0) for h in sunny)
    alone, shade = (
        max(s.mean_air_degc for s in _run(r, which, h.outside_degc))
        for r, which, h in ((room, sunny, sunny[-1]), (aired, shady, sunny[-1]))
    )
    hot = max(hours, key=lambda h: h.hour.outside_degc + h.hour.mass_gain_w / 1e3)
    glass_w = room.air_loss_w_k * (hot.hour.outside_degc - COOL_TO_DEGC)
    gains = heat_gains(
        hot.skins, min(2e4, hot.hour.mass_gain_w), min(30, heat.people_count), EQUIPMENT_W, 0.0,
        hot.hour.outside_degc, COOL_TO_DEGC,
    )  # fmt: skip
    return alone, shade, gains[0].name if gains[0].gain_w >= glass_w else "glass and outside air"


@lru_cache(maxsize=256)
def _cooled(room: Room, heat: Heat, cooling_w: float, input_w: float) -> tuple[float, float, float]:
    """(hours at full power, Wh a day, warmest hour inside) with a cooler."""
    hours = tuple(
        h.hour._replace(
            cool_to_degc=COOL_TO_DEGC,
            cooling_w=cooling_w * SENSIBLE_FRAC * capacity_frac(_in_curve(h.hour.outside_degc)),
        )
        for h in _hours(heat)
    )
    states = _run(room, hours, COOL_TO_DEGC)
    shares = [s.cooling_w / h.cooling_w for s, h in zip(states, hours, strict=True)]
    power = sum(x * input_w * input_frac(_in_curve(h.outside_degc)) for x, h in zip(shares, hours, strict=True))
    return sum(shares), power, max(s.mean_air_degc for s in states)


def _glass_m2(surfaces: tuple[SurfaceLoss, ...], build: Build) -> tuple[float, float]:
    glass = sum(s.area_m2 for s in surfaces if s.kind == "glass")
    net_roof = next(s.area_m2 for s in surfaces if s.name == "roof")
    in_roof = min(glass, max(0.0, build.vehicle.shell.roof_m2 - net_roof))
    return glass - in_roof, in_roof


def _heat(build: Build, warmth: WarmthFigures, month: int, hottest: float) -> Heat:
    return Heat(
        build.climate.latitude_deg,
        altitude_m(build),
        round((month - 0.5) * 365 / 12),
        hottest,
        tuple((s.name, s.area_m2, s.u_w_m2k) for s in warmth.surfaces if s.kind != "glass"),
        _glass_m2(warmth.surfaces, build),
        build.trip.people,
    )


def _airy(build: Build, warmth: WarmthFigures) -> WarmthFigures:
    """Without the air that heaters' flames need."""
    return warmth._replace(air_loss_w_k=air_loss_w_k(warmth.air_m3_h, altitude_m(build)))


def _coolers(build: Build) -> tuple[float, float]:
    """Cooling capacity and electric power of all coolers that something feeds."""
    coolers = running_coolers(build)
    return (
        min(MOST_HEAT_W, sum(f.cooling_w * p.count for p, f in coolers)),
        sum(f.input_w * p.count for p, f in coolers),
    )


def week_hottest_degc(mean_degc: float, hottest_degc: float) -> float:
    """Warmest hour of the day that stands for a month's hottest week, by the month's mean and its hottest hour."""
    usual = min(hottest_degc, mean_degc + DAY_RANGE_K / 2)
    return usual + WEEK_FRAC * (hottest_degc - usual)


def cooled_day_wh(build: Build, warmth: WarmthFigures, month: int, unused: bool = False) -> float:
    """Electricity of all coolers on a usual day of a month's hottest week, at the coolers; 0 where none is used, or,
    asked for what is unused, where they are."""
    climate = build.climate
    hottest = climate.hottest_day_degc[month - 1]
    cooling_w, input_w = _coolers(build)
    if not cooling_w or build.trip.cooling is unused or hottest <= COOLING_FROM_DEGC:
        return 0.0
    room = living_room(build, _airy(build, warmth))
    if room is None:
        return 0.0
    heat = _heat(build, warmth, month, week_hottest_degc(climate.mean_degc[month - 1], hottest))
    return _cooled(room, heat, cooling_w, input_w)[1]


def _aired(build: Build, room: Room) -> Room:
    """The same room with a window open and its strongest fan on; a light wind without one, or without a battery."""
    fans = [f.flow_m3_h for _, f in running_fans(build)]
    flow = fan_m3_h(roof_fan(max(fans)), WINDOW_M2) if fans else wind_m3_h(WINDOW_M2, WINDOW_M2, WIND_M_S)
    more_w_k = air_loss_w_k(min(2000.0, flow), altitude_m(build))
    return room._replace(air_loss_w_k=min(MOST_W_K, room.air_loss_w_k + more_w_k))


def cool_day(build: Build, warmth: WarmthFigures) -> CoolDay | None:
    """The hottest day of the trip; None where no day is hot."""
    hottest = hottest_degc(build)
    room = living_room(build, _airy(build, warmth))
    if hottest <= COOLING_FROM_DEGC or room is None:
        return None
    month = max(build.trip.months, key=lambda m: (build.climate.hottest_day_degc[m - 1], -m))
    heat = _heat(build, warmth, month, hottest)
    alone, shade, largest = _free(room, heat, _aired(build, room))
    cooling_w, input_w = _coolers(build)
    running, power, warmest = 0.0, 0.0, alone
    if cooling_w and build.trip.cooling:
        running, power, warmest = _cooled(room, heat, cooling_w, input_w)
    week, idle = (cooled_day_wh(build, warmth, month, unused) for unused in (False, True))
    return CoolDay(hottest, running, power, warmest, alone, shade, largest, week, idle)
