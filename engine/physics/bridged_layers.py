"""Layers bridged by timber: where the combined method of ISO 6946 may be used, still air, outside films, sums of loss.

The method itself is ``engine.physics.heat.u_value``. Metal through insulation is not its business:
``engine.physics.metal_rib`` is.
"""

from itertools import pairwise
from math import fsum
from typing import NamedTuple

from engine.physics.heat import SURFACE_OUTSIDE_M2K_W, Layer, UValue, air_loss_w_k, u_value
from engine.physics.ranges import within

LIMIT_RATIO = 1.5
"""The combined method does not hold when the upper limit of R is more than this times the lower. ISO 6946:2017, 6.7.2.1
(from memory)."""

STEFAN_BOLTZMANN_W_M2K4 = 5.670374e-8
"""Stefan-Boltzmann constant (CODATA 2018)."""

# ISO 6946:2017, table 8 (from memory): still air between surfaces that radiate well, m²K/W by thickness in m.
_STILL_AIR = {
    "sideways": ((0.005, 0.11), (0.007, 0.13), (0.010, 0.15), (0.015, 0.17), (0.025, 0.18), (0.300, 0.18)),
    "up": ((0.005, 0.11), (0.007, 0.13), (0.010, 0.15), (0.015, 0.16), (0.025, 0.16), (0.300, 0.16)),
    "down": ((0.005, 0.11), (0.007, 0.13), (0.010, 0.15), (0.015, 0.17), (0.025, 0.19), (0.050, 0.21), (0.100, 0.22),
             (0.300, 0.23)),
}  # fmt: skip


class Face(NamedTuple):
    """One part of a shell: area and transmittance, and bridges along its length that come on top."""

    name: str
    area_m2: float
    u_w_m2k: float
    bridge_m: float = 0.0
    bridge_w_mk: float = 0.0


class Loss(NamedTuple):
    """Heat a part of the shell, or the air, loses for each kelvin; and its share of the whole."""

    name: str
    loss_w_k: float
    share_frac: float


def bridged_u(
    layers: tuple[Layer, ...], inside_m2k_w: float, outside_m2k_w: float = SURFACE_OUTSIDE_M2K_W
) -> tuple[UValue, float]:
    """U-value by the combined method, and the largest error it can have; raises where the method does not hold.

    Error: (R' − R'')/(2·R), with R' and R'' the limits of the resistance. Raises OutOfRangeError beyond the ranges of
    ``u_value`` and when R'/R'' is above ``LIMIT_RATIO``: then only a two-dimensional solution says what is true.
    Source: ISO 6946:2017, 6.7.2.

    >>> wall = (Layer(0.006, 0.13), Layer(0.040, 0.033, 0.10, 0.13), Layer(0.001, 160))
    >>> u, error_frac = bridged_u(wall, 0.13)
    >>> round(u.u_w_m2k, 5), round(error_frac, 4)
    (0.84355, 0.0274)
    """
    u = u_value(layers, inside_m2k_w, outside_m2k_w)
    upper, lower = 1 / u.low_w_m2k, 1 / u.high_w_m2k
    within("upper_over_lower_ratio", upper / lower, 1, LIMIT_RATIO)
    return u, (upper - lower) * u.u_w_m2k / 2


def still_air_m2k_w(thickness_m: float, flow: str = "sideways") -> float:
    """Resistance of a closed layer of air by the way heat flows: "sideways", "up" or "down".

    thickness_m: 0.005 to 0.3; between the values of the table along a straight line. A foil makes it larger, an
    opening to either side smaller: neither is counted. Source: ISO 6946:2017, table 8 (from memory).

    >>> still_air_m2k_w(0.02), still_air_m2k_w(0.05, "down")
    (0.175, 0.21)
    """
    within("thickness_m", thickness_m, 0.005, 0.3)
    table = _STILL_AIR[flow]
    for (t0, r0), (t1, r1) in pairwise(table):
        if thickness_m <= t1:
            return r0 + (r1 - r0) * (thickness_m - t0) / (t1 - t0)
    return table[-1][1]


def outside_film_m2k_w(wind_m_s: float, outside_degc: float = 0.0, emissivity_frac: float = 0.9) -> float:
    """Resistance of the outside surface in wind: 1/(4 + 4·v + ε·4·σ·T³).

    wind_m_s: 0 to 40 (a vehicle on the road has its own). outside_degc: −50 to 50. emissivity_frac: 0.02 (bare
    aluminium) to 1. Source: ISO 6946:2017, annex C (from memory); 0.04 m²K/W stands for 4 m/s.

    >>> round(outside_film_m2k_w(4), 2), round(outside_film_m2k_w(25), 3)
    (0.04, 0.009)
    """
    within("wind_m_s", wind_m_s, 0, 40)
    t_k = within("outside_degc", outside_degc, -50, 50) + 273.15
    radiated = within("emissivity_frac", emissivity_frac, 0.02, 1) * 4 * STEFAN_BOLTZMANN_W_M2K4 * t_k**3
    return 1 / (4 + 4 * wind_m_s + radiated)


def losses(faces: tuple[Face, ...], air_m3_h: float) -> tuple[Loss, ...]:
    """Loss of each part of the shell and of the exchanged air, the largest first; together they are the whole.

    Σ U·A + ψ·l, and 0.335 Wh/(m³K) for the air. area_m2: 0 to 500. u_w_m2k: 0 to 10. bridge_m: 0 to 500. bridge_w_mk:
    −1 to 5. air_m3_h: 0 to 2000. Source: ISO 13789 (transmission), EN 12831 (form for the air).

    >>> cabin = (Face("walls", 28.1, 0.84), Face("window", 1.5, 2.63), Face("roof", 10.45, 0.70))
    >>> [(part.name, round(part.loss_w_k, 2)) for part in losses(cabin, 20.9)]
    [('walls', 23.6), ('roof', 7.31), ('air', 7.01), ('window', 3.94)]
    """
    found = [("air", air_loss_w_k(air_m3_h))]
    for f in faces:
        within("area_m2", f.area_m2, 0, 500)
        within("u_w_m2k", f.u_w_m2k, 0, 10)
        within("bridge_m", f.bridge_m, 0, 500)
        within("bridge_w_mk", f.bridge_w_mk, -1, 5)
        found.append((f.name, f.area_m2 * f.u_w_m2k + f.bridge_m * f.bridge_w_mk))
    whole = fsum(w_k for _, w_k in found)
    shares = [Loss(name, w_k, w_k / whole if whole else 0.0) for name, w_k in found]
    return tuple(sorted(shares, key=lambda part: -part.loss_w_k))
