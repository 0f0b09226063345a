"""Gas and diesel burnt a day, and how long they last."""

from typing import NamedTuple

from engine.build.habits import factor
from engine.build.mass_items import gas_content_kg
from engine.build.model import Build
from engine.build.warmth import WarmthFigures
from engine.build.water import COLD_DEGC, DISHES_L_PER_MEAL, WaterFigures
from engine.catalogue.facets import GasAppliance, GasStore, SpaceHeater, WaterHeater
from engine.physics.fuel import DIESEL_KWH_L, gas_gross_kwh_kg, gas_kg, gas_kwh_kg
from engine.physics.hot_water import SKIN_DEGC, heat_up_wh

NO_GAS_KG_D = 1e-6
"""A milligram a day and less counts as none, so that no count of days runs away."""

FUEL_FOR_HEAT_FRAC = 0.5
"""Share of the vehicle's fuel tank that may be burnt for heat, so that the way home stays open (assumption)."""


class GasFigures(NamedTuple):
    """Fuel a day by use, and days."""

    gas_kg: float
    gas_kg_d: float
    cooking_kg_d: float
    heating_kg_d: float
    hot_water_kg_d: float
    gas_days: float | None
    """None when no gas is chosen or none is used."""
    uses_gas: bool
    diesel_l_d: float
    diesel_days: float | None


def hot_water_wh_d(water: WaterFigures, build: Build) -> float:
    """Heat in the hot water of a day, however hot the store is that it is mixed from."""
    dishes_l = DISHES_L_PER_MEAL * build.trip.hot_meals_per_day
    return heat_up_wh(water.shower_l_d + dishes_l, COLD_DEGC, SKIN_DEGC)


def gas_figures(build: Build, warmth: WarmthFigures, water: WaterFigures) -> GasFigures:
    """Daily fuel on a mean day of the coldest chosen month."""
    stores = list(build.facets(GasStore))
    content = sum(gas_content_kg(f) * p.count for p, f in stores)
    # Of several gases the one with the least heat, so that no day too many is promised.
    propane_frac = min((f.propane_frac for _, f in stores), default=1.0)
    kwh_kg = gas_kwh_kg(propane_frac)
    cooking_wh = sum(
        f.input_w * f.hours_per_day_h * factor(build, f.habit) * p.count for p, f in build.facets(GasAppliance)
    )
    heaters = [(p, f) for p, f in build.facets(SpaceHeater) if f.role != "spot" and f.fuel != "mains"]
    heating = {"gas": 0.0, "diesel": 0.0}
    for part, h in heaters:
        if h.fuel in heating and warmth.output_w:
            share = h.output_w * part.count / warmth.output_w
            heating[h.fuel] += share * min(warmth.mean_heat_wh_d, 24 * warmth.output_w) / h.efficiency_frac
    hot = {"gas": 0.0, "diesel": 0.0}
    boilers = [f for _, f in build.facets(WaterHeater)]
    if boilers and boilers[0].energy in hot:
        hot[boilers[0].energy] = hot_water_wh_d(water, build) / boilers[0].efficiency_frac
    cooking_kg = gas_kg(cooking_wh, gas_gross_kwh_kg(propane_frac))
    heating_kg, hot_kg = gas_kg(heating["gas"], kwh_kg), gas_kg(hot["gas"], kwh_kg)
    total = cooking_kg + heating_kg + hot_kg
    if total < NO_GAS_KG_D:
        cooking_kg = heating_kg = hot_kg = total = 0.0
    diesel = (heating["diesel"] + hot["diesel"]) / 1000 / DIESEL_KWH_L
    tank = build.vehicle.engine.fuel_l if build.vehicle.engine.fuel == "diesel" else 0.0
    return GasFigures(
        gas_kg=content,
        gas_kg_d=total,
        cooking_kg_d=cooking_kg,
        heating_kg_d=heating_kg,
        hot_water_kg_d=hot_kg,
        gas_days=content / total if stores and total > 0 else None,
        uses_gas=total > 0 or any(True for _ in build.facets(GasAppliance)),
        diesel_l_d=diesel,
        diesel_days=tank * FUEL_FOR_HEAT_FRAC / diesel if diesel > 0 else None,
    )
