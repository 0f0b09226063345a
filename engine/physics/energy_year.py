"""A whole year's energy, month by month: what the sun brings, what is lacking, and how often the sun alone suffices."""

from collections.abc import Generator
from functools import lru_cache
from typing import NamedTuple

from engine.physics.energy_day import DayMaker
from engine.physics.energy_system import NONE, DayPlan, EnergySystem
from engine.physics.ranges import within
from engine.physics.slices import drained
from engine.physics.store_hours import run_store
from engine.physics.sun_day import DAYS_IN_MONTH
from engine.physics.weather_years import Climate, weather_years

_BEGIN = tuple(sum(DAYS_IN_MONTH[:m]) for m in range(12))

YEAR_DAYS = tuple(
    _BEGIN[m] + (5 if day < 10 else 15 if day < 20 else 25) for m in range(12) for day in range(DAYS_IN_MONTH[m])
)
"""The sun of the 5th, 15th and 25th stands for the third of the month about it: 36 paths instead of 365. A month's sun
differs by at most 1 %."""


REST_EVERY_DAYS = 90
"""Days between two rests of ``year_slices``: the first year, in which each date's sun is worked out, is slow."""


class MonthBalance(NamedTuple):
    """A month of the year, the mean of its days in all weather years; energies at the battery's terminals."""

    sun_wh_d: float
    """What the controller offers."""
    other_wh_d: float
    """What alternator and shore charger offer."""
    load_wh_d: float
    unmet_wh_d: float
    spilled_wh_d: float
    met_days_frac: float
    """Share of days on which every load is met."""
    sun_alone_frac: float
    """Share of days on which the sun by itself puts back what the day's loads take, with all losses on the way."""
    clipped_wh_d: tuple[float, ...]
    """What the panels would have brought beyond each controller's output limit."""


@lru_cache(maxsize=32)
def simulate_year(
    climate: Climate,
    system: EnergySystem,
    plans: tuple[DayPlan, ...],
    years_count: int = 10,
    seed: int = 1,
    usable_wh: tuple[float, ...] = (),
) -> tuple[MonthBalance, ...]:
    """Live aboard all year, for many weather years: twelve months, January first.

    The battery is full at the first midnight of January and is carried from day to day. plans: one for each month.
    usable_wh: what the battery gives in each month, 0 to 1,000,000; none: the system's all year. From month to month
    the same share of it stays stored.
    Source: see ``simulate_trip``; "sun alone" has no alternator, no shore, and the battery's efficiency both ways.

    >>> from engine.physics.energy_system import Store
    >>> from engine.physics.panel_day import PanelGroup
    >>> ghi = (0.6, 1.3, 2.5, 3.6, 4.9, 5.2, 5.0, 4.3, 3.0, 1.6, 0.8, 0.5)
    >>> place = Climate(52.0, ghi, (10.0,) * 12, (0.0,) * 12, (20.0,) * 12)
    >>> system = EnergySystem(Store(1200.0, 600.0, 1200.0), (PanelGroup(300.0),))
    >>> year = simulate_year(place, system, (DayPlan(dc_w=(20.0,) * 24),) * 12, 2)
    >>> year[5].sun_alone_frac > 0.6, year[11].sun_alone_frac < 0.1
    (True, True)
    """
    return drained(year_slices(climate, system, plans, years_count, seed, usable_wh))


def year_slices(
    climate: Climate,
    system: EnergySystem,
    plans: tuple[DayPlan, ...],
    years_count: int = 10,
    seed: int = 1,
    usable_wh: tuple[float, ...] = (),
) -> Generator[None, None, tuple[MonthBalance, ...]]:
    """``simulate_year`` with rests, for whoever has something else to answer; returns the same.

    Source: see ``simulate_year``.

    >>> from engine.physics.energy_system import Store
    >>> ghi = (0.6, 1.3, 2.5, 3.6, 4.9, 5.2, 5.0, 4.3, 3.0, 1.6, 0.8, 0.5)
    >>> place = Climate(52.0, ghi, (10.0,) * 12, (0.0,) * 12, (20.0,) * 12)
    >>> system = EnergySystem(Store(1200.0, 600.0, 1200.0), ())
    >>> sum(1 for rest in year_slices(place, system, (DayPlan(dc_w=(30.0,) * 24),) * 12, 4)) >= 4
    True
    """
    if len(plans) != 12:
        raise ValueError(f"{len(plans)} plans for 12 months")
    weather = weather_years(climate, YEAR_DAYS, years_count, seed)
    months = [m for m in range(12) for _ in range(DAYS_IN_MONTH[m])]
    yield
    maker = DayMaker(climate.latitude_deg, system, weather, tuple(plans[m] for m in months))
    yield
    alone_plans = tuple(plan._replace(alternator_w=NONE, shore_w=NONE) for plan in plans)
    alone = DayMaker(climate.latitude_deg, system, weather, tuple(alone_plans[m] for m in months))
    # Without other sources a plan is the same: no need to reckon its days twice.
    same = [plan == bare for plan, bare in zip(plans, alone_plans, strict=True)]
    stores = [system.store._replace(usable_wh=u) for u in usable_wh or (system.store.usable_wh,) * 12]
    if len(stores) != 12:
        raise ValueError(f"{len(stores)} battery contents for 12 months")
    for one in stores:
        within("usable_wh", one.usable_wh, 0, 1e6)
    sums = [[0.0] * (6 + len(system.controllers_w)) for _ in range(12)]
    for clearness, warmer in zip(weather.clearness_frac, weather.warmer_k, strict=True):
        full_frac, before, stored_wh = 1.0, -1, 0.0
        for i, (month, clear, warm) in enumerate(zip(months, clearness, warmer, strict=True)):
            if i % REST_EVERY_DAYS == 0:
                yield
            store = stores[month]
            if month != before:
                if before >= 0 and stores[before].usable_wh:
                    full_frac = stored_wh / stores[before].usable_wh
                before, stored_wh = month, full_frac * store.usable_wh
            day = maker.gains(i, clear, warm)
            done = run_store(store, stored_wh, day.gain_wh)
            stored_wh = done.stored_wh[-1]
            unmet = day.lacking_wh + done.short_wh * store.discharge_frac
            by_sun = sum(day.gain_wh if same[month] else alone.gains(i, clear, warm).gain_wh)
            row = sums[month]
            row[0] += day.sun_wh
            row[1] += day.load_wh
            row[2] += unmet
            row[3] += day.refused_wh + done.surplus_wh / store.charge_frac
            row[4] += unmet <= UNMET_WH
            row[5] += by_sun >= -UNMET_WH
            for unit, clipped_wh in enumerate(day.clipped_wh, 6):
                row[unit] += clipped_wh
    balances = []
    for month, (sun, load, unmet, spilled, met, enough, *clipped) in enumerate(sums):
        span = DAYS_IN_MONTH[month] * years_count
        plan = plans[month]
        other = sum(plan.alternator_w) + sum(plan.shore_w)
        balances.append(
            MonthBalance(
                sun / span,
                other,
                load / span,
                unmet / span,
                spilled / span,
                met / span,
                enough / span,
                tuple(c / span for c in clipped),
            )
        )
    return tuple(balances)


UNMET_WH = 1e-6
"""Up to this a day counts as met: rounding."""
