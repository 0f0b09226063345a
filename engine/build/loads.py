"""Every electric load of a build: power, voltage, hours of its day, and what warmth makes of them."""

from typing import NamedTuple

from engine.build.cool_day import cooled_day_wh
from engine.build.damp import leaks_too_little
from engine.build.frost import tank_in_cold
from engine.build.gas import hot_water_wh_d
from engine.build.habits import coldest_degc, cools_in, factor, heating_from_degc, month_means
from engine.build.model import Build, Part
from engine.build.room import INDOORS_DEGC
from engine.build.standstill import draw_w, heater_draws_w, running_coolers, without_source
from engine.build.warmth import WarmthFigures, heat_wanted_w
from engine.build.water import WaterFigures
from engine.catalogue.facets import (
    AcLoad,
    AirConditioner,
    Alarm,
    BlackTank,
    DcLoad,
    FreshTank,
    GreyTank,
    Habit,
    OutsidePipe,
    Pump,
    SpaceHeater,
    VentFan,
    WaterHeater,
)

PUMP_H = 0.15
"""Hours a day that a pump runs for each traveller (assumption: some 25 litres at 3 L/min)."""

SOFT_MULTIPLE = 2.5
"""A motor that starts with no more over its running draw starts softly already (common practice)."""

DC_V = 12.0
"""Voltage of direct-current loads behind a converter whose own voltage is not stated (common practice)."""


COMFORT_H = 0.5
"""Hours a day for which a floor or one spot is warmed from the battery beside another heater, where no ``dc-load`` of
the same option says so (assumption)."""

COLDEST_DEGC, STEEPEST_K = -59.0, 0.9
"""No air is colder, and no heater comes on within less than a degree: there the hourly sums end."""


class Load(NamedTuple):
    """One kind of load, all pieces of it; powers are of one piece."""

    option_id: str
    name: str
    pieces_count: int
    mains: bool
    shore_only: bool
    power_w: float
    """Taken while it runs."""
    apparent_va: float
    start_va: float
    """Apparent power while it starts; its running one when a start takes no more."""
    start_s: float
    standby_w: float
    hours_d: float
    """Hours it runs on a day of this trip, in the month asked for."""
    habit: Habit
    by_hand: bool
    """Somebody switches it on; else it may run at any time."""
    wakes: bool
    """It wants the inverter awake day and night."""
    groups: frozenset[str]
    """Interlocks: of each only one load runs at a time."""
    supply_v: float | None
    """Voltage it is made for, where the catalogue states one."""
    highest_v: float | None
    keeps_degc: float | None
    rated_degc: float | None
    rated_hours_d: float
    """Hours a day in a room of ``rated_degc``."""
    in_season: bool
    """It can run on a day of this trip at all."""
    straight: bool = False
    """Made for this very battery, whatever its voltage."""
    heats_degc: tuple[float, float] | None = None
    """Of a heater: outside temperature at which ``rated_hours_d`` holds, and that from which on it rests, in °C."""

    @property
    def start_multiple(self) -> float:
        """Starting draw over running draw."""
        return self.start_va / self.apparent_va

    @property
    def daily_wh(self) -> float:
        """Energy a day at the load itself, standing by included, all pieces."""
        return self.pieces_count * (self.power_w * self.hours_d + self.standby_w * (24 - self.hours_d))


def essential(build: Build, load: Load) -> bool:
    """It keeps a tank or pipe from frost, or people from fire and gas: nobody runs it less."""
    wet = build.ids(FreshTank, GreyTank, BlackTank, OutsidePipe)
    return (load.habit == "heating" and load.option_id in wet) or load.option_id in build.ids(Alarm)


def softer(start: Load | None) -> str:
    """What to do about a start: nobody makes a soft one softer, and a heater's is no motor's."""
    soft = start is None or start.start_multiple <= SOFT_MULTIPLE or start.habit == "heating"
    return "run less at the same time" if soft else "choose a motor with a soft start"


def fridge_room_degc(build: Build, month: int) -> float:
    """Mean temperature round a fridge: the month's, or what the living space is held at when that is more."""
    return max(build.climate.mean_degc[month - 1], least_room_degc(build))


def least_room_degc(build: Build) -> float:
    """The living space never gets colder than this."""
    heated = any(f.role == "main" for _, f in build.facets(SpaceHeater))
    return float(build.trip.inside_degc) if heated else INDOORS_DEGC


def hours_in_room(hours: float, keeps_degc: float, rated_degc: float, room: float) -> float:
    """A compressor's hours a day: heat leaks in by the difference to the room, from none to all day."""
    return min(24.0, max(0.0, hours * (room - keeps_degc) / (rated_degc - keeps_degc)))


def _groups(build: Build, option_id: str, own: str | None) -> frozenset[str]:
    named = {x.name for x in build.workshop.interlocks if option_id in x.options}
    return frozenset(named | ({own} if own else set()))


def _stated(build: Build, part: Part, f: AcLoad | DcLoad, month: int) -> Load:
    mains = isinstance(f, AcLoad)
    va = f.input_w / f.power_factor_frac if isinstance(f, AcLoad) else f.input_w
    usual = min(24.0, f.hours_per_day_h * factor(build, f.habit))
    hours = 0.0 if f.habit == "cooling" and not cools_in(build, month) else usual
    if f.keeps_degc is not None and f.rated_degc is not None:
        hours = hours_in_room(usual, f.keeps_degc, f.rated_degc, fridge_room_degc(build, month))
    start_va = va * f.start_multiple
    if f.start_a is not None:
        start_va = max(va, f.start_a * (f.supply_v or (build.workshop.mains_v if mains else DC_V)))
    return Load(
        part.option.id, part.option.name, part.count, mains, isinstance(f, AcLoad) and f.shore_only,
        f.input_w, va, start_va, f.start_s, f.standby_w, hours, f.habit,
        by_hand=f.running == "now-and-then", wakes=mains and f.running != "now-and-then",
        groups=_groups(build, part.option.id, f.interlock), supply_v=f.supply_v,
        highest_v=f.highest_supply_v if isinstance(f, DcLoad) else None,
        keeps_degc=f.keeps_degc, rated_degc=f.rated_degc, rated_hours_d=usual,
        in_season=f.habit not in ("heating", "cooling") or factor(build, f.habit) > 0,
    )  # fmt: skip


def _plain(
    build: Build, part: Part, power_w: float, hours: float, habit: Habit, *, mains: bool = False,
    by_hand: bool = False, start_multiple: float = 1.0, straight: bool = False,
) -> Load:  # fmt: skip
    return Load(
        part.option.id, part.option.name, part.count, mains, False, power_w, power_w, power_w * start_multiple, 0.5,
        0.0, hours, habit, by_hand=by_hand, wakes=False, groups=_groups(build, part.option.id, None),
        supply_v=None, highest_v=None, keeps_degc=None, rated_degc=None, rated_hours_d=hours,
        in_season=by_hand or hours > 0, straight=straight,
    )  # fmt: skip


def _heater(build: Build, part: Part, f: SpaceHeater, hours: float) -> Load:
    """A heater that draws from the battery."""
    running_w, lighting_w = heater_draws_w(f)
    load = _plain(build, part, running_w, hours, "heating", start_multiple=lighting_w / running_w)
    return load._replace(start_s=f.start_s)


def _by_cold(build: Build, warmth: WarmthFigures, f: SpaceHeater, load: Load) -> Load:
    """A heater's load with the line that its hours follow over the outside temperature: from rest, when what heats
    before it suffices, to all day."""
    first_w, own_w = warmth.turn_w(f)
    rests = build.trip.inside_degc - first_w / warmth.total_w_k
    if own_w <= 0 or rests <= COLDEST_DEGC:
        return load
    share_k = min(STEEPEST_K, warmth.total_w_k / own_w)
    at = max(COLDEST_DEGC, rests - 1 / share_k)
    return load._replace(rated_hours_d=24 * min(1.0, (rests - at) * share_k), heats_degc=(at, rests))


def _heaters(build: Build, warmth: WarmthFigures, month: int, stated: set[str]) -> list[Load]:
    """Heaters that draw from the battery: what burns fuel heats first. stated: options with a load at its voltage."""
    need_w = heat_wanted_w(build, warmth.total_w_k, build.climate.mean_degc[month - 1])
    season = warmth.mean_heat_wh_d > 0
    found = []
    for p, f in build.facets(SpaceHeater):
        if f.fuel == "mains" or not (draw_w(f) or f.fuel == "battery") or without_source(build, p):
            continue
        if warmth.comforts(f):
            if p.option.id not in stated:
                load = _heater(build, p, f, COMFORT_H if need_w else 0.0)
                found.append(load._replace(by_hand=True, in_season=season))
        elif f.role == "spot":
            found.append(_heater(build, p, f, 0.0))
        else:
            load = _heater(build, p, f, 24 * warmth.duty_frac(f, need_w))._replace(in_season=season)
            found.append(_by_cold(build, warmth, f, load) if need_w else load)
    return found


def _frost_heaters(build: Build, mean_degc: float) -> list[tuple[Part, FreshTank | GreyTank | BlackTank, float]]:
    """Tanks outside whose heaters are stated, and what each takes on a day with this mean so that it stays liquid."""
    found: list[tuple[Part, FreshTank | GreyTank | BlackTank, float]] = []
    tanks: list[tuple[Part, FreshTank | GreyTank | BlackTank]] = [
        *build.facets(FreshTank),
        *build.facets(GreyTank),
        *build.facets(BlackTank),
    ]
    for p, f in tanks:
        if f.frost_heater_w is not None and f.position == "outside":
            around = min(0.0, mean_degc)
            hold = tank_in_cold(f.volume_l, f.volume_l, f.insulation_m or 0.0, around, around, True)
            found.append((p, f, 24 * min(f.frost_heater_w, hold.hold_w)))
    return found


def _boilers(build: Build, water: WaterFigures) -> list[Load]:
    """Electric water heaters whose draw no other side of their option states, at the heat that a day's hot water takes.

    One at battery voltage keeps itself warm; one at mains voltage somebody switches on.
    """
    stated = {p.option.id for kind in (AcLoad, DcLoad) for p, _ in build.facets(kind)}
    electric = [
        (p, f) for p, f in build.facets(WaterHeater) if f.energy in ("battery", "mains") and p.option.id not in stated
    ]
    heat_wh = hot_water_wh_d(water, build) / max(1, sum(p.count for p, _ in electric))
    return [
        _plain(
            build, p, f.heat_w / f.efficiency_frac, min(24.0, heat_wh / f.heat_w), "showers",
            mains=f.energy == "mains", by_hand=f.energy == "mains",
        )
        for p, f in electric
    ]  # fmt: skip


def _in_frost(load: Load, frost_wh: float) -> Load:
    """A tank's heater as long as its tank wants it, where that is longer than its usual hours."""
    if load.habit != "heating" or not frost_wh:
        return load
    return load._replace(hours_d=max(load.hours_d, min(24.0, frost_wh / load.power_w)))


def build_loads(build: Build, warmth: WarmthFigures, water: WaterFigures, month: int) -> tuple[Load, ...]:
    """Every load of a build on a day of its trip, in catalogue order; those that never run on it have no hours."""
    found = [_stated(build, p, f, month) for p, f in build.facets(AcLoad)]
    found += [_stated(build, p, f, month) for p, f in build.facets(DcLoad)]
    stated = {x.option_id for x in found}
    pads = _frost_heaters(build, build.climate.mean_degc[month - 1])
    # Of bare tanks, or such as do not say, the stated hours have to do.
    held = {p.option.id: wh for p, f, wh in pads if f.insulation_m}
    found = [_in_frost(x, held.get(x.option_id, 0.0)) for x in found]
    found += [
        _plain(build, p, f.frost_heater_w, wh / f.frost_heater_w, "heating")._replace(in_season=coldest_degc(build) < 0)
        for p, f, wh in pads
        if f.frost_heater_w and p.option.id not in stated
    ]
    cooled_wh = cooled_day_wh(build, warmth, month)
    fed = running_coolers(build)
    coolers_w = sum(f.input_w * p.count for p, f in fed)
    found += [
        _plain(
            build, p, f.input_w,
            0.0 if (p, f) not in fed or not cools_in(build, month)
            else min(24.0, cooled_wh / coolers_w) if f.hours_per_day_h is None else f.hours_per_day_h,
            "cooling", mains=f.supply == "mains", start_multiple=f.start_multiple, straight=f.supply == "battery",
        )._replace(in_season=factor(build, "cooling") > 0)
        for p, f in build.facets(AirConditioner)
    ]  # fmt: skip
    airs = max(month_means(build)) >= heating_from_degc(build.trip) or leaks_too_little(build, warmth)
    found += [
        # A day takes what it usually does; cable, fuse and converter have to carry its full speed.
        _plain(build, p, f.power_w, f.hours_per_day_h * f.power_share_frac if airs else 0.0, "always")
        for p, f in build.facets(VentFan)
    ]
    found += _heaters(build, warmth, month, {p.option.id for p, _ in build.facets(DcLoad)})
    on_mains = {p.option.id for p, _ in build.facets(AcLoad)}
    found += [
        _plain(build, p, f.output_w / f.efficiency_frac, 0.0, "heating", mains=True)._replace(
            shore_only=True, in_season=factor(build, "heating") > 0
        )
        for p, f in build.facets(SpaceHeater)
        if f.fuel == "mains" and p.option.id not in on_mains
    ]  # fmt: skip
    found += [
        _plain(build, p, f.power_w, min(24.0, PUMP_H * build.trip.people), "showers", by_hand=True)
        for p, f in build.facets(Pump)
    ]
    return tuple(found + _boilers(build, water))
