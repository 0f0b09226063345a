"""Water in pipes: the pressure lost on the way."""

from collections.abc import Callable
from functools import lru_cache
from math import log10, pi
from typing import NamedTuple

from engine.physics.ranges import within

WATER_KG_M3 = 998.2
"""Water at 20 °C (IAPWS-95)."""

LAMINAR_RE, TURBULENT_RE = 2000.0, 4000.0
"""Between them the friction factor is drawn straight from the one law to the other."""

SMOOTH_M = 1.5e-6
"""Roughness of plastic and copper pipe (any handbook)."""

ELBOW, TEE_BRANCH = 0.9, 1.8
"""Loss coefficients of small fittings: elbow, tee through its branch (common practice)."""


class Pipe(NamedTuple):
    """A run of pipe of one bore with the loss coefficients of its fittings, summed."""

    length_m: float
    bore_m: float
    fittings_count: float = 0.0
    """Σ K: 0.9 for an elbow and so on."""
    roughness_m: float = SMOOTH_M


@lru_cache(maxsize=128)
def viscosity_m2_s(water_degc: float) -> float:
    """Kinematic viscosity of water: 2.414e-5·10^(247.8/(T − 140)) Pa·s over its density at 20 °C.

    water_degc: 0 to 99. Good to 4 %. Source: Vogel's equation with the coefficients of handbooks.

    >>> round(viscosity_m2_s(20) * 1e6, 3)
    1.004
    """
    t_k = within("water_degc", water_degc, 0, 99) + 273.15
    return float(2.414e-5 * 10 ** (247.8 / (t_k - 140)) / WATER_KG_M3)


def friction_frac(reynolds_count: float, roughness_frac: float) -> float:
    """Darcy's friction factor: 64/Re, and Colebrook's equation from Re 4,000 on.

    reynolds_count: 1 to 1e8. roughness_frac: roughness over bore, 0 to 0.05. Source: C. F. Colebrook, Journal of the
    Institution of Civil Engineers 11 (1939) 133, begun with P. K. Swamee and A. K. Jain (1976).

    >>> round(friction_frac(12684, 1.5e-4), 4), round(friction_frac(1000, 0), 3)
    (0.0293, 0.064)
    """
    re = within("reynolds_count", reynolds_count, 1, 1e8)
    rough = within("roughness_frac", roughness_frac, 0, 0.05)
    if re <= LAMINAR_RE:
        return 64 / re
    if re < TURBULENT_RE:
        share = (re - LAMINAR_RE) / (TURBULENT_RE - LAMINAR_RE)
        return (1 - share) * 64 / LAMINAR_RE + share * _colebrook(TURBULENT_RE, rough)
    return _colebrook(re, rough)


def drop_kpa(pipe: Pipe, flow_l_min: float, water_degc: float = 15.0) -> float:
    """Pressure lost in a pipe: (f·l/d + Σ K)·ρ·v²/2.

    length_m: 0 to 200. bore_m: 0.003 to 0.1. fittings_count: 0 to 1e5. roughness_m: 0 to 0.0005. flow_l_min: 0 to 200.
    water_degc: 0 to 99. Source: Darcy and Weisbach (any fluid mechanics text).

    >>> round(drop_kpa(Pipe(5, 0.010), 6, 20), 2)
    11.85
    """
    return drop_curve(pipe, water_degc)(flow_l_min)


def drop_curve(pipe: Pipe, water_degc: float = 15.0) -> Callable[[float], float]:
    """``drop_kpa`` of one pipe at any flow, for searches that ask it often. Ranges as there. Source: as there.

    >>> round(drop_curve(Pipe(5, 0.010), 20)(6), 2)
    11.85
    """
    _check_pipe(pipe)
    thick, bore_m, rough = viscosity_m2_s(water_degc), pipe.bore_m, pipe.roughness_m / pipe.bore_m
    speed_per_l_min = 1 / 60_000 / (pi * bore_m**2 / 4)

    def lost_kpa(flow_l_min: float) -> float:
        if within("flow_l_min", flow_l_min, 0, 200) == 0:
            return 0.0
        speed = flow_l_min * speed_per_l_min
        friction = friction_frac(max(1.0, speed * bore_m / thick), rough) * pipe.length_m / bore_m
        return (friction + pipe.fittings_count) * WATER_KG_M3 * speed**2 / 2000

    return lost_kpa


def _colebrook(re: float, rough: float) -> float:
    x = -2 * log10(rough / 3.7 + 5.74 / re**0.9)  # 1/√f after Swamee and Jain
    for _ in range(8):
        x = -2 * log10(rough / 3.7 + 2.51 * x / re)
    return 1 / (x * x)


def _check_pipe(pipe: Pipe) -> None:
    within("length_m", pipe.length_m, 0, 200)
    within("bore_m", pipe.bore_m, 0.003, 0.1)
    within("fittings_count", pipe.fittings_count, 0, 1e5)
    within("roughness_m", pipe.roughness_m, 0, 0.05 * pipe.bore_m)
