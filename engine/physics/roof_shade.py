"""Shade on the roof at noon: how far things on it throw it, and how far apart tilted rows have to stand."""

from math import cos, degrees, pi, radians, sin, tan

from engine.physics.ranges import within

MEAN_DAYS = (17, 47, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344)
"""Day of the year whose sun stands for each month. Source: S. A. Klein, "Calculation of monthly average insolation on
tilted surfaces", Solar Energy 19 (1977), table 1; from memory."""

LOWEST_DEG = 10.0
"""A noon sun lower than this yields next to nothing and throws endless shade: no roof is laid out for it (assumed)."""


def noon_altitude_deg(latitude_deg: float, month: int) -> float:
    """Height of the sun at noon on a month's mean day; negative where it does not rise.

    90° − |φ − δ| with the declination δ as a Fourier series of the day. latitude_deg: −90 to 90, north positive.
    month: 1 to 12. Good to half a degree or so. Source: J. W. Spencer, "Fourier series representation of the position
    of the sun", Search 2 (1971); from memory.

    >>> round(noon_altitude_deg(45, 3), 1)
    43.0
    """
    within("latitude_deg", latitude_deg, -90, 90)
    within("month", month, 1, 12)
    day = 2 * pi * (MEAN_DAYS[month - 1] - 1) / 365
    declination = 0.006918 - 0.399912 * cos(day) + 0.070257 * sin(day) - 0.006758 * cos(2 * day)
    declination += 0.000907 * sin(2 * day) - 0.002697 * cos(3 * day) + 0.00148 * sin(3 * day)
    return 90 - abs(latitude_deg - degrees(declination))


def shade_reach_m(height_m: float, altitude_deg: float) -> float:
    """How far the noon shade of an edge reaches on a level `height_m` below it: h / tan(altitude).

    height_m: 0 to 2. altitude_deg: ``LOWEST_DEG`` to 90.

    >>> round(shade_reach_m(0.3, 45), 3)
    0.3
    """
    within("height_m", height_m, 0, 2)
    within("altitude_deg", altitude_deg, LOWEST_DEG, 90)
    return height_m / tan(radians(altitude_deg)) if altitude_deg < 90 else 0.0


def tilted_depth_m(width_m: float, tilt_deg: float, altitude_deg: float) -> float:
    """Depth of roof that a tilted panel takes with the strip it shades at noon: w·cos t + w·sin t / tan(altitude).

    The panel leans toward the noon sun. width_m: 0.1 to 2, the side that leans. tilt_deg: 0 to 60. altitude_deg:
    ``LOWEST_DEG`` to 90. Plane geometry.

    >>> tilted_depth_m(0.7, 0, 30)
    0.7
    >>> round(tilted_depth_m(1.0, 30, 30), 3)
    1.732
    """
    within("width_m", width_m, 0.1, 2)
    within("tilt_deg", tilt_deg, 0, 60)
    tilt = radians(tilt_deg)
    return width_m * cos(tilt) + shade_reach_m(width_m * sin(tilt), altitude_deg)
