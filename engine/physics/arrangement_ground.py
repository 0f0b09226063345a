"""The ground of an arrangement: where the room lets each thing stand, and what keeps two things apart in it."""

from collections.abc import Sequence
from functools import lru_cache

from engine.physics.clearance import ALWAYS, MIDDLE, Hole, Piece, Room, holes, in_block, wide_stretch


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
                spans = without(spans, block.x_from - extent.x_to, block.x_to - extent.x_from)
    return tuple(spans)


def without(spans: Sequence[tuple[int, int]], low: int, high: int) -> list[tuple[int, int]]:
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


class Ground:
    """The room, the things, and what keeps them apart: looked up by the things' numbers, so that it is quick."""

    def __init__(self, room: Room, pieces: tuple[Piece, ...]) -> None:
        self.room, self.pieces = room, pieces
        self._everywhere = room.width - 2 * max((d for _, d in room.taper), default=0)
        self._allowed: dict[tuple[int, str], tuple[tuple[int, int], ...]] = {}
        self._holes: dict[tuple[int, str, int, str, int], tuple[Hole, ...]] = {}

    def allowed(self, i: int, side: str) -> tuple[tuple[int, int], ...]:
        """`allowed` of one thing."""
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
            found = self._holes[key] = tuple(h for h in found if h.need > self._everywhere)
        return found
