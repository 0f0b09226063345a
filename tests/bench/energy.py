"""A fortnight in 200 weather years, and a year in ten, in CPython: against a loop of additions in the same process."""

import time
from collections.abc import Callable
from typing import NamedTuple

from engine.enquiry.climate import load_places
from engine.physics.energy_system import DayPlan, EnergySystem, Store, WarmthLoad
from engine.physics.energy_trip import simulate_trip
from engine.physics.energy_year import simulate_year
from engine.physics.panel_day import PanelGroup, panel_path
from engine.physics.weather_years import Climate, weather_years

ROUNDS = 7

IN_BROWSER = """
import time
from engine import desk
from engine.build import work_out, trip_energy as slow
from engine.build.energy_inputs import asked
from engine.physics.energy_trip import simulate_trip
from engine.physics.panel_day import panel_path
from engine.physics.weather_years import weather_years

def _start():
    resolver = desk._desk.resolver
    build = resolver.resolve(desk.start_enquiry(resolver.catalogue))
    return build, work_out(build)

def _trip_ms():
    build, figures = _start()
    a = asked(build, figures.power, figures.roof)
    taken = []
    for _ in range(5):
        for memo in (simulate_trip, weather_years, panel_path):
            memo.cache_clear()
        began = time.perf_counter()
        simulate_trip(a.climate, a.system, a.days, a.plans, a.years_count)
        taken.append((time.perf_counter() - began) * 1000)
    return min(taken)

def _longest_slice_ms():
    build, figures = _start()
    longest = []
    for _ in range(3):
        slow.cache_clear()
        weather_years.cache_clear()
        panel_path.cache_clear()
        work, taken = slow.energy_slices(build, figures), 0.0
        while True:
            began = time.perf_counter()
            try:
                next(work)
            except StopIteration:
                break
            finally:
                taken = max(taken, (time.perf_counter() - began) * 1000)
        longest.append(taken)
    return min(longest)
"""
"""In the page's own worker: the trip of the build the page opens with, and the longest slice of all slow figures."""


class EnergyTimes(NamedTuple):
    """Milliseconds of processor time, each the least of several rounds with empty memos."""

    trip_ms: float
    year_ms: float
    loop_ms: float
    """A million float additions."""


def energy_times() -> EnergyTimes:
    """Time both ways of reckoning on a usual camper in spring, when batteries get both full and empty."""
    place = load_places()["london"]
    climate = Climate(
        place.latitude_deg, place.ghi_kwh_m2_d, place.mean_degc, place.coldest_night_degc, place.hottest_day_degc,
        place.altitude_m,
    )  # fmt: skip
    evening = tuple(60.0 if h in (7, 8, 19, 20, 21, 22) else 8.0 for h in range(24))
    sockets = tuple(300.0 if h in (8, 19) else 0.0 for h in range(24))
    plan = DayPlan(evening, sockets, tuple(15.0 if w else 0.0 for w in sockets), (*(0.0,) * 10, 350.0, *(0.0,) * 13))
    fridge = WarmthLoad(45.0, 20.0, 0.4, 0.015, 0.1)
    system = EnergySystem(
        Store(2300.0, 1200.0, 2400.0), (PanelGroup(400.0),), controllers_w=(380.0,), by_warmth=(fridge,)
    )
    return EnergyTimes(
        _least_ms(lambda: simulate_trip(climate, system, tuple(range(90, 104)), (plan,) * 14)),
        _least_ms(lambda: simulate_year(climate, system, (plan,) * 12)),
        _least_ms(million_additions),
    )


def _least_ms(what: Callable[[], object]) -> float:
    taken = []
    for _ in range(ROUNDS):
        for memo in (simulate_trip, simulate_year, weather_years, panel_path):
            memo.cache_clear()
        began = time.process_time()
        what()
        taken.append((time.process_time() - began) * 1000)
    return min(taken)


def million_additions() -> float:
    """What times are held against; returns their sum."""
    x = 0.0
    for _ in range(1_000_000):
        x += 1.5
    return x
