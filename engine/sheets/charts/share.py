"""What empties the battery: each load's share of a day, and the loads that meet the inverter's limit."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from markupsafe import Markup

from engine.sheets.charts.kit import RIGHT, WIDTH, Key, bar, num, plot, text, without
from engine.sheets.charts.scale import EM, LINE_GAP, Scale, text_width
from engine.units import System, show

SHARE, LIMIT = "What empties the battery", "Together on the inverter"
MOST = 7
_ROW = LINE_GAP + 14
_TINTS = 5


class Part(NamedTuple):
    """One load and what it takes."""

    name: str
    amount: float


def _shortened(name: str, room: float) -> str:
    if text_width(name) <= room:
        return name
    return name[: max(1, int(room / text_width("x")) - 1)].rstrip(" ,") + "…"


def _rows(parts: tuple[Part, ...]) -> list[Part]:
    """The largest by themselves, the rest as one."""
    if len(parts) <= MOST:
        return list(parts)
    rest = parts[MOST - 1 :]
    return [*parts[: MOST - 1], Part(f"{len(rest)} others", sum(p.amount for p in rest))]


def bars(parts: tuple[Part, ...], unit: str, units: System) -> tuple[list[str], float]:
    """A bar for each part in the given order with amount and share, and the height they take."""
    total = sum(p.amount for p in parts)
    rows = _rows(parts)
    x = Scale(0, max(p.amount for p in rows), 0, WIDTH - RIGHT)
    body = []
    for i, p in enumerate(rows):
        top = 4 + i * _ROW
        value = f"{show(p.amount, unit, units)}, {show(p.amount / total, 'frac', units)}"
        room = WIDTH - RIGHT - text_width(value) - EM
        body += [
            text(0, top + EM / 2, _shortened(p.name, room), "name", "start"),
            text(WIDTH - RIGHT, top + EM / 2, value, "axis", "end"),
            bar(0, top + LINE_GAP, x.at(p.amount), 7, "load"),
        ]
    return body, 8 + len(rows) * _ROW


@lru_cache(maxsize=64)
def share(parts: tuple[Part, ...], units: System) -> Markup:
    """The chart ``energy-share``: a bar for each load, largest first. parts: Wh a day at the battery."""
    if not parts:
        return without("energy-share", SHARE, "Nothing takes power.")
    body, height = bars(parts, "wh", units)
    said = f"{show(sum(p.amount for p in parts), 'wh', units)} a day at the battery: " + "; ".join(
        f"{p.name} {show(p.amount, 'wh', units)}" for p in parts
    )
    return plot("energy-share", SHARE, "Share of each load", f"{said}.", body, height=height)


@lru_cache(maxsize=64)
def limit(parts: tuple[Part, ...], limit_w: float, units: System) -> Markup:
    """The chart ``energy-limit``: loads that plausibly run together, in one bar against what the inverter gives."""
    if not limit_w:
        return without("energy-limit", LIMIT, "No inverter.", 60)
    total = sum(p.amount for p in parts)
    x = Scale(0, max(total, limit_w) * 1.02, 0, WIDTH - RIGHT)
    body, left = [], 0.0
    for i, p in enumerate(parts):
        width = x.at(p.amount)
        body.append(bar(left, 22, max(0.0, width - 1), 18, f"load tint-{i % _TINTS}"))
        left += width
    at = x.at(limit_w)
    words = f"limit {show(limit_w, 'w', units)}"
    side = "end" if at > text_width(words) + 8 else "start"
    body += [
        f'<path class="{"wanted" if total <= limit_w else "over"}" d="M{num(at)} 4V46"/>',
        text(at + (-5 if side == "end" else 5), 10, words, "name", side),
        text(0, 54, f"together {show(total, 'w', units)}", "axis", "start"),
    ]
    key = [Key(f"load tint-{i % _TINTS}", f"{p.name} {show(p.amount, 'w', units)}") for i, p in enumerate(parts)]
    listed = ", ".join(f"{p.name} {show(p.amount, 'w', units)}" for p in parts) or "nothing"
    said = f"The inverter gives {show(limit_w, 'w', units)}; together {show(total, 'w', units)}: {listed}."
    return plot("energy-limit", LIMIT, "Loads that meet the inverter's limit", said, body, key, height=62)
