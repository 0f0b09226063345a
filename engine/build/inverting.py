"""The inverters of a build: what they give in the heat and for the moment of a start, and what keeps them awake."""

from functools import lru_cache
from typing import NamedTuple

from engine.build.demand import Start
from engine.build.habits import hottest_degc
from engine.build.loads import Load
from engine.build.model import Build
from engine.catalogue.facets import Inverter
from engine.physics.curve import Curve
from engine.physics.inverter import HEAT_CURVE, continuous_w, surge_va

HOT_SHEET_DEGC = 40.0
"""Air temperature of a hot rating on a datasheet (common practice)."""


class InverterFigures(NamedTuple):
    """All inverters together; the first one's voltages and losses."""

    ids: tuple[str, ...]
    output_v: float
    legs: int
    rated_w: float
    continuous_w: float
    """On the hottest hour of the trip, where its sheet has a hot rating; else its rating."""
    ambient_degc: float
    start: Start | None
    """The one that asks most of what they give for so long."""
    surge_va: float
    """What they give for the time that it lasts."""
    efficiency_frac: float
    idle_w: float
    cutoff_v: float | None
    awake_h: float
    """Hours a day that it is on."""
    awake_for: str
    """The load that keeps it awake day and night; empty when none does."""
    idle_wh_d: float


@lru_cache(maxsize=256)
def _hot_w(rated_w: float, hot_w: float | None, ambient_degc: float) -> float:
    if hot_w is None:
        return rated_w
    share = min(1.0, hot_w / rated_w)
    usual = dict(HEAT_CURVE)
    beyond = usual[65.0] / usual[40.0]
    return continuous_w(
        rated_w,
        ambient_degc,
        heat_curve=Curve(((-70.0, 1.0), (25.0, 1.0), (HOT_SHEET_DEGC, share), (65.0, share * beyond))),
    )


def _surge_va(build: Build, start_s: float) -> float:
    """What the inverters give together for a start that lasts so long."""
    return sum(
        surge_va(
            f.continuous_w,
            Curve(((f.surge_s, f.surge_va), *((s.lasts_s, s.gives_va) for s in f.surges))),
            start_s,
        )
        * p.count
        for p, f in build.facets(Inverter)
    )


def inverting(build: Build, loads: tuple[Load, ...], starts: tuple[Start, ...]) -> InverterFigures | None:
    """The inverters on this trip, with these starts; None without one."""
    found = build.facets(Inverter)
    if not found:
        return None
    first = found[0][1]
    ambient = hottest_degc(build)
    behind = [x for x in loads if x.mains and not x.shore_only and x.hours_d > 0]
    waking = max((x for x in behind if x.wakes), key=lambda x: x.daily_wh, default=None)
    whole_day = waking is not None or not first.switched
    awake_h = 24.0 if whole_day else min(24.0, sum(x.hours_d for x in behind))
    start = max(starts, key=lambda x: x.start_va / _surge_va(build, x.load.start_s), default=None)
    return InverterFigures(
        ids=tuple(p.option.id for p, _ in found),
        output_v=first.output_v,
        legs=first.legs,
        rated_w=sum(f.continuous_w * p.count for p, f in found),
        continuous_w=sum(_hot_w(f.continuous_w, f.hot_continuous_w, ambient) * p.count for p, f in found),
        ambient_degc=ambient,
        start=start,
        surge_va=_surge_va(build, start.load.start_s if start else 0.0),
        efficiency_frac=first.efficiency_frac,
        idle_w=first.idle_w,
        cutoff_v=first.cutoff_v,
        awake_h=awake_h,
        awake_for=waking.name if waking else "",
        idle_wh_d=first.idle_w * awake_h,
    )
