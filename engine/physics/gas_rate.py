"""The rate at which a cylinder can boil, and a cylinder by the hour.

The rate is an estimate with a wide band: published charts differ threefold, for wind, frost on the cylinder, its wall
and how long one draws all count. Where a heater hangs on it, two cylinders in use together are the safe way.
"""

from functools import lru_cache
from math import acos, exp, pi, sqrt
from typing import NamedTuple

from engine.physics.fuel import PROPANE_KG_L
from engine.physics.gas_supply import FILLING_KG_L
from engine.physics.gas_vapour import (
    ATMOSPHERE_KPA,
    FULL_FLOW_KPA,
    coldest_feed_degc,
    evaporation_wh_kg,
    left_propane_frac,
    mix_kpa,
)
from engine.physics.ranges import within

FILM_LOW_W_M2K, FILM_W_M2K, FILM_HIGH_W_M2K = 7.0, 12.0, 20.0
"""From air to boiling liquid through the wetted wall, fitted to published charts: for 100 lb cylinders, as US generator
makers print it (113,000 BTU/h full and 28,000 at a tenth at 0 °F, 300,000 and 66,000 at 70 °F: 10 to 18 W/(m²·K)), for
an 84 lb motor-home tank at 0 °F (64,000, 50,400 and 33,000 BTU/h at 80, 50 and 20 %: 13), and a German trade table
without a temperature (0.2, 0.3 and 0.6 kg/h without a break from 5, 11 and 33 kg: 8 at −10 °C and a fifth left)."""

WALL_REACH_M = 0.10
"""So far above the liquid the steel wall still brings in heat: √(k·t/h) of 3 mm of steel as a fin."""

LIQUID_WH_KGK = 2.4 / 3.6
"""Specific heat of liquid propane and butane about 0 °C (CoolProp 8: 2.3 to 2.5 kJ/(kg·K))."""


class Cylinder(NamedTuple):
    """A cylinder (or several like ones in use together) that stands upright."""

    full_kg: float
    number: int = 1
    diameter_m: float | None = None
    """When left out 0.135 m times the third root of ``full_kg``: 0.30 m at 11 kg (common practice)."""


class Rate(NamedTuple):
    """Gas a cylinder gives without end at one filling, with its band."""

    kg_h: float
    low_kg_h: float
    high_kg_h: float


class GasHour(NamedTuple):
    """A cylinder after an hour."""

    given_kg: float
    short_kg: float
    """Asked for and not given."""
    left_kg: float
    liquid_degc: float
    pressure_kpa: float
    """Over outside, at the hour's end."""
    propane_frac: float


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
    """Wall that liquid wets in a lying tank with flat ends. filled_frac: of its whole volume, 0 to 0.85 (0.8 is full).

    diameter_m: 0.1 to 1. length_m: 0.2 to 3. Source: geometry of a circle's segment; found by halving.

    >>> round(lying_wetted_m2(0.3, 0.9, 0.5), 3)
    0.495
    """
    r, length = within("diameter_m", diameter_m, 0.1, 1) / 2, within("length_m", length_m, 0.2, 3)
    want = within("filled_frac", filled_frac, 0, 0.85)
    low, high = 0.0, 2.0  # height of the liquid over the radius
    for _ in range(60):
        h = (low + high) / 2
        low, high = (h, high) if _segment(h) < want else (low, h)
    h = (low + high) / 2
    return 2 * r * acos(1 - h) * length + 2 * _segment(h) * pi * r * r


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


@lru_cache(maxsize=128)
def cylinder_hours(
    cylinder: Cylinder,
    left_kg: float,
    propane_frac: float,
    demand: tuple[float, ...],
    air_degc: tuple[float, ...],
    film_w_m2k: float = FILM_W_M2K,
    need_kpa: float = FULL_FLOW_KPA,
) -> tuple[GasHour, ...]:
    """Cylinders by the hour: the liquid cools as it gives gas, the air warms it, and propane goes before butane.

    left_kg: in all cylinders together, 0 to their full weight; the liquid starts as warm as the first hour's air.
    demand: kg in each hour, 0 to 20. air_degc: around the cylinder in each hour, −55 to 50. film_w_m2k: 5 to 30 (7 is
    careful). Others as for ``vapour_kg_h``. An hour's gas is given evenly over it. Source: heat balance of the liquid.

    >>> frost = cylinder_hours(Cylinder(11), 2.0, 1.0, (0.6,) * 3, (-15.0,) * 3)
    >>> [round(h.given_kg, 2) for h in frost], [round(h.liquid_degc) for h in frost]
    ([0.4, 0.33, 0.32], [-30, -30, -30])
    """
    within("number", cylinder.number, 1, 10)
    within("hours_count", len(demand), len(air_degc), len(air_degc))
    within("film_w_m2k", film_w_m2k, 5, 30)
    left = within("left_kg", left_kg, 0, cylinder.full_kg * cylinder.number)
    mix, liquid, hours = within("propane_frac", propane_frac, 0, 1), air_degc[0], []
    for asked, air in zip(demand, air_degc, strict=True):
        within("air_degc", air, -55, 50)
        within("demand_kg_h", asked, 0, 20)
        wall = wetted_m2(cylinder, left / (cylinder.full_kg * cylinder.number)) * cylinder.number
        feed = coldest_feed_degc(round(mix, 6), need_kpa)
        most, warms = _most_kg(left, film_w_m2k * wall, liquid, air, feed, evaporation_wh_kg(mix, feed))
        given = min(asked, left, most)
        if left > 0 and wall > 0:
            rest = air - given * evaporation_wh_kg(mix, feed) / (film_w_m2k * wall)
            liquid = rest + (liquid - rest) * warms
        if 0 < given < left:
            mix = left_propane_frac(mix, min(0.999, given / left), liquid)
        left -= given
        over = max(0.0, mix_kpa(mix, liquid) - ATMOSPHERE_KPA) if left > 0 else 0.0
        hours.append(GasHour(given, asked - given, left, liquid, over, mix))
    return tuple(hours)


def _most_kg(left: float, ua: float, liquid: float, air: float, feed: float, evaporation: float) -> tuple[float, float]:
    """Most gas in an hour that leaves the liquid warm enough, and what stays of a temperature difference."""
    if left <= 0 or ua <= 0:
        return 0.0, 1.0
    warms = exp(-ua / (left * LIQUID_WH_KGK))
    # (rest + (liquid − rest)·warms) = feed, with rest = air − m·L/UA
    rest = (feed - liquid * warms) / (1 - warms)
    return max(0.0, (air - rest) * ua / evaporation), warms


def _segment(h: float) -> float:
    """Share of a circle's area below a height (over the radius)."""
    return (acos(1 - h) - (1 - h) * sqrt(max(0.0, 2 * h - h * h))) / pi
