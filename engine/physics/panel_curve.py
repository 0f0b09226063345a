"""Current of a solar panel over its voltage, and what unlike strings in parallel keep at the one voltage they share."""

from bisect import bisect_left
from functools import lru_cache
from math import exp, log
from typing import NamedTuple

from engine.physics.panel import Panel
from engine.physics.ranges import within

_MOST_A_FRAC, _MOST_V_FRAC = 0.985, 0.96
"""A knee sharper than any real panel's is drawn as this sharp; labels are rounded."""


OPEN_COEFFICIENT_FRAC_K = -0.003
"""Of the open-circuit voltage, where a panel's sheet states none (common practice)."""

BRIGHT_CELL_DEGC = 45.0
"""Cells on a bright day (common practice: what panel sheets call the nominal operating temperature)."""


_HEATS_DEGC = range(-40, 121, 2)
"""Cell temperatures at which a fall is looked for."""


class Strings(NamedTuple):
    """Equal strings in parallel."""

    panel: Panel
    series: int
    parallel: int


@lru_cache(maxsize=256)
def knee(panel: Panel) -> tuple[float, float, float]:
    """(I_sc, C₁, U₂) of a panel's curve I = I_sc·(1 − C₁·(exp(U/U₂) − 1)), from the four values of its label.

    U₂ = (U_mp − U_oc)/ln(1 − I_mp/I_sc), C₁ = (1 − I_mp/I_sc)·exp(−U_mp/U₂). Power 1 to 2000 W, voltages 1 to 200 V,
    current 0.1 to 100 A. Source: explicit form of the one-diode equation, H. S. Rauschenbach, "Solar Cell Array Design
    Handbook" (1980); from memory. Up to the voltage at greatest power
    0 to 6 % above the diode equation; tested.

    >>> [round(x, 3) for x in knee(Panel(400, 37, 31, 13.5))]
    [13.5, 0.0, 1.924]
    """
    within("power_w", panel.power_w, 1, 2000)
    open_v = within("open_circuit_v", panel.open_circuit_v, 1, 200)
    power_v = within("max_power_v", panel.max_power_v, 1, 200)
    short_a = within("short_circuit_a", panel.short_circuit_a, 0.1, 100)
    left = 1 - min(_MOST_A_FRAC, panel.power_w / power_v / short_a)
    power_v = min(power_v, _MOST_V_FRAC * open_v)
    scale_v = (power_v - open_v) / log(left)
    return short_a, left * exp(-power_v / scale_v), scale_v


def string_w(s: Strings, at_v: float) -> float:
    """Power of equal strings held at a voltage, in full sun at 25 °C; less than nothing where current flows back.

    at_v: 0 to 2000. Source: see ``knee``.

    >>> panel = Panel(400, 37, 31, 13.5)
    >>> round(string_w(Strings(panel, 1, 2), 31.0)), round(string_w(Strings(panel, 1, 1), 13.5))
    (800, 182)
    """
    short_a, c, scale_v = knee(s.panel)
    each = min(within("at_v", at_v, 0, 2000) / s.series / scale_v, 700.0)
    return at_v * s.parallel * short_a * (1 - c * (exp(each) - 1))


def warm_panel(p: Panel, cell_degc: float) -> Panel:
    """A panel's label as it would read at another cell temperature; its currents stay. cell_degc: −60 to 120.

    Source: IEC 60891 (linear temperature coefficients, from memory).

    >>> [round(x, 1) for x in warm_panel(Panel(400, 37, 31, 13.5), 65)[:3]]
    [336.0, 32.6, 26.0]
    """
    beta, open_beta = p.power_voltage_coefficient_frac_k, p.open_coefficient_frac_k or OPEN_COEFFICIENT_FRAC_K
    over_k = within("cell_degc", cell_degc, -60, 120) - 25
    moved, open_moved = (max(0.2, 1 + b * over_k) for b in (beta, open_beta))
    return p._replace(
        power_w=p.power_w * moved, max_power_v=p.max_power_v * moved, open_circuit_v=p.open_circuit_v * open_moved
    )


@lru_cache(maxsize=512)
def held_frac(panel: Panel, series: int, at_v: float, cell_degc: float) -> float:
    """Current of panels held at a voltage over that at their greatest power, 0 to 1; all of it up to their best one.

    A hundredth of a volt above it is nothing, and about their open-circuit voltage no current is left. at_v: 0 to
    2000. cell_degc: −60 to 120. Source: see ``knee`` and ``warm_panel``.

    >>> panel = Panel(100, 22.5, 18.8, 5.7)
    >>> [round(held_frac(panel, 1, v, 65), 2) for v in (14.4, 15.8, 17.5, 20)]
    [1.0, 1.0, 0.84, 0.0]
    """
    warm = warm_panel(panel, cell_degc)
    best_a = warm.power_w / warm.max_power_v
    at_v = max(1e-3, within("at_v", at_v, 0, 2000))
    if at_v <= series * warm.max_power_v:
        return 1.0
    return min(1.0, max(0.0, string_w(Strings(warm, series, 1), at_v) / at_v / best_a))


@lru_cache(maxsize=256)
def fall_in_heat(s: Strings, needed_v: float, switching: bool = False) -> tuple[float, float]:
    """(cell temperature from which strings fall short of a voltage they must stay at, share lost per kelvin beyond).

    A controller that only steps down holds them at that voltage at least: where their best one lies below it, they give
    what their curve has there. Warmth moves the voltage at greatest power and the open-circuit one each by its own
    coefficient. The straight line meets the curve at 90 % and 30 % of the power: within 0.24 of a diode model's share,
    0.04 on average; tested. No share where they never fall short from −40 to 120 °C. On a switching controller, which
    holds them at that voltage and no other, the share is of what they give there at 25 °C.
    needed_v: 0 to 2000. Source: see ``knee``.

    >>> degc, share = fall_in_heat(Strings(Panel(425, 37.2, 31.2, 14.0), 1, 1), 27.5)
    >>> round(degc), round(share, 3)
    (87, 0.034)
    """
    within("needed_v", needed_v, 0, 2000)
    cool_w = string_w(s._replace(parallel=1), needed_v)

    def share(degc: int) -> float:
        warm = warm_panel(s.panel, degc)
        if not switching and s.series * warm.max_power_v >= needed_v:
            return 1.0
        whole_w = cool_w if switching else s.series * warm.power_w
        held_w = string_w(Strings(warm, s.series, 1), needed_v)
        return min(1.0, max(0.0, held_w / whole_w)) if whole_w > 0 else 0.0

    # The warmer, the smaller the share. Of odd panels on a switching controller it may rise at first; then this ends at
    # its fall.
    near = bisect_left(_HEATS_DEGC, -0.9, key=lambda degc: -share(degc))
    if near == len(_HEATS_DEGC):
        return 0.0, 0.0
    far = bisect_left(_HEATS_DEGC, -0.3, near, key=lambda degc: -share(degc))
    near_degc, far_degc = _HEATS_DEGC[near], _HEATS_DEGC[min(far, len(_HEATS_DEGC) - 1)]
    if far_degc == near_degc:
        return float(near_degc), 1.0
    near_frac = share(near_degc)
    lost_frac_k = (near_frac - share(far_degc)) / (far_degc - near_degc)
    return near_degc - (1 - near_frac) / lost_frac_k, lost_frac_k


@lru_cache(maxsize=512)
def shared_frac(strings: tuple[Strings, ...]) -> float:
    """What strings in parallel on one tracking input give together, over what each would give by itself.

    They stand at one voltage: that at which the sum of their powers is greatest. It lies between the lowest and the
    highest of their own best voltages, because below all of them every power rises, and above all every one falls.
    In less light, or warmer, all voltages move alike: within 0.06 of the diode equation's share, mostly 0.01; tested.
    Source: parallel connection, one voltage; see ``knee``.

    >>> a, b = Panel(200, 24.3, 20.4, 10.4), Panel(400, 37, 31, 13.5)
    >>> round(shared_frac((Strings(a, 1, 2), Strings(b, 1, 1))), 3), shared_frac((Strings(a, 2, 1),))
    (0.851, 1.0)
    """
    if len(strings) < 2:
        return 1.0
    alone = [_best((s,), 0.0, s.series * s.panel.open_circuit_v) for s in strings]
    _, most_w = _best(strings, min(alone)[0], max(alone)[0])
    return min(1.0, most_w / sum(w for _, w in alone))


@lru_cache(maxsize=2048)
def together_w(strings: tuple[Strings, ...], least_v: float, cell_degc: float) -> float:
    """Power of strings in parallel on a tracking input that never stands below a voltage, in full sun; never below 0.

    least_v: 0 to 2000. cell_degc: −60 to 120. Source: see ``shared_frac`` and ``warm_panel``.

    >>> a, b = Panel(200, 24.3, 20.4, 10.4), Panel(400, 37, 31, 13.5)
    >>> [round(together_w((Strings(a, 1, 2), Strings(b, 1, 1)), v, 25)) for v in (14, 26, 40)]
    [682, 0, 0]
    """
    warm = tuple(s._replace(panel=warm_panel(s.panel, cell_degc)) for s in strings)
    best_v = [_best((s,), 0.0, s.series * s.panel.open_circuit_v)[0] for s in warm]
    low_v = max(within("least_v", least_v, 0, 2000), min(best_v))
    return max(0.0, _best(warm, low_v, max(low_v, *best_v))[1])


def _best(strings: tuple[Strings, ...], low_v: float, high_v: float) -> tuple[float, float]:
    """(voltage, power) at which strings give most together: the best of a row of voltages, then ever closer."""
    for _ in range(3):
        step = (high_v - low_v) / 24
        most_w, at_v = max((sum(string_w(s, v) for s in strings), v) for v in (low_v + i * step for i in range(25)))
        low_v, high_v = max(low_v, at_v - step), min(high_v, at_v + step)
    return at_v, most_w
