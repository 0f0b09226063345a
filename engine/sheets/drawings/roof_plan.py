"""The roof from above, nose to the left, so that the vehicle's left side is at the bottom."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from markupsafe import Markup

from engine.build.roof import Obstacle
from engine.physics.roof_packing import Rect
from engine.sheets.drawings.scale import cm, length_class, rect_at, text_at
from engine.sheets.templates import render
from engine.sheets.view import Scene
from engine.units import System, show

_AROUND_M = 0.55
"""Room round the roof for dimension lines, in metres of the vehicle."""


_SMALL_M = 0.2
"""Things narrower than this have their letter beside them."""


class Box(NamedTuple):
    """A rectangle in the drawing with its label."""

    rect: Markup
    text: Markup
    label: str
    css: str


class KeyLine(NamedTuple):
    """One line of the list under the drawing."""

    label: str
    text: str
    css: str


class RoofPlan(NamedTuple):
    """All that the drawing shows."""

    length_m: float
    width_m: float
    edge_m: float
    panels: tuple[tuple[str, Rect], ...]
    """Option's name and place, in the order of their numbers."""
    obstacles: tuple[Obstacle, ...]
    troubled: frozenset[Obstacle]
    """Those that stand in each other or over the edge."""
    no_room: tuple[tuple[str, int], ...]
    proven: bool
    units: System


def roof_plan(scene: Scene) -> RoofPlan:
    """What there is to draw of a build's roof."""
    roof = scene.figures.roof
    names = {p.option.id: p.option.name for p in scene.build.parts}
    troubled = {o for pair in roof.clashes for o in pair} | set(roof.outside)
    wanted = {p.option.id: p.count for p in scene.build.parts}
    return RoofPlan(
        length_m=scene.build.vehicle.roof.length_m,
        width_m=scene.build.vehicle.roof.width_m,
        edge_m=scene.build.vehicle.roof.edge_m,
        panels=tuple((names.get(p.key, p.key), Rect(p.x_m, p.y_m, p.length_m, p.width_m)) for p in roof.packing.placed),
        obstacles=roof.obstacles,
        troubled=frozenset(troubled),
        no_room=tuple(
            (names.get(key, key), wanted.get(key, n) - n) for key, n in roof.packing.counts if wanted.get(key, n) > n
        ),
        proven=roof.packing.proven,
        units=scene.build.workshop.units,
    )


def _box(plan: RoofPlan, r: Rect, label: str, css: str) -> Box:
    # y counts from the left edge, which is at the bottom.
    top_m = plan.width_m - r.y_m - r.width_m
    # A letter does not fit into a small thing and stands beside it then.
    small = min(r.length_m, r.width_m) < _SMALL_M
    x_m = r.x_m + r.length_m + 0.14 if small else r.x_m + r.length_m / 2
    return Box(rect_at(r.x_m, top_m, r.length_m, r.width_m), text_at(x_m, top_m + r.width_m / 2), label, css)


def _letter(n: int) -> str:
    return chr(ord("A") + n % 26) * (n // 26 + 1)


def _obstacle_keys(plan: RoofPlan) -> dict[Obstacle, str]:
    return {o: _letter(n) for n, o in enumerate(plan.obstacles)}


def _key(plan: RoofPlan) -> tuple[KeyLine, ...]:
    lines = []
    by_name: dict[str, list[int]] = {}
    for n, (name, _) in enumerate(plan.panels, 1):
        by_name.setdefault(name, []).append(n)
    for name, numbers in by_name.items():
        label = str(numbers[0]) if len(numbers) == 1 else f"{numbers[0]} to {numbers[-1]}"
        if numbers != list(range(numbers[0], numbers[-1] + 1)):
            label = ", ".join(map(str, numbers))
        lines.append(KeyLine(label, name, "panel"))
    for o, letter in _obstacle_keys(plan).items():
        extra = " (no room here)" if o in plan.troubled else ""
        lines.append(KeyLine(letter, o.name + extra, "trouble" if o in plan.troubled else "thing"))
    for name, n in plan.no_room:
        lines.append(KeyLine("✕", f"no room for {n} of {name}", "trouble"))
    return tuple(lines)


@lru_cache(maxsize=512)
def draw(plan: RoofPlan) -> Markup:
    """The figure ``draw-roof``: drawing and key."""
    letters = _obstacle_keys(plan)
    clear = tuple(_box(plan, o.keep_clear, "", "clear") for o in plan.obstacles)
    bodies = tuple(
        _box(plan, o.body, letters[o], "thing trouble" if o in plan.troubled else "thing") for o in plan.obstacles
    )
    panels = tuple(_box(plan, r, str(n), "panel") for n, (_, r) in enumerate(plan.panels, 1))
    edge = _box(
        plan, Rect(plan.edge_m, plan.edge_m, plan.length_m - 2 * plan.edge_m, plan.width_m - 2 * plan.edge_m), "", ""
    )
    length, width = show(plan.length_m, "m", plan.units), show(plan.width_m, "m", plan.units)
    said = [
        f"Roof {length} long and {width} wide, {len(panels)} solar panels placed, {len(bodies)} other things on it."
    ]
    said += [f"No room for {n} of {name}." for name, n in plan.no_room]
    return render(
        "roof_plan",
        view=f"{cm(-0.35)} {cm(-0.25)} {cm(plan.length_m + 0.35 + _AROUND_M)} {cm(plan.width_m + 0.25 + _AROUND_M)}",
        length_class=length_class(plan.length_m + 0.35 + _AROUND_M),
        length_cm=cm(plan.length_m),
        width_cm=cm(plan.width_m),
        middle_x=cm(plan.length_m / 2),
        middle_y=cm(plan.width_m / 2),
        under=cm(plan.width_m + 0.16),
        beside=cm(plan.length_m + 0.16),
        length=length,
        width=width,
        edge=edge,
        clear=clear,
        bodies=bodies,
        panels=panels,
        key=_key(plan),
        description=" ".join(said),
        proven=plan.proven or not plan.no_room,
    )
