"""Weather as drawn: the table's means exactly, spread and persistence as asked for, the same every time."""

from itertools import pairwise
from math import isclose

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.enquiry.climate import load_places
from engine.physics.air import WAVE_FRAC, month_air
from engine.physics.clearness import clearness_frac, clearness_spread, month_clearness_frac
from engine.physics.ranges import OutOfRangeError
from engine.physics.solar_position import daily_extraterrestrial_kwh_m2_d, sun_on
from engine.physics.sun_day import DAYS_IN_MONTH, light_hours, sun_day
from engine.physics.weather_years import Climate, month_of, weather_years

PLACES = load_places()
BEGIN = [sum(DAYS_IN_MONTH[:m]) for m in range(12)]


def climate(place):
    p = PLACES[place]
    return Climate(p.latitude_deg, p.ghi_kwh_m2_d, p.mean_degc, p.coldest_night_degc, p.hottest_day_degc, p.altitude_m)


def month_days(month):
    return tuple(range(BEGIN[month] + 1, BEGIN[month] + 1 + DAYS_IN_MONTH[month]))


@pytest.mark.parametrize("place", ["london", "helsinki", "tucson", "sydney", "bogota", "northway"])
@pytest.mark.parametrize("month", [0, 3, 6, 11])
def test_over_all_years_sun_and_warmth_are_the_tables(place, month):
    at, days = climate(place), month_days(month)
    years = weather_years(at, days, 40, 3)
    above = [daily_extraterrestrial_kwh_m2_d(at.latitude_deg, sun_on(d)) for d in days]
    sums = [sum(k * h for k, h in zip(year, above, strict=True)) for year in years.clearness_frac]
    assert sum(sums) / 40 / len(days) == pytest.approx(at.ghi_kwh_m2_d[month], rel=1e-9)
    assert sum(map(sum, years.warmer_k)) == pytest.approx(0, abs=1e-7)
    # Single years differ, or they would be no weather.
    assert max(sums) > 1.03 * min(sums)


def test_before_they_are_settled_the_draws_meet_the_table_within_half_a_percent():
    # The settling must be a small correction: with many years the draws come close by themselves.
    for mean in (0.2, 0.35, 0.5, 0.65, 0.75):
        spread = clearness_spread(mean)
        draws = [clearness_frac(spread, (n + 0.5) / 4000) for n in range(4000)]
        assert sum(draws) / 4000 == pytest.approx(mean, rel=1e-4)


@given(st.floats(0.15, 0.78))
def test_the_spread_has_its_mean_and_keeps_its_range(mean):
    spread = clearness_spread(mean)
    quantiles = [clearness_frac(spread, n / 20) for n in range(21)]
    assert quantiles[0] == pytest.approx(spread.low_frac, abs=1e-6)
    assert quantiles[-1] == pytest.approx(spread.high_frac, abs=1e-9)
    assert all(a < b for a, b in pairwise(quantiles))


def test_clear_days_tend_to_follow_clear_days():
    from statistics import NormalDist, correlation

    days = month_days(4)
    years = weather_years(climate("london"), days, 400, 5)
    spread = years.months[0].spread
    low, high, rate = spread.low_frac, spread.high_frac, spread.rate_multiple

    def deviate(k):
        from math import exp

        share = (exp(rate * (k - low)) - 1) / (exp(rate * (high - low)) - 1)
        return NormalDist().inv_cdf(min(max(share, 1e-9), 1 - 1e-9))

    pairs = [(deviate(a), deviate(b)) for year in years.clearness_frac for a, b in pairwise(year)]
    assert correlation(*zip(*pairs, strict=True)) == pytest.approx(0.29, abs=0.03)
    warm = [pair for year in years.warmer_k for pair in pairwise(year)]
    assert correlation(*zip(*warm, strict=True)) == pytest.approx(0.7, abs=0.03)


@pytest.mark.parametrize("place", PLACES)
def test_every_place_of_the_table_has_weather(place):
    at = climate(place)
    years = weather_years(at, tuple(range(1, 366, 5)), 10)
    for i, day in enumerate(years.days):
        month = month_of(day) - 1
        spread, air = years.months[i]
        assert spread.low_frac <= min(y[i] for y in years.clearness_frac)
        assert max(y[i] for y in years.clearness_frac) <= spread.high_frac
        hours = [
            at.mean_degc[month] + y[i] + air.swing_k * w
            for y in years.warmer_k
            for w in (min(WAVE_FRAC), max(WAVE_FRAC))
        ]
        assert min(hours) >= at.coldest_night_degc[month] - 1e-9
        assert max(hours) <= at.hottest_day_degc[month] + 1e-9


def test_the_same_seed_gives_the_same_weather():
    at = climate("denver")
    first = weather_years(at, (10, 11, 12), 20, 7)
    weather_years.cache_clear()
    assert weather_years(at, (10, 11, 12), 20, 7) == first
    assert weather_years(at, (10, 11, 12), 20, 8) != first


def test_new_year_is_no_end():
    years = weather_years(climate("sydney"), (364, 365, 1, 2), 4)
    assert [m.air.mean_degc for m in years.months] == [PLACES["sydney"].mean_degc[m] for m in (11, 11, 0, 0)]


def test_a_polar_night_is_dark_and_no_error():
    at = Climate(75.0, (0.0, 0.3, *[2.0] * 8, 0.0, 0.0), (-10.0,) * 12, (-20.0,) * 12, (0.0,) * 12)
    years = weather_years(at, (350, 351), 4)
    assert years.clearness_frac == ((0.0, 0.0),) * 4
    assert sun_day(75.0, 350).hours == ()


def test_what_cannot_be_weather_raises():
    at = climate("london")
    for days, count in (((), 10), (tuple([1] * 401), 10), ((1,), 0), ((0,), 10), ((366,), 10), ((1,), 2002)):
        with pytest.raises(OutOfRangeError):
            weather_years(at, days, count)
    with pytest.raises(ValueError, match="odd"):
        weather_years(at, (1,), 3)
    with pytest.raises(OutOfRangeError):
        # More sun than a cloudless month has.
        weather_years(at._replace(ghi_kwh_m2_d=(9.0,) * 12), (1,), 10)
    for low, high in ((0.1, 0.8), (float("nan"), float("inf"))):
        for mean in (low, high):
            with pytest.raises(OutOfRangeError):
                clearness_spread(mean)
    with pytest.raises(OutOfRangeError):
        month_clearness_frac(50.0, -1.0, 3)
    for values in ((46, 0, 50, 0.5), (10, 11, 20, 0.5), (10, 0, 9, 0.5), (10, 0, 20, 0.8)):
        with pytest.raises(OutOfRangeError):
            month_air(*values)


@given(st.floats(-66, 66), st.integers(1, 365), st.floats(0.05, 0.85))
def test_a_days_hours_add_up_and_none_is_more_than_comes_from_space(latitude, day, clear):
    sun = sun_day(latitude, day)
    light = light_hours(sun, clear)
    total = sum(h.global_w_m2 for h in light) / 1000
    assert isclose(total, clear * sun.extraterrestrial_kwh_m2_d, rel_tol=1e-9, abs_tol=1e-12)
    above = sum(h.level_extraterrestrial_w_m2 for h in sun.hours) / 1000
    assert isclose(above, sun.extraterrestrial_kwh_m2_d, rel_tol=1e-9, abs_tol=1e-9)
    for hour, lit in zip(sun.hours, light, strict=True):
        assert 0 <= lit.diffuse_w_m2 <= lit.global_w_m2 <= 1.2 * hour.level_extraterrestrial_w_m2 + 1e-9
