"""Marks that all drawings have: numbered parts, leader lines, dimension lines, and the figure round it all.

Classes and numbers are our own; words and ids are escaped where they enter. Plain f-strings, because a sheet has some
hundred marks and Markup.format takes ten times as long.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from markupsafe import Markup, escape

from engine.sheets.drawings.labels import Area, Label, text_area
from engine.sheets.drawings.scale import cm, length_class, rect_at, text_at
from engine.sheets.templates import joined, render

_PAST_M = 0.05
"""How far extension lines run past their dimension line."""


_NOTHING = Markup("")


class Dimension(NamedTuple):
    """A dimension line with its words, and the room the words take."""

    drawn: Markup
    area: Area


def _turned(text: str, x_m: float, y_m: float, em_m: float) -> Area:
    flat = text_area(text, 0.0, 0.0, em_m)
    return Area(x_m + flat.top_m, y_m + flat.left_m, x_m + flat.bottom_m, y_m + flat.right_m)


def across(x_m: tuple[float, float], at_m: float, from_m: float, text: str, em_m: float) -> Dimension:
    """A level dimension line at height ``at_m`` with extension lines from ``from_m``."""
    left, right, middle = x_m[0], x_m[1], sum(x_m) / 2
    past = at_m + (_PAST_M if at_m > from_m else -_PAST_M)
    begin, end, out = cm(left), cm(right), f"{cm(from_m)}V{cm(past)}"
    drawn = Markup(
        f'<g class="dim"><path d="M{begin} {cm(at_m)}H{end}M{begin} {out}M{end} {out}"/>'
        f"<text {text_at(middle, at_m)}>{escape(text)}</text></g>"
    )
    return Dimension(drawn, text_area(text, middle, at_m, em_m))


def upright(y_m: tuple[float, float], at_m: float, from_m: float, text: str, em_m: float) -> Dimension:
    """An upright dimension line at ``at_m`` with extension lines from ``from_m``; its words are turned."""
    top, bottom, middle = y_m[0], y_m[1], sum(y_m) / 2
    past = at_m + (_PAST_M if at_m > from_m else -_PAST_M)
    begin, end, at, start, out = cm(top), cm(bottom), cm(at_m), cm(from_m), cm(past)
    drawn = Markup(
        f'<g class="dim"><path d="M{at} {begin}V{end}M{start} {begin}H{out}M{start} {end}H{out}"/>'
        f'<text {text_at(at_m, middle)} transform="rotate(-90 {at} {cm(middle)})">{escape(text)}</text></g>'
    )
    return Dimension(drawn, _turned(text, at_m, middle, em_m))


def leader(label: Label, em_m: float) -> Markup:
    """The line from a label to its part, from the edge of the text on; nothing for a label on its part."""
    if label.to is None or label.to == (label.x_m, label.y_m):
        return _NOTHING
    area = text_area(label.text, label.x_m, label.y_m, em_m)
    dx, dy = label.to[0] - label.x_m, label.to[1] - label.y_m
    leaves = [(area.right_m - label.x_m) / abs(dx)] if dx else []
    leaves += [(area.bottom_m - label.y_m) / abs(dy)] if dy else []
    start = min(1.0, *leaves)
    x, y = cm(label.to[0]), cm(label.to[1])
    return Markup(
        f'<path class="leader" d="M{cm(label.x_m + dx * start)} {cm(label.y_m + dy * start)}L{x} {y}"/>'
        f'<circle class="tip" cx="{x}" cy="{y}" r="{cm(em_m / 9)}"/>'
    )


def _tie(option_id: str | None) -> Markup:
    """``data-part`` ties a mark to its line of the parts list."""
    return Markup(f' data-part="{escape(option_id)}"') if option_id else _NOTHING


def part(option_id: str | None, css: str, shape: Markup) -> Markup:
    """A part as it is drawn, without its number."""
    return Markup(f'<g class="part {css}"{_tie(option_id)}>{shape}</g>')


def number(option_id: str | None, css: str, label: Label, em_m: float) -> Markup:
    """A part's number with its leader line. Numbers come after all parts, so that no part covers one."""
    return Markup(
        f'<g class="tag {css}"{_tie(option_id)}>{leader(label, em_m)}'
        f"<text {text_at(label.x_m, label.y_m)}>{escape(label.text)}</text></g>"
    )


def rect(area: Area, css: str = "") -> Markup:
    """A rectangle."""
    size = rect_at(area.left_m, area.top_m, area.right_m - area.left_m, area.bottom_m - area.top_m)
    return Markup(f'<rect class="{css}" {size}/>' if css else f"<rect {size}/>")


def size_of(view: Area) -> int:
    """The length class of a drawing."""
    return length_class(view.right_m - view.left_m, view.bottom_m - view.top_m)


class Key(NamedTuple):
    """One line under a drawing."""

    css: str
    label: Markup | str
    text: str


def figure(
    name: str,
    caption: str,
    title: str,
    description: str,
    view: Area,
    body: Iterable[Markup],
    key: Iterable[Key],
    role: str = "img",
    below: Markup = _NOTHING,
) -> Markup:
    """The element ``draw-<name>``. A drawing with things in it to operate is a group, any other one picture."""
    return render(
        "drawing",
        name=name,
        caption=caption,
        title=title,
        description=description,
        role=role,
        view=f"{cm(view.left_m)} {cm(view.top_m)} {cm(view.right_m - view.left_m)} {cm(view.bottom_m - view.top_m)}",
        size=size_of(view),
        body=joined(b for b in body if b),
        key=tuple(key),
        below=below,
    )
