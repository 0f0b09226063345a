"""Exact search for the most powerful layout of panels on a roof with things to keep clear of.

Every layout can be pushed towards the front left corner until each panel rests, towards the front and towards the
left, against the setback, a block or another panel; and its panels can be put down one after another so that none
lies in front of or left of, in both senses, one put down before. Ground behind the put-down panels is then closed off
by a falling flight of stairs, and the next panel starts either in an inner corner of the stairs or against a block.
A panel that ribs have to hold can also rest where its far edge just covers a rib: further front, the rib would be bare.
That is the corner-point scheme of Martello, Pisinger and Vigo, "The three-dimensional bin packing problem",
Operations Research 48 (2000), section 3, with blocks and ribs added.
The search goes through these states depth first. A state is dropped when the ground beyond its stairs cannot hold
enough panels to beat the best layout, or when the same panels were left over before with no less ground.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from typing import NamedTuple

from engine.physics.packing_ground import Ground, Shape, last_holds
from engine.physics.packing_limits import Limits, Stairs

_FAR = 10**12
_KEPT = 24  # states remembered per set of panels left, for the test "no less ground"


class Spot(NamedTuple):
    """A shape put down with its front left corner at (x, y), in steps."""

    shape: Shape
    x: int
    y: int


Trail = tuple[Spot, "Trail | None"]


class _State(NamedTuple):
    stairs: Stairs
    left: tuple[int, ...]
    value: int
    trail: Trail | None
    beaten: int
    """Best value when this state was last found worth a look."""


class Search:
    """One search from one corner of the roof.

    `values` is the power of each kind in whole units and `wanted` how many are wanted. `best` is the value of the
    layout to beat; after `run`, `spots` holds a better one or None. `limit` is an upper limit of the value.
    """

    def __init__(
        self, ground: Ground, shapes: Sequence[Shape], values: Sequence[int], wanted: Sequence[int], best: int = 0
    ):
        self.best = best
        self.spots: list[Spot] | None = None
        self.looked_at = 0
        self._ground = ground
        self._shapes = shapes
        self._values = values
        self._wanted = tuple(wanted)
        self._total = sum(v * n for v, n in zip(values, wanted, strict=True))
        self._limits = Limits(ground, shapes, values, wanted)
        self._fits: dict[tuple[int, int, int], bool] = {}
        self._find_rests()
        self._same_size_first = [
            [j for j in range(k) if self._size(j) == self._size(k) and self._held(j) <= self._held(k)]
            for k in range(len(values))
        ]  # kinds come strongest first: of equal sizes the stronger is used up before the weaker
        self.limit = self._limits.most(self._wanted, self._limits.room(((0, 0),)))
        self._seen: set[tuple[Stairs, tuple[int, ...]]] = set()
        self._kept: dict[tuple[int, ...], list[Stairs]] = {}
        self._stack = [_State(((0, 0),), self._wanted, 0, None, -1)]

    def _size(self, kind: int) -> set[tuple[int, int]]:
        return {(s.along, s.across) for s in self._shapes if s.kind == kind}

    def _held(self, kind: int) -> bool:
        return any(s.held for s in self._shapes if s.kind == kind)

    def _find_rests(self) -> None:
        """Where each shape can rest against blocks: coordinate and the range in which the block is in the way."""
        g = self._ground
        self._against: list[list[tuple[int, int, int]]] = []  # x of a block's rear edge, y between
        self._upon: list[list[tuple[int, int, int]]] = []  # y of a block's right edge, x between
        self._nooks: list[list[tuple[int, int]]] = []  # resting against two blocks
        for i, s in enumerate(self._shapes):
            w, h = s.along - g.gap, s.across - g.gap
            on_x = {(x1, y0 - h, y1) for _, x1, y0, y1 in g.blocks if 0 < x1 <= g.along - s.along}
            on_y = {(y1, x0 - w, x1) for x0, x1, _, y1 in g.blocks if 0 < y1 <= g.across - s.across}
            if s.held:
                on_x |= {(x, -_FAR, _FAR) for x in last_holds(g.ribs, w) if 0 < x <= g.along - s.along}
                on_y |= {(y, -_FAR, _FAR) for y in last_holds(g.rails, h) if 0 < y <= g.across - s.across}
            against, upon = sorted(on_x), sorted(on_y)
            nooks = {
                (x, y)
                for x, y0, y1 in against
                for y, x0, x1 in upon
                if y0 < y < y1 and x0 < x < x1 and self._fit(i, x, y)
            }
            self._against.append(against)
            self._upon.append(upon)
            self._nooks.append(sorted(nooks))

    def _fit(self, i: int, x: int, y: int) -> bool:
        found = self._fits.get((i, x, y))
        if found is None:
            found = self._fits[i, x, y] = self._clear(self._shapes[i], x, y)
        return found

    def _clear(self, s: Shape, x: int, y: int) -> bool:
        g = self._ground
        right, top = x + s.along - g.gap, y + s.across - g.gap
        if x + s.along > g.along or y + s.across > g.across:
            return False
        for x0, x1, y0, y1 in g.blocks:
            if x0 < right and x < x1 and y0 < top and y < y1:
                return False
        return not s.held or g.holds(s, x, y)

    def _starts(self, stairs: Stairs, left: tuple[int, ...]) -> tuple[Stairs, list[tuple[int, int, int]]]:
        """Shapes and corners the next panel can take; stairs whose tread takes no panel are closed off."""
        end, side = self._ground.along, self._ground.across
        fit = self._fit
        usable = [
            i
            for i, s in enumerate(self._shapes)
            if left[s.kind] and not any(left[j] for j in self._same_size_first[s.kind])
        ]
        found: list[tuple[int, int, int]] = []
        closed: list[tuple[int, int]] = []
        before = reach = end
        last = len(stairs) - 1
        for step, (y, x) in enumerate(stairs):
            top = stairs[step + 1][0] if step < last else side
            had = len(found)
            for i in usable:
                if fit(i, x, y):
                    found.append((i, x, y))
                upon, against = self._upon[i], self._against[i]
                for at, lo, hi in upon[bisect_right(upon, (y, _FAR, 0)) : bisect_left(upon, (top, -_FAR, 0))]:
                    if lo < x < hi and fit(i, x, at):
                        found.append((i, x, at))
                for at, lo, hi in against[
                    bisect_right(against, (x, _FAR, 0)) : bisect_left(against, (before, -_FAR, 0))
                ]:
                    if lo < y < hi and fit(i, at, y):
                        found.append((i, at, y))
            taken = len(found) > had
            for i in usable:
                for at, up in self._nooks[i]:
                    if x < at and y <= up < top:
                        found.append((i, at, up))
                        taken = taken or at < reach
            before = x
            if taken:
                reach = x
            if not closed or closed[-1][1] != reach:
                closed.append((y, reach))
        return tuple(closed), found

    def _step_up(self, stairs: Stairs, right: int, top: int) -> Stairs:
        """Stairs after a panel whose far corner is at (right, top)."""
        out: list[tuple[int, int]] = []
        i, n = 0, len(stairs)
        while i < n and stairs[i][1] >= right:
            out.append(stairs[i])
            i += 1
        if i < n and stairs[i][0] < top:
            if not out or out[-1][1] != right:
                out.append((stairs[i][0], right))
            beyond = right
            while i < n and stairs[i][0] < top:
                beyond = stairs[i][1]
                i += 1
            if top < self._ground.across and (i == n or stairs[i][0] > top):
                out.append((top, beyond))
        out.extend(stairs[i:])
        return tuple(out)

    def run(self, effort: int) -> bool:
        """Look at `effort` more states at most; True if the best value is now proven to be the greatest.

        A later call goes on where this one stopped; `best` may be raised in between.
        """
        stack = self._stack
        until = self.looked_at + effort
        while stack:
            if self.best >= self.limit:
                return True
            state = stack.pop()
            if state.beaten < self.best and self._spare(state.stairs, state.left, state.value) is None:
                continue
            if self.looked_at >= until:
                stack.append(state)
                self._limit_from(stack)
                return self.best >= self.limit
            if _no_more_ground(state.stairs, self._kept.setdefault(state.left, []), self._ground.across):
                continue
            self.looked_at += 1
            stack.extend(self._followers(state))
        self.limit = self.best
        return True

    def _spare(self, stairs: Stairs, left: tuple[int, ...], value: int) -> int | None:
        """What is left over if the best layout is to be beaten from here; None if it cannot be."""
        need = self._limits.need(left, max(0, self.best + 1 - value))
        if need is None:
            return None
        room = self._limits.room(stairs)
        for r, n in zip(room, need, strict=True):
            if r < n:
                return None
        # Most promising is what comes nearest to the upper limit: ground left less the least ground that takes.
        wish = self._limits.need(left, self.limit - value) or self._limits.need_all(left)
        return min(room[i] - wish[i] for i in self._limits.areas)

    def _followers(self, state: _State) -> list[_State]:
        """The states after one more panel, the most promising last."""
        stairs, found = self._starts(state.stairs, state.left)
        if not found:
            return []
        # Not looked up among the states seen: one waiting there may yet be dropped for having no more ground than this.
        if stairs != state.stairs and self._spare(stairs, state.left, state.value) is None:
            return []
        seen = self._seen
        ranked: list[tuple[int, int, int, int, _State]] = []
        for i, x, y in found:
            s = self._shapes[i]
            left = (*state.left[: s.kind], state.left[s.kind] - 1, *state.left[s.kind + 1 :])
            value = state.value + self._values[s.kind]
            trail = (Spot(s, x, y), state.trail)
            if value > self.best:
                self.best = value
                self.spots = _unroll(trail)
            after = self._step_up(stairs, x + s.along, y + s.across)
            if (after, left) in seen:
                continue
            spare = self._spare(after, left, value)
            if spare is not None:
                seen.add((after, left))
                ranked.append((spare, -x, -y, -i, _State(after, left, value, trail, self.best)))
        ranked.sort(key=lambda r: r[:4])
        return [r[4] for r in ranked]

    def _limit_from(self, stack: list[_State]) -> None:
        """Tighten the upper limit to what the states not yet looked at could reach."""
        limits = self._limits
        most = self.best
        for state in stack:
            need = limits.need(state.left, most + 1 - state.value)
            if need is None:
                continue
            room = limits.room(state.stairs)
            if all(r >= n for r, n in zip(room, need, strict=True)):
                most = state.value + limits.most(state.left, room)
        self.limit = min(self.limit, most)


def _unroll(trail: Trail | None) -> list[Spot]:
    spots = []
    while trail:
        spot, trail = trail
        spots.append(spot)
    return spots[::-1]


def _no_more_ground(stairs: Stairs, kept: list[Stairs], side: int) -> bool:
    """Whether a state kept earlier had at least this ground; if not, this one is kept."""
    for at, old in enumerate(kept):
        if _within(old, stairs, side):
            if at:
                kept.insert(0, kept.pop(at))
            return True
    kept.insert(0, stairs)
    del kept[_KEPT:]
    return False


def _within(inner: Stairs, outer: Stairs, side: int) -> bool:
    """Whether the ground closed off by `inner` lies within that closed off by `outer`."""
    j, last = 0, len(outer) - 1
    for i, (_, x) in enumerate(inner, 1):
        top = inner[i][0] if i < len(inner) else side
        while j < last and outer[j + 1][0] < top:
            j += 1
        if outer[j][1] < x:
            return False
    return True
