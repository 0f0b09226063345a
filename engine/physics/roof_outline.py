"""The usable outline of a roof that is no plain rectangle: rounded corners, and ends or a waist that are narrower.

Panels are packed among rectangles, so what lies outside the outline is covered with rectangles, always a little too
much and never too little: a panel that finds a place is wholly inside the true outline.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise
from math import ceil, cos, hypot, pi, sin

from engine.physics.ranges import within
from engine.physics.roof_packing import Rect

ARC_STEPS = 3
"""Steps that stand in for a quarter circle; they take at most 14 % of its radius too much."""

_CELL_M = 0.1
_DEPTH_M = 0.02

Widths = tuple[tuple[float, float], ...]


def width_at_m(x_m: float, width_m: float, narrowing_m: Widths) -> float:
    """Usable width `x_m` behind the front edge; straight lines between the points stated, level before and after them.

    >>> width_at_m(0.25, 1.6, ((0.0, 1.4), (0.5, 1.6)))
    1.5
    """
    if not narrowing_m:
        return width_m
    if x_m <= narrowing_m[0][0]:
        return narrowing_m[0][1]
    for (x0, w0), (x1, w1) in pairwise(narrowing_m):
        if x_m <= x1:
            return w0 + (w1 - w0) * (x_m - x0) / (x1 - x0)
    return narrowing_m[-1][1]


@lru_cache(maxsize=256)
def outside(
    length_m: float, width_m: float, edge_m: float, corner_radius_m: float, narrowing_m: Widths = ()
) -> tuple[Rect, ...]:
    """Rectangles over all that is no usable roof of the rectangle, setback `edge_m` included.

    length_m: 0.1 to 20. width_m: 0.1 to 5. edge_m: 0 to 5, measured square to the outline. corner_radius_m: 0 to half
    the width. narrowing_m: (place behind the front edge, width there), front to rear, no width beyond `width_m`.
    Slanting sides are taken in cells of 10 cm and by two centimetres, arcs in ``ARC_STEPS`` steps; all is rounded
    outward to millimetres. OutOfRangeError outside these ranges. Plane geometry.

    >>> outside(4.0, 1.6, 0.0, 0.0)
    ()
    >>> outside(4.0, 1.6, 0.0, 0.0, ((0.0, 1.4), (0.1, 1.4), (0.1001, 1.6)))[0]
    Rect(x_m=0.0, y_m=0.0, length_m=0.2, width_m=0.1)
    """
    within("roof length_m", length_m, 0.1, 20)
    within("roof width_m", width_m, 0.1, 5)
    within("edge_m", edge_m, 0, 5)
    within("corner_radius_m", corner_radius_m, 0, width_m / 2)
    for at, width in narrowing_m:
        within("narrowing_m x_m", at, 0, length_m)
        within("narrowing_m width_m", width, 0.1, width_m)
    found = list(_sides(length_m, width_m, edge_m, narrowing_m))
    found += _corners(length_m, width_m, edge_m, corner_radius_m, narrowing_m)
    return tuple(found)


def _up_mm(value_m: float) -> float:
    return ceil(value_m * 1000 - 1e-6) / 1000


def _sides(length_m: float, width_m: float, edge_m: float, narrowing_m: Widths) -> Iterator[Rect]:
    runs: list[list[float]] = []  # from, to, depth
    for n in range(ceil(length_m / _CELL_M - 1e-9) if narrowing_m else 0):
        start, end = round(n * _CELL_M, 6), min(length_m, round((n + 1) * _CELL_M, 6))
        turns = [x for x, _ in narrowing_m if start < x < end]
        inset = (width_m - min(width_at_m(x, width_m, narrowing_m) for x in (start, *turns, end))) / 2
        # The setback is square to the slanting side, so it is longer across the roof.
        slope = max(
            (abs(b[1] - a[1]) / 2 / (b[0] - a[0]) for a, b in pairwise(narrowing_m) if a[0] < end and b[0] > start),
            default=0.0,
        )
        inset += edge_m * (hypot(1, slope) - 1)
        depth = ceil(inset / _DEPTH_M - 1e-6) * _DEPTH_M
        if runs and runs[-1][2] == depth:
            runs[-1][1] = end
        else:
            runs.append([start, end, depth])
    for start, end, depth in runs:
        if depth > 0:
            a, b = round(start, 3), _up_mm(end)
            size = round(depth + edge_m, 6)
            yield Rect(a, 0.0, round(b - a, 3), size)
            yield Rect(a, round(width_m - size, 6), round(b - a, 3), size)


def _corners(
    length_m: float, width_m: float, edge_m: float, corner_radius_m: float, narrowing_m: Widths
) -> Iterator[Rect]:
    radius = corner_radius_m - edge_m
    if radius <= 0:
        return
    for rear in (False, True):
        inset = edge_m + (width_m - width_at_m(length_m if rear else 0.0, width_m, narrowing_m)) / 2
        for i in range(ARC_STEPS):
            # From the arc's end on the side to its end at the front: so far along, so deep.
            along = _up_mm(edge_m + radius * (1 - cos((i + 1) * pi / 2 / ARC_STEPS)))
            across = _up_mm(inset + radius * (1 - sin(i * pi / 2 / ARC_STEPS)))
            x = round(length_m - along, 6) if rear else 0.0
            yield Rect(x, 0.0, along, across)
            yield Rect(x, round(width_m - across, 6), along, across)
