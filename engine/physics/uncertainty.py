"""Errors of masses: how they add, how likely a limit is exceeded, and what a weighing teaches."""

from collections.abc import Iterable, Mapping
from math import erf, isfinite, sqrt
from typing import NamedTuple

from engine.physics.ranges import OutOfRangeError, within

BAND_SIGMAS_COUNT = 1.6448536269514722
"""Half-width of a 90 % band in standard deviations of a normal distribution (its 95 % quantile, any table)."""


class Error(NamedTuple):
    """Half-width within which an error lies nine times in ten; errors of one group are one and the same cause."""

    half_width_kg: float
    group: str = ""
    """Empty: independent of every other. A sign in ``half_width_kg`` says which way the common cause pulls."""


def band_kg(errors: Iterable[Error]) -> float:
    """Half-width of the sum's 90 % band.

    Independent errors add by their squares, errors of one group (one scale, one habit, one density) add as they are;
    groups are independent of each other: h² = Σ h_i² + Σ_groups (Σ h_j)². Half-widths of normal distributions are
    1.645 standard deviations each, so they add as standard deviations do.

    Source: JCGM 100:2008 (GUM), 5.1.2 and 5.2.2 with correlation 0 or 1 (from memory).

    >>> band_kg([Error(3.0), Error(4.0)])
    5.0
    >>> band_kg([Error(3.0, "scale"), Error(4.0, "scale"), Error(24.0)])
    25.0
    """
    squares = 0.0
    groups: dict[str, float] = {}
    for error in errors:
        if error.group:
            groups[error.group] = groups.get(error.group, 0.0) + error.half_width_kg
        else:
            squares += error.half_width_kg**2
    return joined_kg(squares, groups)


def joined_kg(squares_kg2: float, groups_kg: Mapping[str, float]) -> float:
    """Half-width from the sum of the independent errors' squares (kg²) and each group's sum.

    >>> joined_kg(576.0, {"scale": 7.0})
    25.0
    """
    return sqrt(squares_kg2 + sum(g * g for g in groups_kg.values()))


def exceed_frac(value_kg: float, limit_kg: float, spread_kg: float) -> float:
    """How likely the true value lies over a limit, when it is normal about ``value_kg`` with this 90 % half-width.

    1 − Φ((limit − value)/σ), σ = spread/1.645. Without spread it is 0 up to the limit and 1 above it.

    Raises OutOfRangeError for a negative spread. Source: normal distribution (any statistics text).

    >>> round(exceed_frac(3500.0, 3500.0, 40.0), 3), round(exceed_frac(3460.0, 3500.0, 40.0), 3)
    (0.5, 0.05)
    >>> exceed_frac(3500.0, 3500.0, 0.0), exceed_frac(3500.1, 3500.0, 0.0)
    (0.0, 1.0)
    """
    within("spread_kg", spread_kg, 0, 1e8)
    if not isfinite(value_kg):
        raise OutOfRangeError("value_kg", value_kg, -1e9, 1e9)
    if spread_kg == 0:
        return 1.0 if value_kg > limit_kg else 0.0
    sigmas = (limit_kg - value_kg) / spread_kg * BAND_SIGMAS_COUNT
    return 0.5 * (1.0 - erf(sigmas / sqrt(2.0)))


Vector = tuple[float, ...]
Matrix = tuple[Vector, ...]


class Belief(NamedTuple):
    """What is believed of some common causes: jointly normal, in standard deviations of what was first believed."""

    mean_sigmas: Vector
    covariance_sigmas2: Matrix


def unlearned(causes: int) -> Belief:
    """Before any weighing: every cause at 0 with standard deviation 1, none tied to another."""
    return Belief((0.0,) * causes, tuple(tuple(float(i == j) for j in range(causes)) for i in range(causes)))


def learned(belief: Belief, effect_kg: Matrix, seen_kg: Vector, noise_kg2: Matrix) -> Belief:
    """Belief after one weighing that gave two differences (front, rear) between scale and sum.

    effect_kg: kilograms that one standard deviation of each cause adds to each of the two; seen_kg: the differences;
    noise_kg2: covariance of everything else in them. Closed form of the normal update:
    K = P·Aᵀ·(A·P·Aᵀ + N)⁻¹, mean + K·(seen − A·mean), P − K·A·P.

    Raises OutOfRangeError when the two differences leave nothing uncertain (noise and belief both zero).
    Source: linear-normal Bayesian update, equal to generalised least squares with a prior (any statistics text).

    >>> learned(unlearned(1), ((10.0,), (0.0,)), (20.0, 0.0), ((100.0, 0.0), (0.0, 100.0)))
    Belief(mean_sigmas=(1.0,), covariance_sigmas2=((0.5,),))
    """
    p, n = belief.covariance_sigmas2, range(len(belief.mean_sigmas))
    pa = tuple(tuple(sum(p[i][k] * effect_kg[r][k] for k in n) for r in (0, 1)) for i in n)
    s = [[noise_kg2[r][q] + sum(effect_kg[r][k] * pa[k][q] for k in n) for q in (0, 1)] for r in (0, 1)]
    det = within("determinant_kg4", s[0][0] * s[1][1] - s[0][1] * s[1][0], 1e-9, 1e30)
    inverse = ((s[1][1] / det, -s[0][1] / det), (-s[1][0] / det, s[0][0] / det))
    gain = tuple(tuple(sum(pa[i][q] * inverse[q][r] for q in (0, 1)) for r in (0, 1)) for i in n)
    missed = tuple(seen_kg[r] - sum(effect_kg[r][k] * belief.mean_sigmas[k] for k in n) for r in (0, 1))
    mean = tuple(belief.mean_sigmas[i] + gain[i][0] * missed[0] + gain[i][1] * missed[1] for i in n)
    covariance = tuple(tuple(p[i][j] - gain[i][0] * pa[j][0] - gain[i][1] * pa[j][1] for j in n) for i in n)
    return Belief(mean, covariance)
