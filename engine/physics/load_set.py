"""Which loads can run together at the worst moment, found exactly.

Loads of one group exclude each other (a heater and an air conditioner, two rings of one switch). A person switches on
only so many loads at a time; the rest run by themselves. Loads that share no group are independent, so each knot of
loads tied by groups is searched by itself, for each number of loads switched on by hand, and the knots are put together
by dynamic programming. Only loads tied in many overlapping groups make the search long.
"""

from collections.abc import Callable
from functools import lru_cache
from typing import NamedTuple

from engine.physics.ranges import within


class Load(NamedTuple):
    """One load that can run."""

    name: str
    running_w: float
    power_factor_frac: float = 1.0
    start_multiple: float = 1.0
    """Apparent power of its start over that of its run."""
    not_together: frozenset[str] = frozenset()
    """Groups of which only one load runs at a time."""
    by_hand: bool = False
    """Somebody switches it on; else it may run at any time."""

    @property
    def running_va(self) -> float:
        """Apparent power while it runs."""
        return self.running_w / self.power_factor_frac

    @property
    def start_va(self) -> float:
        """Apparent power while it starts."""
        return self.running_va * self.start_multiple


class Worst(NamedTuple):
    """The worst moments of a set of loads. Apparent powers are added as they are, which never understates their sum."""

    running: tuple[Load, ...]
    """Loads that together take most power."""
    running_w: float
    apparent: tuple[Load, ...]
    """Loads that together take most apparent power."""
    running_va: float
    start: Load | None
    """The load whose start, with others running, takes most; None when no start takes more than running."""
    beside: tuple[Load, ...]
    """What runs beside that start."""
    start_va: float


@lru_cache(maxsize=512)
def worst(loads: tuple[Load, ...], by_hand_most: int | None = None) -> Worst:
    """The largest power, apparent power and start that loads can ask for at once.

    by_hand_most: how many loads somebody switches on at a time, 0 to 100; no limit when None. Each load: 0 to 1e7 W, a
    power factor of 0.3 to 1, a start of at least its run.

    Source: exact search.

    >>> kitchen = frozenset({"kitchen ring"})
    >>> found = worst((Load("Hob", 1400, not_together=kitchen), Load("Kettle", 1800, not_together=kitchen),
    ...                Load("Pump", 300, 0.8, 4.0)))
    >>> [x.name for x in found.running], found.running_w, found.start.name, found.start_va
    (['Kettle', 'Pump'], 2100.0, 'Pump', 3300.0)
    """
    if by_hand_most is not None:
        within("by_hand_most", by_hand_most, 0, 100)
    for load in loads:
        within("running_w", load.running_w, 0, 1e7)
        within("power_factor_frac", load.power_factor_frac, 0.3, 1)
        within("start_multiple", load.start_multiple, 1, 1e9)
    running_w, running = _most(loads, by_hand_most, lambda x: x.running_w)
    running_va, apparent = _most(loads, by_hand_most, lambda x: x.running_va)
    start, beside, start_va = None, apparent, running_va
    for load in sorted({x for x in loads if x.start_multiple > 1}, key=lambda x: (-x.start_va, x.name)):
        if running_va + load.start_va <= start_va:
            break  # Even with all that could run at most, this start and smaller ones are no worse.
        with_va, with_it = _beside(loads, load, apparent, by_hand_most)
        if with_va is not None and with_va + load.start_va > start_va * (1 + 1e-12):
            start, beside, start_va = load, with_it, with_va + load.start_va
    return Worst(running, running_w, apparent, running_va, start, beside, start_va)


def _beside(
    loads: tuple[Load, ...], start: Load, apparent: tuple[Load, ...], by_hand_most: int | None
) -> tuple[float | None, tuple[Load, ...]]:
    """What runs at most beside a start; None when that load never runs."""
    if start.by_hand and by_hand_most == 0:
        return None, ()
    if start in apparent:
        at = apparent.index(start)
        rest = apparent[:at] + apparent[at + 1 :]
        return sum(x.running_va for x in rest), rest
    at = loads.index(start)
    others = tuple(x for i, x in enumerate(loads) if i != at and not x.not_together & start.not_together)
    left = None if by_hand_most is None else by_hand_most - start.by_hand
    return _most(others, left, lambda x: x.running_va)


_Best = dict[int, tuple[float, tuple[int, ...]]]
"""For each number of loads switched on by hand: most value, and the loads that make it."""


def _most(
    loads: tuple[Load, ...], by_hand_most: int | None, value: Callable[[Load], float]
) -> tuple[float, tuple[Load, ...]]:
    """The most valuable loads that can run together, and their value; in their order."""
    limit = None if by_hand_most is None else int(by_hand_most)
    kept: dict[tuple[frozenset[str], bool], int] = {}
    steady: list[int] = []
    by_hand: list[int] = []
    for i, load in enumerate(loads):
        key = (load.not_together, load.by_hand)
        if not load.not_together:
            (by_hand if load.by_hand and limit is not None else steady).append(i)
        # Loads that exclude each other and exclude the same others: only the most valuable can matter.
        elif key not in kept or value(load) > value(loads[kept[key]]):
            kept[key] = i
    by_hand.sort(key=lambda i: -value(loads[i]))
    free: _Best = {0: (sum((value(loads[i]) for i in steady), 0.0), tuple(steady))}
    for n, i in enumerate(by_hand[:limit], start=1):
        worth, chosen = free[n - 1]
        free[n] = (worth + value(loads[i]), (*chosen, i))
    best = _joined(free, _best(loads, list(kept.values()), limit, value), limit)
    worth, chosen = max(best.values(), key=lambda x: x[0])
    return worth, tuple(loads[i] for i in sorted(chosen))


def _best(loads: tuple[Load, ...], among: list[int], limit: int | None, value: Callable[[Load], float]) -> _Best:
    best: _Best = {0: (0.0, ())}
    for knot in _knots(loads, among):
        best = _joined(best, _knot_best(loads, knot, limit, value), limit)
    return best


def _knot_best(loads: tuple[Load, ...], knot: list[int], limit: int | None, value: Callable[[Load], float]) -> _Best:
    """Either the load that excludes most others runs, or it does not; without it the rest often falls apart."""

    def excluded(i: int) -> list[int]:
        return [j for j in knot if j != i and loads[j].not_together & loads[i].not_together]

    pivot = max(knot, key=lambda i: len(excluded(i)))
    gone = {pivot, *excluded(pivot)}
    # Without a limit nobody counts what is switched on by hand.
    counts = int(limit is not None and loads[pivot].by_hand)
    alone: _Best = {counts: (value(loads[pivot]), (pivot,))}
    best = _joined(alone, _best(loads, [j for j in knot if j not in gone], limit, value), limit)
    for used, found in _best(loads, [j for j in knot if j != pivot], limit, value).items():
        if used not in best or found[0] > best[used][0]:
            best[used] = found
    return best


def _joined(one: _Best, other: _Best, limit: int | None) -> _Best:
    joined: _Best = {}
    for used, (worth, chosen) in one.items():
        for more, (extra, also) in other.items():
            n = used + more
            if (limit is None or n <= limit) and (n not in joined or worth + extra > joined[n][0]):
                joined[n] = (worth + extra, chosen + also)
    return joined


def _knots(loads: tuple[Load, ...], among: list[int]) -> list[list[int]]:
    """Loads tied together by groups, directly or through others."""
    knots: list[tuple[set[str], list[int]]] = []
    for i in among:
        tied = [k for k in knots if k[0] & loads[i].not_together]
        groups, members = set(loads[i].not_together), [i]
        for knot in tied:
            groups |= knot[0]
            members += knot[1]
            knots.remove(knot)
        knots.append((groups, members))
    return [sorted(members) for _, members in knots]
