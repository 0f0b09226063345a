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


class Demand(NamedTuple):
    """What the inverter and the battery must give at once."""

    together: tuple[Load, ...]
    """Loads behind the inverter that plausibly run at the same time, largest first; a piece for each that runs."""
    ac_w: float
    ac_va: float
    start: Load | None
    """What asks most of the inverter while it starts, others running."""
    start_va: float
    dc_w: float
    """Power of loads at battery voltage, at the battery, with what converters lose."""
    converted_w: float
    """Power of loads that plausibly run together behind converters, at the converters' output; the largest start that
    lasts for minutes on top."""


NO_DEMAND = Demand((), 0.0, 0.0, None, 0.0, 0.0, 0.0)


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
            start_multiple=min(10.0, x.start_multiple),
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


def demand(loads: tuple[Load, ...], people: int, converting: Converting) -> Demand:
    """The worst plausible combination of loads away from a hook-up."""
    active = [x for x in loads if x.in_season and not x.shore_only]
    ac = worst_together(tuple(x for x in active if x.mains), people)
    # At the battery a load behind a converter takes more.
    dc = tuple(
        x._replace(power_w=w, apparent_va=w, start_va=w)
        for x in active
        if not x.mains and (w := converting.battery_w(x, x.power_w))
    )
    behind = tuple(x for x in active if not x.mains and converting.behind(x))
    lighting = max((x.start_va - x.apparent_va for x in behind if x.start_s >= LONG_START_S), default=0.0)
    converted = worst_together(tuple(x._replace(start_va=x.apparent_va) for x in behind), people)
    return Demand(
        together=ac.running,
        ac_w=ac.running_w,
        ac_va=ac.running_va,
        start=ac.start,
        start_va=ac.start_va,
        dc_w=worst_together(dc, people).running_w + converting.idle_w,
        converted_w=converted.running_w + lighting,
    )
