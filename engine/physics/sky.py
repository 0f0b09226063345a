"""Direct and diffuse light, and what of both falls on a tilted panel and gets through its glass.

Hay and Davies' sky: diffuse light comes partly from around the sun, the more so the clearer it is, and else from the
whole dome alike. A dome alike all over would give a steep panel in winter 5 to 10 % too little; finer skies (Perez)
give one of 30° some 2 % more over the year. On a level panel all skies are the same.
"""

from math import cos, exp, pi, radians, sin
from typing import NamedTuple

from engine.physics.ranges import within

GROUND_FRAC = 0.2
"""Share of light that grass and soil throw back (common practice); fresh snow 0.8."""

GLASS_FRAC = 0.16
"""Martin and Ruiz' angular-loss coefficient of clean plain glass over crystalline silicon."""


MOST_AIR_MULTIPLE = 12.0
"""Beyond so many air masses (sun lower than 4°) the share of direct light is that of there, as in pvlib."""


def direct_frac(clearness_frac: float, air_multiple: float) -> float:
    """Direct light over the sun above the air, from an hour's clearness (level sun over level sun above the air).

    K_n = K_nc(m) − (a + b·exp(c·m)): what clear air lets through, less what clouds of that clearness take. It knows how
    low the sun stands: an hour of clearness 0.5 is nearly cloudless in winter, and half clouded at noon in June.
    clearness_frac: 0 to 1. air_multiple: 0.99 to 40, way through the air over that straight down, see
    ``air_mass_multiple``. Source: E. L. Maxwell, "A Quasi-Physical Model for Converting Hourly Global Horizontal to
    Direct Normal Insolation", SERI/TR-215-3087 (1987).

    >>> round(direct_frac(0.5, 1.5), 3), round(direct_frac(0.5, 5.0), 3)
    (0.16, 0.293)
    """
    k, m = clearness_frac, min(air_multiple, MOST_AIR_MULTIPLE)
    # One comparison for the usual case: this runs thousands of times for a trip.
    if not 0 <= k <= 1 or not 0.99 <= air_multiple <= 40:
        within("clearness_frac", k, 0, 1)
        within("air_multiple", air_multiple, 0.99, 40)
    if k <= 0.6:
        a = 0.512 + k * (-1.56 + k * (2.286 - k * 2.222))
        b = 0.37 + k * 0.962
        c = -0.28 + k * (0.932 - k * 2.048)
    else:
        a = -5.743 + k * (21.77 + k * (-27.49 + k * 11.56))
        b = 41.4 + k * (-118.5 + k * (66.05 + k * 31.9))
        c = -47.01 + k * (184.2 + k * (-222 + k * 73.81))
    clear = 0.866 + m * (-0.122 + m * (0.0121 + m * (-0.000653 + m * 0.000014)))
    return max(0.0, clear - a - b * exp(c * m))


def toward_sun_frac(elevation_deg: float, sun_azimuth_deg: float, tilt_deg: float, facing_deg: float) -> float:
    """Cosine of the angle between the sun and the panel's upright; 0 when the sun is behind the panel.

    elevation_deg: −90 to 90. sun_azimuth_deg, facing_deg: 0 to 360, clockwise from north. tilt_deg: 0 to 90.
    Source: scalar product of the two directions (Duffie and Beckman, 1.6.3).

    >>> round(toward_sun_frac(60.0, 180.0, 30.0, 180.0), 6)
    1.0
    """
    within("elevation_deg", elevation_deg, -90, 90)
    within("sun_azimuth_deg", sun_azimuth_deg, 0, 360)
    within("tilt_deg", tilt_deg, 0, 90)
    within("facing_deg", facing_deg, 0, 360)
    height, tilt = radians(elevation_deg), radians(tilt_deg)
    level = cos(height) * cos(radians(sun_azimuth_deg - facing_deg))
    return max(0.0, min(1.0, sin(height) * cos(tilt) + level * sin(tilt)))


def glass_frac(toward_frac: float) -> float:
    """Share of direct light that gets through the glass, over that of light straight on.

    (1 − exp(−cos θ/a)) / (1 − exp(−1/a)). toward_frac: 0 to 1, cosine of the angle of incidence. Source: N. Martin and
    J. M. Ruiz, Solar Energy Materials and Solar Cells 70 (2001) 25, a = 0.16.

    >>> round(glass_frac(0.5), 3)
    0.958
    """
    within("toward_frac", toward_frac, 0, 1)
    return (1 - exp(-toward_frac / GLASS_FRAC)) / (1 - exp(-1 / GLASS_FRAC))


def sky_glass_frac(tilt_deg: float) -> float:
    """Share of the dome's diffuse light that gets through the glass. tilt_deg: 0 to 90.

    Source: Martin and Ruiz, Progress in Photovoltaics 13 (2005) 75 (corrigendum 21 (2013) 1448), c₁ = 4/(3π).

    >>> round(sky_glass_frac(0.0), 3)
    0.951
    """
    tilt = radians(within("tilt_deg", tilt_deg, 0, 90))
    return _diffuse_through(sin(tilt) + (pi - tilt - sin(tilt)) / (1 + cos(tilt)))


def ground_glass_frac(tilt_deg: float) -> float:
    """Share of light from the ground that gets through the glass. tilt_deg: 0.1 to 90. Source: see ``sky_glass_frac``.

    >>> round(ground_glass_frac(30.0), 3)
    0.794
    """
    tilt = radians(within("tilt_deg", tilt_deg, 0.1, 90))
    return _diffuse_through(sin(tilt) + (tilt - sin(tilt)) / (1 - cos(tilt)))


def _diffuse_through(angle: float) -> float:
    return 1 - exp(-(4 / (3 * pi) + (0.5 * GLASS_FRAC - 0.154) * angle) * angle / GLASS_FRAC)


LOWEST_SINE_FRAC = sin(radians(3.0))
"""Direct light is not divided by less: at sunrise an hour's mean has no one angle."""


class Ways(NamedTuple):
    """What part of each light reaches a panel, and what part of that gets through the glass."""

    straight_multiple: float
    dome_frac: float
    ground_frac: float
    straight_glass_frac: float
    dome_glass_frac: float
    ground_glass_frac: float


class PanelLight(NamedTuple):
    """Light on a panel, and what of it gets through the glass to the cells."""

    light_w_m2: float
    through_w_m2: float


def panel_ways(up_frac: float, toward_frac: float, tilt_deg: float, ground_frac: float = GROUND_FRAC) -> Ways:
    """How light reaches a panel at one position of the sun.

    up_frac: 0 to 1, sine of the sun's height. toward_frac: 0 to 1, see ``toward_sun_frac``. tilt_deg: 0 to 90.
    ground_frac: 0 to 1, what the ground throws back. Source: see ``panel_light``.

    >>> panel_ways(0.5, 0.5, 0.0)[:3]
    (1.0, 1.0, 0.0)
    """
    up = within("up_frac", up_frac, 0, 1)
    within("toward_frac", toward_frac, 0, 1)
    slope = cos(radians(within("tilt_deg", tilt_deg, 0, 90)))
    seen = within("ground_frac", ground_frac, 0, 1) * (1 - slope) / 2
    return Ways(
        toward_frac / max(up, LOWEST_SINE_FRAC) if tilt_deg else 1.0,
        (1 + slope) / 2,
        seen,
        glass_frac(toward_frac),
        sky_glass_frac(tilt_deg),
        ground_glass_frac(tilt_deg) if tilt_deg >= 0.1 else 1.0,
    )


def panel_light(global_w_m2: float, diffuse_w_m2: float, level_extraterrestrial_w_m2: float, ways: Ways) -> PanelLight:
    """Light on a panel from level sun.

    (B + A·D)·R + (1 − A)·D·(1 + cos t)/2 + G·ρ·(1 − cos t)/2 with A = B/G₀, the share of diffuse light from around the
    sun. global_w_m2: 0 to 1,700, level sun G, and diffuse_w_m2, its diffuse part D: 0 to global_w_m2.
    level_extraterrestrial_w_m2: 0 to 1,430, G₀ on a level surface. Source: J. E. Hay and J. A. Davies (1980), as in
    Duffie and Beckman, 4th edition, 2.16.4 to 2.16.6 (without horizon term); glass by Martin and Ruiz.

    >>> panel_light(600.0, 200.0, 1000.0, panel_ways(0.75, 0.75, 0.0)).light_w_m2
    600.0
    >>> round(panel_light(600.0, 200.0, 1000.0, panel_ways(0.75, 0.98, 30.0)).light_w_m2, 1)
    747.2
    """
    # One comparison for the usual case: this runs thousands of times for a trip.
    if not 0 <= diffuse_w_m2 <= global_w_m2 <= 1700 or not 0 <= level_extraterrestrial_w_m2 <= 1430:
        within("global_w_m2", global_w_m2, 0, 1700)
        within("diffuse_w_m2", diffuse_w_m2, 0, global_w_m2)
        within("level_extraterrestrial_w_m2", level_extraterrestrial_w_m2, 0, 1430)
    lift, dome_frac, ground_frac, straight_glass, dome_glass, ground_glass = ways
    direct = global_w_m2 - diffuse_w_m2
    sunward = min(1.0, direct / level_extraterrestrial_w_m2) if level_extraterrestrial_w_m2 > 0 else 0.0
    straight = (direct + sunward * diffuse_w_m2) * lift
    dome = (1 - sunward) * diffuse_w_m2 * dome_frac
    ground = global_w_m2 * ground_frac
    return PanelLight(straight + dome + ground, straight * straight_glass + dome * dome_glass + ground * ground_glass)
