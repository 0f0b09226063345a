"""Pressure of liquefied gas, what is left of a mix as it is used, and the cold in which it stops coming."""

from functools import lru_cache
from math import exp
from typing import Literal

from engine.physics.ranges import within

Gas = Literal["propane", "butane", "isobutane"]

ATMOSPHERE_KPA = 101.325

FULL_FLOW_KPA = 65.0
"""Gauge pressure that a two-stage regulator wants at its inlet for its full flow (common practice): propane at −30 °C.
The charts of the United States let the liquid cool to −29 °C (−20 °F)."""


# Vapour pressures: R. C. Reid, J. M. Prausnitz and B. E. Poling, The Properties of Gases and Liquids, 4th edition
# (1987), appendix A (from memory; tests hold them to CoolProp). Critical temperature in K, critical pressure in kPa,
# Wagner's four coefficients.
_WAGNER: dict[Gas, tuple[float, float, float, float, float, float]] = {
    "propane": (369.8, 4250, -6.72219, 1.33236, -2.13868, -1.38551),
    "butane": (425.2, 3800, -6.88709, 1.15157, -1.99873, -3.13003),
    "isobutane": (408.2, 3650, -6.95579, 1.50090, -2.52717, -1.49776),
}

_MOLAR_G = {"propane": 44.096, "butane": 58.122}

_EVAPORATION_KJ_KG = {"propane": 374.9, "butane": 385.3}
"""At 0 °C (CoolProp 8)."""


def vapour_pressure_kpa(gas: Gas, liquid_degc: float) -> float:
    """Absolute pressure over the liquid of one gas.

    liquid_degc: −60 to 60. Good to 0.7 %. Source: Wagner's equation, see above.

    >>> [round(vapour_pressure_kpa("propane", t)) for t in (-20, 0, 20)]
    [245, 476, 838]
    """
    critical_k, critical_kpa, a, b, c, d = _WAGNER[gas]
    t = within("liquid_degc", liquid_degc, -60, 60) + 273.15
    x = 1 - t / critical_k
    return critical_kpa * exp((a * x + b * x**1.5 + c * x**3 + d * x**6) * critical_k / t)


def mix_kpa(propane_frac: float, liquid_degc: float) -> float:
    """Absolute pressure over a mix of propane and n-butane.

    Σ x·p, with x by molecules. propane_frac: by mass, 0 to 1. liquid_degc: −60 to 60. Up to 4 % too high. Source:
    Raoult.

    >>> [round(mix_kpa(f, 0)) for f in (1, 0.5, 0)]
    [476, 315, 104]
    """
    x = _by_molecules(within("propane_frac", propane_frac, 0, 1))
    return x * vapour_pressure_kpa("propane", liquid_degc) + (1 - x) * vapour_pressure_kpa("butane", liquid_degc)


def left_propane_frac(propane_frac: float, used_frac: float, liquid_degc: float) -> float:
    """Propane in what is left of a mix, by mass: propane boils off first, the more so the colder it is.

    n₁/n₁₀ = (n₂/n₂₀)^α with α = p₁/p₂. propane_frac: of the full cylinder by mass, 0 to 1. used_frac: of its mass, 0 to
    0.999. liquid_degc: −60 to 60, taken as steady. Source: Lord Rayleigh's distillation (any text) with Raoult.

    >>> [round(left_propane_frac(0.6, u, 0), 2) for u in (0, 0.5, 0.8)]
    [0.6, 0.38, 0.08]
    """
    start = within("propane_frac", propane_frac, 0, 1)
    left = 1 - within("used_frac", used_frac, 0, 0.999)
    alpha = vapour_pressure_kpa("propane", liquid_degc) / vapour_pressure_kpa("butane", liquid_degc)
    low, high = 0.0, 1.0
    for _ in range(60):
        s = (low + high) / 2
        low, high = (s, high) if start * s**alpha + (1 - start) * s < left else (low, s)
    s = (low + high) / 2
    propane = float(start * s**alpha)
    return propane / (propane + (1 - start) * s)


@lru_cache(maxsize=1024)
def coldest_feed_degc(
    propane_frac: float, need_kpa: float = FULL_FLOW_KPA, outside_kpa: float = ATMOSPHERE_KPA
) -> float:
    """Coldest liquid that still gives a gauge pressure.

    propane_frac: by mass, 0 to 1. need_kpa: 0 to 300 over outside. outside_kpa: 50 to 110; high up gas comes more
    easily. Source: ``mix_kpa``, found by halving.

    >>> [round(coldest_feed_degc(f, 0), 1) for f in (1, 0)]
    [-42.2, -0.6]
    >>> [round(coldest_feed_degc(f)) for f in (1, 0.6, 0.2, 0)]
    [-30, -22, -5, 13]
    """
    within("propane_frac", propane_frac, 0, 1)
    want = within("need_kpa", need_kpa, 0, 300) + within("outside_kpa", outside_kpa, 50, 110)
    low, high = -60.0, 60.0
    while high - low > 1e-6:
        middle = (low + high) / 2
        low, high = (middle, high) if mix_kpa(propane_frac, middle) < want else (low, middle)
    return high


def evaporation_wh_kg(propane_frac: float, liquid_degc: float) -> float:
    """Heat that turns a kilogram of liquid to gas.

    L₀·((T_c − T)/(T_c − T₀))^0.38 of each gas, by mass. propane_frac: 0 to 1. liquid_degc: −60 to 60. Good to 1 %.
    Source: K. M. Watson, Industrial and Engineering Chemistry 35 (1943) 398, from the values at 0 °C.

    >>> round(evaporation_wh_kg(1, -30) * 3.6)
    415
    """
    within("propane_frac", propane_frac, 0, 1)
    t = within("liquid_degc", liquid_degc, -60, 60) + 273.15
    propane, butane = _evaporation_wh_kg("propane", t), _evaporation_wh_kg("butane", t)
    return propane_frac * propane + (1 - propane_frac) * butane


def _evaporation_wh_kg(gas: Gas, t_k: float) -> float:
    critical_k = _WAGNER[gas][0]
    return float(_EVAPORATION_KJ_KG[gas] * ((critical_k - t_k) / (critical_k - 273.15)) ** 0.38 / 3.6)


def _by_molecules(propane_frac: float) -> float:
    propane = propane_frac / _MOLAR_G["propane"]
    return propane / (propane + (1 - propane_frac) / _MOLAR_G["butane"])
