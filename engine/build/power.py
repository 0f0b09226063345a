"""Battery, inverter, loads and sun of a build: a plain daily balance in the darkest chosen month."""

from typing import NamedTuple

from engine.build.battery_bank import BankFigures, bank_figures, bank_v
from engine.build.battery_cold import takes_charge, warming_wh_d
from engine.build.battery_years import days_to_80
from engine.build.charging import (
    AlternatorFigures,
    ChargeTime,
    GeneratorFigures,
    alternator_figures,
    charge_times,
    generator_figures,
)
from engine.build.converting import Converting, converting, made_for
from engine.build.demand import Demand, demand
from engine.build.inverting import InverterFigures, inverting
from engine.build.loads import Load, build_loads, essential
from engine.build.model import Build
from engine.build.roof import RoofFigures
from engine.build.shore import ShoreFigures, shore_figures
from engine.build.solar_strings import StringGroup, string_groups
from engine.build.sun_power import ControllerSun, charging_v, mean_sun_wh_d, sun_system
from engine.build.warmth import WarmthFigures
from engine.build.water import WaterFigures
from engine.catalogue.facets import AlternatorCharger, Battery, Inverter, ShoreCharger
from engine.physics.direct_current import battery_current_a
from engine.physics.inverter import largest_ac_w


class DailyLoad(NamedTuple):
    """Energy one option takes from the battery on a day of the trip."""

    option_id: str
    name: str
    energy_wh_d: float


class Joined(NamedTuple):
    """Something joined straight to the house battery, and the voltage it is made for."""

    option_id: str
    name: str
    made_for_v: float


class PowerFigures(NamedTuple):
    """The electric side of a build. Energies are per day, at the battery."""

    bank: BankFigures
    joined: tuple[Joined, ...]
    """Further kinds of batteries, inverters and chargers, each option and voltage once."""
    battery_v: float | None
    capacity_wh: float
    usable_wh: float | None
    """None where the battery is colder than its data go."""
    inverter: InverterFigures | None
    converting: Converting
    all_loads: tuple[Load, ...]
    demand: Demand
    current_a: float | None
    """Battery current with the plausible loads running; None without a battery."""
    largest_ac_w: float | None
    """Largest load behind the inverter that the battery feeds for long; None without battery or inverter."""
    loads: tuple[DailyLoad, ...]
    use_wh_d: float
    sun_month: int
    sun_wh_d: float
    panel_w: float
    """Rated power of the panels that have a place on the roof."""
    controlled: bool
    strings: tuple[StringGroup, ...]
    controllers: tuple[ControllerSun, ...]
    """Charge controllers with panels; none while the battery has no one voltage."""
    driving_wh_d: float
    alternator: AlternatorFigures
    shore: ShoreFigures | None
    charges: tuple[ChargeTime, ...]
    generators: tuple[GeneratorFigures, ...]
    life_d: float | None
    """Days until the battery has 80 % of its capacity left, used as on this trip; None without one sound bank."""
    days: float | None
    """Days from a full battery to an empty one; None when the day's gain covers the day's use, or is not known."""

    @property
    def unlike_ids(self) -> tuple[str, ...]:
        """What is made for another voltage than the battery's: what else is amiss with it says nothing until then."""
        first_v = self.bank.groups[0].nominal_v if self.bank.groups else 0.0
        return tuple(j.option_id for j in self.joined if not made_for(j.made_for_v, first_v))

    @property
    def inverter_w(self) -> float:
        """Continuous output of all inverters; 0 without one."""
        return self.inverter.continuous_w if self.inverter else 0.0

    @property
    def efficiency_frac(self) -> float:
        """Of the inverter; 1 without one."""
        return self.inverter.efficiency_frac if self.inverter else 1.0


def _joined(build: Build, bank: BankFigures) -> tuple[Joined, ...]:
    if not bank.groups:
        return ()
    names = {p.option.id: p.option.name for p, _ in build.facets(Battery)}
    found = [Joined(g.option_id, names[g.option_id], g.nominal_v) for g in bank.groups[1:]]
    found += [Joined(p.option.id, p.option.name, f.input_v) for p, f in build.facets(Inverter)]
    found += [Joined(p.option.id, p.option.name, f.output_v) for p, f in build.facets(ShoreCharger)]
    found += [Joined(p.option.id, p.option.name, f.output_v) for p, f in build.facets(AlternatorCharger)]
    return tuple(dict.fromkeys(found))


def _daily(loads: tuple[Load, ...], inverter: InverterFigures | None, converting: Converting) -> list[DailyLoad]:
    """Energy of each load at the battery; mains loads only where an inverter feeds them."""
    found = []
    for x in loads:
        if x.shore_only or (x.mains and inverter is None):
            continue
        wh = x.daily_wh
        if x.mains and inverter is not None:
            # An appliance on mains voltage stands by only while the inverter is awake.
            wh -= x.pieces_count * x.standby_w * max(0.0, 24 - max(inverter.awake_h, x.hours_d))
            wh /= inverter.efficiency_frac
        found.append(DailyLoad(x.option_id, x.name, wh if x.mains else converting.battery_w(x, wh)))
    if inverter is not None and inverter.idle_wh_d:
        why = f"for {inverter.awake_for}" if inverter.awake_for else "without a load"
        found.append(DailyLoad(inverter.ids[0], f"Inverter, awake {why}", inverter.idle_wh_d))
    if converting.idle_w:
        found.append(DailyLoad(converting.ids[0], "Converter, always on", converting.idle_w * 24))
    return found


def darkest_month(build: Build) -> int:
    """The chosen month with least sun; of months alike the first of the year, so that their order never matters."""
    return min(build.trip.months, key=lambda m: (build.climate.ghi_kwh_m2_d[m - 1], m))


def power_figures(build: Build, roof: RoofFigures, warmth: WarmthFigures, water: WaterFigures) -> PowerFigures:
    """The electric side of a build, in the darkest of the chosen months."""
    month = darkest_month(build)
    battery_v = bank_v(build)
    every = build_loads(build, warmth, water, month)
    through = converting(build, battery_v)
    need = demand(every, build.trip.people, through)
    inverter = inverting(build, every, need.starts)
    loads = _daily(every, inverter, through)
    loads += [
        DailyLoad(p.option.id, f"{p.option.name}, warming itself", wh) for p, wh in warming_wh_d(build, warmth, month)
    ]
    use = sum(x.energy_wh_d for x in loads)
    bank = bank_figures(build, warmth, month, use / 24)
    alternator = alternator_figures(build, battery_v)
    shore = shore_figures(build, every, bank.charge_v)
    strings = string_groups(build, roof, bank.charge_v)
    sunny = sun_system(build, roof, strings, charging_v(bank))
    sun = mean_sun_wh_d(build, sunny, month)
    driving = alternator.output_w * build.trip.driving_h
    if not takes_charge(build, warmth, month):
        sun = driving = 0.0
    current_a = largest = None
    if battery_v is not None:
        efficiency = inverter.efficiency_frac if inverter else 1.0
        current_a = battery_current_a(need.ac_w if inverter else 0.0, efficiency, need.dc_w, battery_v)
        if inverter:
            largest = largest_ac_w(bank.continuous_a, battery_v, efficiency, need.dc_w)
    short = use - sun - driving
    charges = charge_times(build, bank, alternator, shore)
    return PowerFigures(
        bank=bank,
        joined=_joined(build, bank),
        battery_v=battery_v,
        capacity_wh=bank.energy_wh,
        usable_wh=bank.usable_wh,
        inverter=inverter,
        converting=through,
        all_loads=every,
        demand=need,
        current_a=current_a,
        largest_ac_w=largest,
        loads=tuple(sorted((x for x in loads if x.energy_wh_d > 0), key=lambda x: (-x.energy_wh_d, x.option_id))),
        use_wh_d=use,
        sun_month=month,
        sun_wh_d=sun,
        panel_w=sunny.panel_w,
        controlled=sunny.controlled,
        strings=strings,
        controllers=sunny.controllers,
        driving_wh_d=driving,
        alternator=alternator,
        shore=shore,
        charges=charges,
        generators=generator_figures(build, every, bank, charges, use),
        life_d=days_to_80(build, bank, use),
        days=bank.usable_wh / short if short > 1e-9 and bank.usable_wh is not None else None,
    )


def largest_choice(build: Build, power: PowerFigures) -> DailyLoad | None:
    """The largest load of which the travellers can use less; None where there is no such load."""
    free = {x.option_id for x in power.all_loads if not essential(build, x)}
    return next((x for x in power.loads if x.option_id in free and x.energy_wh_d > 0), None)
