"""Which loads run together, and how large the largest motor start is."""

from typing import NamedTuple

from engine.build.habits import COOLING_FROM_DEGC, hottest_degc
from engine.build.model import Build
from engine.catalogue.facets import AcLoad, AirConditioner, DcLoad


class Running(NamedTuple):
    """One load while it runs."""

    option_id: str
    name: str
    power_w: float
    apparent_va: float
    start_multiple: float
    steady: bool
    interlock: str | None


class Demand(NamedTuple):
    """What the inverter and the battery must give at once."""

    together: tuple[Running, ...]
    """Loads behind the inverter that plausibly run at the same time, largest first."""
    ac_w: float
    ac_va: float
    start: Running | None
    """The motor whose start asks most of the inverter, others running."""
    start_va: float
    dc_w: float


def _ac_loads(build: Build) -> list[Running]:
    loads = [
        Running(
            p.option.id, p.option.name, f.power_w, f.power_w / f.power_factor_frac, f.start_multiple,
            f.running != "now-and-then", f.interlock,
        )
        for p, f in build.facets(AcLoad)
        if not f.shore_only
        for _ in range(p.count)
    ]  # fmt: skip
    if build.trip.cooling and hottest_degc(build) > COOLING_FROM_DEGC:
        loads += [
            Running(p.option.id, p.option.name, f.input_w, f.input_w, f.start_multiple, True, None)
            for p, f in build.facets(AirConditioner)
            if f.supply == "mains"
        ]
    return sorted(loads, key=lambda r: (-r.power_w, r.option_id))


def plausible(loads: list[Running], people: int) -> list[Running]:
    """Loads that run together in the worst ordinary moment.

    Everything that runs by itself, and of what somebody switches on the largest two (one for a single traveller).
    Of loads under one interlock only the largest.
    """
    chosen: list[Running] = []
    locked: set[str] = set()
    by_hand = 0
    for load in sorted(loads, key=lambda r: (-r.power_w, r.option_id)):
        if load.interlock and load.interlock in locked:
            continue
        if not load.steady:
            if by_hand >= min(2, people):
                continue
            by_hand += 1
        if load.interlock:
            locked.add(load.interlock)
        chosen.append(load)
    return chosen


def demand(build: Build) -> Demand:
    """The worst plausible combination of loads in this build."""
    together = plausible(_ac_loads(build), build.trip.people)
    va = sum(r.apparent_va for r in together)
    # A start counts only when it lifts the sum; a heater element starts with what it runs at.
    start = max(together, key=lambda r: (r.start_multiple - 1) * r.apparent_va, default=None)
    start_va = va + (start.start_multiple - 1) * start.apparent_va if start else 0.0
    dc = [
        Running(
            p.option.id, p.option.name, f.power_w * p.count, f.power_w * p.count, 1, f.running != "now-and-then", None
        )
        for p, f in build.facets(DcLoad)
    ]
    return Demand(
        together=tuple(together),
        ac_w=sum(r.power_w for r in together),
        ac_va=va,
        start=start if start and start.start_multiple > 1 else None,
        start_va=start_va,
        dc_w=sum(r.power_w for r in plausible(dc, build.trip.people)),
    )
