"""Places for things along the two walls of a room: a complete search, and the smallest reason when there are none.

Two things keep a difference of their places out of some open intervals (``clearance.holes``), and the room keeps each
thing's own place in closed ones. The search works on the least places that all decisions so far allow: where they break
a clearance, one of its two ways out has to be taken, and both are tried. Every arrangement can be pushed forward onto
such least places, so nothing is missed (branch and bound on disjunctions; Brucker, Jurisch and Sievers 1994, from
memory). Both answers are therefore proven, unless the search was cut off at its number of steps, and then it says so.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from engine.physics.clearance import (
    ALWAYS,
    MIDDLE,
    Hole,
    Piece,
    Room,
    broken,
    holes,
    in_block,
    wide_stretch,
)

MOST_STEPS = 100_000
"""Pairs of things that all searches for one room look at together; a tenth of a second or so."""

AISLES_M = (0.5, 0.45, 0.4, 0.35, 0.3, 0.2, 0.1, 0.0)
"""Aisles that are tried in turn, the widest first."""


class Spot(NamedTuple):
    """Where a thing stands: its front edge and its side."""

    x: int
    side: str


class Arrangement(NamedTuple):
    """Spots by the things' order; None for those that have none."""

    spots: tuple[Spot | None, ...]
    aisle: int
    """The widest of the aisles asked for that could be kept."""
    conflicts: tuple[tuple[int, ...], ...]
    """Smallest sets of things, by their order, that cannot be together; each has one thing without a spot."""
    proven: bool


class _Purse:
    """Steps that are left."""

    def __init__(self, steps: int) -> None:
        self.left = steps

    def take(self, steps: int) -> bool:
        self.left -= steps
        return self.left >= 0


@lru_cache(maxsize=4096)
def allowed(room: Room, piece: Piece, side: str) -> tuple[tuple[int, int], ...]:
    """Closed intervals in which the front edge of a thing may lie, as far as only the room has a say.

    >>> from engine.physics.clearance import Extent
    >>> box = Extent(0, 10, 0, 5, 0, 9)
    >>> allowed(Room(0, 100, 50), Piece("a", box, box, ("left",), 0), "left")
    ((0, 90),)
    """
    if piece.fixed:
        return ((piece.wish, piece.wish),)
    low, high = room.x_from, room.x_to - max(piece.day.x_to, piece.night.x_to)
    low -= min(piece.day.x_from, piece.night.x_from)
    if piece.anchor == "front":
        high = min(high, low)
    elif piece.anchor == "rear":
        low = max(low, high)
    for extent in (piece.day, piece.night, *piece.free):
        # Across the room it needs its own depth and nothing more.
        depth = extent.out_to - extent.out_from
        need = depth + 2 * piece.inset if side == MIDDLE else extent.out_to + piece.inset
        stretch = wide_stretch(room, need)
        if stretch is None:
            return ()
        if stretch != (-ALWAYS, ALWAYS):
            low, high = max(low, stretch[0] - extent.x_from), min(high, stretch[1] - extent.x_to)
    for extent in piece.free:
        low, high = max(low, room.x_from - extent.x_from), min(high, room.x_to - extent.x_to)
    spans = [(low, high)] if low <= high else []
    for block in room.blocks:
        if block.arch and piece.over_arch:
            continue
        for extent in dict.fromkeys((piece.day,) if block.by_day else (piece.day, piece.night)):
            if in_block(room, extent, side, block):
                spans = _without(spans, block.x_from - extent.x_to, block.x_to - extent.x_from)
    return tuple(spans)


def _without(spans: Sequence[tuple[int, int]], low: int, high: int) -> list[tuple[int, int]]:
    """Closed intervals less an open one."""
    if low >= high:
        return list(spans)
    left = []
    for a, b in spans:
        if b <= low or a >= high:
            left.append((a, b))
            continue
        if a <= low:
            left.append((a, low))
        if b >= high:
            left.append((high, b))
    return left


class _Ground:
    """The room, the things, and what keeps them apart: looked up by the things' numbers, so that it is quick."""

    def __init__(self, room: Room, pieces: tuple[Piece, ...]) -> None:
        self.room, self.pieces = room, pieces
        self.long = [p.day.x_to for p in pieces]
        self._allowed: dict[tuple[int, str], tuple[tuple[int, int], ...]] = {}
        self._holes: dict[tuple[int, str, int, str, int], tuple[Hole, ...]] = {}

    def allowed(self, i: int, side: str) -> tuple[tuple[int, int], ...]:
        key = (i, side)
        found = self._allowed.get(key)
        if found is None:
            found = self._allowed[key] = allowed(self.room, self.pieces[i], side)
        return found

    def holes(self, i: int, side: str, j: int, other: str, aisle: int) -> tuple[Hole, ...]:
        """What keeps two things apart in this room; none between two that are fixed."""
        key = (i, side, j, other, aisle)
        found = self._holes.get(key)
        if found is None:
            a, b = self.pieces[i], self.pieces[j]
            found = () if a.fixed and b.fixed else holes(a, side, b, other, aisle)
            everywhere = self.room.width - 2 * max((d for _, d in self.room.taper), default=0)
            found = self._holes[key] = tuple(h for h in found if h.need > everywhere)
        return found


class _Places:
    """The search for places when every thing's side is settled."""

    def __init__(self, ground: _Ground, which: Sequence[int], sides: Sequence[str], aisle: int, purse: _Purse) -> None:
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
            for who, begin, end in ((i, hole.first_from, hole.first_to), (j, hole.second_from, hole.second_to)):
                if (found := self._within(least, most, after, who, stretch[0] - begin, stretch[1] - end)) is not None:
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
        self, least: list[int], most: list[int], after: list[list[tuple[int, int]]], who: int, low: int, high: int
    ) -> list[int] | None:
        """The search with one thing moved into the wide stretch."""
        if low <= least[who] and high >= most[who]:
            return None  # it is there already, so this is not the way out
        lower = list(least)
        upper = list(most)
        at = self._next(who, max(low, least[who]))
        upper[who] = min(high, most[who])
        if at is None or at > upper[who]:
            return None
        lower[who] = at
        raised = self._raised(lower, upper, after, who)
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


def rows(room: Room, pieces: Sequence[Piece], sides: Sequence[str], wall: str) -> tuple[tuple[int, ...], ...]:
    """Things, by their order, of which no two can be side by side: those of one wall at one height, and those in the
    middle that leave none of them room.

    >>> from engine.physics.clearance import Extent
    >>> box = Extent(0, 60, 0, 5, 0, 9)
    >>> a, b = (Piece(k, box, box, ("left",), 0) for k in "ab")
    >>> rows(Room(0, 100, 50), (a, b), ("left", "left"), "left")
    ((0, 1),)
    """
    found = []
    for at in sorted({p.day.z_from for p, s in zip(pieces, sides, strict=False) if s in (wall, MIDDLE)}):
        here = [
            k for k, (p, s) in enumerate(zip(pieces, sides, strict=False))
            if s in (wall, MIDDLE) and p.day.z_from <= at < p.day.z_to
        ]  # fmt: skip
        shallowest = min((pieces[k].day.out_to for k in here if sides[k] == wall), default=room.width)
        found.append(
            tuple(
                k for k in here
                if sides[k] == wall
                or 2 * shallowest + pieces[k].day.out_to - pieces[k].day.out_from > room.width
            )
        )  # fmt: skip
    return tuple(found)


def _solve(ground: _Ground, which: Sequence[int], aisle: int, purse: _Purse) -> tuple[Spot, ...] | None:
    """Spots for some of the things, or None: proven when the purse is not empty."""
    pieces = [ground.pieces[i] for i in which]
    sides: list[str] = []

    def settle(careful: bool) -> list[int] | None:
        k = len(sides)
        if purse.left < 0:
            return None
        if k == len(pieces):
            return _Places(ground, which, sides, aisle, purse).find()
        if (
            careful
            and k
            and len(pieces[k - 1].sides) > 1
            and _Places(ground, which[:k], sides, aisle, purse).find() is None
        ):
            return None
        piece = pieces[k]
        options = piece.sides
        if piece.kin and k and pieces[k - 1].kin == piece.kin and pieces[k - 1].sides == piece.sides:
            options = options[options.index(sides[-1]) :]
        for side in options:
            if not ground.allowed(which[k], side):
                continue
            sides.append(side)
            found = settle(careful)
            if found is not None:
                return found
            sides.pop()
            if not careful:
                return None
        return None

    # Most often the sides that are liked best will do; when they do not, things are set one by one, each tried.
    found = settle(False)
    if found is None and purse.left >= 0 and any(len(p.sides) > 1 for p in pieces):
        sides.clear()
        found = settle(True)
    return None if found is None else tuple(Spot(x, s) for x, s in zip(found, sides, strict=True))


def _settled(room: Room, pieces: Sequence[Piece], spots: tuple[Spot, ...], aisle: int) -> tuple[Spot, ...]:
    """Every thing moved as near to where it is wished as the others let it, from the rear on, until nothing moves."""
    xs = [s.x for s in spots]
    for _ in range(3):
        moved = False
        for i in sorted(range(len(xs)), key=lambda k: (-xs[k], pieces[k].key)):
            if pieces[i].fixed or xs[i] == pieces[i].wish:
                continue
            spans: Sequence[tuple[int, int]] = allowed(room, pieces[i], spots[i].side)
            for j in range(len(xs)):
                if i == j:
                    continue
                for hole in holes(pieces[i], spots[i].side, pieces[j], spots[j].side, aisle):
                    if hole.need > room.width - 2 * max((d for _, d in room.taper), default=0):
                        spans = _without(spans, xs[j] - hole.high, xs[j] - hole.low)
            near = min(
                (max(a, min(b, pieces[i].wish)) for a, b in spans), key=lambda x: abs(x - pieces[i].wish), default=xs[i]
            )
            if abs(near - pieces[i].wish) < abs(xs[i] - pieces[i].wish):
                xs[i] = near
                moved = True
        if not moved:
            break
    return tuple(Spot(x, s.side) for x, s in zip(xs, spots, strict=True))


@lru_cache(maxsize=512)
def arrange(
    room: Room, pieces: tuple[Piece, ...], aisles: tuple[int, ...], most_steps: int = MOST_STEPS
) -> Arrangement:
    """Spots for the things, with the widest of the given aisles that can be kept (widest first in ``aisles``).

    The order of things is their weight: when they do not all fit, later ones go without. Things that are ``fixed``
    stand where they stand, even in one another.

    >>> from engine.physics.clearance import Extent
    >>> box = Extent(0, 60, 0, 5, 0, 9)
    >>> a, b = (Piece(k, box, box, ("left",), 0) for k in "ab")
    >>> arrange(Room(0, 100, 50), (a, b), (0,)).conflicts
    ((0, 1),)
    >>> arrange(Room(0, 120, 50), (a, b), (0,)).spots
    (Spot(x=0, side='left'), Spot(x=60, side='left'))
    """
    ground = _Ground(room, pieces)
    purse = _Purse(most_steps)
    every = range(len(pieces))
    widest = _solve(ground, every, 0, purse)
    if widest is None:
        return _partly(ground, purse)
    kept, proven = 0, True
    # Whoever can keep a wide aisle can keep a narrower one: halve the list until the widest that can be kept is found.
    open_ = [a for a in sorted(aisles) if a and _wide_enough(room, pieces, a)]
    low, high = 0, len(open_)
    middle = high - 1  # most rooms can keep the widest
    while low < high:
        purse = _Purse(most_steps // 4)
        spots = _solve(ground, every, open_[middle], purse)
        if spots is not None:
            widest, kept, low = spots, open_[middle], middle + 1
        else:
            proven, high = proven and purse.left >= 0, middle
        middle = (low + high) // 2
    return Arrangement(_settled(room, pieces, widest, kept), kept, (), proven)


def _wide_enough(room: Room, pieces: Sequence[Piece], aisle: int) -> bool:
    """Whether each thing by itself leaves the aisle."""
    return all(
        p.ends_aisle or not p.in_way or MIDDLE in p.sides or p.fixed or p.day.out_to + p.inset + aisle <= room.width
        for p in pieces
    )


def _partly(ground: _Ground, purse: _Purse) -> Arrangement:
    """As many things as fit, the first ones first, and for each of the others the smallest set it cannot be with."""
    inside: list[int] = []
    spots: tuple[Spot, ...] = ()
    conflicts: list[tuple[int, ...]] = []
    count = len(ground.pieces)
    for k in range(count):
        more = [*inside, k]
        # All of them together are known not to fit.
        found = None if len(more) == count else _solve(ground, more, 0, purse)
        if found is not None:
            inside, spots = more, found
        elif purse.left < 0:
            break
        else:
            conflicts.append(_smallest(ground, more, purse))
    chosen = _settled(ground.room, [ground.pieces[i] for i in inside], spots, 0)
    at = dict(zip(inside, chosen, strict=True))
    # A set that was still being made smaller when the steps ran out is not known to be the smallest.
    return Arrangement(tuple(at.get(k) for k in range(count)), 0, tuple(conflicts), purse.left >= 0)


def _smallest(ground: _Ground, together: list[int], purse: _Purse) -> tuple[int, ...]:
    """Things taken out one by one as long as the rest still cannot be together: what stays is a smallest set."""
    left = list(together)
    # What hangs high and what stands low seldom have to do with each other: one of the two kinds is tried alone first.
    last = together[-1]
    alike = [i for i in together if ground.pieces[i].in_way == ground.pieces[last].in_way]
    if len(alike) < len(together) and _solve(ground, alike, 0, purse) is None and purse.left >= 0:
        left = alike
    for k in reversed(left[:-1]):
        fewer = [i for i in left if i != k]
        if _solve(ground, fewer, 0, purse) is None and purse.left >= 0:
            left = fewer
    return tuple(left)
