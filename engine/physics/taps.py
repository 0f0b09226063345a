"""What a pump gives at one or two open taps, and a pressure vessel's reserve."""

from collections.abc import Callable
from functools import lru_cache
from math import sqrt
from typing import NamedTuple

from engine.physics.pipe_flow import WATER_KG_M3, Pipe, drop_curve
from engine.physics.ranges import within

ATMOSPHERE_KPA = 101.325


class PumpCurve(NamedTuple):
    """A pump by its open flow and the pressure at which it gives none; a diaphragm pump is near a straight line."""

    open_l_min: float
    shut_kpa: float


class Tap(NamedTuple):
    """A tap or shower by the flow it lets through at a pressure: below it flow goes with the root of pressure, above it
    no more comes, as from heads and aerators that hold their flow."""

    flow_l_min: float
    at_kpa: float = 100.0
    rise_m: float = 0.0
    """Height over the pump."""


def tap_l_min(tap: Tap, pressure_kpa: float) -> float:
    """Flow at a tap under a pressure at the pump's height. pressure_kpa: 0 to 2000. Ranges as for ``two_taps``.

    q₀·√(p/p₀) up to q₀, p less the height. Source: flow through a restriction (any text); flow classes of heads and
    aerators as in EN 246 and EN 1112 (from memory).

    >>> tap_l_min(Tap(6, 100), 25), tap_l_min(Tap(6, 100), 300)
    (3.0, 6.0)
    """
    _check_tap(tap)
    head = within("pressure_kpa", pressure_kpa, 0, 2000) - _lift_kpa(tap)
    return tap.flow_l_min * sqrt(min(1.0, head / tap.at_kpa)) if head > 0 else 0.0


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
    >>> alone = two_taps(pump, run, (Pipe(1, 0.010, 3), Tap(6.0)))
    >>> both = two_taps(pump, run, (Pipe(1, 0.010, 3), Tap(6.0)), (Pipe(3, 0.010, 3), Tap(5)))
    >>> [round(q, 1) for q in alone], [round(q, 1) for q in both]
    ([6.0, 0.0], [4.2, 3.4])
    """
    within("open_l_min", pump.open_l_min, 0.5, 60)
    within("shut_kpa", pump.shut_kpa, 10, 1000)
    trunk_kpa = drop_curve(trunk, water_degc)
    ways = [(drop_curve(pipe, water_degc), tap) for pipe, tap in ([first] if second is None else [first, second])]
    for _, tap in ways:
        _check_tap(tap)

    def drawn(at_tee_kpa: float) -> list[float]:
        return [_drawn_l_min(pipe_kpa, tap, at_tee_kpa, pump.open_l_min) for pipe_kpa, tap in ways]

    def short_kpa(at_tee_kpa: float) -> float:
        flow = sum(drawn(at_tee_kpa))
        return at_tee_kpa - pump.shut_kpa * (1 - flow / pump.open_l_min) + trunk_kpa(min(flow, 200.0))

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


def between_starts_s(gives_l: float, drawn_l_min: float, pump_l_min: float) -> float:
    """Seconds from one start of a pump to the next: a tap empties what its vessel gives, then the pump fills it again.

    While it fills, the tap goes on drawing. gives_l: 0 to 200. Litres a minute: of the tap above 0, of the pump above
    the tap's, both up to 200. Source: balance of volumes.

    >>> round(between_starts_s(0.5, 3.0, 6.0), 1)
    20.0
    """
    within("gives_l", gives_l, 0, 200)
    drawn = within("drawn_l_min", drawn_l_min, 0.001, 200)
    left = within("pump_l_min", pump_l_min, drawn + 0.001, 200) - drawn
    return 60 * gives_l * (1 / drawn + 1 / left)


def _lift_kpa(tap: Tap) -> float:
    return WATER_KG_M3 * 9.80665 * tap.rise_m / 1000


def _drawn_l_min(pipe_kpa: Callable[[float], float], tap: Tap, at_tee_kpa: float, most_l_min: float) -> float:
    """Flow that a pressure at the tee drives through a branch and its tap."""
    head_kpa = at_tee_kpa - _lift_kpa(tap)
    if head_kpa <= 0:
        return 0.0
    # The root of the pressure is nearly in proportion to the flow, so few steps find it.
    wanted = sqrt(head_kpa)

    def over(flow: float) -> float:
        return sqrt(tap.at_kpa * (flow / tap.flow_l_min) ** 2 + pipe_kpa(min(flow, 200.0))) - wanted

    return _root(over, min(most_l_min, tap.flow_l_min))


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


def _check_tap(tap: Tap) -> None:
    within("flow_l_min", tap.flow_l_min, 0.5, 60)
    within("at_kpa", tap.at_kpa, 5, 1000)
    within("rise_m", tap.rise_m, -2, 5)
