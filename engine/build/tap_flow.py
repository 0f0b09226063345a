"""Flow at a shower while another tap is open, behind one pump, one filter and one run of pipe; a pressure vessel's
reserve, and what a filter lasts for."""

from functools import lru_cache
from typing import NamedTuple

from engine.build.model import Build, Part
from engine.build.water import DRINK_COOK_L, PET_L, WaterFigures
from engine.catalogue.facets import PressureVessel, Pump, WaterFilter, WaterOutlet
from engine.physics.pipe_flow import ELBOW, TEE_BRANCH, Pipe, drop_kpa
from engine.physics.taps import PumpCurve, Tap, between_starts_s, drawdown_l, tap_l_min, two_taps

ROUND_M = 1.5
"""Pipe up, down and round corners, over the way along the vehicle (assumption)."""

COMMON_M = 1.0
"""Pipe behind the pump that all taps share at least (assumption)."""

RISE_M = 1.0
"""Height of taps over the pump (assumption)."""

CUT_IN_FRAC = 0.7
"""Pressure at which a pump starts again over that at which it stops, where none is stated (common practice)."""

SPARING_FRAC = 0.5
"""A tap opened half way, as for washing hands (assumption)."""


class TapFigures(NamedTuple):
    """Litres a minute."""

    ids: tuple[str, ...]
    other_name: str
    alone_l_min: float
    both_l_min: float
    """At the shower while the other tap runs too."""


class VesselFigures(NamedTuple):
    """A pressure vessel behind the pump."""

    ids: tuple[str, ...]
    volume_l: float
    precharge_kpa: float
    cut_in_kpa: float
    cut_out_kpa: float
    drawn_l_min: float
    """By the smallest tap while it is half open."""
    pump_l_min: float
    """The pump's flow against the pressure in the vessel."""
    gives_l: float
    """Between two starts of the pump; 0 when its air is too strong."""
    every_s: float
    """So often the pump starts while the smallest tap is half open."""
    tap_name: str


class FilterFigures(NamedTuple):
    """A filter's cartridge on this trip."""

    option_id: str
    name: str
    life_l: float
    through_l_d: float
    rated_l_min: float
    asked_l_min: float
    """Through the tap that it serves; 0 where no tap is stated."""


def _way_m(pump: Part, tap: Part) -> float:
    return abs(pump.x_m - tap.x_m) + abs(pump.y_m - tap.y_m) + ROUND_M


def _filter_count(f: WaterFilter, bore_m: float) -> float:
    """The filter as a loss coefficient in the pipe: its pressure grows with the square of flow (on the safe side
    beyond its rated flow, too little below it)."""
    each = drop_kpa(Pipe(0.0, bore_m, 1.0), f.rated_l_min)
    return min(1e5, f.drop_kpa / each)


def tap_figures(build: Build) -> TapFigures | None:
    """The most sparing shower and the strongest other tap inside; None without both, or without a pump."""
    taps = [(p, f) for p, f in build.facets(WaterOutlet) if f.use != "outdoor-shower"]
    showers = [x for x in taps if x[1].use == "shower"]
    others = [x for x in taps if x[1].use != "shower"]
    pumps = build.facets(Pump)
    if not showers or not others or not pumps:
        return None
    shower = min(showers, key=lambda x: x[1].flow_l_min)
    other = max(others, key=lambda x: x[1].flow_l_min)
    pump, f = max(pumps, key=lambda x: x[1].flow_l_min)
    filters = [w for _, w in build.facets(WaterFilter) if w.serves == "all"]
    through = round(sum(_filter_count(w, f.bore_m) for w in filters), 3)
    ways_m = (round(_way_m(pump, shower[0]), 2), round(_way_m(pump, other[0]), 2))
    alone, both = _two(
        PumpCurve(min(60.0, f.flow_l_min * pump.count), f.pressure_kpa), f.bore_m, through, ways_m,
        (shower[1].flow_l_min, other[1].flow_l_min),
    )  # fmt: skip
    return TapFigures(
        tuple(dict.fromkeys((pump.option.id, shower[0].option.id, other[0].option.id))),
        other[0].option.name, alone, both,
    )  # fmt: skip


@lru_cache(maxsize=256)
def _two(
    curve: PumpCurve, bore_m: float, filter_count: float, ways_m: tuple[float, float], flows: tuple[float, float]
) -> tuple[float, float]:
    """(the first tap alone, the first with the second open)."""
    common = max(COMMON_M, min(ways_m) - 1.0)
    trunk = Pipe(common, bore_m, 4 * ELBOW + filter_count)
    first, second = (
        (Pipe(max(0.5, way - common), bore_m, TEE_BRANCH + 2 * ELBOW), Tap(flow, rise_m=RISE_M))
        for way, flow in zip(ways_m, flows, strict=True)
    )
    return two_taps(curve, trunk, first)[0], two_taps(curve, trunk, first, second)[0]


def vessel_figures(build: Build) -> VesselFigures | None:
    """None without a pump and a vessel behind it."""
    pumps, vessels = build.facets(Pump), build.facets(PressureVessel)
    if not pumps or not vessels:
        return None
    pump, f = max(pumps, key=lambda x: x[1].flow_l_min)
    part, v = vessels[0]
    cut_in = min(f.pressure_kpa, f.cut_in_kpa or CUT_IN_FRAC * f.pressure_kpa)
    gives, volume_l = 0.0, min(200.0, v.volume_l * part.count)
    if v.precharge_kpa <= cut_in:
        gives = drawdown_l(volume_l, v.precharge_kpa, cut_in, f.pressure_kpa)
    name, flow = min(
        ((p.option.name, o.flow_l_min) for p, o in build.facets(WaterOutlet)),
        key=lambda x: x[1], default=("a tap", 3.0),
    )  # fmt: skip
    drawn = SPARING_FRAC * tap_l_min(Tap(flow, rise_m=RISE_M), (cut_in + f.pressure_kpa) / 2)
    filling = max(drawn + 0.1, f.flow_l_min * pump.count / 2)
    every_s = between_starts_s(gives, drawn, filling) if drawn else 0.0
    return VesselFigures(
        (part.option.id, pump.option.id), volume_l, v.precharge_kpa, cut_in, f.pressure_kpa, drawn, filling, gives,
        every_s, name,
    )  # fmt: skip


def filter_figures(build: Build, water: WaterFigures) -> tuple[FilterFigures, ...]:
    """Each filter's cartridge against what runs through it."""
    found = []
    for part, f in build.facets(WaterFilter):
        everything = f.serves == "all"
        drunk = DRINK_COOK_L * build.trip.people + PET_L * build.trip.pets
        inside = (o.flow_l_min for _, o in build.facets(WaterOutlet) if o.use != "outdoor-shower")
        # A tap of its own lets through what its filter does.
        asked = max(inside, default=0.0) if everything else 0.0
        found.append(
            FilterFigures(
                part.option.id, part.option.name, f.life_l * part.count,
                water.use_l_d if everything else drunk, f.rated_l_min * part.count, asked,
            )
        )  # fmt: skip
    return tuple(found)
