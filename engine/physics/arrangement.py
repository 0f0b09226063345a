"""Places for things along the two walls of a room: a complete search, and the smallest reason when there are none.

Two things keep a difference of their places out of some open intervals (``clearance.holes``), and the room keeps each
thing's own place in closed ones. The search works on the least places that all decisions so far allow: where they break
a clearance, one of its two ways out has to be taken, and both are tried. Every arrangement can be pushed forward onto
such least places, so nothing is missed (branch and bound on disjunctions; Brucker, Jurisch and Sievers 1994, from
memory). Both answers are therefore proven, unless the search was cut off at its number of steps, and then it says so.
"""

from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from engine.physics.arrangement_ground import Ground, without
from engine.physics.arrangement_search import Places, Purse
from engine.physics.clearance import MIDDLE, Piece, Room

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


def _solve(ground: Ground, which: Sequence[int], aisle: int, purse: Purse) -> tuple[Spot, ...] | None:
    """Spots for some of the things, or None: proven when the purse is not empty."""
    pieces = [ground.pieces[i] for i in which]
    sides: list[str] = []

    def settle(careful: bool) -> list[int] | None:
        k = len(sides)
        if purse.left < 0:
            return None
        if k == len(pieces):
            return Places(ground, which, sides, aisle, purse).find()
        if (
            careful
            and k
            and len(pieces[k - 1].sides) > 1
            and Places(ground, which[:k], sides, aisle, purse).find() is None
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


def _settled(ground: Ground, which: Sequence[int], spots: tuple[Spot, ...], aisle: int) -> tuple[Spot, ...]:
    """Every thing moved as near to where it is wished as the others let it, from the rear on, until nothing moves."""
    pieces = [ground.pieces[i] for i in which]
    xs = [s.x for s in spots]
    for _ in range(3):
        moved = False
        for i in sorted(range(len(xs)), key=lambda k: (-xs[k], pieces[k].key)):
            if pieces[i].fixed or xs[i] == pieces[i].wish:
                continue
            spans: Sequence[tuple[int, int]] = ground.allowed(which[i], spots[i].side)
            for j in range(len(xs)):
                # Each two are looked up in one order, as the search has it.
                if i < j:
                    for hole in ground.holes(which[i], spots[i].side, which[j], spots[j].side, aisle):
                        spans = without(spans, xs[j] - hole.high, xs[j] - hole.low)
                elif i > j:
                    for hole in ground.holes(which[j], spots[j].side, which[i], spots[i].side, aisle):
                        spans = without(spans, xs[j] + hole.low, xs[j] + hole.high)
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
    ground = Ground(room, pieces)
    every = range(len(pieces))
    kept, proven = 0, True
    open_ = [a for a in sorted(aisles) if a and _wide_enough(room, pieces, a)]
    widest: tuple[Spot, ...] | None = None
    if open_:  # most rooms can keep the widest
        purse = Purse(most_steps // 4)
        kept = open_.pop()
        widest = _solve(ground, every, kept, purse)
        proven = widest is not None or purse.left >= 0
    if widest is None:
        kept, purse = 0, Purse(most_steps)
        widest = _solve(ground, every, 0, purse)
        if widest is None:
            return _partly(ground, purse)
        # Whoever can keep a wide aisle can keep a narrower one: halve the list until the widest to be kept is found.
        low, high = 0, len(open_)
        while low < high:
            middle = (low + high) // 2
            purse = Purse(most_steps // 4)
            spots = _solve(ground, every, open_[middle], purse)
            if spots is not None:
                widest, kept, low = spots, open_[middle], middle + 1
            else:
                proven, high = proven and purse.left >= 0, middle
    return Arrangement(_settled(ground, every, widest, kept), kept, (), proven)


def _wide_enough(room: Room, pieces: Sequence[Piece], aisle: int) -> bool:
    """Whether each thing by itself leaves the aisle."""
    return all(
        p.ends_aisle or not p.in_way or MIDDLE in p.sides or p.fixed or p.day.out_to + p.inset + aisle <= room.width
        for p in pieces
    )


def _partly(ground: Ground, purse: Purse) -> Arrangement:
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
    chosen = _settled(ground, inside, spots, 0)
    at = dict(zip(inside, chosen, strict=True))
    # A set that was still being made smaller when the steps ran out is not known to be the smallest.
    return Arrangement(tuple(at.get(k) for k in range(count)), 0, tuple(conflicts), purse.left >= 0)


def _smallest(ground: Ground, together: list[int], purse: Purse) -> tuple[int, ...]:
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
