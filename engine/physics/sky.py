"""Direct and diffuse light, and what of both falls on a tilted panel and gets through its glass.

Hay and Davies' sky: diffuse light comes partly from around the sun, the more so the clearer it is, and else from the
whole dome alike. A dome alike all over would give a steep panel in winter 5 to 10 % too little; finer skies (Perez)
need direct light measured apart, and we have the sum only. On a level panel both skies are the same.
"""

from math import cos, exp, pi, radians, sin
from typing import NamedTuple

from engine.physics.ranges import within

GROUND_FRAC = 0.2
"""Share of light that grass and soil throw back (common practice); fresh snow 0.8."""

GLASS_FRAC = 0.16
"""Martin and Ruiz' angular-loss coefficient of clean plain glass over crystalline silicon."""


def diffuse_frac(clearness_frac: float) -> float:
    """Diffuse share of an hour's level sun, from the hour's clearness (level sun over level sun above the air).

    clearness_frac: 0 to 1.2 (above 1 for moments with sun and bright clouds). Source: D. G. Erbs, S. A. Klein and
    J. A. Duffie, Solar Energy 28 (1982) 293.

    >>> round(diffuse_frac(0.5), 3)
    0.659
    """
    k = within("clearness_frac", clearness_frac, 0, 1.2)
    if k <= 0.22:
        return 1 - 0.09 * k
    if k <= 0.8:
        return 0.9511 + k * (-0.1604 + k * (4.388 + k * (-16.638 + k * 12.336)))
    return 0.165


def daily_diffuse_frac(clearness_frac: float, sunset_deg: float) -> float:
    """Diffuse share of a day's level sun, from the day's clearness.

    clearness_frac: 0 to 1. sunset_deg: 0 to 180, hour angle of sunset; up to 81.4 counts as winter.
    Source: Erbs, Klein and Duffie, Solar Energy 28 (1982) 293, equations for daily diffuse; as in Duffie and Beckman,
    4th edition, 2.11.1.

    >>> round(daily_diffuse_frac(0.5, 95.0), 3), round(daily_diffuse_frac(0.5, 60.0), 3)
    (0.608, 0.569)
    """
    k = within("clearness_frac", clearness_frac, 0, 1)
    if within("sunset_deg", sunset_deg, 0, 180) <= 81.4:
        return 1 + k * (-0.2727 + k * (2.4495 + k * (-11.9514 + k * 9.3879))) if k < 0.715 else 0.143
    return 1 + k * (0.2832 + k * (-2.5557 + k * 0.8448)) if k < 0.722 else 0.175


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
