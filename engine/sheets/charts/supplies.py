"""Tanks and gas from day to day, each with its band, and days of gas by month."""

from __future__ import annotations

from functools import lru_cache
from math import ceil

from markupsafe import Markup

from engine.build.supplies import Level
from engine.sheets.charts.kit import RIGHT, WIDTH, Key, along, bar, num, path, plot, text
from engine.sheets.charts.scale import EM, LINE_GAP, Scale
from engine.units import MONTHS, System, show

_LEFT = 8.0
_STRIP = 34.0
_ROW = LINE_GAP + _STRIP + 12
_AXIS = 20.0
_BARS = 70.0
_MOST_TOLD_D = 99.5
_NOTHING = Markup('<figure id="{}" hidden></figure>')
_KEY = (
    Key("line", "as worked out"),
    Key("none", "pale: from much use to little; dotted: days wanted"),
)


def _days(level: Level, units: System) -> str:
    if level.days >= _MOST_TOLD_D:
        return "over 99 days"
    ends = (min(99.0, level.low_days), min(99.0, level.high_days))
    low, high = (f"{d:.{0 if d >= 9.95 else 1}f}".removesuffix(".0") for d in ends)
    told = show(level.days, "d", units)
    return f"{told} ({low} to {high}{'' if told.endswith(('day', 'days')) else ' days'})"


def _amount(level: Level, units: System) -> str:
    return f"{level.name}, {show(level.holds, 'kg' if level.name == 'Gas' else 'l', units)}"


def _line(days: float, end: float, fills: bool) -> list[tuple[float, float]]:
    """(day, share full) from the first day to the last one shown."""
    known = [(0.0, 0.0), (min(days, end), min(1.0, end / days)), (end, min(1.0, end / days))]
    return known if fills else [(d, 1 - share) for d, share in known]


def _rows(levels: tuple[Level, ...], wanted_d: float, units: System) -> tuple[list[str], float]:
    """A strip for each level over a common axis of days, and where it ends below."""
    end = max(1.0, float(ceil(wanted_d * 1.25)))
    x, body = Scale(0, end, _LEFT, WIDTH - RIGHT), []
    for i, level in enumerate(levels):
        top = i * _ROW + LINE_GAP + 4
        y = Scale(0, 1, top + _STRIP, top)
        low, usual, high = (
            [(x.at(d), y.at(v)) for d, v in _line(days, end, level.fills)]
            for days in (level.low_days, level.days, level.high_days)
        )
        at = x.at(wanted_d)
        body += [
            text(_LEFT, top - LINE_GAP / 2 - 1, _amount(level, units), "name", "start"),
            text(WIDTH - RIGHT, top - LINE_GAP / 2 - 1, _days(level, units), "axis", "end"),
            path([*low, *reversed(high)], "fan", closed=True),
            f'<path class="grid" d="M{num(_LEFT)} {num(top)}H{num(WIDTH - RIGHT)}"/>',
            f'<path class="zero" d="M{num(_LEFT)} {num(top + _STRIP)}H{num(WIDTH - RIGHT)}"/>',
            path(usual, "line"),
            f'<path class="{"over" if level.days < wanted_d else "wanted"}" d="M{num(at)} {num(top)}v{num(_STRIP)}"/>',
        ]
    bottom = len(levels) * _ROW
    ticks = x.ticks(8)
    body.append(along([(x.at(d), f"{d:g}") for d in ticks if x.at(d) < WIDTH - RIGHT - 45], bottom + 2))
    body.append(text(WIDTH - RIGHT, bottom + 2, f"{end:g} days" if end > 1 else "1 day", "axis", "end"))
    return body, bottom + _AXIS - 8


def _said(levels: tuple[Level, ...], wanted_d: float, units: System) -> str:
    told = (f"{_amount(v, units)}: {'full' if v.fills else 'empty'} after {_days(v, units)}" for v in levels)
    return f"{show(wanted_d, 'd', units)} wanted. {'; '.join(told)}."


@lru_cache(maxsize=64)
def water(levels: tuple[Level, ...], wanted_d: float, units: System) -> Markup:
    """The chart ``water-course``: what empties and what fills from one fill to the next."""
    if not levels:
        return _NOTHING.format("water-course")
    body, height = _rows(levels, wanted_d, units)
    return plot(
        "water-course", "Water from day to day", "Tanks from fill to fill", _said(levels, wanted_d, units), body, _KEY,
        height,
    )  # fmt: skip


@lru_cache(maxsize=64)
def gas(
    level: Level | None, months_d: tuple[float | None, ...], wanted_d: float, chosen: tuple[int, ...], units: System
) -> Markup:
    """The chart ``gas-course``: gas left from hook-up to hook-up, and days of it in each month of the year."""
    if level is None:
        return _NOTHING.format("gas-course")
    body, top = _rows((level,), wanted_d, units)
    top += LINE_GAP
    most = max(1.0, wanted_d * 2, min(d or 0.0 for d in months_d) * 1.5)
    x, y = Scale(0, 12, _LEFT, WIDTH - RIGHT), Scale(0, most, top + LINE_GAP * 2 + _BARS, top + LINE_GAP * 2)
    step = x.at(1) - x.at(0)
    body += [
        text(_LEFT, top + LINE_GAP / 2, "Days of gas by month", "name", "start"),
        f'<path class="wanted" d="M{num(_LEFT)} {num(y.at(wanted_d))}H{num(WIDTH - RIGHT)}"/>',
    ]
    for i, days in enumerate(months_d):
        high = y.start - y.at(min(most, days or 0.0))
        words = "–" if days is None else "99+" if days >= _MOST_TOLD_D else f"{days:.{0 if days >= 9.95 else 1}f}"
        body += [
            bar(x.at(i) + step * 0.2, y.start - high, step * 0.6, high, "load" if i + 1 in chosen else "load tint-3"),
            text(x.at(i + 0.5), y.start - high - EM * 0.65, words, "name"),
            text(x.at(i + 0.5), y.start + LINE_GAP * 0.7, MONTHS[i][0], "name" if i + 1 in chosen else "axis"),
        ]
    each = "; ".join(
        f"{MONTHS[i]} {'none burnt' if d is None else show(min(99.0, d), 'd', units)}" for i, d in enumerate(months_d)
    )
    said = f"{_said((level,), wanted_d, units)} By month: {each}."
    return plot("gas-course", "Gas from day to day", "Gas left, and days of it by month", said, body, _KEY,
                y.start + LINE_GAP * 1.5)  # fmt: skip
