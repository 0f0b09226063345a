"""Charts of water and gas and the list of showers, each in its chapter; they come after the answer to a pick."""

from __future__ import annotations

from markupsafe import Markup

from engine.build.supplies import supplies as worked_out
from engine.sheets.book import Book
from engine.sheets.charts.supplies import gas, water
from engine.sheets.hot_showers import hot_showers
from engine.sheets.view import Scene


def supplies(scene: Scene, book: Book) -> dict[str, Markup]:
    """The elements of the charts by their ids; only those that have a chapter."""
    f, trip, units = scene.figures, scene.build.trip, scene.build.workshop.units
    s = worked_out(scene.build, f.warmth, f.water, f.gas.gas_kg)
    drawn = {
        "water-course": water(s.water, trip.days_between_fills_d, units),
        "gas-course": gas(s.gas, s.gas_months_d, trip.days_off_grid_d, trip.months, units),
        "hot-showers": hot_showers(scene),
    }
    return {name: drawn[name] for names in book.charts.values() for name in names if name in drawn}
