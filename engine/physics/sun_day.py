"""A day's sun by hours: how a day's sum spreads from sunrise to sunset, and how much of each hour is direct."""

from functools import lru_cache
from math import cos, pi, radians, sin
from typing import NamedTuple

from engine.physics.clear_sky import air_mass_multiple
from engine.physics.ranges import within
from engine.physics.sky import direct_frac
from engine.physics.solar_position import (
    HOUR_DEG,
    daily_extraterrestrial_kwh_m2_d,
    extraterrestrial_w_m2,
    sun_on,
    sun_position,
    sunset_deg,
)

DAYS_IN_MONTH = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
"""Of a typical year, which has no leap day."""


class SunHour(NamedTuple):
    """One hour by the sundial in which the sun is up, wholly or in part."""

    hour: int
    """It runs from this hour to the next."""
    total_frac: float
    """Its share of the day's level sun."""
    level_extraterrestrial_w_m2: float
    """Level sun above the air, mean of the whole hour."""
    up_frac: float
    """Sine of the sun's height in the middle of the lit part."""
    azimuth_deg: float
    air_multiple: float
    """Way of its light through the air over the way straight down."""


class SunDay(NamedTuple):
    """The sun's path over a place on one day."""

    extraterrestrial_kwh_m2_d: float
    sunset_deg: float
    hours: tuple[SunHour, ...]


class LightHour(NamedTuple):
    """Level sun of an hour, mean W/m²."""

    global_w_m2: float
    diffuse_w_m2: float


@lru_cache(maxsize=1024)
def sun_day(latitude_deg: float, day_of_year: int) -> SunDay:
    """The sun's path on a day of the typical year.

    Hours are by the sundial. An hour's share of the total:
    r = π/24·(a + b·cos ω)(cos ω − cos ω_s)/(sin ω_s − ω_s·cos ω_s) with a = 0.409 + 0.5016·sin(ω_s − 60°) and
    b = 0.6609 − 0.4767·sin(ω_s − 60°), integrated over the lit part of the hour, so that shares add up to 1.

    latitude_deg: −90 to 90. day_of_year: 1 to 365. Source: M. Collares-Pereira and A. Rabl, Solar Energy 22 (1979) 155,
    as in Duffie and Beckman, 4th edition, 2.13.2.

    >>> day = sun_day(52.0, 80)
    >>> [h.hour for h in day.hours][0], round(sum(h.total_frac for h in day.hours), 12)
    (5, 1.0)
    >>> round(next(h.total_frac for h in day.hours if h.hour == 11), 3)
    0.14
    """
    within("latitude_deg", latitude_deg, -90, 90)
    within("day_of_year", day_of_year, 1, 365)
    sun = sun_on(day_of_year)
    set_deg = sunset_deg(latitude_deg, sun.declination_deg)
    sunset = radians(set_deg)
    if sunset <= 0:
        return SunDay(0.0, 0.0, ())
    above = extraterrestrial_w_m2(sun.distance_multiple)
    place, tilt = radians(latitude_deg), radians(sun.declination_deg)
    a = 0.409 + 0.5016 * sin(sunset - pi / 3)
    b = 0.6609 - 0.4767 * sin(sunset - pi / 3)
    total_all = 2 * _swing(a, b, 0.0, sunset, sunset)
    hours = []
    for hour in range(24):
        begin = max(-sunset, radians((hour - 12) * HOUR_DEG))
        end = min(sunset, radians((hour - 11) * HOUR_DEG))
        if end <= begin:
            continue
        height = sin(place) * sin(tilt) * (end - begin) + cos(place) * cos(tilt) * (sin(end) - sin(begin))
        middle = sun_position(latitude_deg, sun.declination_deg, 12 + (begin + end) / 2 * 12 / pi)
        hours.append(
            SunHour(
                hour,
                max(0.0, _swing(a, b, begin, end, sunset) / total_all),
                max(0.0, above * height * 12 / pi),
                max(0.0, sin(radians(middle.elevation_deg))),
                middle.azimuth_deg,
                air_mass_multiple(max(0.0, middle.elevation_deg)),
            )
        )
    return SunDay(daily_extraterrestrial_kwh_m2_d(latitude_deg, sun), set_deg, tuple(hours))


def _swing(a: float, b: float, begin: float, end: float, sunset: float) -> float:
    """∫ (a + b·cos ω)(cos ω − cos ω_s) dω from begin to end."""
    low = cos(sunset)

    def upto(w: float) -> float:
        return a * (sin(w) - low * w) + b * (w / 2 + sin(2 * w) / 4 - low * sin(w))

    return upto(end) - upto(begin)


def light_hours(day: SunDay, clearness_frac: float) -> tuple[LightHour, ...]:
    """Level sun of each lit hour of a day whose sum is ``clearness_frac`` of that above the air; 0 to 1.

    Each hour is split by its clearness and the height of its sun. That an hour's mean hides how bright and dark take
    turns on a day of passing clouds leaves tilted panels up to 5 % short in such months.
    Source: see ``direct_frac`` and ``sun_day``.

    >>> day = sun_day(40.0, 172)
    >>> round(sum(h.global_w_m2 for h in light_hours(day, 0.5)) / 1000 / day.extraterrestrial_kwh_m2_d, 9)
    0.5
    """
    total_wh = 1000 * day.extraterrestrial_kwh_m2_d * within("clearness_frac", clearness_frac, 0, 1)
    return tuple(
        LightHour(level, level - min(level, above * direct_frac(min(1.0, level / above), hour.air_multiple)))
        for hour in day.hours
        for level, above in [(total_wh * hour.total_frac, max(1e-9, hour.level_extraterrestrial_w_m2))]
    )
