"""Battery, inverter, loads and sun of a build: a plain daily balance in the darkest chosen month."""

from typing import NamedTuple

from engine.build.battery_cold import takes_charge, warming_wh_d
from engine.build.demand import Demand, demand
from engine.build.habits import HEATING_FROM_DEGC, factor, month_means
from engine.build.model import Build, Part
from engine.build.roof import RoofFigures
from engine.build.warmth import WarmthFigures
from engine.catalogue.facets import (
    AcLoad,
    AirConditioner,
    AlternatorCharger,
    Battery,
    DcLoad,
    Inverter,
    SolarController,
    SolarPanel,
    SpaceHeater,
    VentFan,
)
from engine.physics.direct_current import alternator_spare_a, battery_current_a, charger_input_a
from engine.physics.sun import cell_rise_k, daily_yield_wh


class DailyLoad(NamedTuple):
    """Energy one option takes from the battery on a day of the trip."""

    option_id: str
    name: str
    energy_wh_d: float


class PowerFigures(NamedTuple):
    """The electric side of a build. Energies are per day, at the battery."""

    battery_v: float | None
    battery_voltages: tuple[float, ...]
    capacity_wh: float
    usable_wh: float
    continuous_a: float
    peak_a: float
    inverter_v: float | None
    inverter_w: float
    surge_va: float
    efficiency_frac: float
    demand: Demand
    current_a: float | None
    """Battery current with the plausible loads running; None without a battery."""
    start_a: float | None
    loads: tuple[DailyLoad, ...]
    use_wh_d: float
    sun_month: int
    sun_wh_d: float
    panel_w: float
    """Rated power of the panels that have a place on the roof."""
    controlled: bool
    driving_wh_d: float
    alternator_input_a: float
    alternator_spare_a: float
    days: float | None
    """Days from a full battery to an empty one; None when the day's gain covers the day's use."""


def _ac_daily(build: Build, inverter: Inverter | None) -> list[DailyLoad]:
    efficiency = inverter.efficiency_frac if inverter else 1.0
    loads: list[DailyLoad] = []
    wakes = False
    hours = 0.0
    for part, f in build.facets(AcLoad):
        if f.shore_only:
            continue
        h = min(24.0, f.hours_per_day_h * factor(build, f.habit))
        wakes = wakes or f.running != "now-and-then"
        hours += h
        loads.append(DailyLoad(part.option.id, part.option.name, f.power_w * part.count * h / efficiency))
    for part, a in build.facets(AirConditioner):
        h = a.hours_per_day_h * factor(build, "cooling")
        eff = efficiency if a.supply == "mains" else 1.0
        hours += h if a.supply == "mains" else 0.0
        loads.append(DailyLoad(part.option.id, part.option.name, a.input_w * part.count * h / eff))
    if inverter and inverter.idle_w:
        # A load with its own thermostat keeps it awake day and night, and so does a missing switch.
        awake_h = 24.0 if wakes or not inverter.switched else min(24.0, hours)
        ids = build.ids(Inverter)
        loads.append(DailyLoad(ids[0], "Inverter, awake without a load", inverter.idle_w * awake_h))
    return loads


def _dc_daily(build: Build, warmth: WarmthFigures) -> list[DailyLoad]:
    loads = [
        DailyLoad(
            p.option.id, p.option.name, f.power_w * p.count * min(24.0, f.hours_per_day_h * factor(build, f.habit))
        )
        for p, f in build.facets(DcLoad)
    ]
    warm = max(month_means(build)) >= HEATING_FROM_DEGC
    loads += [
        DailyLoad(p.option.id, p.option.name, f.power_w * f.power_share_frac * f.hours_per_day_h * p.count)
        for p, f in build.facets(VentFan)
        if warm
    ]
    if warmth.output_w:
        duty_h = min(24.0, warmth.mean_heat_wh_d / warmth.output_w)
        for p, heater in build.facets(SpaceHeater):
            if heater.role == "spot" or heater.fuel == "mains":
                continue
            watts = heater.electric_w + (heater.output_w if heater.fuel == "battery" else 0.0)
            loads.append(DailyLoad(p.option.id, p.option.name, watts * p.count * duty_h))
    return loads


def _sun(build: Build, roof: RoofFigures) -> tuple[int, float, float, bool]:
    """(darkest chosen month, Wh a day at the battery, rated watts placed, whether a controller is there)."""
    # Of months alike in sun the first of the year, so that the order of months never matters.
    month = min(build.trip.months, key=lambda m: (build.climate.ghi_kwh_m2_d[m - 1], m))
    controller = max((f.efficiency_frac for _, f in build.facets(SolarController)), default=0.0)
    fitted = dict.fromkeys((k.key for k in roof.packing.placed), 0)
    for placed in roof.packing.placed:
        fitted[placed.key] += 1
    energy = watts = 0.0
    for part, f in build.facets(SolarPanel):
        n = fitted.get(part.option.id, 0)
        watts += n * f.power_w
        energy += n * daily_yield_wh(
            f.power_w,
            build.climate.ghi_kwh_m2_d[month - 1],
            build.climate.mean_degc[month - 1],
            f.power_coefficient_frac_k,
            cell_rise_k(build.climate.ghi_kwh_m2_d[month - 1], f.mount),
        )
    return month, energy * controller, watts, controller > 0


def _driving(build: Build) -> tuple[float, float, float]:
    """(Wh a day into the battery, current the chargers want from the alternator, current it can spare)."""
    engine = build.vehicle.engine
    spare_a = alternator_spare_a(engine.alternator_a, engine.hot_output_frac, engine.own_use_a)
    wanted_a = watts = 0.0
    for part, f in build.facets(AlternatorCharger):
        wanted_a += part.count * charger_input_a(f.output_a, f.output_v, f.efficiency_frac, engine.voltage_v)
        watts += part.count * f.output_a * f.output_v
    share = min(1.0, spare_a / wanted_a) if wanted_a else 0.0
    return watts * share * build.trip.driving_h, wanted_a, spare_a


def _bank(batteries: list[tuple[Part, Battery]]) -> tuple[float | None, tuple[float, ...]]:
    voltages = tuple(sorted({f.nominal_v for _, f in batteries}))
    return (voltages[0] if len(voltages) == 1 else None), voltages


def power_figures(build: Build, roof: RoofFigures, warmth: WarmthFigures) -> PowerFigures:
    """The electric side of a build, in the darkest of the chosen months."""
    batteries = list(build.facets(Battery))
    battery_v, voltages = _bank(batteries)
    inverters = [(p, f) for p, f in build.facets(Inverter)]
    first = inverters[0][1] if inverters else None
    need = demand(build)
    current_a = start_a = None
    if battery_v is not None:
        efficiency = first.efficiency_frac if first else 1.0
        ac_w, start_w = (need.ac_w, need.start_va) if first else (0.0, 0.0)
        current_a = battery_current_a(ac_w, efficiency, need.dc_w, battery_v)
        start_a = battery_current_a(max(start_w, ac_w), efficiency, need.dc_w, battery_v)
    loads = (_ac_daily(build, first) if first else []) + _dc_daily(build, warmth)
    month, sun, panel_w, controlled = _sun(build, roof)
    loads += [DailyLoad(p.option.id, f"{p.option.name}, warming itself", wh) for p, wh in warming_wh_d(build, month)]
    use = sum(x.energy_wh_d for x in loads)
    driving, wanted_a, spare_a = _driving(build)
    if not takes_charge(build, month):
        sun = driving = 0.0
    usable = sum(f.nominal_v * f.capacity_ah * f.usable_frac * p.count for p, f in batteries)
    short = use - sun - driving
    return PowerFigures(
        battery_v=battery_v,
        battery_voltages=voltages,
        capacity_wh=sum(f.nominal_v * f.capacity_ah * p.count for p, f in batteries),
        usable_wh=usable,
        continuous_a=sum(f.continuous_discharge_a * p.count for p, f in batteries),
        peak_a=sum(f.peak_discharge_a * p.count for p, f in batteries),
        inverter_v=first.input_v if first else None,
        inverter_w=sum(f.continuous_w * p.count for p, f in inverters),
        surge_va=sum(f.surge_va * p.count for p, f in inverters),
        efficiency_frac=first.efficiency_frac if first else 1.0,
        demand=need,
        current_a=current_a,
        start_a=start_a,
        loads=tuple(sorted((x for x in loads if x.energy_wh_d > 0), key=lambda x: (-x.energy_wh_d, x.option_id))),
        use_wh_d=use,
        sun_month=month,
        sun_wh_d=sun,
        panel_w=panel_w,
        controlled=controlled,
        driving_wh_d=driving,
        alternator_input_a=wanted_a,
        alternator_spare_a=spare_a,
        days=usable / short if short > 1e-9 else None,
    )
