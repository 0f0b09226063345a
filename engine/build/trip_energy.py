"""The trip's energy hour by hour: the slow figures, worked out after the quick ones and in slices.

``energy_slices`` rests often, so that a browser can answer a newer pick in between; ``trip_energy`` runs it to its end.
What was worked out once is remembered, also by a page that shows it again after something else.
"""

from collections import OrderedDict
from collections.abc import Callable, Generator, Hashable
from typing import Generic, TypeVar

from engine.build.energy_changes import Idea, ideas
from engine.build.energy_figures import USUAL, Change, DaySeen, EnergyFigures, Look
from engine.build.energy_inputs import LEAST_DAYS, Asked, asked, asked_in, can_be_asked, days_about
from engine.build.figures import Figures
from engine.build.model import Build
from engine.build.standstill import running_coolers
from engine.catalogue.facets import AirConditioner, SpaceHeater, VentFan, WaterHeater
from engine.physics.energy_system import DayPlan, EnergySystem
from engine.physics.energy_trace import HourBalance, trace_trip
from engine.physics.energy_trip import EnergyTrip, rank, trip_slices
from engine.physics.energy_year import MonthBalance, year_slices
from engine.physics.slices import drained
from engine.physics.weather_years import Climate, weather_years

T = TypeVar("T")
Slices = Generator[None, None, T]

OTHER_MONTHS_YEARS = 40
"""Weather years for each month in which the trip is not made."""

YEAR_YEARS = 10
"""Weather years of living aboard all year round."""


SEEN_YEARS = 20
"""Weather years from which a day to be seen by the hour is taken."""

SETTLED_D = 4
"""Days after the full battery at the start that are not shown: by then it is as full as it usually is."""

SHARE_FRAC = {"usual": 0.5, "dull": 0.1, "bright": 0.9}
"""Share of days with as little sun, or less, as the day of that kind."""


class Kept(Generic[T]):
    """Results of sliced reckonings by what was asked; the oldest go first."""

    def __init__(self, most: int) -> None:
        self._most = most
        self._known: OrderedDict[Hashable, T] = OrderedDict()

    def slices(self, key: Hashable, make: Callable[[], Slices[T]]) -> Slices[T]:
        """The result for a key; a known one comes without a rest, any other begins with one."""
        if key not in self._known:
            yield
            self._known[key] = yield from make()
            if len(self._known) > self._most:
                self._known.popitem(last=False)
        self._known.move_to_end(key)
        return self._known[key]

    def cache_clear(self) -> None:
        """Forget everything."""
        self._known.clear()


_trips: Kept[EnergyTrip] = Kept(96)
_years: Kept[tuple[MonthBalance, ...]] = Kept(16)
_months: Kept[tuple[Asked | None, ...]] = Kept(16)
_days: Kept[tuple[HourBalance, ...]] = Kept(32)


def _trip(a: Asked) -> Slices[EnergyTrip]:
    return _trips.slices(a, lambda: trip_slices(a.climate, a.system, a.days, a.plans, a.years_count))


def _day(build: Build, figures: Figures, look: Look) -> Slices[DaySeen]:
    """The chosen day: of its month's days that whose sky ranks as asked for."""
    power = figures.hardest
    month = look.month or power.sun_month
    own = month == power.sun_month
    a = asked(build, power, figures.roof) if own else asked_in(build, figures.roof, figures.water, month)
    if a is None:
        return DaySeen(month, look.kind, ())
    hours = yield from _days.slices((a, month, look.kind), lambda: _hours(a, month, look))
    return DaySeen(month, look.kind, hours)


def _hours(a: Asked, month: int, look: Look) -> Slices[tuple[HourBalance, ...]]:
    days = days_about(month, LEAST_DAYS)
    sky = weather_years(a.climate, days, SEEN_YEARS).clearness_frac
    yield
    ranked = sorted((sky[y][i], y, i) for y in range(SEEN_YEARS) for i in range(SETTLED_D, len(days)))
    _, year, i = ranked[rank(len(ranked), SHARE_FRAC[look.kind])]
    hours = trace_trip(a.climate, a.system, days, (a.plan,) * len(days), year, SEEN_YEARS)
    return hours[24 * i : 24 * i + 24]


def _year(
    climate: Climate, system: EnergySystem, plans: tuple[DayPlan, ...], usable_wh: tuple[float, ...]
) -> Slices[tuple[MonthBalance, ...]]:
    return _years.slices(
        (climate, system, plans, usable_wh),
        lambda: year_slices(climate, system, plans, YEAR_YEARS, usable_wh=usable_wh),
    )


def _twelve(build: Build, figures: Figures, a: Asked) -> Slices[tuple[Asked | None, ...]]:
    """The trip in each month of the year; None where the battery's content is not known."""
    power, warmth, water, trip = figures.hardest, figures.warmth, figures.water, build.trip
    # Everything that the other months' loads are made from; choices that change none of it need no new look at them.
    key = (
        a, power.all_loads, power.bank, power.inverter, power.converting, warmth.total_w_k, warmth.output_w,
        warmth.burning_w, warmth.floors_comfort, water, trip.cooling, trip.inside_degc, trip.people,
        build.ids(SpaceHeater, WaterHeater, AirConditioner, VentFan),
        tuple(p.option.id for p, _ in running_coolers(build)),
    )  # fmt: skip

    def made() -> Slices[tuple[Asked | None, ...]]:
        months = []
        for month in range(1, 13):
            yield
            months.append(a if month == power.sun_month else asked_in(build, figures.roof, water, month))
        return tuple(months)

    return _months.slices(key, made)


def _worth(a: Asked, before: EnergyTrip, idea: Idea) -> Slices[Change]:
    after = yield from _trip(a._replace(system=idea.system, plan=idea.plan))
    return Change(
        idea.what, idea.option_id, before.median_empty_d, after.median_empty_d, before.unmet_frac, after.unmet_frac
    )


def _telling(slices: Slices[T], known: Callable[[], EnergyFigures | None]) -> Generator[EnergyFigures | None, None, T]:
    """A sliced reckoning to its end; at each of its rests comes what is known by then."""
    while True:
        try:
            next(slices)
        except StopIteration as done:
            result: T = done.value
            return result
        yield known()


def energy_slices(
    build: Build, figures: Figures, look: Look = USUAL
) -> Generator[EnergyFigures | None, None, EnergyFigures | None]:
    """Work out the slow figures part by part, the most wanted first; at each rest comes what is known so far.

    Returns None for a build without loads or without a battery of known content: nothing can be followed there.
    """
    if not can_be_asked(figures.hardest):
        return None
    a = asked(build, figures.hardest, figures.roof)
    known: EnergyFigures | None = None

    def resting(slices: Slices[T]) -> Generator[EnergyFigures | None, None, T]:
        return _telling(slices, lambda: known)

    trip = yield from resting(_trip(a))
    use_wh = figures.hardest.use_wh_d
    known = EnergyFigures(
        days_count=len(a.days),
        years_count=a.years_count,
        trip=trip,
        alone_d=a.system.store.usable_wh / use_wh,
    )
    known = known._replace(day=(yield from resting(_day(build, figures, look))))
    months = yield from resting(_twelve(build, figures, a))
    plans = tuple(m.plan if m else a.plan for m in months)
    # Cold takes from a battery; one colder than its data counts as empty.
    usable = tuple(m.system.store.usable_wh if m else 0.0 for m in months)
    year = yield from resting(_year(a.climate, a.system, plans, usable))
    known = known._replace(year=year)
    lasting: list[float | None] = []
    for other in months:
        if other is None:
            lasting.append(0.0)
        elif other == a:
            lasting.append(trip.median_empty_d)
        else:
            fewer = other._replace(years_count=min(OTHER_MONTHS_YEARS, a.years_count))
            lasting.append((yield from resting(_trip(fewer))).median_empty_d)
    known = known._replace(months_d=tuple(lasting))
    changes = []
    if trip.poor_empty_d is not None:
        for idea in ideas(build, figures.hardest, figures.roof, a):
            changes.append((yield from resting(_worth(a, trip, idea))))
    return known._replace(changes=tuple(sorted(changes, key=lambda c: (-c.days_gained_d, -c.gain))))


def day_slices(
    build: Build, figures: Figures, look: Look
) -> Generator[EnergyFigures | None, None, EnergyFigures | None]:
    """Only another day to be seen, in figures that are known otherwise."""
    if figures.energy is None:
        return None
    energy = figures.energy._replace(day=None)
    return energy._replace(day=(yield from _telling(_day(build, figures, look), lambda: energy)))


def trip_energy(build: Build, figures: Figures) -> EnergyFigures | None:
    """The slow figures of a build, all at once."""
    return drained(energy_slices(build, figures))


def cache_clear() -> None:
    """Forget all trips, years and days, so that their time can be taken anew."""
    for kept in (_trips, _years, _months, _days):
        kept.cache_clear()
