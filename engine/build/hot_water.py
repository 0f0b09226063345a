"""Hot water of the chosen heaters: minutes of shower, time to heat and what a filling takes from the battery."""

from functools import lru_cache
from typing import NamedTuple

from engine.build.model import Build, Part
from engine.build.power import PowerFigures
from engine.build.standstill import boiler_stands_still, without_source
from engine.build.water import COLD_DEGC, WaterFigures
from engine.catalogue.facets import AcLoad, WaterHeater, WaterOutlet
from engine.physics.hot_water import (
    SKIN_DEGC,
    heat_up_h,
    heat_up_wh,
    instant_flow_l_min,
    recovery_l_h,
    shower_minutes,
    stands_degc,
)

LONG_MINUTES = 60.0
"""Told no longer than this: by then the tank is empty."""


STANDING_W_K, STANDING_L = 1.5, 20.0
"""What a store of so many litres loses for each kelvin, others by their surface (assumption; common practice)."""

ROOM_DEGC = 18.0
"""Round a store by night (assumption)."""

NIGHT_H = 12.0
"""From the end of a drive to the shower next morning (assumption)."""


class Warm(NamedTuple):
    """One way of warming a shower."""

    low_minutes: float
    high_minutes: float
    """Of a hot store; 0 without one."""
    flow_l_min: float
    """Warmed as it flows, without a store; else 0."""
    next_h: float
    """Until another such shower is warm, the heater on."""
    morning_degc: float
    """Of a hot store the morning after."""
    morning_low_minutes: float
    morning_high_minutes: float


class Store(NamedTuple):
    """A water heater with a store, hot when the shower begins, without a hook-up."""

    option_id: str
    name: str
    energy: str
    volume_l: float
    hot_degc: float
    low_minutes: float
    high_minutes: float
    """Of warm shower, between a store that mixes fully and one that does not mix."""
    heat_w: float
    """Put in while it is drawn from; 0 when that comes from the running engine."""
    heat_up_h: float


class Instant(NamedTuple):
    """A water heater without a store."""

    option_id: str
    name: str
    warm_l_min: float
    """Flow it warms for a shower."""


class BatteryHeat(NamedTuple):
    """A filling heated from the house battery."""

    option_id: str
    name: str
    battery_wh: float
    heat_up_h: float


class HotWaterFigures(NamedTuple):
    """Hot water away from a hook-up."""

    stores: tuple[Store, ...]
    instants: tuple[Instant, ...]
    from_battery: tuple[BatteryHeat, ...]
    hookup_only: tuple[str, ...]
    """Names of heaters that need a hook-up."""
    lifeless: tuple[str, ...]
    """Names of heaters that need a house battery, where there is none."""
    undriven: tuple[str, ...]
    """Names of heaters on the engine, which the trip's driving does not get warm enough for a shower."""
    sourceless: tuple[tuple[str, str], ...]
    """Names of heaters that are branches of others, with those, none of which is chosen."""
    shower_ids: tuple[str, ...]
    """Options with a shower inside."""


@lru_cache(maxsize=512)
def _minutes(volume_l: float, hot_degc: float, flow_l_min: float, heat_w: float) -> tuple[float, float]:
    found = shower_minutes(volume_l, hot_degc, COLD_DEGC, flow_l_min, heat_w)
    return min(LONG_MINUTES, found.low_minutes), min(LONG_MINUTES, found.high_minutes)


@lru_cache(maxsize=512)
def warm_shower(f: WaterHeater, flow_l_min: float, wanted_minutes: float) -> Warm:
    """What one heater gives at a shower of this flow; the engine's heat only while it drives."""
    heat_w = min(5e4, f.heat_w)
    next_h = flow_l_min * wanted_minutes / recovery_l_h(heat_w, SKIN_DEGC - COLD_DEGC)
    if not f.volume_l:
        return Warm(0.0, 0.0, instant_flow_l_min(heat_w, COLD_DEGC), 0.0, COLD_DEGC, 0.0, 0.0)
    during_w = 0.0 if f.energy == "engine" else heat_w
    low, high = _minutes(f.volume_l, f.hot_degc, flow_l_min, during_w)
    loss_w_k = STANDING_W_K * (f.volume_l / STANDING_L) ** (2 / 3)
    if f.standing_heat_w is not None:
        loss_w_k = f.standing_heat_w / (f.hot_degc - 20)
    morning = stands_degc(f.volume_l, f.hot_degc, min(50.0, loss_w_k), ROOM_DEGC, NIGHT_H)
    return Warm(low, high, 0.0, next_h, morning, *_minutes(f.volume_l, morning, flow_l_min, 0.0))


def _on_hookup_only(build: Build, part: Part, heater: WaterHeater, power: PowerFigures) -> bool:
    """Mains heat without an inverter that may feed it, or without a battery behind that."""
    if heater.energy != "mains":
        return False
    return (
        power.inverter is None
        or not power.bank.groups
        or any(p is part and f.shore_only for p, f in build.facets(AcLoad))
    )


def _hot_degc(build: Build, f: WaterHeater, volume_l: float) -> float:
    """How hot a store gets: on the engine no hotter than a day's driving warms it from cold."""
    if f.energy != "engine":
        return f.hot_degc
    if not volume_l:
        return f.hot_degc if build.trip.driving_h else COLD_DEGC
    warmed_wh = f.heat_w * build.trip.driving_h
    return COLD_DEGC + (f.hot_degc - COLD_DEGC) * min(1.0, warmed_wh / heat_up_wh(f.volume_l, COLD_DEGC, f.hot_degc))


def hot_water_figures(build: Build, water: WaterFigures, power: PowerFigures) -> HotWaterFigures:
    """What the chosen heaters give at the shower that takes most."""
    showers = [(p, f) for p, f in build.facets(WaterOutlet) if f.use == "shower"]
    flow = water.shower_flow_l_min
    stores: list[Store] = []
    instants: list[Instant] = []
    drawn: list[BatteryHeat] = []
    hookup: list[str] = []
    lifeless: list[str] = []
    undriven: list[str] = []
    sourceless: list[tuple[str, str]] = []
    for part, f in build.facets(WaterHeater):
        name, heat_w, volume_l = part.option.name, f.heat_w * part.count, f.volume_l * part.count
        if _on_hookup_only(build, part, f, power):
            hookup.append(name)
            continue
        if source := without_source(build, part):
            sourceless.append((name, source))
            continue
        hot_degc = _hot_degc(build, f, volume_l)
        if hot_degc <= SKIN_DEGC:
            undriven.append(name)
            continue
        if boiler_stands_still(build, part, f):
            lifeless.append(name)
            continue
        if not volume_l:
            instants.append(Instant(part.option.id, name, instant_flow_l_min(min(5e4, heat_w), COLD_DEGC)))
            continue
        during_w = 0.0 if f.energy == "engine" else min(5e4, heat_w)
        low, high = _minutes(min(500.0, volume_l), hot_degc, flow, during_w)
        wh = heat_up_wh(min(1000.0, volume_l), COLD_DEGC, f.hot_degc)
        hours = heat_up_h(min(1000.0, volume_l), COLD_DEGC, f.hot_degc, min(5e4, heat_w))
        assert hours is not None  # without loss it always gets hot
        stores.append(Store(part.option.id, name, f.energy, volume_l, hot_degc, low, high, during_w, hours))
        if f.energy in ("battery", "mains"):
            through = power.efficiency_frac if f.energy == "mains" else 1.0
            drawn.append(BatteryHeat(part.option.id, name, wh / f.efficiency_frac / through, hours))
    return HotWaterFigures(
        tuple(stores),
        tuple(instants),
        tuple(drawn),
        tuple(hookup),
        tuple(lifeless),
        tuple(undriven),
        tuple(sourceless),
        tuple(dict.fromkeys(p.option.id for p, _ in showers)),
    )
