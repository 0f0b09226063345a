"""One weather year of a trip in full: what each hour brings, feeds, loses and stores."""

from typing import NamedTuple

from engine.physics.energy_day import DayMaker, HoursNet
from engine.physics.energy_system import DayPlan, EnergySystem
from engine.physics.ranges import within
from engine.physics.store_hours import run_store, wishes
from engine.physics.weather_years import Climate, weather_years


class HourBalance(NamedTuple):
    """One hour. What comes in goes out: sun + alternator + shore = loads + losses + change of the store."""

    sun_wh: float
    """Taken from the panels, before the controller."""
    alternator_wh: float
    """Taken from its charger's output."""
    shore_wh: float
    """Taken from the shore charger's output and, while shore feeds the sockets, by them."""
    load_wh: float
    """Fed to appliances, at their plugs, and to the battery's warmer."""
    loss_wh: float
    """Lost in controller, inverter and battery."""
    change_wh: float
    """What the store gains."""
    stored_wh: float
    """Content at the end of the hour."""
    unmet_wh: float
    """Need at the battery's terminals that is not met; all loads lack the same share."""
    spilled_wh: float
    """Offered at the battery's terminals and not taken. The shore charger backs off first, then the alternator's, the
    sun last (which one really does is a matter of settings)."""


def trace_trip(
    climate: Climate,
    system: EnergySystem,
    days: tuple[int, ...],
    plans: tuple[DayPlan, ...],
    year: int,
    years_count: int = 200,
    seed: int = 1,
    start_frac: float = 1.0,
) -> tuple[HourBalance, ...]:
    """Every hour of one of the weather years of ``simulate_trip`` with the same arguments.

    year: 0 to years_count − 1. Source: energy balance.

    >>> from engine.physics.energy_system import Store
    >>> place = Climate(52.0, (2.5,) * 12, (10.0,) * 12, (0.0,) * 12, (20.0,) * 12)
    >>> hours = trace_trip(place, EnergySystem(Store(1200.0, 600.0, 1200.0)), (80,), (DayPlan(dc_w=(97.0,) * 24),), 0)
    >>> round(hours[0].load_wh, 9), round(hours[0].loss_wh, 9), round(hours[0].change_wh, 9)
    (97.0, 3.0, -100.0)
    """
    within("year", year, 0, years_count - 1)
    within("start_frac", start_frac, 0, 1)
    weather = weather_years(climate, days, years_count, seed)
    maker = DayMaker(climate.latitude_deg, system, weather, plans)
    stored = start_frac * system.store.usable_wh
    hours: list[HourBalance] = []
    for i, (clear, warm) in enumerate(zip(weather.clearness_frac[year], weather.warmer_k[year], strict=True)):
        day = maker.hours(i, clear, warm)
        course = run_store(system.store, stored, wishes(system.store, day.net_w, day.locked).gain_wh).stored_wh
        for hour, after in enumerate(course):
            hours.append(_balance(system, plans[i], day, hour, stored, after))
            stored = after
    return tuple(hours)


def _balance(
    system: EnergySystem, plan: DayPlan, day: HoursNet, hour: int, before_wh: float, after_wh: float
) -> HourBalance:
    store, change = system.store, after_wh - before_wh
    sun, alternator, shore = day.sun_w[hour], plan.alternator_w[hour], plan.shore_w[hour]
    need, net = day.load_w[hour], day.net_w[hour]
    fed_by_shore = plan.shore_feeds_ac and shore > 0
    ac = plan.ac_w[hour]
    inverter_loss = 0.0 if fed_by_shore else ac / system.inverter_frac - ac + plan.idle_w[hour]
    taken = change / store.charge_frac if change > 0 else 0.0
    given = -change * store.discharge_frac if change < 0 else 0.0
    spilled = max(0.0, net - taken) if net > 0 else 0.0
    unmet = max(0.0, -net - given) if net < 0 else 0.0
    met = 1 - unmet / need if need > 0 else 1.0
    left = spilled
    off = min(shore, left)
    shore, left = shore - off, left - off
    off = min(alternator, left)
    alternator, left = alternator - off, left - off
    sun -= min(sun, left)
    passed = ac if fed_by_shore else 0.0
    into_controller = sun / system.controller_frac
    battery_loss = taken - change if change > 0 else -change - given
    return HourBalance(
        sun_wh=into_controller,
        alternator_wh=alternator,
        shore_wh=shore + passed,
        load_wh=met * (need - inverter_loss) + passed,
        loss_wh=into_controller - sun + met * inverter_loss + battery_loss,
        change_wh=change,
        stored_wh=after_wh,
        unmet_wh=unmet,
        spilled_wh=spilled,
    )
