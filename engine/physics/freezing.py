"""Frost: how long tanks and pipes stay liquid, how much turns to ice, and the power that holds them."""

from math import exp, expm1, inf, log, pi
from typing import NamedTuple

from engine.physics.hot_water import WATER_WH_LK
from engine.physics.ranges import within

FUSION_WH_KG = 334 / 3.6
"""Heat water gives up as it freezes, 334 kJ/kg (any handbook)."""

BARE_TANK_W_M2K = 8.0
WINDY_TANK_W_M2K = 20.0
"""Surface of a bare tank under the floor in still air, and in wind or on the road (common practice)."""


class Frozen(NamedTuple):
    """Water after some time in the cold."""

    water_degc: float
    """0 while it freezes."""
    ice_frac: float


class Frost(NamedTuple):
    """What the cold does to a store of water, in hours from now; infinite when it never comes to that."""

    freezes_h: float
    """When the first ice forms."""
    solid_h: float
    """When all is ice."""
    hold_w: float
    """Power that keeps it just above 0 °C, 0 when it stays so by itself."""


def tank_loss_w_k(surface_m2: float, insulation_m: float = 0.0, conductivity_w_mk: float = 0.035,
                  film_w_m2k: float = BARE_TANK_W_M2K) -> float:  # fmt: skip
    """Heat a tank loses for each kelvin: A / (1/h + d/λ).

    surface_m2: 0.01 to 30. insulation_m: 0 to 0.2. conductivity_w_mk: 0.015 to 0.1. film_w_m2k: 3 to 60. Source:
    conduction through plane layers; the film is uncertain by 40 %.

    >>> tank_loss_w_k(1.6), round(tank_loss_w_k(1.6, 0.02), 2)
    (12.8, 2.3)
    """
    within("surface_m2", surface_m2, 0.01, 30)
    within("insulation_m", insulation_m, 0, 0.2)
    within("conductivity_w_mk", conductivity_w_mk, 0.015, 0.1)
    return surface_m2 / (1 / within("film_w_m2k", film_w_m2k, 3, 60) + insulation_m / conductivity_w_mk)


def pipe_loss_w_k(
    length_m: float,
    outer_m: float,
    insulation_m: float = 0.0,
    conductivity_w_mk: float = 0.035,
    film_w_m2k: float = 8.0,
) -> float:
    """Heat a pipe loses for each kelvin: l / (ln(D/d)/(2πλ) + 1/(π·D·h)), its own wall not counted.

    Thin insulation on a thin pipe helps little: the surface grows with it. length_m: 0.01 to 100. outer_m: 0.004 to
    0.1. insulation_m: 0 to 0.1. conductivity_w_mk: 0.015 to 0.1. film_w_m2k: 3 to 60. Source: radial conduction (F. P.
    Incropera and D. P. DeWitt, Fundamentals of Heat and Mass Transfer, 3.3).

    >>> [round(pipe_loss_w_k(1, 0.015, d), 3) for d in (0, 0.009, 0.02)]
    [0.377, 0.209, 0.151]
    """
    within("length_m", length_m, 0.01, 100)
    d = within("outer_m", outer_m, 0.004, 0.1)
    wide = d + 2 * within("insulation_m", insulation_m, 0, 0.1)
    within("conductivity_w_mk", conductivity_w_mk, 0.015, 0.1)
    film = within("film_w_m2k", film_w_m2k, 3, 60)
    return length_m / (log(wide / d) / (2 * pi * conductivity_w_mk) + 1 / (pi * wide * film))


def pipe_l(length_m: float, bore_m: float) -> float:
    """Water in a pipe. length_m: 0 to 100. bore_m: 0.002 to 0.1. Source: volume of a cylinder.

    >>> round(pipe_l(1, 0.012), 3)
    0.113
    """
    return within("length_m", length_m, 0, 100) * pi * within("bore_m", bore_m, 0.002, 0.1) ** 2 / 4 * 1000


def frost(water_kg: float, water_degc: float, loss_w_k: float, around_degc: float) -> Frost:
    """When water in the cold begins to freeze, is solid, and what holds it.

    τ·ln((θ_w − θ_e)/(−θ_e)), then m·L/(UA·(−θ_e)). Water mixes, ice hinders no heat (so solid comes out early), and
    water colder than 0 °C without ice is left out. water_kg: 0.001 to 2000. water_degc: 0 to 60. loss_w_k: 0.0001 to
    500. around_degc: −60 to 40. Thin parts (valve, pump, hose) freeze long before the tank. Source: heat balance.

    >>> [round(x, 1) for x in frost(113, 10, 12.8, -15)]
    [5.2, 59.8, 192.0]
    >>> frost(113, 10, 12.8, 1).freezes_h
    inf
    """
    capacity = _check(water_kg, water_degc, loss_w_k, around_degc)
    if around_degc >= 0:
        return Frost(inf, inf, 0.0)
    freezes = capacity / loss_w_k * log((water_degc - around_degc) / -around_degc)
    hold_w = loss_w_k * -around_degc
    return Frost(freezes, freezes + water_kg * FUSION_WH_KG / hold_w, hold_w)


def lasting_degc(water_kg: float, water_degc: float, loss_w_k: float, time_h: float) -> float:
    """The frost in which water stays liquid just so long: θ_w/(1 − exp(t/τ)).

    water_degc: 0.1 to 60. time_h: 0.01 to 10,000. Others as for ``frost``, turned round. Source:
    heat balance.

    >>> degc = lasting_degc(113, 10, 12.8, 8)
    >>> round(degc, 1), round(frost(113, 10, 12.8, degc).freezes_h, 6)
    (-8.5, 8.0)
    """
    within("water_degc", water_degc, 0.1, 60)
    capacity = _check(water_kg, water_degc, loss_w_k, 0.0)
    return -water_degc / expm1(min(700.0, within("time_h", time_h, 0.01, 1e4) * loss_w_k / capacity))


def after_night(water_kg: float, water_degc: float, loss_w_k: float, around_degc: float, time_h: float) -> Frozen:
    """Water after a time in the cold. time_h: 0 to 10,000, others as for ``frost``. Source: heat balance.

    >>> mild, windy = after_night(113, 10, 12.8, -4, 8), after_night(113, 10, 32, -4, 8)
    >>> round(mild.water_degc, 1), round(windy.ice_frac, 3)
    (2.4, 0.035)
    """
    capacity = _check(water_kg, water_degc, loss_w_k, around_degc)
    within("time_h", time_h, 0, 1e4)
    cold = frost(water_kg, water_degc, loss_w_k, around_degc)
    if time_h <= cold.freezes_h:
        left = exp(-loss_w_k * time_h / capacity)
        return Frozen(max(0.0, around_degc + (water_degc - around_degc) * left) if around_degc < 0 else
                      around_degc + (water_degc - around_degc) * left, 0.0)  # fmt: skip
    return Frozen(0.0, min(1.0, (time_h - cold.freezes_h) / (cold.solid_h - cold.freezes_h)))


def _check(water_kg: float, water_degc: float, loss_w_k: float, around_degc: float) -> float:
    """Ranges; the water's heat capacity in Wh/K."""
    within("water_degc", water_degc, 0, 60)
    within("loss_w_k", loss_w_k, 1e-4, 500)
    within("around_degc", around_degc, -60, 40)
    return within("water_kg", water_kg, 1e-3, 2000) * WATER_WH_LK
