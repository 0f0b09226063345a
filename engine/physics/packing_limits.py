"""How much power the remaining free roof could still take, whichever way the remaining panels lie."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from itertools import repeat
from math import prod
from operator import le, mul

from engine.physics.packing_ground import COARSE, Ground, Shape, Strips

_MOST_MIXES = 1000  # with more mixes of kinds than this, the bound counts power in coarser units:
_ROUGH_VALUES = 120  # so many of them at most

Stairs = tuple[tuple[int, int], ...]


class Limits:
    """Several independent upper limits, each a worth per panel and a worth the roof can hold."""

    def __init__(self, ground: Ground, shapes: Sequence[Shape], values: Sequence[int], wanted: Sequence[int]):
        self._end = ground.along
        self._side = ground.across
        solid = ground.solid()
        turned_solid = [(y0, y1, x0, x1) for x0, x1, y0, y1 in solid]
        along = [s.along for s in shapes]
        across = [s.across for s in shapes]
        # Worth per unit of width: the length (so the limit is an area) and, for a mix of kinds, the power.
        worths = [([v // COARSE for v in along], [v // COARSE for v in across])]
        if len(values) > 1:
            fine = 10**9
            worths.append(
                (
                    [values[s.kind] * fine // s.across for s in shapes],
                    [values[s.kind] * fine // s.along for s in shapes],
                )
            )
        self._rows = Strips(ground.along, ground.across, solid, along, [w for w, _ in worths])
        self._columns = Strips(ground.across, ground.along, turned_solid, across, [w for _, w in worths])
        self._weights = [self._per_kind(shapes, w, across) for w, _ in worths]
        self._weights += [self._per_kind(shapes, w, along) for _, w in worths]
        self.areas = (0, len(worths))  # the scales that are areas
        self._values = list(values)
        # For each scale the kinds by what a watt of them costs there, cheapest first.
        self._cheapest = [sorted(range(len(values)), key=lambda k: (w[k] / values[k], k)) for w in self._weights]
        # Powers rounded up to `unit` keep the table of mixes small and the limit on the safe side.
        total = sum(v * n for v, n in zip(values, wanted, strict=True))
        self._unit = -(-total // _ROUGH_VALUES) if prod(n + 1 for n in wanted) > _MOST_MIXES else 1
        self._sums, self._costs = self._table(wanted)
        self._needs: dict[tuple[tuple[int, ...], int], tuple[int, ...]] = {}
        self._pieces: dict[tuple[int, int, int, int], list[int]] = {}

    def _per_kind(self, shapes: Sequence[Shape], worth: Sequence[int], width: Sequence[int]) -> list[int]:
        least = [0] * (1 + max(s.kind for s in shapes))
        for s, w, d in zip(shapes, worth, width, strict=True):
            least[s.kind] = min(least[s.kind] or w * d, w * d)
        return least

    def room(self, stairs: Stairs) -> list[int]:
        """What the roof beyond the stairs can hold, on each scale."""
        pieces = self._pieces
        found: list[list[int]] = []
        top = self._side
        for i in range(len(stairs) - 1, -1, -1):
            y, x = stairs[i]
            key = (x, stairs[i - 1][1] if i else self._end, y, top)
            piece = pieces.get(key)
            if piece is None:
                piece = pieces[key] = self._rows.worth(x, y, top) + self._columns.worth(y, x, key[1])
            found.append(piece)
            top = y
        return found[0] if len(found) == 1 else list(map(sum, zip(*found, strict=True)))

    def need(self, left: tuple[int, ...], goal: int) -> tuple[int, ...] | None:
        """A worth, on each scale, that any choice among the panels left has which yields `goal`; None if none does.

        The greater of two lower limits: the least of any whole number of the panels wanted at the start, left or not,
        and the least of the panels left if the last of them could be cut.
        """
        if sum(map(mul, self._values, left)) < goal:
            return None
        found = self._needs.get((left, goal))
        if found is None:
            whole = self._costs[bisect_left(self._sums, -(-goal // self._unit))]
            cut = map(self._cut, self._weights, self._cheapest, repeat(left), repeat(goal))
            found = self._needs[left, goal] = tuple(map(max, whole, cut))
        return found

    def _cut(self, weights: Sequence[int], cheapest: Sequence[int], left: tuple[int, ...], goal: int) -> int:
        cost = 0
        for k in cheapest:
            value = left[k] * self._values[k]
            if value >= goal:
                return cost - (-max(0, goal) * weights[k] // self._values[k])
            goal -= value
            cost += left[k] * weights[k]
        return cost

    def need_all(self, left: tuple[int, ...]) -> tuple[int, ...]:
        """Worth of all panels left, on each scale."""
        return tuple([sum(map(mul, w, left)) for w in self._weights])

    def most(self, left: tuple[int, ...], room: Sequence[int]) -> int:
        """Upper limit of the power that panels left can add on ground with that room."""
        least = min(map(self._fill, self._weights, self._cheapest, repeat(left), room))
        for value, cost in zip(reversed(self._sums), reversed(self._costs), strict=True):
            if all(map(le, cost, room)):
                return min(least, value * self._unit)
        return 0

    def _fill(self, weights: Sequence[int], cheapest: Sequence[int], left: tuple[int, ...], room: int) -> int:
        value = 0
        for k in cheapest:
            weight = left[k] * weights[k]
            if weight > room:
                return value + room * self._values[k] // weights[k]
            room -= weight
            value += left[k] * self._values[k]
        return value

    def _table(self, wanted: Sequence[int]) -> tuple[list[int], list[tuple[int, ...]]]:
        """All values the panels wanted can add up to, rising, each with the least worth of that value or more."""
        least = self._least(wanted)
        sums = sorted(least)
        costs = []
        best = least[sums[-1]]
        for v in reversed(sums):
            best = tuple(map(min, best, least[v]))
            costs.append(best)
        return sums, costs[::-1]

    def _least(self, wanted: Sequence[int]) -> dict[int, tuple[int, ...]]:
        weights = list(zip(*self._weights, strict=True))
        mixes = {0: tuple([0] * len(self._weights))}
        for value, count, weight in zip(self._values, wanted, weights, strict=True):
            value = -(-value // self._unit)
            pile = 1
            while count:
                # Piles of 1, 2, 4 ... panels and the rest make up every number up to the count.
                pile = min(pile, count)
                more = dict(mixes)
                for have, cost in mixes.items():
                    got = have + pile * value
                    paid = tuple([c + pile * w for c, w in zip(cost, weight, strict=True)])
                    old = more.get(got)
                    more[got] = paid if old is None else tuple(map(min, old, paid))
                mixes = more
                count -= pile
                pile *= 2
        return mixes
