"""The trip: what is asked, and what the trip then asks of the build."""

from __future__ import annotations

from collections.abc import Collection
from functools import lru_cache
from typing import NamedTuple

from markupsafe import Markup

from engine.catalogue.trip import Trip
from engine.sheets import cargo_form, form
from engine.sheets.figure_text import without_heat
from engine.sheets.notes import Margin
from engine.sheets.templates import render
from engine.sheets.trip_fields import FEET, TripField, feet_and_inches, metres_of, trip_fields
from engine.sheets.view import Scene
from engine.spelling import in_a_row, spelled
from engine.units import MONTHS, System, show

_GROUPS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("Aboard", ("adults", "children", "pets", "tallest_m", "adult_kg", "baggage_kg", "cupboards_kg", "nose_kg")),
    ("How long", ("days_between_fills_d", "days_off_grid_d", "driving_h", "hookup_a", "budget", "height_limit_m")),
    ("Habits", ("showers_per_day", "shower_minutes", "hot_meals_per_day", "computer_h", "inside_degc")),
)


class Entry(NamedTuple):
    """One number as it stands in the form."""

    name: str
    label: str
    unit: str
    value: str
    exact: str
    low: str
    high: str
    whole: bool
    feet: tuple[str, str] | None
    optional: bool


def _entry(field: TripField, value: float | None) -> Entry:
    low, high = field.shown(field.low), field.shown(field.high)
    in_feet = field.unit == FEET
    if value is None:
        return Entry(
            field.name, field.label, field.unit, "", "", low, high, field.whole, ("", "") if in_feet else None, True
        )
    shown = field.shown(value)
    feet = feet_and_inches(value) if in_feet else None
    back = field.si(float(shown))
    if feet:
        back = metres_of(*map(float, feet))
    exact = "" if back == value else repr(value)
    return Entry(field.name, field.label, field.unit, shown, exact, low, high, field.whole, feet, field.optional)


Places = tuple[tuple[str, tuple[tuple[str, str], ...]], ...]


@lru_cache(maxsize=4)
def places(names: tuple[tuple[str, str, str], ...]) -> Places:
    """Places by country from (id, name, region), for the list to choose from; a region ends with its country."""
    countries: dict[str, list[tuple[str, str]]] = {}
    for id_, name, region in names:
        within, _, country = region.rpartition(", ")
        countries.setdefault(country, []).append((id_, f"{name}, {within}" if within else name))
    return tuple((c, tuple(sorted(found, key=lambda p: p[1]))) for c, found in sorted(countries.items()))


@lru_cache(maxsize=256)
def _groups(trip: Trip, system: System, currency: str) -> tuple[tuple[str, tuple[Entry, ...]], ...]:
    fields = trip_fields(system, currency)
    return tuple(
        (
            title,
            tuple(_entry(fields[n], None if (v := getattr(trip, n)) is None else float(v)) for n in names),
        )
        for title, names in _GROUPS
    )


@lru_cache(maxsize=256)
def trip_form(
    trip: Trip, offered: Places, system: System, currency: str, own: cargo_form.OwnBox = cargo_form.UNTYPED
) -> Markup:
    """What is asked, ``trip-form``."""
    return render(
        "trip_form",
        groups=_groups(trip, system, currency),
        places=offered,
        place=trip.place,
        months=tuple((n, m[:3], n in trip.months) for n, m in enumerate(MONTHS, 1)),
        month_order="" if list(trip.months) == sorted(trip.months) else ",".join(map(str, trip.months)),
        cooling=trip.cooling,
        boxes=cargo_form.lines(trip.boxes, system),
        box=cargo_form,
        own=own,
        own_unit=cargo_form.own_unit(system)[0],
        prefix=form.TRIP,
        exact=form.EXACT,
        month_name=form.MONTH,
    )


class Asked(NamedTuple):
    """One line of what the trip asks and what the build has."""

    name: str
    need: str
    have: str


def asked(scene: Scene) -> tuple[Asked, ...]:
    """Daily needs against what is aboard."""
    units = scene.build.workshop.units
    water, power, gas, warmth = scene.figures.water, scene.figures.hardest, scene.figures.gas, scene.figures.warmth
    climate = scene.build.climate
    month = MONTHS[power.sun_month - 1]

    def days(value: float | None, without: str) -> str:
        return without if value is None else show(value, "d", units)

    lines = [
        Asked("Sun", f"{climate.ghi_kwh_m2_d[power.sun_month - 1]:.1f} kWh/m² a day in {month}",
              f"{show(power.sun_wh_d, 'wh_d', units)} from {show(power.panel_w, 'w', units)} of panels"),
        Asked("Electricity", show(power.use_wh_d, "wh_d", units),
              f"{show(power.usable_wh, 'wh', units)} usable, {show(power.driving_wh_d, 'wh_d', units)} from driving"),
        Asked("Fresh water", show(water.use_l_d, "l_d", units),
              f"{show(water.fresh_l, 'l', units)}: {days(water.fresh_days, 'no tank')}"),
        Asked(spelled("Grey water", units), show(water.grey_l_d, "l_d", units),
              days(water.grey_days, "no fresh water" if water.grey_l else "no tank")),
        Asked("Toilet", "", days(water.toilet_days, "no toilet")),
        Asked("Heat, coldest night",
              f"{show(warmth.design_loss_w, 'heat_w', units)} at {show(warmth.design_degc, 'degc', units)}",
              f"{show(warmth.output_w, 'heat_w', units)} of heaters" if warmth.output_w else without_heat(warmth)),
    ]  # fmt: skip
    if gas.uses_gas:
        lasts = days(gas.gas_days, "none used") if gas.gas_kg else "no cylinder"
        lines.append(Asked("Gas", show(gas.gas_kg_d, "kg_d", units), f"{show(gas.gas_kg, 'kg', units)}: {lasts}"))
    if gas.diesel_l_d:
        goes_into = "Diesel for heat" if gas.diesel_heating_l_d else "Diesel for hot water"
        lines.append(Asked(goes_into, show(gas.diesel_l_d, "l_d", units), days(gas.diesel_days, "no diesel tank")))
    return tuple(lines)


def month_words(months: Collection[int]) -> str:
    """Months as people say them, those that follow one another as a stretch.

    >>> month_words((10, 11, 12, 1, 2)), month_words((4, 5, 9)), month_words(range(1, 13))
    ('October to February', 'April, May and September', 'every month')
    """
    if len(set(months)) == len(MONTHS):
        return "every month"
    said: list[str] = []
    for first in range(1, 13):
        if first in months and (first - 2) % 12 + 1 not in months:
            count = next(n for n in range(1, 12) if (first + n - 1) % 12 + 1 not in months)
            names = [MONTHS[(first + n - 1) % 12] for n in range(count)]
            said += names if count < 3 else [f"{names[0]} to {names[-1]}"]
    return in_a_row(said)


def summary(scene: Scene) -> str:
    """The trip in one sentence, for paper and for the page of a finished vehicle: all that the figures rest on."""
    t, units = scene.build.trip, scene.build.workshop.units
    people = f"{t.adults} grown-up{'s' if t.adults != 1 else ''}"
    if t.adult_kg is not None:
        people += f" of {show(t.adult_kg, 'kg', units)}"
    if t.children:
        people += f", {t.children} child{'ren' if t.children != 1 else ''}"
    if t.pets:
        people += f", {t.pets} pet{'s' if t.pets != 1 else ''}"
    months = month_words(t.months)
    habits = [
        f"{show(t.driving_h, 'h', units)} of driving a day",
        f"{_times(t.showers_per_day, 'shower')} of {t.shower_minutes:g} min each a day",
        f"{_times(t.hot_meals_per_day, 'cooked meal')} a day",
    ]
    if t.computer_h:
        habits.append(f"{show(t.computer_h, 'h', units)} of computers a day")
    if t.cooling:
        habits.append("air conditioning on hot days")
    bulky = sum(box.count for box in t.boxes)
    boxes = f"{bulky} bulky thing{'s' if bulky != 1 else ''}; " if bulky else ""
    inside = f"{show(t.cupboards_kg, 'kg', units)} in cupboards; " if t.cupboards_kg else ""
    towed = f"a trailer's nose of {show(t.nose_kg, 'kg', units)}; " if t.nose_kg else ""
    return (
        f"{people}; {scene.build.climate.name} in {months}; {show(t.days_off_grid_d, 'd', units)} between hook-ups, "
        f"{show(t.days_between_fills_d, 'd', units)} between water fills; "
        f"{', '.join(habits)}; {show(t.baggage_kg, 'kg', units)} of baggage; {boxes}{inside}{towed}"
        f"{show(t.inside_degc, 'degc', units)} inside at night."
    )


def _times(number: float, what: str) -> str:
    return f"{f'{number:g}' if number else 'no'} {what}{'s' if number != 1 else ''}"


@lru_cache(maxsize=512)
def trip_out(lines: tuple[Asked, ...], sentence: str, margin: Margin) -> Markup:
    """What the trip asks of the build, ``trip-out``."""
    return render("trip_out", lines=lines, sentence=sentence, margin=margin)
