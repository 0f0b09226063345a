"""The roof as whole numbers, and how much of it any set of panels could cover at best.

Lengths are counted in steps of 10 nanometres, in which both a millimetre and a thirty-second of an inch are whole
numbers, so a panel that exactly fits does fit. Panels grow by one gap to the right and the top, and so does the
roof; two grown panels may then touch. Things to keep clear of carry their clearance already: a panel may touch them.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from functools import lru_cache
from heapq import heappop, heappush
from typing import NamedTuple

STEPS_PER_M = 100_000_000
COARSE = 100_000  # one millimetre; sums of lengths are bounded on this coarser scale, rounded the safe way

_SMALL = 15 * STEPS_PER_M**2 // 1000  # 0.015 m²

Box = tuple[int, int, int, int]  # from and to along the roof, from and to across it


def steps(length_m: float) -> int:
    """Length in whole steps of 10 nanometres."""
    return round(length_m * STEPS_PER_M)


class Shape(NamedTuple):
    """One kind of panel lying one way; lengths include one gap."""

    kind: int
    along: int
    across: int
    turned: bool
    held: bool = False
    """Whether it needs two ribs or two rails under it."""


class Ground(NamedTuple):
    """The free roof inside its setback, in steps; `along` and `across` include one gap.

    `ribs` run across the roof and `rails` along it, both rising. Only shapes that are to be held care for them.
    """

    along: int
    across: int
    gap: int
    blocks: tuple[Box, ...]
    ribs: tuple[int, ...] = ()
    rails: tuple[int, ...] = ()

    def holds(self, shape: Shape, x: int, y: int) -> bool:
        """Whether two ribs or two rails lie under the shape with its corner there; an edge on a rib counts."""
        return _under(self.ribs, x, x + shape.along - self.gap) or _under(self.rails, y, y + shape.across - self.gap)

    def mirrored(self, ends: bool, sides: bool) -> Ground:
        """The same roof seen with front and rear (`ends`) or left and right (`sides`) exchanged."""
        a, b = self.along - self.gap, self.across - self.gap
        boxes: Iterable[Box] = self.blocks
        if ends:
            boxes = [(a - x1, a - x0, y0, y1) for x0, x1, y0, y1 in boxes]
        if sides:
            boxes = [(x0, x1, b - y1, b - y0) for x0, x1, y0, y1 in boxes]
        return self._replace(
            blocks=tuple(sorted(boxes)),
            ribs=tuple([a - r for r in reversed(self.ribs)]) if ends else self.ribs,
            rails=tuple([b - r for r in reversed(self.rails)]) if sides else self.rails,
        )

    def solid(self) -> list[Box]:
        """What no grown panel covers: a grown panel may reach one gap into a block from the left or from below.

        Limits stay limits without the smallest blocks, the steps of a rounded corner say, and cost much less.
        """
        g = self.gap
        cut = [
            (max(0, x0 + g), min(self.along, x1), max(0, y0 + g), min(self.across, y1))
            for x0, x1, y0, y1 in self.blocks
        ]
        return [b for b in cut if b[0] < b[1] and b[2] < b[3] and (b[1] - b[0]) * (b[3] - b[2]) >= _SMALL]


def _under(lines: tuple[int, ...], start: int, end: int) -> bool:
    return bisect_right(lines, end) - bisect_left(lines, start) >= 2


def last_holds(lines: tuple[int, ...], size: int) -> list[int]:
    """Where something of that size just still lies on two lines: a step further front and its far line is bare.

    With a third line under it the far one may go, so it does not rest there.
    """
    starts = [line - size for line in lines]
    return [s for n, s in enumerate(starts) if n + 1 - bisect_left(lines, s) == 2]


class Strips:
    """Upper limit of panel worth on the part of the roof beyond a line.

    The roof is cut into strips along one axis. On every thin line inside a strip the panels crossing it lie end to end
    in the bays that the blocks leave free, so their worth per unit of strip width cannot be more than the best
    selection of lengths that fits each bay (a one-dimensional knapsack, lengths freely repeated).
    With a worth equal to the length itself the limit is an area; with power per width it is a power. Several worths
    share one set of strips.
    The bound is the one-dimensional relaxation used for orthogonal packing with dual feasible functions:
    Fekete and Schepers, "A general framework for bounds for higher-dimensional orthogonal packing problems",
    Mathematical Methods of Operations Research 60 (2004).
    """

    def __init__(
        self, along: int, across: int, solid: Sequence[Box], lengths: Sequence[int], worths: Sequence[Sequence[int]]
    ):
        edges = {0, across}
        for _, _, y0, y1 in solid:
            edges.update((y0, y1))
        self._edges = sorted(edges)
        self._bays = [
            _free(along, [b[:2] for b in solid if b[2] <= lo and b[3] >= hi])
            for lo, hi in zip(self._edges, self._edges[1:], strict=False)
        ]
        room, coarse = along // COARSE, tuple(v // COARSE for v in lengths)
        tables = [_knapsack(room, coarse, tuple(w)) for w in worths]
        self._sums = tables[0][0]
        self._best = [best for _, best in tables]
        self._ends = [[b for _, b in bays] for bays in self._bays]
        # For each worth and strip, what its bays from each one on hold.
        self._onward = [
            [[sum(best[self._fits(b - a)] for a, b in bays[i:]) for i in range(len(bays) + 1)] for bays in self._bays]
            for best in self._best
        ]
        self._upto: dict[int, list[tuple[list[int], list[int]]]] = {}

    def _fits(self, length: int) -> int:
        return bisect_right(self._sums, length // COARSE) - 1

    def _upto_from(self, start: int) -> list[tuple[list[int], list[int]]]:
        """For each worth, what the strips hold up to each edge, and what one step of each strip holds."""
        edges = self._edges
        cuts = []  # of each strip the first bay that lies beyond as a whole, and what is left of the one before
        for bays, ends in zip(self._bays, self._ends, strict=True):
            i = bisect_right(ends, start)
            cut = i < len(bays) and bays[i][0] < start
            cuts.append((i + 1, self._fits(ends[i] - start)) if cut else (i, 0))
        found = []
        for best, onward in zip(self._best, self._onward, strict=True):
            rates = [beyond[i] + best[left] for (i, left), beyond in zip(cuts, onward, strict=True)]
            total = [0]
            for i, rate in enumerate(rates):
                total.append(total[-1] + rate * (edges[i + 1] - edges[i]))
            rates.append(0)
            found.append((total, rates))
        self._upto[start] = found
        return found

    def worth(self, start: int, lo: int, hi: int) -> list[int]:
        """Limits for the roof from `start` to its end along the strips, between `lo` and `hi` across them."""
        found = self._upto.get(start) or self._upto_from(start)
        edges = self._edges
        i, j = bisect_right(edges, lo) - 1, bisect_right(edges, hi) - 1
        low, high = lo - edges[i], hi - edges[j]
        return [total[j] + rates[j] * high - total[i] - rates[i] * low for total, rates in found]


def _free(end: int, taken: list[tuple[int, int]]) -> list[tuple[int, int]]:
    bays = []
    at = 0
    for a, b in sorted(taken):
        if a > at:
            bays.append((at, a))
        at = max(at, b)
    if end > at:
        bays.append((at, end))
    return bays


@lru_cache(maxsize=64)
def _knapsack(room: int, lengths: tuple[int, ...], worth: tuple[int, ...]) -> tuple[list[int], list[int]]:
    best = {0: 0}
    queue = [0]
    while queue:
        a = heappop(queue)
        have = best[a]
        for length, gain in zip(lengths, worth, strict=True):
            b = a + length
            if b <= room:
                old = best.get(b)
                if old is None:
                    heappush(queue, b)
                    best[b] = have + gain
                elif old < have + gain:
                    best[b] = have + gain
    sums = sorted(best)
    limits = []
    most = 0
    for s in sums:
        most = max(most, best[s])
        limits.append(most)
    return sums, limits
