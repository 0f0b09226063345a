"""How clear days are: the spread of daily clearness about a month's mean."""

from functools import lru_cache
from math import exp, expm1, log, log1p
from typing import NamedTuple

from engine.physics.clear_sky import clear_sky
from engine.physics.ranges import within
from engine.physics.roof_shade import MEAN_DAYS
from engine.physics.solar_position import (
    daily_extraterrestrial_kwh_m2_d,
    extraterrestrial_w_m2,
    refraction_deg,
    sun_on,
    sun_position,
)
from engine.physics.sun_day import DAYS_IN_MONTH

DARKEST_FRAC = 0.10
"""Clearness of the darkest day. Bendt and others took 0.05 from measured days; the darkest days of typical years, whose
clouds are partly worked out, have 0.12 to 0.30. Between them (assumed)."""

CLEAN_MULTIPLE = 2.0
"""Linke turbidity of clean cold air: the brightest cloudless days."""

LEAST_ABOVE_FRAC = 0.04
"""The clearest day is at least so much clearer than the mean, whatever a model of cloudless skies says (assumed)."""

DARK_KWH_M2_D = 0.02
"""Where a month has less sun than this above the air, its days count as dark."""


class ClearnessSpread(NamedTuple):
    """Daily clearness from ``low_frac`` to ``high_frac``, its density rising as exp(rate·K)."""

    mean_frac: float
    low_frac: float
    high_frac: float
    rate_multiple: float


@lru_cache(maxsize=1024)
def cloudless_frac(latitude_deg: float, altitude_m: float, month: int) -> float:
    """Clearness of a cloudless day in clean air (turbidity 2) in the middle of a month; 1 where there is no sun.

    latitude_deg: −90 to 90. altitude_m: −100 to 5,000. month: 1 to 12. Sum of half hours. Source: see ``clear_sky``.

    >>> round(cloudless_frac(52.0, 0.0, 6), 3), round(cloudless_frac(52.0, 0.0, 12), 3)
    (0.759, 0.591)
    """
    sun = sun_on(MEAN_DAYS[int(within("month", month, 1, 12)) - 1])
    level_kwh, above = 0.0, extraterrestrial_w_m2(sun.distance_multiple)
    for n in range(24):  # mornings are as their afternoons
        height_deg = sun_position(latitude_deg, sun.declination_deg, (n + 0.5) / 2).elevation_deg
        if height_deg > 0:
            seen_deg = min(90.0, height_deg + refraction_deg(height_deg))
            level_kwh += clear_sky(seen_deg, above, altitude_m, CLEAN_MULTIPLE).global_w_m2 / 1000
    total = daily_extraterrestrial_kwh_m2_d(latitude_deg, sun)
    return min(1.0, level_kwh / total) if total > DARK_KWH_M2_D else 1.0


@lru_cache(maxsize=2048)
def clearness_spread(mean_frac: float, cloudless_frac: float = 1.0) -> ClearnessSpread:
    """The spread of days about a mean clearness; its mean is ``mean_frac`` exactly.

    f(K) ∝ exp(γ·K) from K_min to K_max = 0.6313 + 0.267·K̄ − 11.9·(K̄ − 0.75)⁸, γ such that the mean is met.
    mean_frac: 0.15 to 0.78. cloudless_frac: 0.1 to 1, see there; K_max is at most that, but always some way above the
    mean. Against three typical years the standard deviation is 1.1 and 1.2 times (subarctic, temperate) and 1.5 times
    (subtropical) as wide; real years differ from each other more than typical ones. Source: P. Bendt,
    M. Collares-Pereira and A. Rabl, Solar Energy 27 (1981) 1; K_max by K. Hollands and R. Huget, Solar Energy 30
    (1983) 195, as in Duffie and Beckman, 4th edition, 2.9 (constants from memory).

    >>> spread = clearness_spread(0.5)
    >>> round(spread.high_frac, 4), round(spread.rate_multiple, 2)
    (0.7646, 1.89)
    """
    mean = within("mean_frac", mean_frac, 0.15, 0.78)
    high = min(0.6313 + 0.267 * mean - 11.9 * (mean - 0.75) ** 8, within("cloudless_frac", cloudless_frac, 0.1, 1))
    high = max(high, mean + LEAST_ABOVE_FRAC)
    width, wanted = high - DARKEST_FRAC, (mean - DARKEST_FRAC) / (high - DARKEST_FRAC)
    low_rate, high_rate = -400.0, 400.0
    # The mean rises with the rate; halve until doubles cannot tell the ends apart.
    for _ in range(80):
        middle = (low_rate + high_rate) / 2
        if _mean_place_frac(middle) < wanted:
            low_rate = middle
        else:
            high_rate = middle
    return ClearnessSpread(mean, DARKEST_FRAC, high, (low_rate + high_rate) / 2 / width)


def _mean_place_frac(g: float) -> float:
    """Mean of a density exp(g·x) on 0 to 1."""
    if abs(g) < 1e-4:
        return 0.5 + g / 12
    if g > 0:
        return 1 / -expm1(-g) - 1 / g
    return exp(g) / expm1(g) - 1 / g


def clearness_frac(spread: ClearnessSpread, below_frac: float) -> float:
    """The clearness that a share ``below_frac`` (0 to 1) of days stays under. Source: inverse of the integral of f(K).

    >>> round(clearness_frac(clearness_spread(0.5), 0.1), 3)
    0.218
    """
    within("below_frac", below_frac, 0, 1)
    width, rate = spread.high_frac - spread.low_frac, spread.rate_multiple
    if abs(rate * width) < 1e-6:
        return spread.low_frac + below_frac * width
    if rate > 0:
        return spread.high_frac + log(below_frac + (1 - below_frac) * exp(-rate * width)) / rate
    return spread.low_frac + log1p(below_frac * expm1(rate * width)) / rate


@lru_cache(maxsize=1024)
def month_clearness_frac(latitude_deg: float, ghi_kwh_m2_d: float, month: int) -> float:
    """Mean clearness of a month from its mean daily sun; 0 in a month without sun (``DARK_KWH_M2_D``).

    K̄ = Σ H / Σ H₀. latitude_deg: −90 to 90. ghi_kwh_m2_d: 0 to 12. month: 1 to 12. The result of a sound climate lies
    in 0.15 to 0.78; else it raises. Source: definition (Duffie and Beckman, 2.9.1).

    >>> round(month_clearness_frac(60.32, 0.12, 12), 3)
    0.199
    """
    within("ghi_kwh_m2_d", ghi_kwh_m2_d, 0, 12)
    within("month", month, 1, 12)
    first = sum(DAYS_IN_MONTH[: month - 1]) + 1
    days = range(first, first + DAYS_IN_MONTH[month - 1])
    above = sum(daily_extraterrestrial_kwh_m2_d(latitude_deg, sun_on(d)) for d in days) / len(days)
    if above < DARK_KWH_M2_D:
        return 0.0
    return within("clearness_frac", ghi_kwh_m2_d / above, 0.15, 0.78)
