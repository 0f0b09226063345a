"""Gas and diesel burnt a day, and how long they last."""

from typing import NamedTuple

from engine.build.habits import habit_factor, hottest_degc, month_means
from engine.build.mass_items import gas_held_kg
from engine.build.model import Build
from engine.build.standstill import boiler_stands_still
from engine.build.warmth import WarmthFigures, gives_w, heat_wanted_w
from engine.build.water import COLD_DEGC, WaterFigures
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
    other_kg_d: float
    """Fridges, and the rare fire."""
    room_kg_d: float
    """What of both, and of hot water, burns without a flue inside: its water stays in the room."""
    heating_kg_d: float
    hot_water_kg_d: float
    gas_days: float | None
    """None when none is used; 0 when it is, and there is nothing to hold it."""
    uses_gas: bool
    diesel_l_d: float
    diesel_heating_l_d: float
    """Of that; the rest makes hot water."""
    diesel_days: float | None


def hot_water_wh_d(water: WaterFigures, build: Build) -> float:
    """Heat in the hot water of a day, however hot the store is that it is mixed from."""
    return heat_up_wh(water.shower_l_d + water.dishes_l_d, COLD_DEGC, SKIN_DEGC)


class FuelDay(NamedTuple):
    """Gas by use and diesel of one day, as in ``GasFigures``."""

    cooking_kg: float
    other_kg: float
    room_kg: float
    heating_kg: float
    hot_water_kg: float
    heating_l: float
    hot_water_l: float

    @property
    def diesel_l(self) -> float:
        """All of the diesel."""
        return self.heating_l + self.hot_water_l

    @property
    def gas_kg(self) -> float:
        """All of the gas; next to none is none."""
        total = self.cooking_kg + self.other_kg + self.heating_kg + self.hot_water_kg
        return total if total >= NO_GAS_KG_D else 0.0


def fuel_day(
    build: Build, warmth: WarmthFigures, water: WaterFigures, mean_degc: float, hottest_degc: float
) -> FuelDay:
    """What a day burns whose mean and hottest hour these are."""
    kwh_kg, gross_kwh_kg = gas_kwh_kg(propane_frac_of(build)), gas_gross_kwh_kg(propane_frac_of(build))
    cooking_wh = other_wh = room_wh = 0.0
    for p, f in build.facets(GasAppliance):
        hours = f.hours_per_day_h * habit_factor(f.habit, build.trip, mean_degc, hottest_degc)
        wh = f.input_w * min(24.0, hours) * p.count
        cooks = f.habit in ("cooking", "outdoors")
        cooking_wh, other_wh = (cooking_wh + wh, other_wh) if cooks else (cooking_wh, other_wh + wh)
        room_wh += wh if f.flue == "none" and not f.outdoors else 0.0
    need_w = heat_wanted_w(build, warmth.total_w_k, mean_degc)
    heating = {"gas": 0.0, "diesel": 0.0}
    for part, h in build.facets(SpaceHeater):
        if h.fuel in heating and part.option.id in warmth.heater_ids:
            given_w = gives_w(build, h) * part.count * warmth.duty_frac(h, need_w)
            heating[h.fuel] += 24 * given_w / h.efficiency_frac
    hot = {"gas": 0.0, "diesel": 0.0}
    boilers = [f for p, f in build.facets(WaterHeater) if not boiler_stands_still(build, p, f)]
    if boilers and boilers[0].energy in hot:
        hot[boilers[0].energy] = hot_water_wh_d(water, build) / boilers[0].efficiency_frac
    open_wh = hot["gas"] if boilers and boilers[0].flue == "none" else 0.0
    return FuelDay(
        gas_kg(cooking_wh, gross_kwh_kg),
        gas_kg(other_wh, gross_kwh_kg),
        gas_kg(room_wh, gross_kwh_kg) + gas_kg(open_wh, kwh_kg),
        gas_kg(heating["gas"], kwh_kg),
        gas_kg(hot["gas"], kwh_kg),
        heating["diesel"] / 1000 / DIESEL_KWH_L,
        hot["diesel"] / 1000 / DIESEL_KWH_L,
    )


def propane_frac_of(build: Build) -> float:
    """Of several gases the one with the least heat, so that no day too many is promised."""
    return min((f.counted_propane_frac for _, f in build.facets(GasStore)), default=1.0)


def diesel_for_heat_l(build: Build) -> float:
    """Diesel of the vehicle's full tank that may be burnt for heat; 0 when it runs on something else."""
    engine = build.vehicle.engine
    return engine.fuel_l * FUEL_FOR_HEAT_FRAC if engine.fuel == "diesel" else 0.0


def gas_figures(build: Build, warmth: WarmthFigures, water: WaterFigures) -> GasFigures:
    """Daily fuel on a mean day of the coldest chosen month."""
    content = gas_held_kg(build)
    day = fuel_day(build, warmth, water, min(month_means(build)), hottest_degc(build))
    total = day.gas_kg
    return GasFigures(
        gas_kg=content,
        gas_kg_d=total,
        cooking_kg_d=day.cooking_kg if total else 0.0,
        other_kg_d=day.other_kg if total else 0.0,
        room_kg_d=day.room_kg if total else 0.0,
        heating_kg_d=day.heating_kg if total else 0.0,
        hot_water_kg_d=day.hot_water_kg if total else 0.0,
        gas_days=content / total if total > 0 else None,
        uses_gas=total > 0 or bool(build.facets(GasAppliance)),
        diesel_l_d=day.diesel_l,
        diesel_heating_l_d=day.heating_l,
        diesel_days=diesel_for_heat_l(build) / day.diesel_l if day.diesel_l > 0 else None,
    )
