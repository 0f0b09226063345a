"""Where the sun stands: declination, equation of time, height and direction at any hour, and the sun above the air."""

from functools import lru_cache
from math import acos, asin, atan2, cos, degrees, pi, radians, sin, tan
from typing import NamedTuple

from engine.physics.ranges import within

TYPICAL_YEAR = 2025
"""Stands for all years: the sun of any other year of 1950 to 2050 is that of at most 0.9 day earlier or later."""

SOLAR_CONSTANT_W_M2 = 1366.1
"""Mean sun above the air. Source: ASTM E490-00a. Newer readings are 0.4 % lower; the correlations of diffuse light and
clearness were fitted with this value or 1367, so it stays with them."""

HOUR_DEG = 15.0
"""What the earth turns in an hour."""


class Sun(NamedTuple):
    """The sun as seen from the whole earth at one moment."""

    declination_deg: float
    """Latitude over which it stands."""
    equation_of_time_h: float
    """Sundial less mean clock."""
    distance_multiple: float
    """Distance over its mean."""


class Position(NamedTuple):
    """The sun as seen from one place: height over the horizon, direction clockwise from north."""

    elevation_deg: float
    azimuth_deg: float


@lru_cache(maxsize=4096)
def sun_on(day_of_year: int, utc_h: float = 12.0, year: int = TYPICAL_YEAR) -> Sun:
    """Declination, equation of time and distance of the sun.

    Mean longitude and mean anomaly, the equation of centre to its second term, turned by the tilt of the earth's axis.
    day_of_year: 1 to 366, utc_h: −24 to 48 (hours of universal time from that day's midnight), year: 1950 to 2050.
    Good to 0.01° and 0.1 minute. Source: "Low-precision formulas for the Sun", The Astronomical Almanac, section C;
    used for solar energy by J. J. Michalsky, Solar Energy 40 (1988) 227; from memory.

    >>> june = sun_on(172)
    >>> round(june.declination_deg, 2), round(june.equation_of_time_h * 60, 2)
    (23.43, -1.88)
    """
    within("day_of_year", day_of_year, 1, 366)
    within("utc_h", utc_h, -24, 48)
    within("year", year, 1950, 2050)
    # Days from noon of 1 January 2000 to noon of 1 January of the year.
    past = year - 2000
    days = 365 * past + (past + 3) // 4 + day_of_year - 1 + (utc_h - 12) / 24
    mean_deg = 280.460 + 0.9856474 * days
    anomaly = radians(357.528 + 0.9856003 * days)
    longitude = radians(mean_deg + 1.915 * sin(anomaly) + 0.020 * sin(2 * anomaly))
    tilt = radians(23.439 - 4e-7 * days)
    right_ascension_deg = degrees(atan2(cos(tilt) * sin(longitude), cos(longitude)))
    ahead_deg = (mean_deg - right_ascension_deg + 180) % 360 - 180
    return Sun(
        declination_deg=degrees(asin(sin(tilt) * sin(longitude))),
        equation_of_time_h=ahead_deg / HOUR_DEG,
        distance_multiple=1.00014 - 0.01671 * cos(anomaly) - 0.00014 * cos(2 * anomaly),
    )


def sun_position(latitude_deg: float, declination_deg: float, solar_h: float) -> Position:
    """Height and direction of the sun's centre, without the bending of light by the air.

    latitude_deg: −90 to 90, north positive. declination_deg: −23.5 to 23.5. solar_h: −12 to 36, hour by the sundial.
    Source: spherical triangle of pole, zenith and sun (J. A. Duffie and W. A. Beckman, "Solar Engineering of Thermal
    Processes", 4th edition, 1.6).

    >>> noon = sun_position(40.0, 23.44, 12.0)
    >>> round(noon.elevation_deg, 2), round(noon.azimuth_deg, 1)
    (73.44, 180.0)
    >>> round(sun_position(0.0, 0.0, 6.0).azimuth_deg, 1)
    90.0
    """
    within("latitude_deg", latitude_deg, -90, 90)
    within("declination_deg", declination_deg, -23.5, 23.5)
    within("solar_h", solar_h, -12, 36)
    place, tilt, turn = radians(latitude_deg), radians(declination_deg), radians((solar_h - 12) * HOUR_DEG)
    up = sin(place) * sin(tilt) + cos(place) * cos(tilt) * cos(turn)
    north = cos(place) * sin(tilt) - sin(place) * cos(tilt) * cos(turn)
    east = -cos(tilt) * sin(turn)
    return Position(degrees(asin(max(-1.0, min(1.0, up)))), degrees(atan2(east, north)) % 360)


def refraction_deg(elevation_deg: float) -> float:
    """How much higher the sun appears than it stands, in air of 1010 hPa and 10 °C.

    1.02′ / tan(h + 10.3/(h + 5.11)). elevation_deg: −1 to 90, without refraction. Source: Sæmundsson, Sky and Telescope
    72 (1986) 70, as in J. Meeus, "Astronomical Algorithms", 2nd edition, 16.4; from memory.

    >>> round(refraction_deg(0.0), 2)
    0.48
    """
    h = within("elevation_deg", elevation_deg, -1, 90)
    return 1.02 / 60 / tan(radians(h + 10.3 / (h + 5.11)))


def extraterrestrial_w_m2(distance_multiple: float) -> float:
    """Sun above the air on a surface that faces it. distance_multiple: 0.98 to 1.02, see ``Sun``.

    G₀ = G_sc/r². Source: inverse-square law with the solar constant of ASTM E490-00a.

    >>> round(extraterrestrial_w_m2(1.0), 1)
    1366.1
    """
    return SOLAR_CONSTANT_W_M2 / within("distance_multiple", distance_multiple, 0.98, 1.02) ** 2


def sunset_deg(latitude_deg: float, declination_deg: float) -> float:
    """Hour angle at which the sun's centre sets: 0 where it does not rise, 180 where it does not set.

    cos ω = −tan φ·tan δ. latitude_deg: −90 to 90. declination_deg: −23.5 to 23.5. Source: Duffie and Beckman, 1.6.10.

    >>> round(sunset_deg(43.0, 9.4), 1)
    98.9
    """
    within("latitude_deg", latitude_deg, -90, 90)
    within("declination_deg", declination_deg, -23.5, 23.5)
    return degrees(acos(max(-1.0, min(1.0, -tan(radians(latitude_deg)) * tan(radians(declination_deg))))))


def daily_extraterrestrial_kwh_m2_d(latitude_deg: float, sun: Sun) -> float:
    """Sun above the air on a level surface over a day.

    H₀ = 24/π · G₀ · (cos φ cos δ sin ω + ω sin φ sin δ). latitude_deg: −90 to 90.
    Source: Duffie and Beckman, 1.10.3.

    >>> round(daily_extraterrestrial_kwh_m2_d(43.0, Sun(9.415, 0.0, 1.0016)), 2)
    9.42
    """
    sunset = radians(sunset_deg(latitude_deg, sun.declination_deg))
    place, tilt = radians(latitude_deg), radians(sun.declination_deg)
    mean = cos(place) * cos(tilt) * sin(sunset) + sunset * sin(place) * sin(tilt)
    return max(0.0, 24 / pi * extraterrestrial_w_m2(sun.distance_multiple) * mean / 1000)
