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
    LEFT,
    MIDDLE,
    RIGHT,
    Piece,
    Room,
    broken,
    holes,
    in_block,
    wide_stretch,
)

MOST_STEPS = 300_000
"""Pairs of things that all searches for one room look at together; some tenths of a second."""

FIRST_STEPS = 6_000
"""Steps after which liked sides are no longer tried whole, but one by one."""

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


class _Places:
    """The search for places when every thing's side is settled."""

    def __init__(self, room: Room, pieces: Sequence[Piece], sides: Sequence[str], aisle: int, purse: _Purse) -> None:
        self.room, self.pieces, self.sides, self.purse = room, pieces, sides, purse
        self.domains = [allowed(room, p, s) for p, s in zip(pieces, sides, strict=True)]
        self.pairs = [
            (i, j, found)
            for i in range(len(pieces))
            for j in range(i + 1, len(pieces))
            if not (pieces[i].fixed and pieces[j].fixed)
            and (found := holes(pieces[i], sides[i], pieces[j], sides[j], aisle))
        ]

    def find(self) -> list[int] | None:
        """The least places of the first arrangement that keeps every clearance; wished-for orders are tried first."""
        if not all(self.domains):
            return None
        least = [d[0][0] for d in self.domains]
        most = [d[-1][1] for d in self.domains]
        return self._search(least, most, [[] for _ in least])

    def _search(self, least: list[int], most: list[int], after: list[list[tuple[int, int]]]) -> list[int] | None:
        if not self.purse.take(1 + len(self.pairs)):
            return None
        found_broken = next(
            (
                (i, j, hole, stretch)
                for i, j, found in self.pairs
                for hole in found
                if (stretch := broken(hole, least[i], least[j], self.room)) is not None
            ),
            None,
        )
        if found_broken is None:
            return least
        i, j, hole, stretch = found_broken
        ways = [(i, j, hole.high), (j, i, -hole.low)]
        a, b = self.pieces[i], self.pieces[j]
        if (a.wish * 2 + a.day.x_to, a.key) > (b.wish * 2 + b.day.x_to, b.key):
            ways.reverse()
        if a.kin and a.kin == b.kin and self.sides[i] == self.sides[j]:
            ways.pop()  # alike: the other order is the same arrangement
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


def _crowded(room: Room, pieces: Sequence[Piece], sides: Sequence[str]) -> bool:
    """Whether things of which no two can be side by side are together longer than the room."""
    return any(
        sum(pieces[k].day.x_to for k in row if not pieces[k].fixed) > room.x_to - room.x_from
        for wall in (LEFT, RIGHT)
        for row in rows(room, pieces, sides, wall)
    )


def _solve(room: Room, pieces: tuple[Piece, ...], aisle: int, purse: _Purse) -> tuple[Spot, ...] | None:
    """Spots for all things, or None: proven when the purse is not empty."""
    sides: list[str] = []

    def settle(careful: bool) -> list[int] | None:
        k = len(sides)
        if purse.left < 0 or _crowded(room, pieces, sides):
            return None
        if k == len(pieces):
            return _Places(room, pieces, sides, aisle, purse).find()
        if (
            careful
            and k
            and len(pieces[k - 1].sides) > 1
            and _Places(room, pieces[:k], sides, aisle, purse).find() is None
        ):
            return None
        piece = pieces[k]
        options = piece.sides
        if piece.kin and k and pieces[k - 1].kin == piece.kin and pieces[k - 1].sides == piece.sides:
            options = options[options.index(sides[-1]) :]
        for side in options:
            if not allowed(room, piece, side):
                continue
            sides.append(side)
            found = settle(careful)
            if found is not None:
                return found
            sides.pop()
            if not careful and purse.left < first_try:
                return None
        return None

    # Most often the sides that are liked best will do; only when they do not is every step looked at.
    first_try = purse.left - FIRST_STEPS
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
    purse = _Purse(most_steps)
    proven = True
    for aisle in aisles:
        if aisle and not _wide_enough(room, pieces, aisle):
            continue
        tries = _Purse(min(purse.left, most_steps // 8)) if aisle else purse
        before = tries.left
        spots = _solve(room, pieces, aisle, tries)
        if spots is not None:
            return Arrangement(_settled(room, pieces, spots, aisle), aisle, (), proven)
        if tries is not purse:
            proven = proven and tries.left >= 0
            purse.left -= before - max(0, tries.left)
    return _partly(room, pieces, purse)


def _wide_enough(room: Room, pieces: Sequence[Piece], aisle: int) -> bool:
    """Whether each thing by itself leaves the aisle."""
    return all(
        p.ends_aisle or not p.in_way or MIDDLE in p.sides or p.fixed or p.day.out_to + p.inset + aisle <= room.width
        for p in pieces
    )


def _partly(room: Room, pieces: tuple[Piece, ...], purse: _Purse) -> Arrangement:
    """As many things as fit, the first ones first, and for each of the others the smallest set it cannot be with."""
    inside: list[int] = []
    spots: tuple[Spot, ...] = ()
    conflicts: list[tuple[int, ...]] = []
    for k in range(len(pieces)):
        more = [*inside, k]
        found = _solve(room, tuple(pieces[i] for i in more), 0, purse)
        if found is not None:
            inside, spots = more, found
        elif purse.left < 0:
            break
        else:
            conflicts.append(_smallest(room, pieces, more, purse))
    chosen = _settled(room, [pieces[i] for i in inside], spots, 0)
    at = dict(zip(inside, chosen, strict=True))
    # A set that was still being made smaller when the steps ran out is not known to be the smallest.
    proven = purse.left >= 0
    return Arrangement(tuple(at.get(k) for k in range(len(pieces))), 0, tuple(conflicts), proven)


def _smallest(room: Room, pieces: tuple[Piece, ...], together: list[int], purse: _Purse) -> tuple[int, ...]:
    """Things taken out one by one as long as the rest still cannot be together: what stays is a smallest set."""
    left = list(together)
    for k in reversed(together[:-1]):
        fewer = [i for i in left if i != k]
        if _solve(room, tuple(pieces[i] for i in fewer), 0, purse) is None and purse.left >= 0:
            left = fewer
    return tuple(left)
