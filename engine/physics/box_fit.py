"""Whether some boxes fit into a space together, by a search that is complete for few of them.

Every packing can be pushed toward one corner until each box stands at a sum of other boxes' sizes, counted from the
corner or from an obstacle's end (normal patterns; Herz 1972 and Christofides and Whitlock 1977, from memory). Only such
places are tried. Sizes are whole millimetres; a space is rounded down and a box up, so that a fit is never too good.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import permutations
from math import ceil, floor
from typing import NamedTuple

MOST_STEPS = 40_000
"""Places that are looked at before the search gives up and says so."""

MOST_BOXES = 24

Size = tuple[int, int, int]


class Box(NamedTuple):
    """A box with its sizes along x, y and z as it stands."""

    length_m: float
    width_m: float
    height_m: float
    any_way_up: bool = False


class Taken(NamedTuple):
    """A part of the space that is taken."""

    x_m: float
    y_m: float
    z_m: float
    length_m: float
    width_m: float
    height_m: float


class Space(NamedTuple):
    """The space and what is in it already."""

    length_m: float
    width_m: float
    height_m: float
    taken: tuple[Taken, ...] = ()


class Stowed(NamedTuple):
    """Where one box stands, and the sizes it takes there."""

    box: int
    x_m: float
    y_m: float
    z_m: float
    length_m: float
    width_m: float
    height_m: float


class BoxFit(NamedTuple):
    """The result; ``fits`` is None when the search was cut off."""

    fits: bool | None
    stowed: tuple[Stowed, ...]


def turned(box: Box) -> tuple[Size, ...]:
    """Sizes along x, y, z in every way the box may stand, in millimetres.

    >>> turned(Box(1.8, 0.6, 1.1))
    ((600, 1800, 1100), (1800, 600, 1100))
    """
    sizes = tuple(ceil(s * 1000 - 1e-6) for s in (box.length_m, box.width_m, box.height_m))
    ways = set(permutations(sizes)) if box.any_way_up else {sizes, (sizes[1], sizes[0], sizes[2])}
    return tuple(sorted(ways))  # type: ignore[arg-type]


def passes(box: Box, width_m: float, height_m: float) -> bool:
    """Whether a box goes straight through an opening, any of its ways round that it may travel in.

    >>> passes(Box(1.8, 0.6, 1.1), 0.95, 1.05), passes(Box(1.8, 0.6, 1.1, True), 0.95, 1.05)
    (False, False)
    >>> passes(Box(1.8, 0.6, 1.0), 0.95, 1.05)
    True
    """
    w, h = floor(width_m * 1000 + 1e-6), floor(height_m * 1000 + 1e-6)
    return any((y <= w or x <= w) and z <= h for x, y, z in turned(box))


@lru_cache(maxsize=256)
def fit_boxes(space: Space, boxes: tuple[Box, ...], most_steps: int = MOST_STEPS) -> BoxFit:
    """Places for all boxes, or the proof that there are none. Raises ValueError for more than 24 boxes.

    >>> fit_boxes(Space(2, 1, 1), (Box(1, 1, 1), Box(1, 1, 1))).fits
    True
    >>> fit_boxes(Space(2, 1, 1), (Box(1, 1, 1), Box(1.1, 1, 1))).fits
    False
    """
    if len(boxes) > MOST_BOXES:
        raise ValueError(f"{len(boxes)} boxes are more than the {MOST_BOXES} that can be searched")
    return _Search(space, boxes, most_steps).result()


class _Search:
    def __init__(self, space: Space, boxes: tuple[Box, ...], most_steps: int) -> None:
        self.room: Size = tuple(floor(s * 1000 + 1e-6) for s in space[:3])  # type: ignore[assignment]
        self.ways = [
            tuple(w for w in turned(b) if all(s <= r for s, r in zip(w, self.room, strict=True))) for b in boxes
        ]
        # The largest first; alike ones beside each other.
        self.order = sorted(range(len(boxes)), key=lambda k: (-_volume(turned(boxes[k])[0]), turned(boxes[k]), k))
        self.taken = [
            tuple((floor(a * 1000 + 1e-6), ceil((a + s) * 1000 - 1e-6)) for a, s in zip(t[:3], t[3:], strict=True))
            for t in space.taken
        ]
        self.left = most_steps
        self.places: list[tuple[int, Size, Size]] = []

    def result(self) -> BoxFit:
        if not all(self.ways):
            return BoxFit(False, ())
        if sum(_volume(w[0]) for w in self.ways) > _volume(self.room):
            return BoxFit(False, ())
        self.axes = [self._patterns(axis) for axis in range(3)]
        if self._put(0):
            return BoxFit(
                True,
                tuple(Stowed(k, *(v / 1000 for v in at), *(v / 1000 for v in way)) for k, way, at in self.places),
            )
        return BoxFit(False if self.left > 0 else None, ())

    def _patterns(self, axis: int) -> tuple[int, ...]:
        """Places along one axis: the corner or an obstacle's end, and sums of sizes from there."""
        most = self.room[axis]
        sums = {0} | {t[axis][1] for t in self.taken if t[axis][1] < most}
        for ways in self.ways:
            steps = {w[axis] for w in ways}
            sums |= {s + d for s in sums for d in steps if s + d < most}
        return tuple(sorted(sums))

    def _put(self, n: int) -> bool:
        if n == len(self.order):
            return True
        k = self.order[n]
        alike = n > 0 and self.ways[self.order[n - 1]] == self.ways[k]
        after = self.places[-1][2] if alike else (-1, -1, -1)
        for way in self.ways[k]:
            xs, ys, zs = (
                [v for v in axis if v + size <= r] for axis, size, r in zip(self.axes, way, self.room, strict=True)
            )
            for x in xs:
                if x < after[0]:
                    continue
                for y in ys:
                    for z in zs:
                        at = (x, y, z)
                        if at < after:
                            continue
                        self.left -= 1
                        if self.left <= 0:
                            return False
                        if self._free(at, way):
                            self.places.append((k, way, at))
                            if self._put(n + 1):
                                return True
                            self.places.pop()
        return False

    def _free(self, at: Size, way: Size) -> bool:
        (x, y, z), (a, b, c) = at, way
        for _, (d, e, f), (u, v, w) in self.places:
            if x < u + d and u < x + a and y < v + e and v < y + b and z < w + f and w < z + c:
                return False
        return all(
            not (x < tx[1] and tx[0] < x + a and y < ty[1] and ty[0] < y + b and z < tz[1] and tz[0] < z + c)
            for tx, ty, tz in self.taken
        )


def _volume(size: Size) -> int:
    return size[0] * size[1] * size[2]
