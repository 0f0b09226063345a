"""Which loads run together, and how large the largest start is."""

from functools import lru_cache
from typing import NamedTuple

from engine.build.converting import Converting
from engine.build.loads import Load
from engine.physics import load_set

BY_HAND_MOST = 2
"""How many things people switch on at once; a single traveller one (assumption)."""


LONG_START_S = 60.0
"""A start that lasts longer counts as if it went on, for fuses and converters (assumption)."""


class Start(NamedTuple):
    """A load that starts while others run."""

    load: Load
    start_va: float
    """While it starts, with the others: VA at mains voltage, W at the battery."""


class Demand(NamedTuple):
    """What the inverter and the battery must give at once."""

    together: tuple[Load, ...]
    """Loads behind the inverter that plausibly run at the same time, largest first; a piece for each that runs."""
    ac_w: float
    ac_va: float
    starts: tuple[Start, ...]
    """What asks most of the inverter while it starts, largest first: of all starts, and of those that last longer."""
    dc_together: tuple[Load, ...]
    """Loads at battery voltage that plausibly run at the same time, largest first, with what they take there."""
    dc_w: float
    """Their power at the battery, with what converters lose."""
    dc_starts: tuple[Start, ...]
    """The same of loads straight on the battery; a converter lets none through."""
    converted_w: float
    """Power of loads that plausibly run together behind converters, at the converters' output; the largest start that
    lasts for minutes on top."""

    @property
    def start(self) -> Load | None:
        """What asks most of the inverter while it starts."""
        return self.starts[0].load if self.starts else None

    @property
    def start_va(self) -> float:
        """What it asks then; what runs together where nothing starts with more."""
        return self.starts[0].start_va if self.starts else self.ac_va


class _Found(NamedTuple):
    running: tuple[Load, ...]
    running_w: float
    running_va: float
    start: Load | None
    start_va: float


@lru_cache(maxsize=512)
def worst_together(loads: tuple[Load, ...], people: int) -> _Found:
    """The worst ordinary moment: everything that runs by itself, and of what somebody switches on the worst two.

    Of loads under one interlock only one; the search is exact. A single traveller switches on one thing at a time.
    """
    pieces = tuple(
        load_set.Load(
            name=f"{i:03}",
            running_w=x.power_w,
            power_factor_frac=min(1.0, x.power_w / x.apparent_va),
            start_multiple=x.start_multiple,
            not_together=x.groups,
            by_hand=x.by_hand,
        )
        for i, x in enumerate(loads)
        for _ in range(x.pieces_count)
    )
    found = load_set.worst(pieces, min(BY_HAND_MOST, people))
    running = sorted((loads[int(x.name)] for x in found.running), key=lambda x: (-x.power_w, x.option_id))
    start = None if found.start is None else loads[int(found.start.name)]
    return _Found(tuple(running), found.running_w, found.running_va, start, found.start_va)


def _starts(loads: tuple[Load, ...], people: int) -> tuple[Start, ...]:
    """The largest start, and the largest of those that last as long as any does: what gives for long gives less."""
    found = []
    for lasts_s in sorted({x.start_s for x in loads if x.start_va > x.apparent_va}):
        as_long = tuple(x if x.start_s >= lasts_s else x._replace(start_va=x.apparent_va) for x in loads)
        worst = worst_together(as_long, people)
        if worst.start is not None:
            found.append(Start(worst.start, worst.start_va))
    return tuple(dict.fromkeys(found))


def demand(loads: tuple[Load, ...], people: int, converting: Converting) -> Demand:
    """The worst plausible combination of loads away from a hook-up."""
    active = [x for x in loads if x.in_season and not x.shore_only]
    mains = tuple(x for x in active if x.mains)
    ac = worst_together(mains, people)
    # At the battery a load behind a converter takes more.
    dc = tuple(
        x._replace(power_w=w, apparent_va=w, start_va=w if converting.behind(x) else w * x.start_multiple)
        for x in active
        if not x.mains and (w := converting.battery_w(x, x.power_w))
    )
    direct = worst_together(dc, people)
    behind = tuple(x for x in active if not x.mains and converting.behind(x))
    lighting = max((x.start_va - x.apparent_va for x in behind if x.start_s >= LONG_START_S), default=0.0)
    converted = worst_together(tuple(x._replace(start_va=x.apparent_va) for x in behind), people)
    return Demand(
        together=ac.running,
        ac_w=ac.running_w,
        ac_va=ac.running_va,
        starts=_starts(mains, people),
        dc_together=direct.running,
        dc_w=direct.running_w + converting.idle_w,
        dc_starts=tuple(x._replace(start_va=x.start_va + converting.idle_w) for x in _starts(dc, people)),
        converted_w=converted.running_w + lighting,
    )
