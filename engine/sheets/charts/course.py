"""How full the battery is over the trip, hour by hour: usual year and poor year, and the days wanted."""

from __future__ import annotations

from functools import lru_cache

from markupsafe import Markup

from engine.physics.energy_trip import EnergyTrip
from engine.sheets.charts.kit import BOTTOM, HEIGHT, LEFT, RIGHT, TOP, WIDTH, Key, along, grid, path, plot, text
from engine.sheets.charts.scale import LINE_GAP, Scale, energy_unit, text_width
from engine.units import System, show

CAPTION = "Battery over the trip"


def _empty(days: float | None, count: int, units: System) -> str:
    return f"not empty within {count} days" if days is None else f"empty after {show(days, 'd', units)}"


@lru_cache(maxsize=64)
def course(trip: EnergyTrip, days_count: int, years_count: int, wanted_d: float, month: str, units: System) -> Markup:
    """The chart ``energy-course``."""
    x = Scale(0, days_count, LEFT, WIDTH - RIGHT)
    y = Scale(0, trip.usable_wh, HEIGHT - BOTTOM, TOP)

    def points(hours: tuple[float, ...]) -> list[tuple[float, float]]:
        return [(x.at(0), y.at(trip.usable_wh)), *((x.at((h + 1) / 24), y.at(v)) for h, v in enumerate(hours))]

    usual, poor = points(trip.median_stored_wh), points(trip.poor_stored_wh)
    low, high, best = map(points, trip.fan_stored_wh)
    at = x.at(min(wanted_d, days_count))
    days = show(wanted_d, "d", units)
    label = f"wanted: {days}"
    side = "start" if at + text_width(label) + 4 < WIDTH - RIGHT else "end"
    # Where the battery is still more than half full, the lower half of the chart is free for words.
    content = trip.poor_stored_wh[min(len(trip.poor_stored_wh) - 1, int(24 * wanted_d))]
    words_y = HEIGHT - BOTTOM - LINE_GAP / 2 if content > trip.usable_wh / 2 else TOP + LINE_GAP / 2
    body = [
        path([*best, *reversed(poor)], "fan-poor", closed=True),
        path([*high, *reversed(low)], "fan", closed=True),
        grid(y, 4, energy_unit(trip.usable_wh), "stored, of the usable part"),
        path(poor, "line-poor"),
        path(usual, "line"),
        f'<path class="wanted" d="M{at:.1f} {TOP}V{HEIGHT - BOTTOM}"/>',
        text(at + (4 if side == "start" else -4), words_y, label, "name", side),
        along([(x.at(d), f"{d:g}") for d in x.ticks(14)], HEIGHT - BOTTOM / 2),
        text(WIDTH - RIGHT, TOP - 8, "days", "axis", "end"),
    ]
    said = (
        f"From a full battery of {show(trip.usable_wh, 'wh', units)} usable, {days_count} days in {month}, "
        f"{years_count} weather years. Usual year: {_empty(trip.median_empty_d, days_count, units)}. "
        f"Poor year of ten: {_empty(trip.poor_empty_d, days_count, units)}."
    )
    key = (
        Key("line", f"usual year: {_empty(trip.median_empty_d, days_count, units)}"),
        Key("line-poor", f"poor year of ten: {_empty(trip.poor_empty_d, days_count, units)}"),
        Key("fan", "the middle half of all years"),
        Key("fan-poor", "eight years in ten"),
    )
    return plot("energy-course", f"{CAPTION}, {month}", "State of charge over the trip", said, body, key)
