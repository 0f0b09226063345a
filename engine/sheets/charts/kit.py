"""What all charts have: frame, grid, axes, marks, and the figure round them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from markupsafe import Markup, escape

from engine.sheets.charts.scale import Energy, Scale, spaced
from engine.sheets.templates import render

WIDTH = 360.0
HEIGHT = 190.0
LEFT, RIGHT, TOP, BOTTOM = 40.0, 10.0, 18.0, 24.0


class Key(NamedTuple):
    """One line under a chart: the mark's style, and what it is."""

    css: str
    text: str


def num(value: float) -> str:
    """A place in the drawing."""
    text = f"{value:.1f}"
    return text[:-2] if text.endswith(".0") else text


def text(x: float, y: float, words: str, css: str = "", anchor: str = "middle") -> str:
    """A text; ``anchor`` start, middle or end."""
    cls = f' class="{css}"' if css else ""
    at = "" if anchor == "middle" else f' text-anchor="{anchor}"'
    return f'<text{cls} x="{num(x)}" y="{num(y)}"{at}>{escape(words)}</text>'


def bar(x: float, y: float, width: float, height: float, css: str) -> str:
    """A rectangle; one without size is left out."""
    if width <= 0.05 or height <= 0.05:
        return ""
    return f'<rect class="{css}" x="{num(x)}" y="{num(y)}" width="{num(width)}" height="{num(height)}"/>'


def path(points: Sequence[tuple[float, float]], css: str, closed: bool = False) -> str:
    """A line through points, or the area that it goes round. A point on a level stretch is left out."""
    kept = [
        p for i, p in enumerate(points)
        if i in (0, len(points) - 1) or not abs(points[i - 1][1] - p[1]) < 0.02 > abs(points[i + 1][1] - p[1])
    ]  # fmt: skip
    return f'<path class="{css}" d="M{"L".join(f"{num(x)} {num(y)}" for x, y in kept)}{"Z" if closed else ""}"/>'


def grid(y: Scale, most: int, unit: Energy, name: str) -> str:
    """Level lines with their values at the left, and the unit above them."""
    parts = [text(LEFT - 5, TOP - 8, unit.unit, "axis", "end")] if unit.unit else []
    if name:
        parts.append(text(LEFT, TOP - 8, name, "axis", "start"))
    for value in y.ticks(most):
        at = y.at(value)
        css = "zero" if value == 0 else "grid"
        parts.append(f'<path class="{css}" d="M{num(LEFT)} {num(at)}H{num(WIDTH - RIGHT)}"/>')
        parts.append(text(LEFT - 5, at, unit.text(value), "axis", "end"))
    return "".join(parts)


def along(places: list[tuple[float, str]], y: float) -> str:
    """Words along the lower axis, as many as have room."""
    return "".join(text(x, y, words, "axis") for x, words in spaced(places))


def quiet(sentences: Iterable[str]) -> Markup:
    """Sentences below a chart; nothing without any."""
    words = " ".join(sentences)
    return Markup('<p class="quiet">{}</p>').format(words) if words else Markup("")


def plot(
    name: str, caption: str, title: str, description: str, body: Iterable[str], key: Iterable[Key] = (),
    height: float = HEIGHT, below: Markup | str = "",
) -> Markup:  # fmt: skip
    """The element of the id ``name``."""
    return render(
        "chart", name=name, caption=caption, title=title, description=description, width=num(WIDTH),
        height=num(height), body=Markup("\n".join(b for b in body if b)), key=tuple(key), below=below,
    )  # fmt: skip


def without(name: str, caption: str, words: str, height: float = HEIGHT, below: Markup | str = "") -> Markup:
    """The chart's place with words in it: nothing to show, or not yet."""
    body = [
        f'<rect class="empty" x="0.5" y="{num(TOP)}" width="{num(WIDTH - 1)}" height="{num(height - TOP - 2)}"/>',
        text(WIDTH / 2, (height + TOP) / 2, words, "axis"),
    ]
    return plot(name, caption, caption, words, body, height=height, below=below)
