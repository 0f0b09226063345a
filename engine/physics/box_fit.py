"""Whether some boxes fit into a space together, by a search that is complete for few of them.

The search works on the least places that all decisions so far allow. Where two boxes share space there, one of the six
ways to take them apart has to hold, and all are tried; every packing can be pushed toward one corner onto such least
places, so nothing is missed. Sizes are whole millimetres; a space is rounded down and a box up, so that a fit is never
too good.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import permutations
from math import ceil, floor
from typing import NamedTuple

MOST_STEPS = 3_000
"""Decisions that are looked at before the search gives up and says so."""

MOST_BOXES = 24

Size = tuple[int, int, int]
Corners = list[list[int]]


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
    """Ways round first; then, where two boxes share space, each of the six ways to take them apart."""

    def __init__(self, space: Space, boxes: tuple[Box, ...], most_steps: int) -> None:
        self.room: Size = tuple(floor(s * 1000 + 1e-6) for s in space[:3])  # type: ignore[assignment]
        self.ways = [
            tuple(w for w in turned(b) if all(s <= r for s, r in zip(w, self.room, strict=True))) for b in boxes
        ]
        # The largest first; alike ones beside each other.
        self.order = sorted(range(len(boxes)), key=lambda k: (-_volume(turned(boxes[k])[0]), turned(boxes[k]), k))
        self.taken = [
            (
                tuple(floor(a * 1000 + 1e-6) for a in t[:3]),
                tuple(ceil((a + s) * 1000 - 1e-6) for a, s in zip(t[:3], t[3:], strict=True)),
            )
            for t in space.taken
        ]
        self.left = most_steps
        self.sizes: list[Size] = []

    def result(self) -> BoxFit:
        if not all(self.ways):
            return BoxFit(False, ())
        if sum(_volume(w[0]) for w in self.ways) > _volume(self.room):
            return BoxFit(False, ())
        at = self._turn(0)
        if at is None:
            return BoxFit(False if self.left > 0 else None, ())
        return BoxFit(
            True,
            tuple(
                Stowed(k, *(v / 1000 for v in corner), *(v / 1000 for v in size))
                for k, corner, size in zip(self.order, at, self.sizes, strict=True)
            ),
        )

    def _turn(self, n: int) -> list[list[int]] | None:
        """Places for the ways round chosen so far and all that can follow."""
        if n == len(self.order):
            least = [[0, 0, 0] for _ in self.order]
            most = [[r - s for r, s in zip(self.room, size, strict=True)] for size in self.sizes]
            return self._apart(least, most, [[[] for _ in self.order] for _ in range(3)])
        ways = self.ways[self.order[n]]
        if n and self.ways[self.order[n - 1]] == ways:
            ways = ways[ways.index(self.sizes[-1]) :]  # alike: which of them is turned makes no difference
        for way in ways:
            # Two boxes have to be one behind another along one of the axes.
            if all(any(a + b <= r for a, b, r in zip(way, o, self.room, strict=True)) for o in self.sizes):
                self.sizes.append(way)
                found = self._turn(n + 1)
                if found is not None or self.left <= 0:
                    return found
                self.sizes.pop()
        return None

    def _apart(self, least: Corners, most: Corners, after: list[list[list[int]]]) -> Corners | None:
        self.left -= 1
        if self.left <= 0:
            return None
        for i in range(len(least)):
            for low, high in self.taken:
                if all(least[i][k] < high[k] and low[k] < least[i][k] + self.sizes[i][k] for k in range(3)):
                    return self._off(i, high, least, most, after)
        clash = self._worst(least, most)
        if clash is None:
            return least
        i, j = clash
        for k in range(3):
            for first, second in ((i, j), (j, i)):
                if least[first][k] + self.sizes[first][k] > most[second][k]:
                    continue
                after[k][first].append(second)
                raised = self._raised(least, most, after, k, first)
                found = None if raised is None else self._apart(raised, most, after)
                after[k][first].pop()
                if found is not None or self.left <= 0:
                    return found
        return None

    def _worst(self, least: Corners, most: Corners) -> tuple[int, int] | None:
        """Of the pairs that share space, the one with fewest ways apart."""
        best, fewest = None, 7
        for i in range(len(least)):
            for j in range(i + 1, len(least)):
                if all(
                    least[i][k] < least[j][k] + self.sizes[j][k] and least[j][k] < least[i][k] + self.sizes[i][k]
                    for k in range(3)
                ):
                    ways = sum(
                        least[a][k] + self.sizes[a][k] <= most[b][k] for k in range(3) for a, b in ((i, j), (j, i))
                    )
                    if ways < fewest:
                        best, fewest = (i, j), ways
        return best

    def _off(
        self, i: int, high: Sequence[int], least: Corners, most: Corners, after: list[list[list[int]]]
    ) -> Corners | None:
        """The search with one box moved past what is taken, or kept on its near side."""
        for k in range(3):
            if high[k] <= most[i][k]:
                lower = [list(c) for c in least]
                lower[i][k] = high[k]
                raised = self._raised(lower, most, after, k, i)
                found = None if raised is None else self._apart(raised, most, after)
                if found is not None or self.left <= 0:
                    return found
        # On its near side it would have to be where its least place already is too far.
        return None

    def _raised(
        self, least: Corners, most: Corners, after: list[list[list[int]]], k: int, start: int
    ) -> Corners | None:
        """The least places along one axis that keep every decision; None when one of them is past its end."""
        raised = [list(c) for c in least]
        todo = [start]
        while todo:
            first = todo.pop()
            for second in after[k][first]:
                at = raised[first][k] + self.sizes[first][k]
                if raised[second][k] < at:
                    if at > most[second][k]:
                        return None
                    raised[second][k] = at
                    todo.append(second)
        return raised


def _volume(size: Size) -> int:
    return size[0] * size[1] * size[2]
