"""What roof fans move, a pair or one alone, and whether a fan draws a fire's burnt gas back into the room."""

from typing import NamedTuple

from engine.build.model import Build
from engine.build.openings import OpeningFigures
from engine.build.roof import RoofFigures
from engine.build.warmth import living_air_m3
from engine.catalogue.facets import Berth, GasAppliance, RoofObject, SpaceHeater, VentFan, WaterHeater
from engine.physics.air_change import Fan, fan_m3_h, fan_pair, opening_m3_h

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


DRAUGHT_KPA, DUCTED_DRAUGHT_KPA = 0.004, 0.008
"""Suction in the room that a flue still stands, of what burns the room's air and of a stove with its own."""


def roof_fan(flow_m3_h: float) -> Fan:
    """A roof fan that moves so much in the open, within what the sums on fans hold for."""
    return Fan(min(5000.0, max(1.0, flow_m3_h)), STALL_KPA)


class Draught(NamedTuple):
    """Fans, each by itself, against the flue that stands least."""

    burner_ids: tuple[str, ...]
    burners: tuple[str, ...]
    fan_ids: tuple[str, ...]
    fans: tuple[str, ...]
    """Each that draws more than the openings let in, strongest first; the strongest at least."""
    ducted: bool
    """All of these take their air from outside."""
    have_m2: float
    """Openings that cannot be shut, with leaks."""
    want_m2: float
    """Openings that keep the suction small enough while the strongest draws."""


def fan_opening_m2(flow_m3_h: float, ducted: bool) -> float:
    """Openings that keep a fan's suction small enough for a flue, or for a stove with air from outside."""
    suction_kpa = DUCTED_DRAUGHT_KPA if ducted else DRAUGHT_KPA
    return flow_m3_h * (1 - suction_kpa / STALL_KPA) / opening_m3_h(1.0, suction_kpa)


def draught_figures(build: Build, openings: OpeningFigures) -> Draught | None:
    """None without a fan, or without a fire that has a chimney or open flue: sealed gas and diesel are tight."""
    fires = [
        (p.option, h.flue == "room-sealed")
        for p, h in build.facets(SpaceHeater)
        if h.fuel == "wood" or (h.burns and h.flue == "open-flued")
    ]
    fires += [(p.option, False) for p, w in build.facets(WaterHeater) if w.burns and w.flue == "open-flued"]
    # What cooks needs no flue at all: somebody stands there.
    fires += [
        (p.option, False) for p, a in build.facets(GasAppliance) if a.flue == "open-flued" and a.habit != "cooking"
    ]
    fans = build.facets(VentFan)
    if not fires or not fans:
        return None
    ducted = all(sealed for _, sealed in fires)
    want = sorted(((fan_opening_m2(f.flow_m3_h, ducted), p.option) for p, f in fans), key=lambda x: (-x[0], x[1].id))
    have_m2 = LEAKS_M2 + openings.high_m2 + openings.low_m2
    draw = [o for m2, o in want if m2 > have_m2] or [want[0][1]]
    return Draught(
        tuple(dict.fromkeys(o.id for o, _ in fires)), tuple(dict.fromkeys(o.name for o, _ in fires)),
        tuple(dict.fromkeys(o.id for o in draw)), tuple(dict.fromkeys(o.name for o in draw)),
        ducted, have_m2, want[0][0],
    )  # fmt: skip


class FanFigures(NamedTuple):
    """Air of the two strongest roof fans at full speed."""

    ids: tuple[str, ...]
    strongest: str
    """Name of the strongest."""
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
    fans = [roof_fan(q) for q in flows[:2]]
    strong = {i for i, f in of.items() if f.flow_m3_h >= flows[-1]}
    at = [
        build.vehicle.roof.front_x_m + o.body.x_m + o.body.length_m / 2 for o in roof.obstacles if o.option_id in strong
    ]
    beds = [p.x_m for p, _ in build.facets(Berth)]
    return FanFigures(
        ids=tuple(dict.fromkeys(p.option.id for p in on_roof)),
        strongest=max(on_roof, key=lambda p: of[p.option.id].flow_m3_h).option.name,
        pair_m3_h=fan_pair(fans[1], fans[0], LEAKS_M2).air_m3_h if len(fans) == 2 else None,
        alone_m3_h=fan_m3_h(fans[0], LEAKS_M2),
        window_m3_h=fan_m3_h(fans[0], WINDOW_M2),
        room_m3=living_air_m3(build),
        past_bed=len(at) > 1 and any(min(at) - NEAR_M <= x <= max(at) + NEAR_M for x in beds),
    )
