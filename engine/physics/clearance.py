"""Which places of two things in a room shut each other out: boxes along two walls, and what has to stay free.

Everything is a whole number of hundredths of a millimetre, so that sums are exact and things may touch. x runs along
the room from its front, ``out`` from the wall a thing stands at into the room, z up. A thing in the middle of the room
reaches half its depth to either side of the room's middle line. Pure geometry; the room's sides may draw in by a taper
that is the same on both sides and has its widest part in one stretch.
"""

from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

GRID_M = 1e-5
"""One step of the whole numbers."""

LEFT, RIGHT, MIDDLE = "left", "right", "middle"

ALWAYS = 10**9
"""A width that no room has: the two can never be side by side."""


def grid(length_m: float) -> int:
    """A length in hundredths of a millimetre.

    >>> grid(0.0254)
    2540
    """
    return round(length_m / GRID_M)


class Extent(NamedTuple):
    """A box relative to a thing's front edge and wall side."""

    x_from: int
    x_to: int
    out_from: int
    out_to: int
    z_from: int
    z_to: int


class Piece(NamedTuple):
    """A thing that wants a place."""

    key: str
    day: Extent
    night: Extent
    sides: tuple[str, ...]
    """Where it may stand, best first."""
    wish: int
    """Where its front edge would best be."""
    fixed: bool = False
    """Stands at its wish, whatever is there."""
    anchor: str = ""
    """front or rear: it has to stand against that end."""
    free: tuple[Extent, ...] = ()
    """What has to stay free of other things by day."""
    kin: str = ""
    """Things of one kin are alike, so that swapping them changes nothing."""
    in_way: bool = True
    """Stands where people walk, so that the aisle runs past it."""
    ends_aisle: bool = False
    over_arch: bool = True
    """May be cut out round a block that is a wheel arch."""
    inset: int = 0
    """How far the wall stands in at its height."""


class Block(NamedTuple):
    """A part of the room that stays free of things, or is taken: y from the room's left side."""

    name: str
    x_from: int
    x_to: int
    y_from: int
    y_to: int
    z_from: int
    z_to: int
    arch: bool = False
    by_day: bool = False
    """Free by day only: at night a bed may be made up there."""


class Room(NamedTuple):
    """The room between its finished ends, and its whole width."""

    x_from: int
    x_to: int
    width: int
    blocks: tuple[Block, ...] = ()
    taper: tuple[tuple[int, int], ...] = ()
    """(x, how far each side draws in there), in order; straight lines between."""


class Hole(NamedTuple):
    """x of the second less x of the first may not lie strictly between ``low`` and ``high``, unless the room is at
    least ``need`` wide wherever the two boxes are side by side."""

    low: int
    high: int
    need: int
    first_from: int
    first_to: int
    second_from: int
    second_to: int


def _apart(a: Extent, b: Extent) -> bool:
    return a.z_from >= b.z_to or b.z_from >= a.z_to


def _need(a: Extent, side_a: str, b: Extent, side_b: str, aisle: int) -> int:
    """Width the room must have for the two to be side by side; 0 when they never meet."""
    if side_a == side_b:
        meet = side_a == MIDDLE or (a.out_from < b.out_to and b.out_from < a.out_to)
        return ALWAYS if meet else 0
    if side_a == MIDDLE:
        return a.out_to - a.out_from + 2 * b.out_to
    if side_b == MIDDLE:
        return 2 * a.out_to + b.out_to - b.out_from
    return a.out_to + b.out_to + aisle


@lru_cache(maxsize=16384)
def holes(a: Piece, side_a: str, b: Piece, side_b: str, aisle: int) -> tuple[Hole, ...]:
    """Everything that keeps two things apart, each standing at its side, with an aisle left between opposite ones.

    >>> box = Extent(0, 10, 0, 5, 0, 9)
    >>> a, b = (Piece(k, box, box, ("left",), 0) for k in "ab")
    >>> [(h.low, h.high) for h in holes(a, "left", b, "left", 0)]
    [(-10, 10)]
    >>> [h.need for h in holes(a, "left", b, "right", 4)]
    [14]
    """
    way = aisle if a.in_way and b.in_way else 0
    pairs = [(a.day, b.day, way)]
    if (a.night, b.night) != (a.day, b.day):
        pairs.append((a.night, b.night, 0))
    pairs += [(zone, b.day, 0) for zone in a.free] + [(a.day, zone, 0) for zone in b.free]
    found = []
    for p, q, between in pairs:
        if _apart(p, q):
            continue
        if need := _need(p, side_a, q, side_b, between):
            low, high = p.x_from - q.x_to, p.x_to - q.x_from
            found.append(Hole(low, high, need, p.x_from, p.x_to, q.x_from, q.x_to))
    return tuple(dict.fromkeys(found))


@lru_cache(maxsize=4096)
def wide_stretch(room: Room, need: int) -> tuple[int, int] | None:
    """The stretch of the room that is at least ``need`` wide; None when there is none.

    >>> wide_stretch(Room(0, 100, 50, taper=((0, 5), (10, 0), (90, 0), (100, 5))), 44)
    (4, 96)
    """
    most = (room.width - need) // 2
    if most < 0:
        return None
    if not room.taper or all(d <= most for _, d in room.taper):
        return (-ALWAYS, ALWAYS)
    first = -ALWAYS if room.taper[0][1] <= most else None
    last = ALWAYS if room.taper[-1][1] <= most else None
    for (x, d), (x2, d2) in pairwise(room.taper):  # both ends rounded into the stretch
        if first is None and d > most >= d2:
            first = x + -((most - d) * (x2 - x) // (d - d2))
        if d <= most < d2 and room.taper[-1][1] > most:
            last = x + (most - d) * (x2 - x) // (d2 - d)
    return None if first is None or last is None else (first, last)


def taper_at(room: Room, x: int) -> int:
    """How far each side draws in at a place.

    >>> taper_at(Room(0, 100, 50, taper=((0, 5), (10, 0))), 4)
    3
    """
    if not room.taper:
        return 0
    if x <= room.taper[0][0]:
        return room.taper[0][1]
    for (x0, d0), (x1, d1) in pairwise(room.taper):
        if x <= x1:
            return d0 + (d1 - d0) * (x - x0) // (x1 - x0)
    return room.taper[-1][1]


def broken(hole: Hole, first: int, second: int, room: Room) -> tuple[int, int] | None:
    """The wide stretch that is left when two places break a clearance, or None when they keep it.

    (1, 0) stands for no stretch at all.

    >>> broken(Hole(-10, 10, ALWAYS, 0, 10, 0, 10), 0, 4, Room(0, 100, 50))
    (1, 0)
    """
    if not hole.low < second - first < hole.high:
        return None
    if hole.need >= ALWAYS:
        return (1, 0)
    stretch = wide_stretch(room, hole.need)
    if stretch is None:
        return (1, 0)
    begins = max(first + hole.first_from, second + hole.second_from)
    ends = min(first + hole.first_to, second + hole.second_to)
    return stretch if begins < stretch[0] or ends > stretch[1] else None


def clash(room: Room, p: Extent, side_p: str, x_p: int, q: Extent, side_q: str, x_q: int) -> bool:
    """Whether two boxes in their places share space.

    >>> box = Extent(0, 10, 0, 5, 0, 9)
    >>> [clash(Room(0, 100, 50), box, "left", 0, box, "left", x) for x in (9, 10)]
    [True, False]
    """
    if _apart(p, q) or not (need := _need(p, side_p, q, side_q, 0)):
        return False
    hole = Hole(p.x_from - q.x_to, p.x_to - q.x_from, need, p.x_from, p.x_to, q.x_from, q.x_to)
    return broken(hole, x_p, x_q, room) is not None


def reach(out: Extent, side: str, width: int) -> tuple[int, int]:
    """From and to across the room, in its wide part.

    >>> reach(Extent(0, 10, 1, 5, 0, 9), "right", 50)
    (45, 49)
    """
    if side == LEFT:
        return out.out_from, out.out_to
    if side == RIGHT:
        return width - out.out_to, width - out.out_from
    half = (out.out_to - out.out_from) // 2
    return width // 2 - half, width // 2 + half


def in_block(room: Room, extent: Extent, side: str, block: Block) -> bool:
    """Whether a box at its side reaches into a block across and in height, whatever its place along the room."""
    y_from, y_to = reach(extent, side, room.width)
    return y_from < block.y_to and block.y_from < y_to and extent.z_from < block.z_to and block.z_from < extent.z_to
