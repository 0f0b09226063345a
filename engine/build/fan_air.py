"""What roof fans move: a pair, one in and one out, against one fan alone."""

from typing import NamedTuple

from engine.build.model import Build
from engine.build.roof import RoofFigures
from engine.build.warmth import LIVING_FURNITURE_FRAC
from engine.catalogue.facets import Berth, RoofObject, VentFan
from engine.physics.air_change import Fan, fan_m3_h, fan_pair

STALL_KPA = 0.05
"""Pressure at which a 12 V roof fan moves no air any more (common practice: 0.03 to 0.08)."""

LEAKS_M2 = 0.002
"""Free area of all leaks of a body with everything shut (assumption)."""

PARTNER_FRAC = 1 / 3
"""Flow of a second fan over the first's from which they make a pair (assumption)."""

WINDOW_M2 = 0.04
"""Free area of a window held open by a hand's breadth (assumption)."""

NEAR_M = 0.6
"""A bed so far beyond a fan still lies in its air (assumption)."""


class FanFigures(NamedTuple):
    """Air of the two strongest roof fans at full speed."""

    ids: tuple[str, ...]
    fans_count: int
    pair_m3_h: float | None
    """One in, one out, everything shut; None with one fan."""
    alone_m3_h: float
    window_m3_h: float
    """One fan with a window open."""
    room_m3: float
    past_bed: bool
    """A bed lies between both."""


def fan_figures(build: Build, roof: RoofFigures) -> FanFigures | None:
    """None without a fan in the roof."""
    of = {p.option.id: f for p, f in build.facets(VentFan)}
    on_roof = [p for p, f in build.facets(RoofObject) if f.what == "fan" and p.option.id in of]
    flows = sorted((of[p.option.id].flow_m3_h for p in on_roof for _ in range(p.count)), reverse=True)
    if not flows:
        return None
    # A small one over the washroom only draws out, and is no partner for a large one.
    flows = [q for q in flows if q >= PARTNER_FRAC * flows[0]]
    fans = [Fan(min(5000.0, max(1.0, q)), STALL_KPA) for q in flows[:2]]
    cabin = build.vehicle.cabin
    strong = {i for i, f in of.items() if f.flow_m3_h >= flows[-1]}
    at = [
        build.vehicle.roof.front_x_m + o.body.x_m + o.body.length_m / 2 for o in roof.obstacles if o.option_id in strong
    ]
    beds = [p.x_m for p, _ in build.facets(Berth)]
    return FanFigures(
        ids=tuple(dict.fromkeys(p.option.id for p in on_roof)),
        fans_count=len(flows),
        pair_m3_h=fan_pair(fans[1], fans[0], LEAKS_M2).air_m3_h if len(fans) == 2 else None,
        alone_m3_h=fan_m3_h(fans[0], LEAKS_M2),
        window_m3_h=fan_m3_h(fans[0], WINDOW_M2),
        room_m3=cabin.length_m * cabin.width_m * cabin.height_m * LIVING_FURNITURE_FRAC,
        past_bed=len(at) > 1 and any(min(at) - NEAR_M <= x <= max(at) + NEAR_M for x in beds),
    )
