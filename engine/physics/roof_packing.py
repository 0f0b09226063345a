"""How many solar panels fit on a roof, where, and what is in the way.

Panels are rectangles laid along or across the roof, around things to keep clear of (fans, hatches, chimneys, racks)
and inside a setback from the edge. The greatest total power is found exactly; where the search is cut short, the
answer says so and gives an upper limit.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import fsum, gcd
from typing import NamedTuple

from engine.physics.packing_ground import STEPS_PER_M, Ground, Shape, steps
from engine.physics.packing_search import Search, Spot
from engine.physics.ranges import within

EFFORT = 120
"""States the search may look at before it gives up proving; about 20 ms in CPython for the hardest mixes."""

_FIRST_LOOK = 60  # states looked at from one corner before the other three corners are tried
_OTHER_CORNERS = 15
_MIRRORS = ((False, False), (True, False), (False, True), (True, True))
_BLOCKERS_TRIED = 12
_LEAST_LOOK = 15


class Rect(NamedTuple):
    """A rectangle on the roof: corner `x_m` behind the front edge and `y_m` from the left edge, then its size."""

    x_m: float
    y_m: float
    length_m: float
    width_m: float


@dataclass(frozen=True, order=True, slots=True)
class PanelKind:
    """A kind of panel and how many are wanted; which side is called length does not matter."""

    key: str
    length_m: float
    width_m: float
    power_w: float
    count: int
    held: bool = False
    """Whether it needs two of the roof's ribs or rails under it, where the roof states any."""


class RoofSpace(NamedTuple):
    """A flat roof: `edge_m` is kept free all round, `gap_m` between panels.

    `keep_clear` holds each obstacle with its clearance already added; a panel may touch it. `outside` are the parts of
    the rectangle that are no usable roof (corners, narrowing), setback included. `ribs_m` are ribs across the roof,
    behind its front edge, and `rails_m` rails along it, from its left edge; without either nothing needs holding.
    """

    length_m: float
    width_m: float
    edge_m: float
    gap_m: float
    keep_clear: tuple[Rect, ...] = ()
    outside: tuple[Rect, ...] = ()
    ribs_m: tuple[float, ...] = ()
    rails_m: tuple[float, ...] = ()


class Placed(NamedTuple):
    """A panel on the roof; `length_m` runs along the roof, `turned` if that is the panel's own width."""

    key: str
    x_m: float
    y_m: float
    length_m: float
    width_m: float
    turned: bool


class Packing(NamedTuple):
    """The best layout found.

    `bound_w` is a power no layout exceeds. `proven` means no layout yields more than `power_w`. `counts` gives how
    many of each kind are placed, in the order asked.
    """

    placed: tuple[Placed, ...]
    power_w: float
    wanted_w: float
    bound_w: float
    proven: bool
    counts: tuple[tuple[str, int], ...]

    @property
    def complete(self) -> bool:
        """Whether all panels wanted are placed."""
        return self.wanted_w == self.power_w


@dataclass(frozen=True, slots=True)
class Blocker:
    """An obstacle without which more power fits: its place in `keep_clear`, and the layout possible without it."""

    index: int
    rect: Rect
    gain_w: float
    more_count: int
    without: Packing


@lru_cache(maxsize=1024)
def pack_roof(space: RoofSpace, kinds: tuple[PanelKind, ...], effort: int = EFFORT) -> Packing:
    """The layout of the panels wanted that yields the greatest power.

    space: the roof. kinds: panels wanted, each kind with a key of its own. effort: how many states the search may
    look at; the answer is the same on every machine. Neither the order of kinds nor that of obstacles matters.
    Valid for roofs of 0.1 m to 20 m by 5 m and panels of 0.2 m to 10 m and 0.1 W to 10 kW, and for 60 panels that the
    roof's area allows; OutOfRangeError (a ValueError) outside. ValueError for a key used twice.

    >>> roof = RoofSpace(3.30, 1.50, 0.0, 0.0, (Rect(1.45, 0.55, 0.40, 0.40),))
    >>> pack_roof(roof, (PanelKind("panel", 1.00, 0.66, 175, 8),)).counts
    (('panel', 4),)
    """
    return _pack(space, kinds, effort, ())


def blocked_by(space: RoofSpace, kinds: tuple[PanelKind, ...], effort: int = EFFORT) -> tuple[Blocker, ...]:
    """The obstacles that, taken away one at a time, let more power fit; the greatest gain first.

    Empty if all panels wanted fit, or if no single obstacle is in the way. The gain is against the layout found by
    `pack_roof` with the same effort. The twelve largest obstacles are tried and share half as much effort
    again, so on a crowded roof with a mix of kinds a small gain may be missed; every gain told is a layout in hand.
    Where `pack_roof` could not prove its layout, part of a gain may be a better layout and not the obstacle's absence.
    """
    now = pack_roof(space, kinds, effort)
    if now.complete:
        return ()
    order = sorted(range(len(space.keep_clear)), key=lambda i: (-_area(space.keep_clear[i]), space.keep_clear[i], i))
    found = []
    tried = order[:_BLOCKERS_TRIED]
    for i in tried:
        fewer = space._replace(keep_clear=space.keep_clear[:i] + space.keep_clear[i + 1 :])
        then = _pack(fewer, kinds, max(_LEAST_LOOK, effort // (2 * len(tried))), now.placed)
        if then.power_w > now.power_w:
            more = len(then.placed) - len(now.placed)
            found.append(Blocker(i, space.keep_clear[i], then.power_w - now.power_w, more, then))
    return tuple(sorted(found, key=lambda b: (-b.gain_w, b.rect)))


def blocked_together(space: RoofSpace, kinds: tuple[PanelKind, ...], effort: int = EFFORT) -> tuple[int, ...]:
    """Obstacles that let more power fit once all of them are gone, and none of which could stay: their places in
    ``space.keep_clear``. Empty where even the bare roof was not seen to hold more.

    The same effort again is shared by all tries. The smallest obstacles are put back first.

    >>> roof = RoofSpace(2.0, 1.0, 0.0, 0.0, (Rect(0.4, 0.4, 0.2, 0.2), Rect(1.4, 0.4, 0.2, 0.2), Rect(0, 0, 0.1, 0.1)))
    >>> blocked_together(roof, (PanelKind("panel", 1.8, 0.9, 400, 1),))
    (0, 1)
    """
    now = pack_roof(space, kinds, effort)
    gone = sorted(range(len(space.keep_clear)), key=lambda i: (_area(space.keep_clear[i]), space.keep_clear[i], i))
    share = max(_LEAST_LOOK, effort // (2 * len(gone) + 2))

    def more(without: list[int]) -> bool:
        left = tuple(r for i, r in enumerate(space.keep_clear) if i not in without)
        return _pack(space._replace(keep_clear=left), kinds, share, now.placed).power_w > now.power_w

    if now.complete or not more(gone):
        return ()
    for i in tuple(gone):
        if more([j for j in gone if j != i]):
            gone.remove(i)
    return tuple(sorted(gone))


def _area(rect: Rect) -> float:
    return rect.length_m * rect.width_m


@lru_cache(maxsize=4096)
def _pack(space: RoofSpace, kinds: tuple[PanelKind, ...], effort: int, known: tuple[Placed, ...]) -> Packing:
    """As `pack_roof`; `known` is a layout that fits and is returned if nothing better is found."""
    _check(space, kinds, effort)
    ground = _ground(space)
    asked = sorted(
        (k for k in kinds if k.count),
        key=lambda k: (-k.power_w, k.length_m * k.width_m, max(k.length_m, k.width_m), k.key),
    )
    usable = [
        k for k in asked if any(s.along <= ground.along and s.across <= ground.across for s in _shapes(0, k, space))
    ]
    wanted_w = fsum(k.power_w * k.count for k in asked)
    if not usable:
        return _packing(kinds, (), wanted_w, 0.0, True)
    shapes = [
        s
        for i, k in enumerate(usable)
        for s in _shapes(i, k, space)
        if s.along <= ground.along and s.across <= ground.across
    ]
    milli = [round(k.power_w * 1000) for k in usable]
    unit = gcd(*milli)
    values = [v // unit for v in milli]
    # No more of a kind than its area allows, so that a slip of the keyboard costs no time.
    size = [(steps(k.length_m) + ground.gap) * (steps(k.width_m) + ground.gap) for k in usable]
    counts = [min(k.count, ground.along * ground.across // s) for k, s in zip(usable, size, strict=True)]
    within("panels wanted that the roof's area allows", sum(counts), 0, 60)
    total = sum(v * n for v, n in zip(values, counts, strict=True))
    by_key = {k.key: v for k, v in zip(usable, values, strict=True)}
    best = sum(by_key[p.key] for p in known)
    placed = known
    limit = total
    used = 0
    proven = False
    # One corner is searched a little, the other three less, then the first goes on with all the effort that remains:
    # a dense layout often shows itself from one corner only.
    searches: dict[int, Search] = {}
    for turn, share in ((0, _FIRST_LOOK), (1, _OTHER_CORNERS), (2, _OTHER_CORNERS), (3, _OTHER_CORNERS), (0, effort)):
        if turn not in searches:
            searches[turn] = Search(ground.mirrored(*_MIRRORS[turn]), shapes, values, counts)
        search = searches[turn]
        search.best = best
        before = search.looked_at
        proven = search.run(min(share, effort - used))
        used += search.looked_at - before
        limit = min(limit, search.limit)
        if search.best > best and search.spots is not None:
            best = search.best
            placed = _placed(search.spots, ground, space, usable, *_MIRRORS[turn])
        proven = proven or best >= limit
        if proven or used >= effort:
            break
    return _packing(kinds, placed, wanted_w, max(best, limit) * unit / 1000, proven)


def _packing(
    kinds: tuple[PanelKind, ...], placed: tuple[Placed, ...], wanted_w: float, bound_w: float, proven: bool
) -> Packing:
    counts = tuple((k.key, sum(p.key == k.key for p in placed)) for k in kinds)
    order = sorted(kinds)
    power_w = fsum(k.power_w * sum(p.key == k.key for p in placed) for k in order)
    bound_w = power_w if proven else max(power_w, min(bound_w, wanted_w))
    return Packing(placed, power_w, wanted_w, bound_w, proven, counts)


def _ground(space: RoofSpace) -> Ground:
    edge, gap = steps(space.edge_m), steps(space.gap_m)
    blocks = sorted(
        (
            steps(r.x_m) - edge,
            steps(r.x_m + r.length_m) - edge,
            steps(r.y_m) - edge,
            steps(r.y_m + r.width_m) - edge,
        )
        for r in {*space.keep_clear, *space.outside}
    )
    along = steps(space.length_m) - 2 * edge + gap
    across = steps(space.width_m) - 2 * edge + gap
    real = [b for b in blocks if b[0] < b[1] and b[2] < b[3] and b[1] > 0 and b[3] > 0]
    return Ground(
        along,
        across,
        gap,
        tuple(b for b in real if b[0] < along - gap and b[2] < across - gap),
        tuple(sorted({steps(r) - edge for r in space.ribs_m})),
        tuple(sorted({steps(r) - edge for r in space.rails_m})),
    )


def _shapes(kind: int, panel: PanelKind, space: RoofSpace) -> list[Shape]:
    gap = steps(space.gap_m)
    a, b = steps(panel.length_m) + gap, steps(panel.width_m) + gap
    held = panel.held and bool(space.ribs_m or space.rails_m)
    both = [Shape(kind, a, b, False, held), Shape(kind, b, a, True, held)]
    # The long side across the roof first, whichever side the shop calls length.
    return sorted(both[: 1 if a == b else 2], key=lambda s: s.along)


def _placed(
    spots: list[Spot], ground: Ground, space: RoofSpace, kinds: list[PanelKind], ends: bool, sides: bool
) -> tuple[Placed, ...]:
    edge = steps(space.edge_m)
    out = []
    for shape, x, y in spots:
        kind = kinds[shape.kind]
        x = ground.along - x - shape.along if ends else x
        y = ground.across - y - shape.across if sides else y
        size = (kind.width_m, kind.length_m) if shape.turned else (kind.length_m, kind.width_m)
        out.append(Placed(kind.key, (x + edge) / STEPS_PER_M, (y + edge) / STEPS_PER_M, *size, shape.turned))
    return tuple(sorted(out, key=lambda p: (p.x_m, p.y_m)))


def _check(space: RoofSpace, kinds: tuple[PanelKind, ...], effort: int) -> None:
    within("effort", effort, 1, 10_000_000)
    within("roof length_m", space.length_m, 0.1, 20)
    within("roof width_m", space.width_m, 0.1, 5)
    within("edge_m", space.edge_m, 0, 5)
    within("gap_m", space.gap_m, 0, 5)
    for line in (*space.ribs_m, *space.rails_m):
        within("rib or rail", line, -50, 50)
    within("ribs and rails", len(space.ribs_m) + len(space.rails_m), 0, 300)
    for i, rect in enumerate((*space.keep_clear, *space.outside)):
        within(f"keep_clear[{i}] x_m", rect.x_m, -50, 50)
        within(f"keep_clear[{i}] y_m", rect.y_m, -50, 50)
        within(f"keep_clear[{i}] length_m", rect.length_m, 0, 50)
        within(f"keep_clear[{i}] width_m", rect.width_m, 0, 50)
    for kind in kinds:
        within(f"panel {kind.key} length_m", kind.length_m, 0.2, 10)
        within(f"panel {kind.key} width_m", kind.width_m, 0.2, 10)
        within(f"panel {kind.key} power_w", kind.power_w, 0.1, 10_000)
        within(f"panel {kind.key} count", kind.count, 0, 10_000)
    if len({k.key for k in kinds}) < len(kinds):
        raise ValueError("kinds: a panel key is used twice; give each kind a key of its own.")
