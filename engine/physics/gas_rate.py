"""The rate at which a cylinder can boil.

The rate is an estimate with a wide band: published charts differ threefold, for wind, frost on the cylinder, its wall
and how long one draws all count. Where a heater hangs on it, two cylinders in use together are the safe way.
"""

from math import acos, pi, sqrt
from typing import NamedTuple

from engine.physics.fuel import PROPANE_KG_L
from engine.physics.gas_supply import FILLING_KG_L
from engine.physics.gas_vapour import FULL_FLOW_KPA, coldest_feed_degc, evaporation_wh_kg
from engine.physics.ranges import within

FILM_LOW_W_M2K, FILM_W_M2K, FILM_HIGH_W_M2K = 7.0, 12.0, 20.0
"""From air to boiling liquid through the wetted wall, fitted to published charts: for 100 lb cylinders, as US generator
makers print it (113,000 BTU/h full and 28,000 at a tenth at 0 °F, 300,000 and 66,000 at 70 °F: 10 to 18 W/(m²·K)), for
an 84 lb motor-home tank at 0 °F (64,000, 50,400 and 33,000 BTU/h at 80, 50 and 20 %: 13), and a German trade table
without a temperature (0.2, 0.3 and 0.6 kg/h without a break from 5, 11 and 33 kg: 8 at −10 °C and a fifth left)."""

WALL_REACH_M = 0.10
"""So far above the liquid the steel wall still brings in heat: √(k·t/h) of 3 mm of steel as a fin."""


class Cylinder(NamedTuple):
    """A cylinder that stands upright."""

    full_kg: float
    diameter_m: float | None = None
    """When left out 0.135 m times the third root of ``full_kg``: 0.30 m at 11 kg (common practice)."""


class Rate(NamedTuple):
    """Gas a cylinder gives without end at one filling, with its band."""

    kg_h: float
    low_kg_h: float
    high_kg_h: float


def wetted_m2(cylinder: Cylinder, fill_frac: float) -> float:
    """Wall that brings heat to the liquid of one cylinder: bottom, wetted side and a strip of wall above it.

    full_kg: 0.2 to 60. diameter_m: 0.08 to 0.8. fill_frac: of the legal content, 0 to 1; 0 gives 0. Source: geometry.

    >>> [round(wetted_m2(Cylinder(11), f), 2) for f in (1, 0.5, 0.1)]
    [0.42, 0.31, 0.19]
    """
    full = within("full_kg", cylinder.full_kg, 0.2, 60)
    d = within("diameter_m", cylinder.diameter_m or 0.135 * full ** (1 / 3), 0.08, 0.8)
    if within("fill_frac", fill_frac, 0, 1) == 0:
        return 0.0
    base = pi * d * d / 4
    whole_height = full / FILLING_KG_L / 1000 / base
    height = full * fill_frac / PROPANE_KG_L / 1000 / base
    return base + pi * d * min(whole_height, height + WALL_REACH_M)


def lying_wetted_m2(diameter_m: float, length_m: float, filled_frac: float) -> float:
    """Wall that brings heat to the liquid of a lying tank with flat ends: what it wets and a strip above it.

    filled_frac: of its whole volume, 0 to 0.85 (0.8 is full); 0 gives 0.

    diameter_m: 0.1 to 1. length_m: 0.2 to 3. Source: geometry of a circle's segment; found by halving.

    >>> round(lying_wetted_m2(0.3, 0.9, 0.5), 3)
    0.675
    """
    r, length = within("diameter_m", diameter_m, 0.1, 1) / 2, within("length_m", length_m, 0.2, 3)
    want = within("filled_frac", filled_frac, 0, 0.85)
    low, high = 0.0, 2.0  # height of the liquid over the radius
    for _ in range(60):
        h = (low + high) / 2
        low, high = (h, high) if _segment(h) < want else (low, h)
    h = (low + high) / 2
    wet = 2 * r * acos(1 - h) * length + 2 * _segment(h) * pi * r * r
    whole = 2 * pi * r * (length + r)
    return min(whole, wet + 2 * WALL_REACH_M * length) if want else 0.0


def vapour_kg_h(wall_m2: float, air_degc: float, propane_frac: float = 1.0, need_kpa: float = FULL_FLOW_KPA) -> Rate:
    """Gas that boils off without end, heated by the air alone; an estimate.

    U·A·(θ_air − θ_feed)/L, with θ_feed the coldest liquid that gives the pressure. wall_m2: 0 to 10, see ``wetted_m2``.
    air_degc: −60 to 50. propane_frac: of what is left, by mass, 0 to 1. need_kpa: 0 to 300. Source: heat balance; U
    from three published charts (see ``FILM_W_M2K``).

    >>> full, low = (vapour_kg_h(wetted_m2(Cylinder(11), f), 0) for f in (1, 0.1))
    >>> [round(x, 2) for x in full], round(low.kg_h, 2)
    ([1.32, 0.77, 2.2], 0.61)
    """
    wall = within("wall_m2", wall_m2, 0, 10)
    feed = coldest_feed_degc(propane_frac, need_kpa)
    warm_k = max(0.0, within("air_degc", air_degc, -60, 50) - feed)
    each = wall * warm_k / evaporation_wh_kg(propane_frac, feed)
    return Rate(FILM_W_M2K * each, FILM_LOW_W_M2K * each, FILM_HIGH_W_M2K * each)


def _segment(h: float) -> float:
    """Share of a circle's area below a height (over the radius)."""
    return (acos(1 - h) - (1 - h) * sqrt(max(0.0, 2 * h - h * h))) / pi
