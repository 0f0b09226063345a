"""The air's temperature by hours: a month's mean, how warm and cold days vary, and the wave of day and night."""

from functools import lru_cache
from math import cos, pi
from typing import NamedTuple

from engine.physics.ranges import within

_HARMONICS = ((0.4632, 3.805), (0.0984, 0.360), (0.0168, 0.822), (0.0138, 3.513))

WAVE_FRAC = tuple(
    sum(a * cos((n + 1) * 2 * pi * (hour - 0.5) / 24 - shift) for n, (a, shift) in enumerate(_HARMONICS))
    for hour in range(24)
)
"""Each hour's temperature less the day's mean, over the day's swing from coldest to warmest; adds up to nothing. It is
coldest before sunrise, warmest at three. Source: D. G. Erbs, S. A. Klein and W. A. Beckman, ASHRAE Journal 25 (June
1983) 60, as in Duffie and Beckman, 4th edition, 8.2; from memory."""

SWING_SHARE_FRAC = 0.3
"""At most this share of a month's whole range is the swing of its mean day (three typical years have 0.1 to 0.5)."""

RANGE_SIGMAS_COUNT = 4.2
"""A month's range beyond the day's swing holds so many standard deviations of daily means: the spread between the
largest and the least of 30 values of a normal distribution (any table of order statistics: 4.09), a little widened."""


class MonthAir(NamedTuple):
    """One month's air."""

    mean_degc: float
    swing_k: float
    """From coldest to warmest hour of a mean day."""
    daily_sigma_k: float
    """Standard deviation of daily means."""
    colder_k: float
    """How far the coldest day's mean lies below the month's, and the warmest above it."""
    warmer_k: float


@lru_cache(maxsize=2048)
def month_air(mean_degc: float, coldest_degc: float, hottest_degc: float, clearness_frac: float) -> MonthAir:
    """A month's air from its mean and its coldest and hottest hour.

    The swing of a mean day is 25.8·K̄ − 5.21 K, but at most 0.3 of the month's range; what is left of the range belongs
    to cold and warm days. Good to 4 K in the swing (less by the sea). mean_degc: −50 to 45, between coldest_degc and
    hottest_degc, which are −70 to 60. clearness_frac: 0 to 0.78, the month's mean. Source: see ``WAVE_FRAC`` for the
    swing; the rest is arithmetic.

    >>> air = month_air(10.0, -2.0, 24.0, 0.5)
    >>> round(air.swing_k, 2), round(air.daily_sigma_k, 2)
    (7.69, 4.36)
    """
    mean = within("mean_degc", mean_degc, -50, 45)
    cold = within("coldest_degc", coldest_degc, -70, mean)
    hot = within("hottest_degc", hottest_degc, mean, 60)
    clear = within("clearness_frac", clearness_frac, 0, 0.78)
    swing = max(0.0, min(25.8 * clear - 5.21, SWING_SHARE_FRAC * (hot - cold)))
    return MonthAir(
        mean,
        swing,
        (hot - cold - swing) / RANGE_SIGMAS_COUNT,
        max(0.0, mean - cold + min(WAVE_FRAC) * swing),
        max(0.0, hot - mean - max(WAVE_FRAC) * swing),
    )
