"""Heat of a summer's day: sun on roof and walls, through glass, what a dark skin feels, and the air hour by hour."""

from functools import lru_cache
from math import cos, pi, radians, sin
from typing import NamedTuple

from engine.physics.clear_sky import clear_sky
from engine.physics.ranges import within
from engine.physics.sky import GROUND_FRAC
from engine.physics.solar_position import extraterrestrial_w_m2, refraction_deg, sun_on, sun_position

DAY_RANGE_FRAC = (
    0.87, 0.92, 0.96, 0.99, 1.00, 0.98, 0.93, 0.84, 0.71, 0.56, 0.39, 0.23,
    0.11, 0.03, 0.00, 0.03, 0.10, 0.21, 0.34, 0.47, 0.58, 0.68, 0.76, 0.82,
)  # fmt: skip
"""How much of the day's range the air lies under its highest, at the end of each hour from 1 to 24 by the sundial.
ASHRAE Handbook Fundamentals, cooling load chapters to 2005 (from memory)."""

LIGHT_PAINT_FRAC = 0.3
"""Share of the sun that white paint takes up; middle colours take twice as much (common practice)."""


class ShellSun(NamedTuple):
    """Sun in one hour on a square metre of roof and of wall."""

    roof_w_m2: float
    wall_w_m2: float
    """Mean over all the ways the vehicle can stand."""
    worst_wall_w_m2: float
    """On a wall that faces the sun."""


def sol_air_degc(
    outside_degc: float, sun_w_m2: float, absorbed_frac: float, outside_m2k_w: float = 0.04, to_sky_w_m2: float = 0.0
) -> float:
    """Temperature of sunless air that would heat the shell as air and sun together do: θ + (α·I − ΔR)·R_se.

    outside_degc: −50 to 60. sun_w_m2: 0 to 1500. absorbed_frac: 0 to 1. outside_m2k_w: 0.005 to 0.2. to_sky_w_m2:
    0 to 150, what a roof radiates to a clear sky (63 W/m² in ASHRAE). Source: ASHRAE Handbook Fundamentals, cooling
    load chapter.

    >>> sol_air_degc(35, 800, 0.3), sol_air_degc(35, 800, 0.9)
    (44.6, 63.8)
    """
    within("outside_degc", outside_degc, -50, 60)
    within("sun_w_m2", sun_w_m2, 0, 1500)
    within("absorbed_frac", absorbed_frac, 0, 1)
    within("to_sky_w_m2", to_sky_w_m2, 0, 150)
    return outside_degc + (absorbed_frac * sun_w_m2 - to_sky_w_m2) * within("outside_m2k_w", outside_m2k_w, 0.005, 0.2)


def sun_through_w(glass_m2: float, gain_frac: float, sun_w_m2: float, shaded_frac: float = 0.0) -> float:
    """Heat of the sun through glass.

    glass_m2: 0 to 100. gain_frac: solar heat gain coefficient (g-value) with blind or film, 0 to 1. sun_w_m2: 0 to
    1500, on the glass. shaded_frac: 0 to 1, by awning or trees. Source: definition of the g-value (EN 410, ISO 9050).

    >>> round(sun_through_w(1.5, 0.7, 500))
    525
    """
    within("glass_m2", glass_m2, 0, 100)
    within("gain_frac", gain_frac, 0, 1)
    within("shaded_frac", shaded_frac, 0, 1)
    return glass_m2 * gain_frac * within("sun_w_m2", sun_w_m2, 0, 1500) * (1 - shaded_frac)


@lru_cache(maxsize=512)
def shell_sun(
    latitude_deg: float,
    day_of_year: int,
    altitude_m: float,
    turbidity_multiple: float,
    ground_frac: float = GROUND_FRAC,
) -> tuple[ShellSun, ...]:
    """Sun on the shell in the 24 hours of a cloudless day, each at its middle, by the sundial.

    Diffuse light from the whole dome alike; over all headings a wall gets DNI·cos(h)/π of the straight light.
    latitude_deg: −90 to 90. day_of_year: 1 to 366. altitude_m: −100 to 5000. turbidity_multiple: 1.5 to 8 (3.5 in
    summer country air). ground_frac: 0 to 1. Source: ``clear_sky`` (Ineichen and Perez), B. Y. H. Liu and R. C. Jordan,
    Solar Energy 7 (1963) 53 for the dome and the ground.

    >>> noon = shell_sun(45, 196, 0, 3.5)[12]
    >>> round(noon.roof_w_m2), round(noon.wall_w_m2), round(noon.worst_wall_w_m2)
    (901, 264, 504)
    """
    within("latitude_deg", latitude_deg, -90, 90)
    within("ground_frac", ground_frac, 0, 1)
    sun = sun_on(day_of_year)
    above = extraterrestrial_w_m2(sun.distance_multiple)
    found = []
    for hour in range(24):
        stands_deg = sun_position(latitude_deg, sun.declination_deg, hour + 0.5).elevation_deg
        seen_deg = stands_deg + refraction_deg(stands_deg) if stands_deg >= -1 else stands_deg
        if seen_deg <= 0:
            found.append(ShellSun(0.0, 0.0, 0.0))
            continue
        light = clear_sky(min(90.0, seen_deg), above, altitude_m, turbidity_multiple)
        height = radians(seen_deg)
        around = light.diffuse_w_m2 / 2 + ground_frac * light.global_w_m2 / 2
        level = light.direct_w_m2 * cos(height)
        found.append(
            ShellSun(light.direct_w_m2 * sin(height) + light.diffuse_w_m2, level / pi + around, level + around)
        )
    return tuple(found)


def air_day_degc(lowest_degc: float, highest_degc: float) -> tuple[float, ...]:
    """Outside air at the end of each of 24 hours by the sundial: coldest at 5, hottest at 15.

    lowest_degc, highest_degc: −60 to 60, the first not above the second. Source: ``DAY_RANGE_FRAC``.

    >>> day = air_day_degc(18, 34)
    >>> day[4], day[14], round(day[20], 1)
    (18.0, 34.0, 24.7)
    """
    within("highest_degc", highest_degc, -60, 60)
    swing_k = highest_degc - within("lowest_degc", lowest_degc, -60, highest_degc)
    return tuple(highest_degc - f * swing_k for f in DAY_RANGE_FRAC)
