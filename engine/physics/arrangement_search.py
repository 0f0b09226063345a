"""The search for places along two walls when every thing's side is settled (see ``arrangement``)."""

from collections.abc import Sequence
from itertools import product

from engine.physics.arrangement_ground import Ground
from engine.physics.clearance import Hole, broken


class Purse:
    """Steps that are left to all searches for one room."""

    def __init__(self, steps: int) -> None:
        self.left = steps

    def take(self, steps: int) -> bool:
        """Spend some; whether there were as many."""
        self.left -= steps
        return self.left >= 0


class Places:
    """The search for places when every thing's side is settled."""

    def __init__(self, ground: Ground, which: Sequence[int], sides: Sequence[str], aisle: int, purse: Purse) -> None:
        self.room, self.sides, self.purse = ground.room, sides, purse
        self.pieces = [ground.pieces[i] for i in which]
        self.domains = [ground.allowed(i, s) for i, s in zip(which, sides, strict=True)]
        self.pairs = [
            (a, b, found)
            for a, i in enumerate(which)
            for b in range(a + 1, len(which))
            if (found := ground.holes(i, sides[a], which[b], sides[b], aisle))
        ]

    def find(self) -> list[int] | None:
        """The least places of the first arrangement that keeps every clearance; wished-for orders are tried first."""
        if not all(self.domains):
            return None
        least = [d[0][0] for d in self.domains]
        most = [d[-1][1] for d in self.domains]
        if self._overfull():
            return None
        return self._search(least, most, [[] for _ in least])

    def _overfull(self) -> bool:
        """Whether some things of which no two can be side by side are together longer than all the room they have."""
        n = len(self.pieces)
        apart = [0] * n
        for i, j, found in self.pairs:
            a, b = self.pieces[i].day.x_to, self.pieces[j].day.x_to
            if any(h.need > self.room.width and h.low <= -b and h.high >= a for h in found):
                apart[i] |= 1 << j
                apart[j] |= 1 << i
        long = [p.day.x_to for p in self.pieces]
        todo = [(0, (1 << n) - 1, 0)] if n else []  # those chosen, those that can still join, those already looked at
        while todo:
            chosen, open_, past = todo.pop()
            if not open_:
                if not past and self._longer_than_its_room(chosen, long):
                    return True
                continue
            pivot = (open_ | past).bit_length() - 1
            rest = open_ & ~apart[pivot]
            while rest:
                bit = rest & -rest
                k = bit.bit_length() - 1
                todo.append((chosen | bit, open_ & apart[k], past & apart[k]))
                open_ &= ~bit
                past |= bit
                rest &= ~bit
        return False

    def _longer_than_its_room(self, chosen: int, long: list[int]) -> bool:
        members = [k for k in range(len(long)) if chosen >> k & 1]
        spans = sorted((low, high + long[k]) for k in members for low, high in self.domains[k])
        room, end = 0, spans[0][0]
        for low, high in spans:
            room += max(0, high - max(low, end))
            end = max(end, high)
        return sum(long[k] for k in members) > room

    def _search(self, least: list[int], most: list[int], after: list[list[tuple[int, int]]]) -> list[int] | None:
        if not self.purse.take(1 + len(self.pairs)):
            return None
        clash = self._tightest(least, most)
        if clash is None:
            return least
        i, j, hole, stretch = clash
        ways = [(i, j, hole.high), (j, i, -hole.low)]
        a, b = self.pieces[i], self.pieces[j]
        if (a.wish * 2 + a.day.x_to, a.key) > (b.wish * 2 + b.day.x_to, b.key):
            ways.reverse()
        if self._alike(i, j):
            ways.pop()  # the other order is the same arrangement
        for before, behind, by in ways:
            after[before].append((behind, by))
            raised = self._raised(least, most, after, before)
            found = self._search(raised, most, after) if raised is not None else None
            after[before].pop()
            if found is not None:
                return found
        if stretch[0] <= stretch[1]:
            # Where both are side by side begins with one of them and ends with one, not always the same.
            begins = ((i, stretch[0] - hole.first_from), (j, stretch[0] - hole.second_from))
            ends = ((i, stretch[1] - hole.first_to), (j, stretch[1] - hole.second_to))
            for begin, end in sorted(product(begins, ends), key=lambda both: both[0][0] != both[1][0]):
                if (found := self._within(least, most, after, begin, end)) is not None:
                    return found
        return None

    def _alike(self, i: int, j: int) -> bool:
        a, b = self.pieces[i], self.pieces[j]
        return bool(a.kin) and a.kin == b.kin and self.sides[i] == self.sides[j]

    def _tightest(self, least: list[int], most: list[int]) -> tuple[int, int, Hole, tuple[int, int]] | None:
        """Of the clearances that the least places break, the first that leaves at most one way out, else the first."""
        best = None
        for i, j, found in self.pairs:
            apart = least[j] - least[i]
            for hole in found:
                if not hole.low < apart < hole.high:
                    continue
                stretch = broken(hole, least[i], least[j], self.room)
                if stretch is None:
                    continue
                if stretch == (1, 0) and (least[i] + hole.high > most[j] or least[j] - hole.low > most[i]):
                    return i, j, hole, stretch
                if best is None:
                    best = i, j, hole, stretch
        return best

    def _within(
        self,
        least: list[int],
        most: list[int],
        after: list[list[tuple[int, int]]],
        begin: tuple[int, int],
        end: tuple[int, int],
    ) -> list[int] | None:
        """The search with one thing not before the wide stretch, and one, the same or the other, not behind it."""
        (first, low), (last, high) = begin, end
        if low <= least[first] and high >= most[last]:
            return None  # they are there already, so this is not the way out
        lower = list(least)
        upper = list(most)
        upper[last] = min(high, most[last])
        at = self._next(first, max(low, least[first]))
        if at is None or at > upper[first] or least[last] > upper[last]:
            return None
        lower[first] = at
        raised = self._raised(lower, upper, after, first)
        return self._search(raised, upper, after) if raised is not None else None

    def _next(self, who: int, at_least: int) -> int | None:
        for low, high in self.domains[who]:
            if high >= at_least:
                return max(low, at_least)
        return None

    def _raised(
        self, least: list[int], most: list[int], after: list[list[tuple[int, int]]], start: int
    ) -> list[int] | None:
        """The least places that keep every decision, from places that keep all but those of ``start``."""
        raised = list(least)
        todo = [start]
        rounds = 0
        while todo:
            rounds += 1
            if rounds > 60 * len(raised) and self._circle(after):
                return None
            before = todo.pop()
            for behind, by in after[before]:
                at_least = raised[before] + by
                if raised[behind] < at_least:
                    at = self._next(behind, at_least)
                    if at is None or at > most[behind]:
                        return None
                    raised[behind] = at
                    todo.append(behind)
        return raised

    def _circle(self, after: list[list[tuple[int, int]]]) -> bool:
        """Whether decisions chase one another round for ever (Bellman-Ford)."""
        far = [0] * len(after)
        for _ in far:
            changed = False
            for before, ways in enumerate(after):
                for behind, by in ways:
                    if far[behind] < far[before] + by:
                        far[behind] = far[before] + by
                        changed = True
            if not changed:
                return False
        return True
