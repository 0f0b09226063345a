"""Water in pipes: pressure lost on the way, what a pump gives at one or two taps, and a pressure vessel's reserve."""

from collections.abc import Callable
from functools import lru_cache
from math import log10, pi, sqrt
from typing import NamedTuple

from engine.physics.ranges import within

WATER_KG_M3 = 998.2
"""Water at 20 °C (IAPWS-95)."""

LAMINAR_RE, TURBULENT_RE = 2000.0, 4000.0
"""Between them the friction factor is drawn straight from the one law to the other."""

SMOOTH_M = 1.5e-6
"""Roughness of plastic and copper pipe (any handbook)."""

ELBOW, TEE_BRANCH, VALVE_OPEN, FILTER = 0.9, 1.8, 0.3, 5.0
"""Loss coefficients of small fittings: elbow, tee through its branch, open ball valve, strainer (common practice)."""

ATMOSPHERE_KPA = 101.325


class Pipe(NamedTuple):
    """A run of pipe of one bore with the loss coefficients of its fittings, summed."""

    length_m: float
    bore_m: float
    fittings_count: float = 0.0
    """Σ K: 0.9 for an elbow and so on."""
    roughness_m: float = SMOOTH_M


class PumpCurve(NamedTuple):
    """A pump by its open flow and the pressure at which it gives none; a diaphragm pump is near a straight line."""

    open_l_min: float
    shut_kpa: float


class Tap(NamedTuple):
    """A tap or shower by the flow it lets through at a pressure; flow goes with the root of pressure."""

    flow_l_min: float
    at_kpa: float = 100.0
    rise_m: float = 0.0
    """Height over the pump."""


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

    length_m: 0 to 200. bore_m: 0.003 to 0.1. fittings_count: 0 to 200. roughness_m: 0 to 0.0005. flow_l_min: 0 to 200.
    water_degc: 0 to 99. Source: Darcy and Weisbach (any fluid mechanics text).

    >>> round(drop_kpa(Pipe(5, 0.010), 6, 20), 2)
    11.85
    """
    _check_pipe(pipe)
    within("flow_l_min", flow_l_min, 0, 200)
    return _drop(pipe, flow_l_min, viscosity_m2_s(water_degc))


def tap_l_min(tap: Tap, pressure_kpa: float) -> float:
    """Flow at a tap under a pressure at the pump's height. pressure_kpa: 0 to 2000. Ranges as for ``two_taps``.

    q₀·√(p/p₀), p less the height. Source: flow through a restriction (any text).

    >>> tap_l_min(Tap(6, 100), 25)
    3.0
    """
    _check_tap(tap)
    head = within("pressure_kpa", pressure_kpa, 0, 2000) - _lift_kpa(tap)
    return tap.flow_l_min * sqrt(head / tap.at_kpa) if head > 0 else 0.0


@lru_cache(maxsize=512)
def two_taps(
    pump: PumpCurve,
    trunk: Pipe,
    first: tuple[Pipe, Tap],
    second: tuple[Pipe, Tap] | None = None,
    water_degc: float = 15.0,
) -> tuple[float, float]:
    """Litres a minute at one or two open taps behind a common pipe.

    The pressure at the tee is found at which the pump gives just what both let through. open_l_min: 0.5 to 60.
    shut_kpa: 10 to 1000. flow_l_min of a tap 0.5 to 60 at_kpa 5 to 1000, rise_m −2 to 5. Pipes as for
    ``drop_kpa``. Source: pump and pipe curves (any text); found by false position.

    >>> pump, run = PumpCurve(10, 300), Pipe(4, 0.010, 4)
    >>> alone = two_taps(pump, run, (Pipe(1, 0.010, 3), Tap(6)))
    >>> both = two_taps(pump, run, (Pipe(1, 0.010, 3), Tap(6)), (Pipe(3, 0.010, 3), Tap(5)))
    >>> [round(q, 1) for q in alone], [round(q, 1) for q in both]
    ([6.0, 0.0], [4.2, 3.4])
    """
    within("open_l_min", pump.open_l_min, 0.5, 60)
    within("shut_kpa", pump.shut_kpa, 10, 1000)
    _check_pipe(trunk)
    ways = [first] if second is None else [first, second]
    for pipe, tap in ways:
        _check_pipe(pipe)
        _check_tap(tap)
    thick = viscosity_m2_s(water_degc)

    def drawn(at_tee_kpa: float) -> list[float]:
        return [
            _root(lambda q, p=pipe, t=tap: _need_kpa(p, t, q, thick) - at_tee_kpa, pump.open_l_min)  # type: ignore[misc]
            if at_tee_kpa > _lift_kpa(tap)
            else 0.0
            for pipe, tap in ways
        ]

    def short_kpa(at_tee_kpa: float) -> float:
        flow = sum(drawn(at_tee_kpa))
        left = pump.shut_kpa * (1 - flow / pump.open_l_min) - _drop(trunk, min(flow, 200.0), thick)
        return at_tee_kpa - left

    flows = drawn(_root(short_kpa, pump.shut_kpa))
    return flows[0], flows[1] if second is not None else 0.0


def drawdown_l(volume_l: float, precharge_kpa: float, cut_in_kpa: float, cut_out_kpa: float) -> float:
    """Water a pressure vessel gives between the pump's stop and its next start.

    V·p₀·(1/p_in − 1/p_out) with absolute pressures. volume_l: 0 to 200. Gauge pressures 0 to 1000, precharge_kpa not
    above cut_in_kpa (else part of the vessel never fills: it raises), cut_in_kpa not above cut_out_kpa. Source: Boyle.

    >>> round(drawdown_l(2, 140, 150, 280), 2)
    0.65
    """
    within("volume_l", volume_l, 0, 200)
    out = within("cut_out_kpa", cut_out_kpa, 0, 1000)
    start = within("cut_in_kpa", cut_in_kpa, 0, out)
    before = within("precharge_kpa", precharge_kpa, 0, start) + ATMOSPHERE_KPA
    return volume_l * before * (1 / (start + ATMOSPHERE_KPA) - 1 / (out + ATMOSPHERE_KPA))


def _colebrook(re: float, rough: float) -> float:
    x = -2 * log10(rough / 3.7 + 5.74 / re**0.9)  # 1/√f after Swamee and Jain
    for _ in range(8):
        x = -2 * log10(rough / 3.7 + 2.51 * x / re)
    return 1 / (x * x)


def _drop(pipe: Pipe, flow_l_min: float, thick: float) -> float:
    if flow_l_min <= 0 or (pipe.length_m == 0 and pipe.fittings_count == 0):
        return 0.0
    speed = flow_l_min / 60_000 / (pi * pipe.bore_m**2 / 4)
    re = max(1.0, speed * pipe.bore_m / thick)
    friction = friction_frac(re, pipe.roughness_m / pipe.bore_m) * pipe.length_m / pipe.bore_m
    return (friction + pipe.fittings_count) * WATER_KG_M3 * speed**2 / 2000


def _lift_kpa(tap: Tap) -> float:
    return WATER_KG_M3 * 9.80665 * tap.rise_m / 1000


def _need_kpa(pipe: Pipe, tap: Tap, flow_l_min: float, thick: float) -> float:
    """Pressure at the tee that drives a flow through a branch and its tap."""
    return _drop(pipe, min(flow_l_min, 200.0), thick) + _lift_kpa(tap) + tap.at_kpa * (flow_l_min / tap.flow_l_min) ** 2


def _root(rising: Callable[[float], float], high: float) -> float:
    """Where a rising function crosses 0 between 0 and high: false position in the Illinois form, then the ends."""
    low, at_low, at_high = 0.0, rising(0.0), rising(high)
    if at_low >= 0:
        return low
    if at_high <= 0:
        return high
    side = 0
    for _ in range(60):
        middle = (low * at_high - high * at_low) / (at_high - at_low)
        at = rising(middle)
        if abs(at) < 1e-7 or high - low < 1e-9:
            return middle
        if at > 0:
            high, at_high = middle, at
            at_low = at_low / 2 if side == 1 else at_low
            side = 1
        else:
            low, at_low = middle, at
            at_high = at_high / 2 if side == -1 else at_high
            side = -1
    return (low + high) / 2


def _check_pipe(pipe: Pipe) -> None:
    within("length_m", pipe.length_m, 0, 200)
    within("bore_m", pipe.bore_m, 0.003, 0.1)
    within("fittings_count", pipe.fittings_count, 0, 200)
    within("roughness_m", pipe.roughness_m, 0, 0.05 * pipe.bore_m)


def _check_tap(tap: Tap) -> None:
    within("flow_l_min", tap.flow_l_min, 0.5, 60)
    within("at_kpa", tap.at_kpa, 5, 1000)
    within("rise_m", tap.rise_m, -2, 5)
