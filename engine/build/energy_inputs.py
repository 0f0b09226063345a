"""From a build and its quick figures to what the hourly reckoning takes: battery, panels, loads and days."""

from math import ceil
from typing import NamedTuple

from engine.build.battery_bank import LEAD
from engine.build.day_plan import day_plan, warmth_loads
from engine.build.hard_month import power_in
from engine.build.loads import least_room_degc
from engine.build.model import Build
from engine.build.power import PowerFigures
from engine.build.roof import RoofFigures
from engine.build.sun_power import charging_v, climate_of, sun_system
from engine.build.water import WaterFigures
from engine.catalogue.facets import Battery
from engine.physics.battery_chemistry import CHEMISTRIES
from engine.physics.energy_system import DayPlan, EnergySystem, Store
from engine.physics.sun_day import DAYS_IN_MONTH
from engine.physics.weather_years import Climate

LEAST_DAYS = 14
"""Days that are looked at, though fewer may be wanted."""

BEYOND_FRAC = 0.85
"""The days wanted are at most this share of the days looked at, so that room to spare is seen."""

YEARS = 200
"""Weather years for a fortnight; fewer for a longer trip, so that the sum of days stays."""

LEAST_YEARS = 40
"""Weather years for the longest trip: fewer would say too little of the poor year in ten."""

LEAD_TAPER_H = 1.5
"""Lead-acid near full takes what is missing over this time (common practice)."""

WARMER_W = 50.0
"""Warming of one self-warming battery (assumption)."""


class Asked(NamedTuple):
    """One trip as the hourly reckoning takes it; equal when it comes to the same."""

    climate: Climate
    system: EnergySystem
    days: tuple[int, ...]
    plan: DayPlan
    """Every day alike."""
    years_count: int

    @property
    def plans(self) -> tuple[DayPlan, ...]:
        """One for each day."""
        return (self.plan,) * len(self.days)


def days_looked_at(wanted_d: float) -> int:
    """How many days the reckoning looks ahead."""
    return max(LEAST_DAYS, ceil(wanted_d / BEYOND_FRAC))


def days_about(month: int, count: int) -> tuple[int, ...]:
    """So many days of the year, 1 to 365, about the middle of a month."""
    middle = sum(DAYS_IN_MONTH[: month - 1]) + (DAYS_IN_MONTH[month - 1] + 1) // 2
    return tuple((middle - count // 2 + i - 1) % 365 + 1 for i in range(count))


def years_for(days_count: int) -> int:
    """An even number of weather years."""
    return max(LEAST_YEARS, min(YEARS, YEARS * LEAST_DAYS // days_count // 2 * 2))


def can_be_asked(power: PowerFigures) -> bool:
    """Whether there are loads, and a battery whose content is known, to follow through the hours."""
    return bool(power.use_wh_d and power.usable_wh and power.bank.groups)


def _store(build: Build, power: PowerFigures) -> Store:
    bank = power.bank
    kinds = [(p, f, CHEMISTRIES[f.chemistry]) for p, f in build.facets(Battery)]
    warmed = [(p, f) for p, f, _ in kinds if f.heated]
    return Store(
        usable_wh=power.usable_wh or 0.0,
        charge_w=sum(g.charge_a * g.nominal_v for g in bank.groups),
        discharge_w=sum(g.continuous_a * g.nominal_v for g in bank.groups),
        # A rated capacity is what a battery gives, so all that is lost on the way is lost in charging.
        charge_frac=min(c.round_trip_frac for _, _, c in kinds),
        discharge_frac=1.0,
        min_charge_degc=max(f.min_charge_degc for _, f, _ in kinds),
        cells_least_degc=bank.cells_least_degc,
        cells_warmer_k=bank.cells_warmer_k,
        taper_h=LEAD_TAPER_H if any(f.chemistry in LEAD for _, f, _ in kinds) else 0.0,
        warmer_w=WARMER_W * sum(p.count for p, _ in warmed),
    )


def asked(build: Build, power: PowerFigures, roof: RoofFigures) -> Asked:
    """The trip in the month of these figures; ``can_be_asked`` must hold."""
    sun = sun_system(build, roof, power.strings, charging_v(power.bank))
    count = days_looked_at(build.trip.days_off_grid_d)
    system = EnergySystem(
        store=_store(build, power),
        panels=sun.panels,
        controller_frac=sun.controller_frac,
        controllers_w=sun.controllers_w,
        inverter_frac=power.efficiency_frac,
        by_warmth=warmth_loads(power, least_room_degc(build)),
    )
    days = days_about(power.sun_month, count)
    return Asked(climate_of(build), system, days, day_plan(power, build.trip.driving_h), years_for(count))


def asked_in(build: Build, roof: RoofFigures, water: WaterFigures, month: int) -> Asked | None:
    """The same trip, were it made in one other month; None where the battery's content is not known in its cold."""
    power = power_in(build, roof, water, month)
    return asked(build, power, roof) if power.usable_wh else None
