"""A trip's energy by the hour in many weather years: how full the battery is, usually and in the poor one in ten."""

from collections.abc import Generator
from functools import lru_cache
from math import ceil, inf
from typing import NamedTuple

from engine.physics.energy_day import DayMaker
from engine.physics.energy_system import DayPlan, EnergySystem
from engine.physics.ranges import within
from engine.physics.slices import drained
from engine.physics.store_hours import run_store
from engine.physics.weather_years import Climate, weather_years

POOR_FRAC = 0.1
"""The poor year: one in ten is as poor or poorer."""


FAN_FRAC = (0.25, 0.75, 0.9)
"""Shares of years that have as much or less, told beside the poor year and the median."""


class EnergyTrip(NamedTuple):
    """A trip in all its weather years. Stored energy counts from the depth of discharge to plan with.

    Energies a day are at the battery's terminals, the mean of all days and years.
    """

    usable_wh: float
    median_stored_wh: tuple[float, ...]
    """After each hour of the trip: half of the years have as much or more."""
    poor_stored_wh: tuple[float, ...]
    """One year in ten has as much or less. Not one year's course: each hour by itself."""
    fan_stored_wh: tuple[tuple[float, ...], ...]
    """The same for each share of ``FAN_FRAC``."""
    median_empty_d: float | None
    """Days until the battery is first empty with something still to feed; None: not on this trip."""
    poor_empty_d: float | None
    """In the poor year."""
    empty_years_frac: float
    """Share of years in which it gets empty."""
    unmet_frac: float
    """Share of the loads that goes unmet, all years together."""
    sun_wh_d: float
    """What the controller offers."""
    other_wh_d: float
    """What alternator and shore charger offer."""
    load_wh_d: float
    """Loads with the inverter's losses."""
    unmet_wh_d: float
    spilled_wh_d: float
    """Offered and not taken: battery full, too cold, or beyond its charge limit."""


def rank(count: int, share_frac: float) -> int:
    """Place, from 0, of the value among ``count`` sorted ones that a share of all (0 to 1) is at or below.

    No value between two is made up. Source: inverse of the empirical distribution (R. Hyndman and Y. Fan, American
    Statistician 50 (1996) 361, type 1).

    >>> rank(200, 0.1), rank(200, 0.5)
    (19, 99)
    """
    return max(0, ceil(within("share_frac", share_frac, 0, 1) * count - 1e-9) - 1)


@lru_cache(maxsize=32)
def simulate_trip(
    climate: Climate,
    system: EnergySystem,
    days: tuple[int, ...],
    plans: tuple[DayPlan, ...],
    years_count: int = 200,
    seed: int = 1,
    start_frac: float = 1.0,
) -> EnergyTrip:
    """Reckon a trip of consecutive ``days`` (of the year, 1 to 365), one plan for each, in many weather years.

    Every hour: sources less loads; a surplus is stored with its losses as far as charge limit, cold and fullness allow,
    a need is taken from the store as far as discharge limit and content allow. start_frac: 0 to 1, stored at the first
    midnight. Hours are by the sundial. Raises OutOfRangeError outside ``check_system``'s and the climate's ranges.
    Source: energy balance; the parts name their sources.

    >>> from engine.physics.energy_system import Store
    >>> from engine.physics.panel_day import PanelGroup
    >>> place = Climate(52.0, (2.5,) * 12, (10.0,) * 12, (0.0,) * 12, (20.0,) * 12)
    >>> system = EnergySystem(Store(1200.0, 600.0, 1200.0), (PanelGroup(200.0),))
    >>> trip = simulate_trip(place, system, tuple(range(80, 84)), (DayPlan(dc_w=(30.0,) * 24),) * 4, 50)
    >>> trip.load_wh_d, trip.median_empty_d, len(trip.poor_stored_wh)
    (720.0, 3.7083333333333335, 96)
    """
    return drained(trip_slices(climate, system, days, plans, years_count, seed, start_frac))


SLICE_DAYS = 300
"""Days of weather between two rests: some 6 ms of a computer, or the twentieth of a second in a browser."""


def trip_slices(
    climate: Climate,
    system: EnergySystem,
    days: tuple[int, ...],
    plans: tuple[DayPlan, ...],
    years_count: int = 200,
    seed: int = 1,
    start_frac: float = 1.0,
) -> Generator[None, None, EnergyTrip]:
    """``simulate_trip`` with rests, for whoever has something else to answer in between; returns the same.

    Source: see ``simulate_trip``.

    >>> from engine.physics.energy_system import Store
    >>> place = Climate(52.0, (2.5,) * 12, (10.0,) * 12, (0.0,) * 12, (20.0,) * 12)
    >>> system = EnergySystem(Store(1200.0, 600.0, 1200.0), ())
    >>> sum(1 for rest in trip_slices(place, system, (80, 81), (DayPlan(dc_w=(30.0,) * 24),) * 2, 200))
    4
    """
    within("start_frac", start_frac, 0, 1)
    weather = weather_years(climate, days, years_count, seed)
    yield
    maker = DayMaker(climate.latitude_deg, system, weather, plans)
    years: list[_Year] = []
    rest_every = max(1, SLICE_DAYS // len(days))
    for clearness, warmer in zip(weather.clearness_frac, weather.warmer_k, strict=True):
        if len(years) % rest_every == 0:
            yield
        years.append(_year(maker, clearness, warmer, start_frac * system.store.usable_wh))
    yield
    return _gathered(system, days, maker, years)


class _Year(NamedTuple):
    stored_wh: list[float]
    emptied_hour: int | None
    sun_wh: float
    load_wh: float
    unmet_wh: float
    spilled_wh: float


def _gathered(system: EnergySystem, days: tuple[int, ...], maker: DayMaker, years: list[_Year]) -> EnergyTrip:
    years_count = len(years)
    span = years_count * len(days)
    other = sum(map(sum, maker.offered_w)) * years_count
    sun, load, unmet = (sum(getattr(y, n) for y in years) for n in ("sun_wh", "load_wh", "unmet_wh"))
    empties = sorted(inf if y.emptied_hour is None else y.emptied_hour / 24 for y in years)
    median_at, poor_at = rank(years_count, 0.5), rank(years_count, POOR_FRAC)
    columns = [sorted(hour) for hour in zip(*(y.stored_wh for y in years), strict=True)]
    return EnergyTrip(
        usable_wh=system.store.usable_wh,
        median_stored_wh=tuple(c[median_at] for c in columns),
        poor_stored_wh=tuple(c[poor_at] for c in columns),
        fan_stored_wh=tuple(tuple(c[rank(years_count, f)] for c in columns) for f in FAN_FRAC),
        median_empty_d=_finite(empties[median_at]),
        poor_empty_d=_finite(empties[poor_at]),
        empty_years_frac=sum(e < inf for e in empties) / years_count,
        unmet_frac=unmet / load if load else 0.0,
        sun_wh_d=sun / span,
        other_wh_d=other / span,
        load_wh_d=load / span,
        unmet_wh_d=unmet / span,
        spilled_wh_d=sum(y.spilled_wh for y in years) / span,
    )


def _year(maker: DayMaker, clearness: tuple[float, ...], warmer: tuple[float, ...], stored_wh: float) -> _Year:
    store = maker.system.store
    course: list[float] = []
    emptied: int | None = None
    sun = load = spilled = unmet = surplus = short = 0.0
    for i, (clear, warm) in enumerate(zip(clearness, warmer, strict=True)):
        gain_wh, sun_wh, load_wh, refused_wh, lacking_wh, _ = maker.gains(i, clear, warm)
        hours, surplus_wh, short_wh, emptied_hour = run_store(store, stored_wh, gain_wh)
        if emptied is None and emptied_hour is not None:
            emptied = len(course) + emptied_hour
        course += hours
        stored_wh = hours[-1]
        sun += sun_wh
        load += load_wh
        spilled += refused_wh
        unmet += lacking_wh
        surplus += surplus_wh
        short += short_wh
    return _Year(
        course, emptied, sun, load, unmet + short * store.discharge_frac, spilled + surplus / store.charge_frac
    )


def _finite(value: float) -> float | None:
    return None if value == inf else value
