"""Arranging modules by hand: what the page offers beside the floor plan, and what its form sends.

A module stands somewhere; a button or key moves it a step along its wall, to the other side or back to where the
engine would put it; a drag drops it somewhere. All that arrives here as entries of the form, and only here becomes a
move of the enquiry. Steps and grid are the workshop's: 50 mm on a grid of 10 mm, or 2 in on one of 1/2 in.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from math import isfinite
from typing import Any, NamedTuple

from markupsafe import Markup

from engine.build.plan_figures import Placed, PlanFigures
from engine.enquiry.model import Enquiry
from engine.sheets.drawings.floor_plan import where
from engine.sheets.templates import joined, render
from engine.sheets.view import Scene
from engine.units import System

MOVED = "moved."
"""Followed by an option's id: where the buyer wants it, ``"1.25 left"``."""
STANDS = "stands."
"""Followed by an option's id: where it stands now and how far it can go, ``"1.25 left 0.02 3.1"``."""
SHIFT = "shift."
"""Followed by an option's id: steps rearward, ``"other"`` side, or ``"auto"`` for back to the engine's place."""
DROP = "drop."
"""Followed by an option's id: front edge and middle of a dropped module in the bare inside, ``"1.234 0.4"``."""

_MOST_STEPS = 240


class Grid(NamedTuple):
    """How finely things are moved."""

    step_m: float
    snap_m: float


GRIDS: dict[System, Grid] = {"metric": Grid(0.05, 0.01), "us": Grid(0.0508, 0.0127)}


class MoveError(ValueError):
    """An entry that is no move: the field's name."""

    def __init__(self, field: str) -> None:
        super().__init__("A module cannot be moved like that.")
        self.field = field


class Tool(NamedTuple):
    """What moves one module."""

    option_id: str
    number: int
    name: str
    where: str
    stands: str
    side: str
    moved: bool


def stands_text(p: Placed, plan: PlanFigures) -> str:
    """Where a module stands and how far it can go along its wall, for the form."""
    inside = plan.inside
    low_m, high_m = inside.front_m, inside.bare_length_m - inside.rear_m - p.length_m
    return " ".join((f"{p.x_m:.4f}", p.side, f"{low_m:.4f}", f"{max(low_m, high_m):.4f}"))


def tools_for(scene: Scene, plan: PlanFigures, numbered: Mapping[str, int]) -> tuple[Tool, ...]:
    """The tools of every module that can be moved; of several pieces of one option the first is."""
    units, moves = scene.build.workshop.units, scene.enquiry.moves
    return tuple(
        Tool(
            p.option_id, numbered[p.option_id], p.name, where(p, units), stands_text(p, plan), p.side,
            p.option_id in moves,
        )
        for p in plan.day
        if p.movable and p.piece == 0
    )  # fmt: skip


@lru_cache(maxsize=4096)
def _tool(tool: Tool) -> Markup:
    return render("move_tool", t=tool, shift=SHIFT, stands=STANDS)


@lru_cache(maxsize=512)
def tools(all_tools: tuple[Tool, ...], moved: tuple[tuple[str, str], ...]) -> Markup:
    """What stands below the floor plan by day, with the entries that keep the moves in the form."""
    return render(
        "move_tools", tools=joined(_tool(t) for t in all_tools), some=bool(all_tools), moved=moved, name=MOVED
    )


def moved_entries(enquiry: Enquiry) -> tuple[tuple[str, str], ...]:
    """The enquiry's moves as they travel in the form."""
    return tuple((i, f"{m.x_m!r} {m.side}") for i, m in sorted(enquiry.moves.items()))


def _numbers(field: str, texts: list[str]) -> list[float]:
    try:
        values = [float(t) for t in texts]
    except ValueError:
        raise MoveError(field) from None
    if not all(isfinite(v) for v in values):
        raise MoveError(field)
    return values


def _read(field: str, text: str, parts: int) -> tuple[float, str, list[float]]:
    words = text.split()
    if len(words) != parts:
        raise MoveError(field)
    x_m, *rest = _numbers(field, [words[0], *words[2:]])
    return x_m, words[1], rest


def _on_grid(x_m: float, low_m: float, high_m: float, snap_m: float) -> float:
    """On the grid, and between the walls: at either end the module touches the wall, whatever the grid."""
    snapped = round(round(x_m / snap_m) * snap_m, 6)
    return round(min(max(snapped, low_m), high_m), 6)


def moves_from_form(
    moved: Mapping[str, str], stands: Mapping[str, str], shift: Mapping[str, str], drop: Mapping[str, str],
    chosen: Mapping[str, int], bare_width_m: float, system: System,
) -> dict[str, dict[str, Any]]:  # fmt: skip
    """The enquiry's moves after what the form says. Moves of what is not chosen any more are gone.

    Raises MoveError for entries that no page of ours sends.
    """
    grid = GRIDS[system]
    moves: dict[str, dict[str, Any]] = {}
    for option_id, text in moved.items():
        x_m, side, _ = _read(MOVED + option_id, text, 2)
        if side not in ("left", "right"):
            raise MoveError(MOVED + option_id)
        moves[option_id] = {"x_m": x_m, "side": side}
    places = {i: _read(STANDS + i, text, 4) for i, text in stands.items()}
    for option_id, text in shift.items():
        field = SHIFT + option_id
        if text == "auto":
            moves.pop(option_id, None)
            continue
        if option_id not in places:
            raise MoveError(field)
        x_m, side, (low_m, high_m) = places[option_id]
        if text == "other":
            side = "right" if side == "left" else "left"
        else:
            # What the catalogue puts across an end stands at a side wall once it is moved.
            side = "right" if side == "right" else "left"
            (steps,) = _numbers(field, [text])
            if steps != int(steps) or abs(steps) > _MOST_STEPS:
                raise MoveError(field)
            x_m = _on_grid(x_m + steps * grid.step_m, low_m, high_m, grid.snap_m)
        moves[option_id] = {"x_m": x_m, "side": side}
    for option_id, text in drop.items():
        if option_id not in places or len(text.split()) != 2:
            raise MoveError(DROP + option_id)
        x_m, middle_m = _numbers(DROP + option_id, text.split())
        _, _, (low_m, high_m) = places[option_id]
        side = "left" if middle_m < bare_width_m / 2 else "right"
        moves[option_id] = {"x_m": _on_grid(x_m, low_m, high_m, grid.snap_m), "side": side}
    return {i: m for i, m in moves.items() if i in chosen}
