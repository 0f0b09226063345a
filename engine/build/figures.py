"""All figures of a build, worked out once; rules compare them and sheets show them."""

from typing import NamedTuple

from engine.build.circuits import CircuitFigures, circuit_figures
from engine.build.cool_day import CoolDay, cool_day
from engine.build.damp import DampFigures, damp_figures
from engine.build.energy_figures import EnergyFigures
from engine.build.fan_air import Draught, FanFigures, draught_figures, fan_figures
from engine.build.frost import ColdPipe, ColdTank, cold_pipes, cold_tanks
from engine.build.gas import GasFigures, gas_figures
from engine.build.gas_rate import GasPipe, GasRateFigures, gas_pipe, gas_rate_figures
from engine.build.hard_month import hardest_power
from engine.build.hot_water import HotWaterFigures, hot_water_figures
from engine.build.legal_masses import LegalFigures, legal_figures
from engine.build.masses import MassFigures, mass_figures
from engine.build.model import Build
from engine.build.money import MoneyFigures, money_figures
from engine.build.moving import MovingFigures, moving_figures
from engine.build.openings import OpeningFigures, opening_figures
from engine.build.plan_figures import PlanFigures
from engine.build.power import PowerFigures, power_figures
from engine.build.roof import RoofFigures, roof_figures
from engine.build.roof_load import RoofLoadFigures, roof_load_figures
from engine.build.tap_flow import (
    FilterFigures,
    TapFigures,
    VesselFigures,
    filter_figures,
    tap_figures,
    vessel_figures,
)
from engine.build.warm_room import WarmUp, warm_up_figures
from engine.build.warmth import WarmthFigures, warmth_figures
from engine.build.water import WaterFigures, water_figures


class Figures(NamedTuple):
    """Every computed quantity of a build, by subject."""

    mass: MassFigures
    roof: RoofFigures
    roof_load: RoofLoadFigures
    power: PowerFigures
    """In the darkest chosen month."""
    hardest: PowerFigures
    """In the chosen month that empties the battery soonest, often the same: what days off the grid are reckoned in."""
    warmth: WarmthFigures
    water: WaterFigures
    hot_water: HotWaterFigures
    cold_tanks: tuple[ColdTank, ...]
    """Tanks outside the warm shell or in a room without heat, where the trip has frost."""
    cold_pipes: tuple[ColdPipe, ...]
    """Pipes there, and what a plain one would do beside each tank."""
    gas: GasFigures
    gas_rate: GasRateFigures | None
    gas_pipe: GasPipe | None
    openings: OpeningFigures
    taps: TapFigures | None
    vessel: VesselFigures | None
    filters: tuple[FilterFigures, ...]
    fans: FanFigures | None
    """None without a fan in the roof."""
    draught: Draught | None
    """None without a fan and a fire with a chimney or open flue."""
    money: MoneyFigures
    plan: PlanFigures
    legal: LegalFigures
    moving: MovingFigures
    circuits: CircuitFigures
    warm_up: WarmUp | None
    """None without a heater, or where no night is colder than the warmth wanted."""
    cool_day: CoolDay | None
    """None without a cooler, or where no day is hot enough for it."""
    damp: DampFigures | None
    """Water in the air and on cold surfaces; None for trips that need no heating."""
    energy: EnergyFigures | None = None
    """The trip hour by hour, which is slow: None until ``trip_energy`` has worked it out, or nothing is to be."""


def work_out(build: Build) -> Figures:
    """Work out every quick figure of a build."""
    roof = roof_figures(build)
    warmth = warmth_figures(build)
    water = water_figures(build)
    mass = mass_figures(build)
    power = power_figures(build, roof, warmth, water)
    gas = gas_figures(build, warmth, water)
    openings = opening_figures(build)
    return Figures(
        mass=mass,
        roof=roof,
        roof_load=roof_load_figures(build, roof.obstacles),
        power=power,
        hardest=hardest_power(build, roof, water, power),
        warmth=warmth,
        water=water,
        hot_water=hot_water_figures(build, water, power),
        cold_tanks=cold_tanks(build, warmth, water),
        cold_pipes=cold_pipes(build, warmth),
        gas=gas,
        gas_rate=gas_rate_figures(build, warmth),
        gas_pipe=gas_pipe(build),
        openings=openings,
        taps=tap_figures(build),
        vessel=vessel_figures(build),
        filters=filter_figures(build, water),
        fans=fan_figures(build, roof),
        draught=draught_figures(build, openings),
        money=money_figures(build),
        plan=build.plan,
        legal=legal_figures(build, mass),
        moving=moving_figures(build),
        circuits=circuit_figures(build, power),
        warm_up=warm_up_figures(build, warmth),
        cool_day=cool_day(build, warmth),
        damp=damp_figures(build, warmth, gas.room_kg_d),
    )
