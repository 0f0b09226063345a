"""Tanks and gas from day to day: how long each lasts, with its band, and gas in every month of the year."""

from typing import NamedTuple

from engine.build.gas import fuel_day
from engine.build.habits import heating_from_degc, hottest_degc, month_means
from engine.build.model import Build
from engine.build.warmth import WarmthFigures
from engine.build.water import WaterFigures
from engine.physics.uncertainty import Error, band_kg

DRINK_COOK_SPREAD_L, WASH_SPREAD_L = 1.75, 2.0
"""Half of what the Sphere Handbook 2018 leaves open for each person a day: 5.5 to 9 L and 2 to 6 L."""

DISHES_SPREAD_FRAC, SHOWER_SPREAD_FRAC, TOILET_SPREAD_FRAC, COOKING_SPREAD_FRAC = 0.5, 0.15, 0.4, 0.25
"""How far people and appliances differ from what the sums take (assumptions)."""

COLD_MONTH_K = 2.0
"""So much colder or milder a month may be than its mean of many years (assumption)."""


class Level(NamedTuple):
    """One tank's days, from a fill or an emptying on."""

    name: str
    holds: float
    """L of water, kg of gas."""
    days: float
    low_days: float
    high_days: float
    fills: bool
    """Waste: it begins empty."""


class Supplies(NamedTuple):
    """What runs out or fills up."""

    water: tuple[Level, ...]
    """Fresh water, waste water, toilet: those that the build has."""
    gas: Level | None
    """None without gas, or where none is burnt."""
    gas_months_d: tuple[float | None, ...]
    """Days of gas in each month of the year, None where none is burnt; empty without gas."""


def _level(name: str, holds: float, days: float | None, spread_frac: float, fills: bool = True) -> list[Level]:
    if days is None:
        return []
    return [Level(name, holds, days, days / (1 + spread_frac), days / max(0.05, 1 - spread_frac), fills)]


def _spreads(build: Build, water: WaterFigures) -> tuple[float, float]:
    """(of fresh water, of waste water): half-widths over the use of a day."""
    trip = build.trip
    wash = Error(WASH_SPREAD_L * trip.people), Error(DISHES_SPREAD_FRAC * water.dishes_l_d)
    shower = Error(SHOWER_SPREAD_FRAC * water.shower_l_d)
    fresh = band_kg([*wash, shower, Error(DRINK_COOK_SPREAD_L * trip.people)]) / water.use_l_d
    indoors = shower if water.grey_l_d > water.shower_l_d else Error(0.0)
    return fresh, band_kg([*wash, indoors]) / water.grey_l_d


def supplies(build: Build, warmth: WarmthFigures, water: WaterFigures, gas_kg: float) -> Supplies:
    """Levels over the trip. A litre's band counts as a kilogram's."""
    fresh, grey = _spreads(build, water)
    tanks = [
        *_level("Fresh water", water.fresh_l, water.fresh_days, fresh, fills=False),
        *_level("Waste water", water.grey_l, water.grey_days, grey),
        *_level("Toilet", water.toilet_l, water.toilet_days, TOILET_SPREAD_FRAC),
    ]

    def burnt(mean_degc: float, hottest_degc: float, of: WarmthFigures = warmth) -> tuple[float, float]:
        day = fuel_day(build, of, water, mean_degc, hottest_degc)
        return day.gas_kg, day.gas_kg - day.heating_kg

    mean, heats = min(month_means(build)), heating_from_degc(build.trip)
    hottest = hottest_degc(build)
    usual, flames = burnt(mean, hottest)
    if not gas_kg or not usual:
        return Supplies(tuple(tanks), None, ())
    # A poor month: colder, in a shell that loses what its band allows, and with more cooked; and the other way round.
    more, _ = burnt(mean - COLD_MONTH_K, hottest, warmth._replace(total_w_k=warmth.high_w_k))
    less, _ = burnt(min(mean + COLD_MONTH_K, heats - 1e-9) if mean < heats else mean,
                    hottest, warmth._replace(total_w_k=warmth.low_w_k))  # fmt: skip
    spread = COOKING_SPREAD_FRAC * flames
    gas = Level("Gas", gas_kg, gas_kg / usual, gas_kg / (more + spread), gas_kg / max(1e-6, less - spread), False)
    months = []
    for degc, hot in zip(build.climate.mean_degc, build.climate.hottest_day_degc, strict=True):
        kg, _ = burnt(degc, hot)
        months.append(gas_kg / kg if kg else None)
    return Supplies(tuple(tanks), gas, tuple(months))
