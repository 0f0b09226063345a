"""What an inverter gives: for long in the heat, for the moment of a start, and what it takes doing nothing."""

from engine.physics.curve import Curve
from engine.physics.ranges import within

HEAT_CURVE = Curve(((-20.0, 1.0), (25.0, 1.0), (40.0, 0.9), (65.0, 0.6)))
"""Ambient temperature and share of the continuous rating of 25 °C, as makers' datasheets commonly have it (from memory:
1600 W at 25 °C, 1450 W at 40 °C, 1000 W at 65 °C). A datasheet has priority."""

RATED_DEGC = 25.0
"""Temperature for which a continuous rating is stated when nothing else is (common practice)."""


def continuous_w(
    rated_w: float, ambient_degc: float, rated_degc: float = RATED_DEGC, heat_curve: Curve = HEAT_CURVE
) -> float:
    """What an inverter gives for long where it sits.

    rated · f(θ)/f(θ_rated), never above its rating. rated_w: 0 to 100 000. ambient_degc: 65 °C at most, and with the
    curve given here −20 °C at least. Source: makers' datasheets, from memory.

    >>> continuous_w(2000, 40), continuous_w(2000, 10), round(continuous_w(2000, 52.5))
    (1800.0, 2000.0, 1500)
    """
    within("rated_w", rated_w, 0, 1e5)
    left = heat_curve.between("ambient_degc", ambient_degc) / heat_curve.between("rated_degc", rated_degc)
    return rated_w * min(1.0, left)


def surge_va(continuous_va: float, surges: Curve, start_s: float) -> float:
    """What an inverter gives for the time of a start.

    ``surges`` has for each duration in seconds what it gives that long; the largest that lasts as long as the start,
    and what it gives continuously when none does. continuous_va: 0 to 100 000. start_s: 0 to 3600.

    Source: the maker's datasheet.

    >>> two = Curve(((5.0, 4000.0), (60.0, 2600.0)))
    >>> surge_va(2000, two, 0.5), surge_va(2000, two, 5), surge_va(2000, two, 20), surge_va(2000, two, 120)
    (4000.0, 4000.0, 2600.0, 2000)
    """
    within("continuous_va", continuous_va, 0, 1e5)
    within("start_s", start_s, 0, 3600)
    return max([continuous_va, *(va for lasts_s, va in surges if lasts_s >= start_s)])


def largest_ac_w(battery_a: float, battery_v: float, efficiency_frac: float, dc_w: float = 0.0) -> float:
    """Largest load behind an inverter that a battery's current limit leaves, after loads at battery voltage.

    P = (I·U − P_dc)·η, never below 0. battery_a: 0 to 100 000. battery_v: 8 to 70. efficiency_frac: 0.5 to 1.
    dc_w: 0 to 1e6.

    Source: power balance.

    >>> round(largest_ac_w(100, 12.8, 0.88))
    1126
    """
    within("battery_a", battery_a, 0, 1e5)
    within("battery_v", battery_v, 8, 70)
    within("dc_w", dc_w, 0, 1e6)
    return max(0.0, battery_a * battery_v - dc_w) * within("efficiency_frac", efficiency_frac, 0.5, 1)
