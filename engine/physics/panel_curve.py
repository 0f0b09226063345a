"""Current of a solar panel over its voltage, and what unlike strings in parallel keep at the one voltage they share."""

from functools import lru_cache
from math import exp, log
from typing import NamedTuple

from engine.physics.ranges import within
from engine.physics.string_layout import Panel

_MOST_A_FRAC, _MOST_V_FRAC = 0.985, 0.96
"""A knee sharper than any real panel's is drawn as this sharp; labels are rounded."""


OPEN_COEFFICIENT_FRAC_K = -0.003
"""Of the open-circuit voltage, where a panel's sheet states none (common practice)."""


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


@lru_cache(maxsize=256)
def fall_in_heat(s: Strings, needed_v: float) -> tuple[float, float]:
    """(cell temperature from which strings fall short of a voltage they must stay at, share lost per kelvin beyond).

    A controller that only steps down holds them at that voltage at least: where their best one lies below it, they give
    what their curve has there. Warmth moves the voltage at greatest power and the open-circuit one each by its own
    coefficient. The straight line meets the curve at 90 % and 30 % of the power: within 0.24 of a diode model's share,
    0.04 on average; tested. No share where they never fall short from −40 to 120 °C.
    needed_v: 0 to 2000. Source: see ``knee``.

    >>> degc, share = fall_in_heat(Strings(Panel(425, 37.2, 31.2, 14.0), 1, 1), 27.5)
    >>> round(degc), round(share, 3)
    (87, 0.034)
    """
    within("needed_v", needed_v, 0, 2000)
    p = s.panel
    beta, open_beta = p.power_voltage_coefficient_frac_k, p.open_coefficient_frac_k or OPEN_COEFFICIENT_FRAC_K

    def share(degc: int) -> float:
        moved, open_moved = (max(0.2, 1 + b * (degc - 25)) for b in (beta, open_beta))
        if s.series * p.max_power_v * moved >= needed_v:
            return 1.0
        warm = p._replace(
            power_w=p.power_w * moved, max_power_v=p.max_power_v * moved, open_circuit_v=p.open_circuit_v * open_moved
        )
        return min(1.0, max(0.0, string_w(Strings(warm, s.series, 1), needed_v) / (s.series * warm.power_w)))

    shares = [(degc, share(degc)) for degc in range(-40, 121, 2)]
    near = next((x for x in shares if x[1] <= 0.9), None)
    if near is None:
        return 0.0, 0.0
    far = next((x for x in shares if x[1] <= 0.3), shares[-1])
    if far[0] == near[0]:
        return float(near[0]), 1.0
    lost_frac_k = (near[1] - far[1]) / (far[0] - near[0])
    return near[0] - (1 - near[1]) / lost_frac_k, lost_frac_k


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


def _best(strings: tuple[Strings, ...], low_v: float, high_v: float) -> tuple[float, float]:
    """(voltage, power) at which strings give most together: the best of a row of voltages, then ever closer."""
    for _ in range(3):
        step = (high_v - low_v) / 24
        most_w, at_v = max((sum(string_w(s, v) for s in strings), v) for v in (low_v + i * step for i in range(25)))
        low_v, high_v = max(low_v, at_v - step), min(high_v, at_v + step)
    return at_v, most_w
