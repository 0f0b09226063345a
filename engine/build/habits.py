"""How the traveller's habits stretch the usual hours of an appliance."""

from engine.build.model import Build
from engine.catalogue.facets import Habit
from engine.catalogue.trip import Trip

USUAL_MEALS = 1.5
USUAL_COMPUTER_H = 2.0
USUAL_SHOWERS = 1.0
"""The habits for which a shop file states hours: 1.5 cooked meals, 2 hours at a computer, one shower a day in all."""

USUAL_PEOPLE = 2
"""Those whom such a meal feeds."""

SIMMER_FRAC = 0.5
"""Share of the heat and steam of a meal for two that is the same however many eat, for a pot simmers as long; the rest
brings food to the boil, and grows with the people (assumption)."""

FREE_WARMTH_K = 6.0
"""People, cooking and sun hold the living space so much warmer than a mild day's mean, without a heater (common
practice: who wants 18 °C heats below 12 °C)."""

HALF_DAY_K = 4.0
"""A cold day's mean over its coldest hour: half of the 8 K of a winter's day (common practice)."""

COOLING_FROM_DEGC = 26.0
"""Hottest hour above which air conditioning is wanted (assumption)."""


def meals_for_two(trip: Trip) -> float:
    """A day's cooked meals, as so many for two by heat, steam and dishes; a child counts as one who eats."""
    return trip.hot_meals_per_day * (SIMMER_FRAC + (1 - SIMMER_FRAC) * trip.people / USUAL_PEOPLE)


def heating_from_degc(trip: Trip) -> float:
    """Mean outside temperature below which the living space is heated, by the warmth wanted inside."""
    return float(trip.inside_degc) - FREE_WARMTH_K


def _cools(trip: Trip, hottest_degc: float) -> bool:
    return trip.cooling and hottest_degc > COOLING_FROM_DEGC


def habit_factor(habit: Habit, trip: Trip, coldest_mean_degc: float, hottest_degc: float) -> float:
    """How many times its usual hours something with this habit runs; 1 on the usual day."""
    if habit == "cooking":
        return meals_for_two(trip) / USUAL_MEALS
    if habit == "computers":
        return trip.computer_h / USUAL_COMPUTER_H
    if habit == "showers":
        return trip.showers_per_day * trip.people / USUAL_SHOWERS
    if habit == "heating":
        return 1.0 if coldest_mean_degc < heating_from_degc(trip) else 0.0
    if habit == "cooling":
        return 1.0 if _cools(trip, hottest_degc) else 0.0
    return 1.0


def month_means(build: Build) -> list[float]:
    """Mean outside temperature of each chosen month."""
    return [build.climate.mean_degc[m - 1] for m in build.trip.months]


def factor(build: Build, habit: Habit) -> float:
    """``habit_factor`` for this build's trip and climate."""
    return habit_factor(habit, build.trip, min(month_means(build)), hottest_degc(build))


def altitude_m(build: Build) -> float:
    """Height of the place over the sea, within what the sums on air and sun hold for."""
    return min(5000.0, max(-100.0, build.climate.altitude_m))


def hottest_degc(build: Build) -> float:
    """Hottest hour of the chosen months."""
    return max(build.climate.hottest_day_degc[m - 1] for m in build.trip.months)


def cools_in(build: Build, month: int) -> bool:
    """Whether the trip wants air conditioning in that month."""
    return _cools(build.trip, build.climate.hottest_day_degc[month - 1])


def coldest_degc(build: Build) -> float:
    """Coldest night of the chosen months."""
    return min(build.climate.coldest_night_degc[m - 1] for m in build.trip.months)
