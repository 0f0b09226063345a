"""Twelve months: what the loads take, what sun and driving bring, and how long the battery lasts in each."""

from __future__ import annotations

from functools import lru_cache

from markupsafe import Markup

from engine.physics.energy_year import MonthBalance
from engine.sheets.charts.kit import HEIGHT, LEFT, RIGHT, TOP, WIDTH, Key, bar, grid, num, plot, text
from engine.sheets.charts.scale import LINE_GAP, Scale, energy_unit
from engine.units import MONTHS, System, show

CAPTION = "Twelve months"
_ROWS = 3 * LINE_GAP + 6


def _days(days: float | None, count: int) -> str:
    return f"{count}+" if days is None else f"{days:.0f}" if days >= 9.95 else f"{days:.1f}"


@lru_cache(maxsize=64)
def months(
    year: tuple[MonthBalance, ...],
    months_d: tuple[float | None, ...] | None,
    days_count: int,
    chosen: tuple[int, ...],
    sun_alone_frac: float,
    units: System,
) -> Markup:
    """The chart ``energy-months``; its numbers below are days until empty, and days that the sun alone covers."""
    bottom = HEIGHT - _ROWS
    most = max(1.0, *(max(m.load_wh_d, m.sun_wh_d + m.other_wh_d) for m in year))
    x, y = Scale(0, 12, LEFT, WIDTH - RIGHT), Scale(0, most * 1.05, bottom, TOP)
    step = x.at(1) - x.at(0)
    body = [grid(y, 4, energy_unit(most), "a day")]
    for i, m in enumerate(year):
        left, mid = x.at(i), x.at(i + 0.5)
        sun, other, load = (bottom - y.at(v) for v in (m.sun_wh_d, m.other_wh_d, m.load_wh_d))
        body += [
            bar(left + step * 0.12, bottom - sun, step * 0.5, sun, "sun"),
            bar(left + step * 0.12, bottom - sun - other, step * 0.5, other, "engine"),
            bar(left + step * 0.66, bottom - load, step * 0.22, load, "load"),
            text(mid, bottom + LINE_GAP * 0.6, MONTHS[i][0], "name" if i + 1 in chosen else "axis"),
            text(mid, bottom + LINE_GAP * 1.7, _days(months_d[i], days_count) if months_d else "…", "axis"),
            text(mid, bottom + LINE_GAP * 2.7, f"{m.sun_alone_frac * 100:.0f}", "axis"),
        ]
    body += [
        text(LEFT - 5, bottom + LINE_GAP * 1.7, "days", "axis", "end"),
        text(LEFT - 5, bottom + LINE_GAP * 2.7, "sun %", "axis", "end"),
        f'<path class="zero" d="M{num(LEFT)} {num(bottom)}H{num(WIDTH - RIGHT)}"/>',
    ]
    key = (
        Key("sun", "sun"), Key("engine", "driving"), Key("load", "loads"),
        Key("none", "days: until empty in a usual year; sun %: days that the sun alone covers"),
    )  # fmt: skip
    each = "; ".join(
        f"{MONTHS[i]}: loads {show(m.load_wh_d, 'wh_d', units)}, sun {show(m.sun_wh_d, 'wh_d', units)}, driving "
        f"{show(m.other_wh_d, 'wh_d', units)}, sun alone on {show(m.sun_alone_frac, 'frac', units)} of days"
        + (f", {_days(months_d[i], days_count)} days until empty" if months_d else "")
        for i, m in enumerate(year)
    )
    said = f"The sun alone covers {show(sun_alone_frac, 'frac', units)} of the year's days. {each}."
    return plot("energy-months", CAPTION, "Balance of twelve months", said, body, key)
