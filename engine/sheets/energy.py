"""The energy part of a sheet: words and charts on the trip hour by hour, with placeholders until it is known."""

from __future__ import annotations

from functools import lru_cache

from markupsafe import Markup

from engine.build.energy_figures import Change, DaySeen, EnergyFigures
from engine.build.energy_inputs import can_be_asked
from engine.sheets.charts import course, hours, kit, months, share
from engine.sheets.day_form import MEANING, WORDS, day_choice
from engine.sheets.figure_text import WORKING
from engine.sheets.templates import render
from engine.sheets.view import Scene
from engine.units import MONTHS, System, show

_CHANGES = 3
"""So many changes are told, the one that helps most first."""


def energy(scene: Scene) -> dict[str, Markup]:
    """The elements of the energy part by their ids."""
    power, e = scene.figures.hardest, scene.figures.energy
    units = scene.build.workshop.units
    month = MONTHS[power.sun_month - 1]
    loads = tuple(share.Part(x.name, x.energy_wh_d) for x in power.loads)
    together = tuple(share.Part(x.name, x.power_w) for x in power.demand.together)
    parts = {
        "energy-share": share.share(loads, units),
        "energy-limit": share.limit(together, power.inverter_w, units),
    }
    choice = day_choice(scene.look, power.sun_month)
    if e is None:
        why = WORKING if can_be_asked(power) else _nothing(scene)
        return parts | {
            "energy-words": _words((), (), why),
            "energy-course": kit.without("energy-course", course.CAPTION, why),
            "energy-hours": kit.without("energy-hours", hours.CAPTION, why, below=choice),
            "energy-months": kit.without("energy-months", months.CAPTION, why),
        }
    trip = scene.build.trip
    waiting = "" if e.complete else WORKING
    alone = e.sun_alone_frac
    return parts | {
        "energy-words": _words(_told(e, units), _helps(e, units), waiting),
        "energy-course": course.course(e.trip, e.days_count, e.years_count, trip.days_off_grid_d, month, units),
        "energy-hours": _hours(e.day, units, choice),
        "energy-months": kit.without("energy-months", months.CAPTION, WORKING)
        if e.year is None or alone is None
        else months.months(e.year, e.months_d, e.days_count, trip.months, alone, units),
    }


def _hours(day: DaySeen | None, units: System, choice: Markup) -> Markup:
    if day is None or not day.hours:
        why = "Not known how much the battery holds in such cold." if day else WORKING
        return kit.without("energy-hours", hours.CAPTION, why, below=choice)
    return hours.hours(day.hours, WORDS[day.kind], MEANING[day.kind], MONTHS[day.month - 1], units, choice)


def _nothing(scene: Scene) -> str:
    power = scene.figures.hardest
    if not power.use_wh_d:
        return "Nothing takes power."
    return "Not known how much the battery holds." if power.usable_wh is None else "No house battery to follow."


def _told(e: EnergyFigures, units: System) -> tuple[str, ...]:
    told = []
    if e.trip.empty_years_frac == 1:
        half = "" if e.trip.median_empty_d is None else f"half of them within {show(e.trip.median_empty_d, 'd', units)}"
        told.append(
            f"In every year the battery runs empty{f', in {half}' if half else f' within {e.days_count} days'}."
        )
    elif e.trip.empty_years_frac:
        told.append(
            f"In {round(e.trip.empty_years_frac * e.years_count)} of {e.years_count} years the battery runs empty "
            f"within {e.days_count} days."
        )
    else:
        told.append(f"In none of {e.years_count} years does the battery run empty within {e.days_count} days.")
    told.append(f"The battery alone, without sun and driving, holds {show(e.alone_d, 'd', units)}.")
    if e.sun_alone_frac is not None:
        told.append(f"The sun alone covers {show(e.sun_alone_frac, 'frac', units)} of the days of a whole year.")
    return tuple(told)


def _days(days: float | None, e: EnergyFigures, units: System) -> str:
    return f"more than {e.days_count} days" if days is None else show(days, "d", units)


def _change(c: Change, e: EnergyFigures, units: System) -> str:
    if c.before_d is None:
        was, now = (show(f, "frac", units, 1) for f in (c.before_unmet_frac, c.after_unmet_frac))
        return f"{c.what}: {now} of all power goes missing instead of {was}"
    return f"{c.what}: {_days(c.after_d, e, units)} instead of {_days(c.before_d, e, units)}"


def _helps(e: EnergyFigures, units: System) -> tuple[str, ...]:
    return tuple(_change(c, e, units) for c in (e.changes or ())[:_CHANGES] if c.helps)


@lru_cache(maxsize=64)
def _words(told: tuple[str, ...], helps: tuple[str, ...], waiting: str) -> Markup:
    return render("energy_words", told=told, helps=helps, waiting=waiting)
