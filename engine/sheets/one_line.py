"""The one-line diagram: a line stands for both conductors. Three sheets, so that each is readable on a telephone.

Each branch has a row of its own on a trunk that runs down, with its protection on it and its words beside it, so no
label can meet another one.
"""

from __future__ import annotations

from functools import lru_cache
from textwrap import wrap

from markupsafe import Markup, escape

from engine.build.circuit_hub import BOARD, BUS, CONVERTED_BOARD
from engine.build.circuit_lines import Line
from engine.build.circuits_battery import EACH_BATTERY, MAIN_CABLE
from engine.build.circuits_mains import AHEAD, BREAKER_BOARD
from engine.sheets.templates import render
from engine.spelling import begun, spelled
from engine.units import System

WIDTH = 400
TRUNK, FUSE, TEXT = 16, 44, 96
"""Across: the trunk, the middle of a branch's protection, and where its words begin."""
LINE_PX, GAP_PX = 15, 9
MOST_TRIP_A = 0.03
"""Residual current of the protection that is drawn where none is stated."""

LETTERS = 42
"""So many letters of the usual sizes fit beside a branch."""


def _text(x: float, y: float, words: str, css: str = "") -> str:
    return f'<text{f" class={chr(34)}{css}{chr(34)}" if css else ""} x="{x:g}" y="{y:g}">{escape(words)}</text>'


def _short(x: Line) -> str:
    """A branch's protection and cable."""
    cable = "no cable found" if x.size is None else x.cable_words
    if x.ask.device == "isolator":
        return f"isolator · {cable}"
    fuse = "no fuse fits" if x.fuse_a is None else f"{x.fuse_a:g} A {x.device}"
    return f"{fuse} · {cable}"


class _Sheet:
    """A sheet while it is being drawn, from top to bottom."""

    def __init__(self) -> None:
        self.y = 8.0
        self.body: list[str] = []
        self.trunk_from: float | None = None
        self.said: list[str] = []

    def _words(self, lines: list[str]) -> float:
        """Words beside the row; returns the middle of its first line."""
        first = self.y + LINE_PX / 2 + 1
        for i, line in enumerate(lines):
            self.body.append(_text(TEXT, first + i * LINE_PX, line, "" if i == 0 or line is not lines[-1] else "soft"))
        self.y += len(lines) * LINE_PX + GAP_PX
        return first

    def _named(self, x: Line) -> float:
        """A circuit's name, protection and cable beside the row, and in the description."""
        name = f"{x.number} {x.name}"
        self.said.append(f"{name}: {_short(x)}")
        return self._words([*wrap(name, LETTERS), _short(x)])

    def head(self, words: str) -> None:
        """A node that the trunk below it hangs on."""
        self.end_trunk()
        first = self.y + 7
        self.body.append(f'<path class="bus" d="M4 {first:g}H{TRUNK + 16}"/>')
        self.body.append(_text(TRUNK + 24, first, words, "strong"))
        self.y += LINE_PX + GAP_PX
        self.trunk_from = first
        self.last = first

    def branch(self, x: Line, back: bool) -> None:
        """A circuit off the trunk; ``back``: power comes in on it."""
        at = self._named(x)
        self.body.append(f'<path d="M{TRUNK} {at:g}H{TEXT - 14}"/>')
        self._device(x, FUSE, at)
        tip = TEXT - 14
        arrow = f"M{FUSE + 22} {at:g}l8 -4v8z" if back else f"M{tip} {at:g}l-8 -4v8z"
        self.body.append(f'<path class="tip" d="{arrow}"/>')
        self.last = at

    def through(self, x: Line) -> None:
        """A circuit that is the trunk itself, its protection on it."""
        at = self._named(x)
        self._device(x, TRUNK, at + 4, upright=True)
        self.last = at + 12

    def mark(self, words: str, symbol: str) -> None:
        """A switch or a residual-current device on the trunk."""
        at = self._words([words])
        self.body.append(f'<rect class="box" x="{TRUNK - 9}" y="{at - 7:g}" width="18" height="14"/>')
        self.body.append(f'<text class="in" x="{TRUNK}" y="{at:g}">{symbol}</text>')
        self.last = at + 7
        self.said.append(words)

    def _device(self, x: Line, across: float, at: float, upright: bool = False) -> None:
        css = "box trouble" if x.size is None or x.unprotected else "box"
        w, h = (8, 18) if upright else (20, 9)
        self.body.append(f'<rect class="{css}" x="{across - w / 2:g}" y="{at - h / 2:g}" width="{w}" height="{h}"/>')
        if x.ask.device == "fuse":
            way = f"M{across:g} {at - h / 2:g}v{h}" if upright else f"M{across - w / 2:g} {at:g}h{w}"
        else:
            way = f"M{across - w / 2:g} {at + h / 2:g}l{w} {-h}"
        self.body.append(f'<path d="{way}"/>')

    def end_trunk(self) -> None:
        """The trunk as far as its last branch, drawn under everything."""
        if self.trunk_from is not None and self.last > self.trunk_from:
            self.body.insert(0, f'<path class="trunk" d="M{TRUNK} {self.trunk_from:g}V{self.last:g}"/>')
        self.trunk_from = None

    def drawn(self, name: str, caption: str) -> Markup:
        """The finished sheet."""
        self.end_trunk()
        return render(
            "one_line", name=name, caption=caption, width=WIDTH, height=round(self.y + 4),
            title=f"One-line diagram: {caption}", description=". ".join(self.said) + ".",
            body=Markup("\n".join(self.body)),
        )  # fmt: skip


def _battery(lines: list[Line]) -> Markup:
    sheet = _Sheet()
    main = [x for x in lines if x.group == "battery" and x.ask.what in (EACH_BATTERY, MAIN_CABLE)]
    sheet.head(main[0].ask.start if main else "House battery")
    for x in main:
        sheet.through(x)
    sheet.mark("Main switch", "S")
    sheet.head("Busbars")
    for x in lines:
        if x in main or BUS not in (x.ask.start, x.ask.end) or x.group == "loads":
            continue
        sheet.branch(x, back=x.ask.end == BUS)
    sources = [x for x in lines if x.group == "charging" and x.ask.end != BUS]
    if sources:
        sheet.head("Chargers")
        for x in sources:
            sheet.branch(x, back=True)
    return sheet.drawn("battery", "battery and charging")


def _loads(lines: list[Line]) -> Markup | None:
    outputs = [x for x in lines if x.group == "battery" and x.ask.end in (BOARD, CONVERTED_BOARD)]
    starts = dict.fromkeys(x.ask.start for x in lines if x.group == "loads")
    if not starts:
        return None
    sheet = _Sheet()
    for start in sorted(starts):
        sheet.head(begun(start))
        for x in outputs:
            if x.ask.end == start:
                sheet.branch(x, back=True)
        for x in lines:
            if x.group == "loads" and x.ask.start == start:
                sheet.branch(x, back=False)
    return sheet.drawn("loads", "direct-current loads")


def _mains(lines: list[Line], trip_a: float | None, system: System) -> Markup | None:
    mains = [x for x in lines if x.group == "mains"]
    if not mains:
        return None
    sheet = _Sheet()
    feeds = [x for x in mains if x.ask.end == BREAKER_BOARD]
    if feeds:
        sheet.head("Hook-up and inverter, one at a time")
        for x in feeds:
            sheet.branch(x, back=True)
    else:
        sheet.head(spelled("Mains voltage", system))
    protection = spelled(f"Residual-current device, {(trip_a or MOST_TRIP_A) * 1000:g} mA", system)
    sheet.mark(protection, "R")
    sheet.head("Breaker board")
    ahead = [x for x in mains if x.ask.start == AHEAD]
    for x in mains:
        if x not in feeds and x not in ahead:
            sheet.branch(x, back=False)
    if ahead:
        sheet.head("Hook-up only, ahead of the change-over")
        sheet.mark(protection, "R")
        for x in ahead:
            sheet.branch(x, back=False)
    return sheet.drawn("mains", spelled("mains voltage", system))


@lru_cache(maxsize=128)
def one_line(lines: tuple[Line, ...], trip_a: float | None, system: System) -> Markup:
    """All sheets of the diagram, side by side where there is room."""
    every = list(lines)
    if not every:
        return Markup("")
    battery = _battery(every) if any(x.group == "battery" for x in every) else None
    sheets = (battery, _loads(every), _mains(every, trip_a, system))
    return Markup("\n").join(s for s in sheets if s is not None)
