"""Many years of daily weather that a place's climate table might have had: clearness and warmth of each day."""

from functools import lru_cache
from math import erf, exp, log, sqrt
from random import Random
from typing import NamedTuple

from engine.physics.air import MonthAir, month_air
from engine.physics.clearness import ClearnessSpread, clearness_spread, cloudless_frac, month_clearness_frac
from engine.physics.ranges import within
from engine.physics.solar_position import daily_extraterrestrial_kwh_m2_d, sun_on
from engine.physics.sun_day import DAYS_IN_MONTH

CLEAR_STAYS_FRAC = 0.29
"""Correlation of a day's clearness with the day before, both as normal deviates. Source: V. A. Graham,
K. G. T. Hollands and T. E. Unny, Solar Energy 40 (1988) 83 (value from memory); three typical years have
0.26, 0.26 and 0.28 in the mean of their months."""

WARM_STAYS_FRAC = 0.7
"""The same of daily mean temperatures; three typical years have 0.66 to 0.78."""

_MONTH_OF = tuple(month for month, days in enumerate(DAYS_IN_MONTH, 1) for _ in range(days))


class Climate(NamedTuple):
    """A place's typical year; each monthly tuple has twelve values, January first."""

    latitude_deg: float
    ghi_kwh_m2_d: tuple[float, ...]
    mean_degc: tuple[float, ...]
    coldest_night_degc: tuple[float, ...]
    hottest_day_degc: tuple[float, ...]
    altitude_m: float = 0.0


class MonthWeather(NamedTuple):
    """What the days of one month are drawn from."""

    spread: ClearnessSpread | None
    """None in a month without sun."""
    air: MonthAir


class WeatherYears(NamedTuple):
    """Days as drawn: ``clearness_frac[year][i]`` and ``warmer_k[year][i]`` (over the month's mean) of ``days[i]``."""

    days: tuple[int, ...]
    months: tuple[MonthWeather, ...]
    """Of each day."""
    clearness_frac: tuple[tuple[float, ...], ...]
    warmer_k: tuple[tuple[float, ...], ...]


def month_of(day_of_year: int) -> int:
    """The month, 1 to 12, of a day 1 to 365 of the typical year. Source: the calendar.

    >>> month_of(31), month_of(32), month_of(365)
    (1, 2, 12)
    """
    return _MONTH_OF[int(within("day_of_year", day_of_year, 1, 365)) - 1]


def month_weather(climate: Climate, month: int) -> MonthWeather:
    """What a month's days are drawn from. month: 1 to 12. Source: see ``clearness_spread`` and ``month_air``.

    >>> place = Climate(52.0, (2.5,) * 12, (10.0,) * 12, (0.0,) * 12, (20.0,) * 12)
    >>> round(month_weather(place, 9).spread.mean_frac, 2)
    0.36
    """
    m = int(within("month", month, 1, 12)) - 1
    clear = month_clearness_frac(climate.latitude_deg, climate.ghi_kwh_m2_d[m], month)
    air = month_air(climate.mean_degc[m], climate.coldest_night_degc[m], climate.hottest_day_degc[m], clear)
    if not clear:
        return MonthWeather(None, air)
    return MonthWeather(clearness_spread(clear, cloudless_frac(climate.latitude_deg, climate.altitude_m, m + 1)), air)


@lru_cache(maxsize=4)
def weather_years(climate: Climate, days: tuple[int, ...], years_count: int = 200, seed: int = 1) -> WeatherYears:
    """Draw years of the weather of consecutive ``days`` (of the year, 1 to 365; 365 may be followed by 1).

    A normal deviate that keeps ``CLEAR_STAYS_FRAC`` of itself from day to day is mapped on the month's spread of
    clearness; another, independent one on daily means of temperature, cut off where the table's coldest night and
    hottest day would be passed. Years come in pairs of opposite deviates. At last all years' values are drawn a little
    together toward one end of the spread, so that over all years together the sun of each month's days is the table's
    clearness times the sun above the air, and their mean temperature the table's, exactly.

    Not in it: that clear days are colder in winter and warmer in summer; years that are poor as a whole.
    days: 1 to 400 of them. years_count: 2 to 2,000, even. The same seed gives the same years.
    Source: method of Graham, Hollands and Unny, see ``CLEAR_STAYS_FRAC``.

    >>> place = Climate(52.0, (2.5,) * 12, (10.0,) * 12, (0.0,) * 12, (20.0,) * 12)
    >>> years = weather_years(place, (258, 259, 260), 100)
    >>> len(years.clearness_frac), round(sum(sum(y) for y in years.warmer_k), 9)
    (100, 0.0)
    """
    within("len(days)", len(days), 1, 400)
    within("years_count / 2", years_count / 2, 1, 1000)
    if years_count % 2:
        raise ValueError(f"years_count: {years_count} is odd; years come in pairs")
    month_by_day = [month_of(day) for day in days]
    by_month = {m: month_weather(climate, m) for m in dict.fromkeys(month_by_day)}
    chance = Random(seed)
    clear = _paths(chance, len(days), years_count, CLEAR_STAYS_FRAC)
    warm = _paths(chance, len(days), years_count, WARM_STAYS_FRAC)
    above = [daily_extraterrestrial_kwh_m2_d(climate.latitude_deg, sun_on(day)) for day in days]
    for month, weather in by_month.items():
        at = [i for i, m in enumerate(month_by_day) if m == month]
        spread, air = weather
        for i in at:
            clear[i] = _clearness(spread, clear[i])
            warm[i] = [max(-air.colder_k, min(air.warmer_k, air.daily_sigma_k * z)) for z in warm[i]]
        if spread:
            _settle(clear, at, above, spread.mean_frac, spread.low_frac, spread.high_frac)
        _settle(warm, at, [1.0] * len(days), 0.0, -air.colder_k, air.warmer_k)
    return WeatherYears(
        days, tuple(by_month[m] for m in month_by_day), tuple(zip(*clear, strict=True)), tuple(zip(*warm, strict=True))
    )


def _paths(chance: Random, days: int, years: int, stays: float) -> list[list[float]]:
    """For each day the years' deviates, each year followed by its opposite."""
    gauss, fresh = chance.gauss, sqrt(1 - stays * stays)
    now = [gauss(0.0, 1.0) for _ in range(years // 2)]
    paths = [[*now, *(-z for z in now)]]
    for _ in range(days - 1):
        now = [stays * z + gauss(0.0, fresh) for z in now]
        paths.append([*now, *(-z for z in now)])
    return paths


def _clearness(spread: ClearnessSpread | None, deviates: list[float]) -> list[float]:
    """``clearness_frac`` of the normal share below each deviate, written out because it runs so often."""
    if spread is None:
        return [0.0] * len(deviates)
    low, high, rate = spread.low_frac, spread.high_frac, spread.rate_multiple
    root = sqrt(0.5)
    if abs(rate * (high - low)) < 1e-6:
        return [low + (high - low) * (0.5 + 0.5 * erf(z * root)) for z in deviates]
    if rate > 0:
        least = exp(-rate * (high - low))
        a, b = 0.5 * (1 + least), 0.5 * (1 - least)
        return [high + log(a + b * erf(z * root)) / rate for z in deviates]
    most = exp(rate * (high - low))
    a, b = 0.5 * (1 + most), 0.5 * (most - 1)
    return [low + log(a + b * erf(z * root)) / rate for z in deviates]


def _settle(
    values: list[list[float]], at: list[int], weights: list[float], mean: float, low: float, high: float
) -> None:
    """Move the values of some days toward one end of their range, all by one share of their way, to meet the mean."""
    weight = sum(weights[i] for i in at) * len(values[at[0]])
    total = sum(weights[i] * sum(values[i]) for i in at)
    end = high if total < mean * weight else low
    way = end * weight - total
    if way:
        share = (mean * weight - total) / way
        for i in at:
            values[i] = [v + (end - v) * share for v in values[i]]
