"""The wiring of a build for those who make it: circuit schedule, one-line diagram, and what it takes."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from markupsafe import Markup

from engine.build import Figures
from engine.build.circuit_asks import Group
from engine.build.circuit_hub import BOARD
from engine.build.circuit_lines import Line
from engine.build.circuits import Bond
from engine.sheets.one_line import one_line
from engine.sheets.templates import joined, render
from engine.sheets.view import Scene
from engine.spelling import begun, spelled
from engine.units import FOOT_M, System

TITLES: dict[Group, str] = {
    "battery": "Battery, inverter and boards",
    "charging": "What charges the battery",
    "loads": "Direct-current loads",
    "mains": "Mains voltage",
}
"""Parts of the schedule, in their order."""

FAULT_WORDS = {
    "no-cable-enough": "no usual cable is enough",
    "cable-too-thin": "the stated cable is too thin",
    "drop-too-large": "the stated cable loses more than it should",
    "fuse-above-cable": "the stated fuse is above what the cable carries",
    "fuse-below-load": "the stated fuse is below the load",
    "fuse-without-margin": "the stated fuse is close to the load",
    "no-fuse-fits": "no usual fuse lies between load and cable",
    "below-least-size": "thinner than the least usual size",
}


class Row(NamedTuple):
    """One line of the schedule, in a reader's words."""

    number: str
    what: str
    way: str
    current: str
    length: str
    cable: str
    drop: str
    fuse: str
    remarks: str
    trouble: bool


def cable_length(length_m: float, system: System) -> str:
    """A cable's length, in feet or metres."""
    return f"{length_m / FOOT_M:,.0f} ft" if system == "us" else f"{length_m:,.1f} m"


def _amps(value: float) -> str:
    return f"{value:.0f} A" if value >= 10 else f"{value:.1f} A"


def _way(x: Line) -> str:
    """From where to where, as far as the circuit's name does not say it."""
    if x.group == "loads" and x.ask.start == BOARD:
        return ""  # most hang there, and the diagram says it too
    if x.ask.end in x.ask.what:
        return f"from {x.ask.start}"
    return f"to {x.ask.end}" if x.ask.start in x.ask.what else f"{x.ask.start} to {x.ask.end}"


def cable_text(x: Line) -> str:
    """A line's cable."""
    if x.size is None:
        return "none found"
    many = f"{x.parallel} × " if x.parallel > 1 else ""
    return f"{many}3 × {x.size}" if x.ask.mains else f"{many}{x.size}"


def fuse_text(x: Line) -> str:
    """A line's fuse, breaker or isolator."""
    if x.ask.device == "isolator":
        return "isolator"
    if x.fuse_a is None:
        return "none fits"
    return f"{x.fuse_a:g} A {x.device}"


@lru_cache(maxsize=4096)
def row(x: Line, system: System) -> Row:
    """One circuit in a reader's words."""
    faults = tuple(FAULT_WORDS[f] for f in x.faults if f in FAULT_WORDS)
    stated = ("as the workshop states it",) if x.ask.conductor or x.ask.fuse_a else ()
    each = ("a fuse on each",) if x.parallel > 1 else ()
    said = ". ".join(begun(s) for s in (*faults, *stated, *each, *x.ask.remarks))
    return Row(
        number=x.number,
        what=x.name,
        way=_way(x),
        current=_amps(x.ask.current_a),
        length=cable_length(x.ask.one_way_m, system),
        cable=cable_text(x),
        drop=f"{x.drop_v:.2f} V, {x.drop_frac * 100:.1f} %" if x.size else "",
        fuse=fuse_text(x),
        remarks=spelled(said, system),
        trouble=bool(faults) or x.unprotected,
    )


@lru_cache(maxsize=4096)
def _row_html(r: Row) -> Markup:
    return render("wiring_row", r=r)


class Taken(NamedTuple):
    """One line of what the wiring takes."""

    what: str
    size: str
    amount: str


def taken(figures: Figures, system: System) -> tuple[Taken, ...]:
    """Cable with its waste, fuses, breakers and lugs."""
    return tuple(
        Taken(
            spelled(begun(n.kind), system),
            n.what,
            str(n.pieces) if n.pieces else cable_length(n.length_m, system),
        )
        for n in figures.circuits.needed
    )


def bonds(figures: Figures, system: System) -> tuple[Bond, ...]:
    """What connects metal parts, in the reader's words."""
    return tuple(b._replace(what=spelled(b.what, system)) for b in figures.circuits.bonds)


def counted(figures: Figures) -> str:
    """What the folded part says of itself."""
    n = sum(x.ask.pieces for x in figures.circuits.lines)
    return "no circuits" if not n else f"{n} circuits"


def notes(figures: Figures, slack: str, system: System) -> tuple[str, ...]:
    """What the schedule takes for granted."""
    c = figures.circuits
    short = (
        "" if c.short_a is None else f" The batteries may give {c.short_a:,.0f} A into a short circuit at their posts."
    )
    said = (
        f"Lengths run along, across and up the body from part to part, plus {slack}; drops count the way back.",
        f"{c.conductor_words}, air of 30 °C (86 °F), 50 °C (122 °F) in the engine's space. Copper at 20 °C (68 °F).",
        "Fuses are a quarter above the load and never above what the cable carries, each at the source of its cable."
        + short,
        "A main switch cuts everything off but what has to stay on. Each circuit is labelled at both ends.",
    )
    return tuple(spelled(x, system) for x in said)


@lru_cache(maxsize=256)
def _table(lines: tuple[Line, ...], system: System) -> Markup:
    groups = []
    for group, title in TITLES.items():
        rows = [_row_html(row(x, system)) for x in lines if x.group == group]
        if rows:
            groups.append((spelled(title, system), joined(rows)))
    return render("wiring_table", groups=groups)


@lru_cache(maxsize=256)
def _rest(
    list_: tuple[Taken, ...],
    bonds: tuple[Bond, ...],
    said: tuple[str, ...],
    table: Markup,
    diagrams: Markup,
    empty: bool,
    system: System,
) -> Markup:
    protection, voltage = (spelled(x, system) for x in ("residual-current device", "mains voltage"))
    return render(
        "wiring", taken=list_, bonds=bonds, notes=said, table=table, diagrams=diagrams, empty=empty,
        protection=protection, voltage=voltage,
    )  # fmt: skip


def wiring(scene: Scene) -> Markup:
    """The part for builders, ``wiring-plan``."""
    figures, system = scene.figures, scene.build.workshop.units
    lines = figures.circuits.lines
    slack = cable_length(scene.build.workshop.wiring.slack_m, system)
    return _rest(
        taken(figures, system), bonds(figures, system), notes(figures, slack, system), _table(lines, system),
        one_line(lines, scene.figures.circuits.trip_a, system), not lines, system,
    )  # fmt: skip


def wiring_fold(scene: Scene) -> Markup:
    """How many circuits, beside the heading of the folded part: ``wiring-count``."""
    return _fold(counted(scene.figures))


@lru_cache(maxsize=64)
def _fold(words: str) -> Markup:
    return Markup('<span class="fold-state" id="wiring-count">{}, for those who build it</span>').format(words)
