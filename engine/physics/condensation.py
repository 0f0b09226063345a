"""Where water forms: surfaces colder than the dew point of the air that reaches them."""

from itertools import accumulate

from engine.physics.moist_air import dew_point_degc, saturation_kpa, vapour_kpa
from engine.physics.ranges import within

MOULD_FRAC = 0.8
"""Humidity at a surface above which mould grows in time. ISO 13788:2012, 5.3 (from memory)."""


def surface_factor_frac(u_w_m2k: float, inside_m2k_w: float = 0.13) -> float:
    """Temperature factor f of a plane surface: 1 as warm as the room, 0 as cold as outside.

    f = 1 − U·R_si. u_w_m2k: 0 to 10. inside_m2k_w: 0.04 to 0.5 (0.25 behind furniture), U worked out with the same;
    U·R_si at most 1. Source: ISO 13788:2012, 3.1.2 and annex.

    >>> [round(surface_factor_frac(u), 4) for u in (5.41, 2.63, 0.84)]
    [0.2967, 0.6581, 0.8908]
    """
    within("u_w_m2k", u_w_m2k, 0, 10)
    within("inside_m2k_w", inside_m2k_w, 0.04, 0.5)
    return 1 - within("u_times_film", u_w_m2k * inside_m2k_w, 0, 1)


def surface_degc(inside_degc: float, outside_degc: float, factor_frac: float) -> float:
    """Temperature of a surface: θ_e + f·(θ_i − θ_e). Also of a floor under bare feet.

    inside_degc, outside_degc: −60 to 60. factor_frac: 0 to 1. Source: ISO 13788:2012 (definition of the factor).

    >>> round(surface_degc(20, -10, 0.6581), 3)
    9.743
    """
    within("inside_degc", inside_degc, -60, 60)
    within("outside_degc", outside_degc, -60, 60)
    return outside_degc + within("factor_frac", factor_frac, 0, 1) * (inside_degc - outside_degc)


def dry_up_to_frac(inside_degc: float, outside_degc: float, factor_frac: float) -> float:
    """Relative humidity of the room up to which a surface stays dry.

    Ranges as for ``surface_degc``, and 1 when the surface is as warm as the air or warmer. Source: ISO 13788:2012.

    >>> round(dry_up_to_frac(20, -10, 0.2967), 2)
    0.24
    """
    at = surface_degc(inside_degc, outside_degc, factor_frac)
    return min(1.0, saturation_kpa(at) / saturation_kpa(inside_degc))


def least_factor_frac(
    inside_degc: float, humidity_frac: float, outside_degc: float, surface_humidity_frac: float = 1.0
) -> float:
    """Smallest temperature factor at which the air at a surface stays below a humidity (1: dew, 0.8: mould).

    inside_degc: −30 to 60, above outside_degc, −60 to 59. humidity_frac: 0.05 to 1. surface_humidity_frac: 0.5 to 1.
    A result below 0 means that any surface will do. Source: ISO 13788:2012, 5.3.

    >>> round(least_factor_frac(20, 0.5, -10), 4), round(least_factor_frac(20, 0.5, 5, MOULD_FRAC), 3)
    (0.6424, 0.509)
    """
    within("inside_degc", inside_degc, -30, 60)
    within("outside_degc", outside_degc, -60, inside_degc - 0.1)
    held = vapour_kpa(inside_degc, within("humidity_frac", humidity_frac, 0.05, 1))
    least_degc = dew_point_degc(held / within("surface_humidity_frac", surface_humidity_frac, 0.5, 1))
    return (least_degc - outside_degc) / (inside_degc - outside_degc)


def least_foam_m(
    bare_m2k_w: float,
    conductivity_w_mk: float,
    inside_degc: float,
    humidity_frac: float,
    outside_degc: float,
    inside_m2k_w: float = 0.13,
) -> float:
    """Thickness of glued-on foam that keeps its face at the dew point; 0 when none is needed.

    d = λ·(R_si·(θ_i − θ_e)/(θ_i − θ_dew) − R_bare). bare_m2k_w: resistance without it, films included, 0.05 to 10.
    conductivity_w_mk: 0.015 to 0.1. humidity_frac: 0.05 to 0.99. Others as for ``least_factor_frac``. Air must not
    get behind the foam. Source: steady conduction through plane layers (any text).

    >>> round(1000 * least_foam_m(0.17, 0.036, 18, 0.6, 0), 1)
    4.6
    """
    within("bare_m2k_w", bare_m2k_w, 0.05, 10)
    within("conductivity_w_mk", conductivity_w_mk, 0.015, 0.1)
    within("humidity_frac", humidity_frac, 0.05, 0.99)
    within("inside_m2k_w", inside_m2k_w, 0.04, 0.5)
    factor = least_factor_frac(inside_degc, humidity_frac, outside_degc)
    return max(0.0, conductivity_w_mk * (inside_m2k_w / (1 - factor) - bare_m2k_w))


def layer_faces_degc(
    resistances_m2k_w: tuple[float, ...], inside_degc: float, outside_degc: float
) -> tuple[float, ...]:
    """Temperature after each resistance from the room outwards, the inside film first.

    The first is the room-side surface, the one before the skin is what air meets that gets behind the insulation, the
    last is outside. Each resistance: 0 to 100 m²K/W, together above 0 and no more than that. Source: steady conduction
    (any text).

    >>> [round(t, 1) for t in layer_faces_degc((0.13, 0.278, 0.0, 0.04), 18, 0)]
    [12.8, 1.6, 1.6, 0.0]
    """
    within("inside_degc", inside_degc, -60, 60)
    within("outside_degc", outside_degc, -60, 60)
    for r in resistances_m2k_w:
        within("resistance_m2k_w", r, 0, 100)
    whole = within("whole_m2k_w", sum(resistances_m2k_w), 1e-3, 100)
    return tuple(inside_degc - (inside_degc - outside_degc) * r / whole for r in accumulate(resistances_m2k_w))
