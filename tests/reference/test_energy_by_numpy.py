"""The whole trip reckoned a second time with numpy, in small steps of other code, on fifty seeded cases."""

import random

import pytest

from engine.enquiry.climate import load_places
from engine.physics.air import WAVE_FRAC
from engine.physics.energy_system import NONE, DayPlan, EnergySystem, Store, WarmthLoad
from engine.physics.energy_trip import FAN_FRAC, simulate_trip
from engine.physics.panel_day import STEP_FRAC, PanelGroup, panel_day, panel_path
from engine.physics.weather_years import Climate, weather_years

np = pytest.importorskip("numpy")
pytestmark = pytest.mark.reference

PLACES = load_places()
YEARS = 20


def case(seed):
    rnd = random.Random(seed)
    p = PLACES[rnd.choice(sorted(PLACES))]
    place = Climate(p.latitude_deg, p.ghi_kwh_m2_d, p.mean_degc, p.coldest_night_degc, p.hottest_day_degc)

    def some(most, share):
        return tuple(rnd.uniform(0, most) if rnd.random() < share else 0.0 for _ in range(24))

    store = Store(
        rnd.uniform(500, 6000), rnd.uniform(100, 1500), rnd.uniform(150, 2500), rnd.uniform(0.85, 1),
        rnd.uniform(0.85, 1), rnd.choice((-20.0, 0.0, 5.0)), rnd.choice((-70.0, 10.0)), rnd.choice((0.0, 0.4)),
        rnd.choice((0.0, 1.5)), rnd.choice((0.0, 30.0)),
    )  # fmt: skip
    panels = tuple(
        PanelGroup(
            rnd.uniform(50, 600), -0.0035, rnd.choice(("raised", "glued")), rnd.choice((0.0, 25.0)), 180.0, unit=unit
        )
        for unit in range(rnd.randint(0, 2))
    )
    fridge = WarmthLoad(rnd.uniform(20, 70), 20.0, rnd.uniform(0.2, 0.5), rnd.uniform(0.005, 0.03), 0.08, 0.9, -5.0)
    limits_w = (rnd.uniform(100, 900), rnd.uniform(100, 900))
    system = EnergySystem(store, panels, 0.95, limits_w, 0.88, (fridge,) if seed % 3 else ())
    first, count = rnd.randint(1, 350), rnd.randint(3, 14)
    quiet = DayPlan(some(80, 0.6), some(600, 0.1), (6.0,) * 24)
    plans = tuple(
        quiet._replace(alternator_w=some(500, 0.1), shore_w=some(700, 0.1) if rnd.random() < 0.3 else NONE)
        for _ in range(count)
    )
    return place, system, tuple(range(first, first + count)), plans, rnd.uniform(0.2, 1)


def recomputed(place, system, days, plans, start_frac, seed):
    """(stored Wh by year and hour, sun, load, unmet, spilled of all years in Wh)."""
    weather = weather_years(place, days, YEARS, seed)
    clear, warm = np.array(weather.clearness_frac), np.array(weather.warmer_k)
    wave, store = np.array(WAVE_FRAC), system.store
    stored = np.full(YEARS, start_frac * store.usable_wh)
    course, sums = [], np.zeros(4)
    for i, (day, plan) in enumerate(zip(days, plans, strict=True)):
        spread, air = weather.months[i]
        swing = air.swing_k * clear[:, i] / spread.mean_frac if spread else np.full(YEARS, air.swing_k)
        degc = (air.mean_degc + warm[:, i])[:, None] + swing[:, None] * wave
        path = panel_path(place.latitude_deg, day, system.panels, system.wind_m_s)
        grid = np.arange(spread.low_frac, 0.95, STEP_FRAC) if spread else np.array([0.0])
        rows = [panel_day(path, k, air, spread.mean_frac if spread else 0.0) for k in grid]
        sun = np.zeros((2, YEARS, 24))
        slope = np.interp(clear[:, i], grid, [r.warmer_frac_k for r in rows])
        for h in range(path.first, path.last):
            for unit in range(max((g.unit for g in system.panels), default=0) + 1):
                watts = [(r.units_w or (r.power_w,))[unit][h - path.first] for r in rows]
                sun[unit, :, h] = np.interp(clear[:, i], grid, watts) * (1 + warm[:, i] * slope)
        sun = sum(np.minimum(s * system.controller_frac, w) for s, w in zip(sun, system.controllers_w, strict=True))
        alternator, shore = np.array(plan.alternator_w), np.array(plan.shore_w)
        sockets = np.where(shore > 0, 0.0, np.array(plan.ac_w) / system.inverter_frac + np.array(plan.idle_w))
        load = np.tile(np.array(plan.dc_w) + sockets, (YEARS, 1))
        for f in system.by_warmth:
            duty = f.duty_frac + f.duty_frac_k * (np.maximum(degc, f.least_degc) - f.at_degc)
            load += f.power_w * np.clip(duty, f.least_frac, f.most_frac)
        offered = sun + alternator + shore
        cells = (air.mean_degc + warm[:, i] + store.cells_warmer_k)[:, None] + store.cells_swing_frac * swing[
            :, None
        ] * wave
        cold = np.maximum(cells, store.cells_least_degc) < store.min_charge_degc
        warms = cold & (offered > store.warmer_w) & (store.warmer_w > 0)
        load += warms * store.warmer_w
        net = offered - load
        for h in range(24):
            n = net[:, h]
            limit = np.where(cold[:, h] & ~warms[:, h], 0.0, store.charge_w)
            rate = np.minimum(np.maximum(n, 0), limit) * store.charge_frac
            missing = store.usable_wh - stored
            if store.taper_h:
                bound = rate * store.taper_h
                with np.errstate(divide="ignore", invalid="ignore"):
                    until = np.clip(np.where(rate > 0, (missing - bound) / rate, 1.0), 0.0, 1.0)
                full_rate = rate * until
                left = missing - full_rate
                gain = np.where(rate > 0, full_rate + left * (1 - np.exp(-(1 - until) / store.taper_h)), 0.0)
            else:
                gain = np.minimum(rate, missing)
            wanted = np.minimum(np.maximum(-n, 0), store.discharge_w)
            given = np.minimum(wanted, stored * store.discharge_frac)
            stored = stored + gain - given / store.discharge_frac
            course.append(stored)
            sums[2] += (np.maximum(-n, 0) - given).sum()
            sums[3] += (np.maximum(n, 0) - gain / store.charge_frac).sum()
        sums[:2] += sun.sum(), load.sum()
    return np.array(course), sums


@pytest.mark.parametrize("seed", range(50))
def test_the_trip_reckoned_twice(seed):
    place, system, days, plans, start = case(seed)
    trip = simulate_trip(place, system, days, plans, YEARS, seed, start)
    course, sums = recomputed(place, system, days, plans, start, seed)
    assert np.array(trip.median_stored_wh) == pytest.approx(
        np.percentile(course, 50, axis=1, method="inverted_cdf"), rel=1e-6, abs=1e-6
    )
    assert np.array(trip.poor_stored_wh) == pytest.approx(
        np.percentile(course, 10, axis=1, method="inverted_cdf"), rel=1e-6, abs=1e-6
    )
    for share, hours in zip(FAN_FRAC, trip.fan_stored_wh, strict=True):
        again = np.percentile(course, 100 * share, axis=1, method="inverted_cdf")
        assert np.array(hours) == pytest.approx(again, rel=1e-6, abs=1e-6)
    found = np.array([trip.sun_wh_d, trip.load_wh_d, trip.unmet_wh_d, trip.spilled_wh_d]) * YEARS * len(days)
    assert found == pytest.approx(sums, rel=1e-6, abs=1e-5)


def test_the_cases_reach_every_limit():
    trips = [simulate_trip(*case(seed)[:4], YEARS, seed, case(seed)[4]) for seed in range(50)]
    assert any(t.empty_years_frac == 1 for t in trips)
    assert any(t.empty_years_frac == 0 for t in trips)
    assert any(0 < t.empty_years_frac < 1 for t in trips)
    assert any(t.spilled_wh_d > 1 for t in trips)
