"""How much room a lying or sitting body finds."""

from functools import lru_cache
from math import cos, hypot, sin

from engine.physics.ranges import within

BODY_WIDTH_M = 0.5
"""Width of a lying body, shoulders to elbows (common practice)."""

SITTING_SHARE_FRAC = 0.52
"""Sitting height over stature, grown-ups (ISO 7250-1 measures both; the ratio is from memory)."""


@lru_cache(maxsize=1024)
def longest_askew_m(length_m: float, width_m: float, body_width_m: float = BODY_WIDTH_M) -> float:
    """Longest body of a given width that lies straight but askew on a bed, at the best angle.

    A rectangle of length ℓ and width b turned by θ fits when ℓ·cos θ + b·sin θ ≤ L and ℓ·sin θ + b·cos θ ≤ W. Along
    θ the first bound is least somewhere and then grows, the second only falls, so the best is at θ = 0 or where both
    meet. Lengths 0.2 to 5 m; the body is no wider than the bed. Source: plane geometry.

    >>> round(longest_askew_m(1.76, 1.40), 3)
    1.78
    >>> longest_askew_m(2.0, 0.5)
    2.0
    """
    within("length_m", length_m, 0.2, 5)
    within("width_m", width_m, 0.2, 5)
    within("body_width_m", body_width_m, 0.05, min(length_m, width_m))

    def by_length(turn: float) -> float:
        return (length_m - body_width_m * sin(turn)) / cos(turn)

    def by_width(turn: float) -> float:
        return (width_m - body_width_m * cos(turn)) / sin(turn)

    low, high = 1e-9, 1.5707
    for _ in range(60):
        middle = (low + high) / 2
        if by_width(middle) > by_length(middle):
            low = middle
        else:
            high = middle
    return max(length_m, min(hypot(length_m, width_m), by_width(high)))


def sitting_height_m(stature_m: float) -> float:
    """Height of a person sitting upright, from the seat. Stature 1.0 to 2.3 m. Source: ISO 7250-1, ratio from memory.

    >>> round(sitting_height_m(1.8), 3)
    0.936
    """
    return SITTING_SHARE_FRAC * within("stature_m", stature_m, 1.0, 2.3)
