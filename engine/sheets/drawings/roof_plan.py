"""The roof from above, nose to the left, so that the vehicle's left side is at the bottom."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

from markupsafe import Markup

from engine.build.roof_things import Obstacle
from engine.physics.roof_packing import Rect
from engine.sheets.drawings import marks
from engine.sheets.drawings.labels import Area, Wanted, place_labels
from engine.sheets.drawings.roof_shape import RoofShape, outline, roof_shape
from engine.sheets.drawings.roof_shape import lines as rib_lines
from engine.sheets.drawings.scale import cm, em_of
from engine.sheets.view import Scene
from engine.units import MONTHS, System, show

_BEFORE_M, _AROUND_M = 0.35, 0.6
"""Room before the roof, and round the rest for dimension lines, in metres of the vehicle."""
_OFF_M = 0.2
"""Dimension lines run this far from the roof."""


class Panel(NamedTuple):
    """A solar panel in its place."""

    option_id: str
    name: str
    rect: Rect


class RoofPlan(NamedTuple):
    """All that the drawing shows."""

    shape: RoofShape
    shade_month: str
    """Month whose noon shade is drawn, empty without any."""
    panels: tuple[Panel, ...]
    obstacles: tuple[Obstacle, ...]
    troubled: frozenset[Obstacle]
    """Those that stand in each other or over the edge."""
    no_room: tuple[tuple[str, int], ...]
    proven: bool
    numbers: tuple[tuple[str, int], ...]
    """Option ids with their numbers."""
    units: System


def roof_plan(scene: Scene, numbers: dict[str, int]) -> RoofPlan:
    """What there is to draw of a build's roof."""
    roof = scene.figures.roof
    names = {p.option.id: p.option.name for p in scene.build.parts}
    troubled = {o for pair in roof.clashes for o in pair} | set(roof.outside)
    wanted = {p.option.id: p.count for p in scene.build.parts}
    panels = tuple(
        Panel(p.key, names.get(p.key, p.key), Rect(p.x_m, p.y_m, p.length_m, p.width_m)) for p in roof.packing.placed
    )
    shown = {p.option_id for p in panels} | {o.option_id for o in roof.obstacles}
    return RoofPlan(
        shape=roof_shape(scene.build.vehicle.roof, roof),
        shade_month=MONTHS[roof.shade.month - 1] if roof.shade else "",
        panels=panels,
        obstacles=roof.obstacles,
        troubled=frozenset(troubled),
        no_room=tuple(
            (names.get(key, key), wanted.get(key, n) - n) for key, n in roof.packing.counts if wanted.get(key, n) > n
        ),
        proven=roof.packing.proven,
        numbers=tuple((i, n) for i, n in numbers.items() if i in shown),
        units=scene.build.workshop.units,
    )


def _area(plan: RoofPlan, r: Rect) -> Area:
    # y counts from the left edge, which is at the bottom.
    width_m = plan.shape.width_m
    return Area(r.x_m, width_m - r.y_m - r.width_m, r.x_m + r.length_m, width_m - r.y_m)


def _letters(plan: RoofPlan) -> dict[Obstacle, str]:
    """What the bare roof already has is no part of the build and has letters."""
    own = (o for o in plan.obstacles if o.option_id is None)
    return {o: chr(ord("A") + n % 26) * (n // 26 + 1) for n, o in enumerate(own)}


def _key(plan: RoofPlan, letters: dict[Obstacle, str]) -> list[marks.Key]:
    numbers = dict(plan.numbers)
    lines = [marks.Key("trouble" if o in plan.troubled else "", letter, o.name) for o, letter in letters.items()]
    for o in plan.obstacles:
        if o in plan.troubled and o.option_id is not None:
            lines.append(marks.Key("trouble", str(numbers.get(o.option_id, "✕")), f"{o.name} (no room here)"))
    lines += [marks.Key("trouble", "✕", f"no room for {n} of {name}") for name, n in plan.no_room]
    if plan.no_room and not plan.proven:
        lines.append(marks.Key("trouble", "?", "The search for more room stopped before it was sure."))
    return lines + _signs(plan)


def _signs(plan: RoofPlan) -> list[marks.Key]:
    """What lines and tints without a number mean; only those that are drawn."""
    found = []
    if plan.shape.ribs_m or plan.shape.rails_m:
        found.append(marks.Key("", "┊", "ribs and rails: a panel on brackets lies on two"))
    if plan.shape.strips:
        found.append(marks.Key("", "░", f"noon shade in {plan.shade_month}, on one side at a time"))
    if any(o.lid for o in plan.obstacles):
        found.append(marks.Key("", "◿", "opened lid"))
    if any(o.heat for o in plan.obstacles):
        found.append(marks.Key("", "○", "clear of a hot chimney"))
    return found


def _below(plan: RoofPlan) -> Iterator[Markup]:
    """Roof, setback, ribs, shade, and what things keep free; panels and things go on top."""
    shape = plan.shape
    if shape.plain:
        inner = Area(shape.edge_m, shape.edge_m, shape.length_m - shape.edge_m, shape.width_m - shape.edge_m)
        yield marks.rect(Area(0.0, 0.0, shape.length_m, shape.width_m), "roof")
        yield marks.rect(inner, "edge")
    else:
        yield outline(shape, "roof")
        yield outline(shape, "edge", shape.edge_m)
    yield rib_lines(shape)
    for strip in shape.strips:
        yield marks.rect(_area(plan, strip), "shade")
    for o in plan.obstacles:
        yield marks.rect(_area(plan, o.keep_clear), "clear")
    for o in plan.obstacles:
        if o.heat:
            yield marks.rect(_area(plan, o.heat), "heat")
        if o.lid:
            yield marks.rect(_area(plan, o.lid), "lid")


@lru_cache(maxsize=512)
def draw(plan: RoofPlan) -> Markup:
    """The figure ``draw-roof``: drawing and key."""
    length_m, width_m = plan.shape.length_m, plan.shape.width_m
    view = Area(-_BEFORE_M, -0.15, length_m + _AROUND_M, width_m + _AROUND_M)
    em_m = em_of(marks.size_of(view))
    length, width = show(length_m, "m", plan.units), show(width_m, "m", plan.units)
    sizes = (
        marks.across((0.0, length_m), width_m + _OFF_M + em_m / 2, width_m, length, em_m),
        marks.upright((0.0, width_m), length_m + _OFF_M + em_m / 2, length_m, width, em_m),
    )
    letters, numbers = _letters(plan), dict(plan.numbers)
    bodies = [_area(plan, o.body) for o in plan.obstacles]
    panels = [_area(plan, p.rect) for p in plan.panels]
    wanted = [
        Wanted(letters.get(o) or str(numbers.get(o.option_id or "", "")), area)
        for o, area in zip(plan.obstacles, bodies, strict=True)
    ] + [Wanted(str(numbers.get(p.option_id, "")), area) for p, area in zip(plan.panels, panels, strict=True)]
    placed = place_labels(wanted, [s.area for s in sizes], view, em_m, bodies)
    things, named = placed[: len(bodies)], placed[len(bodies) :]
    body = [
        *_below(plan),
        *(marks.part(p.option_id, "panel", marks.rect(a)) for p, a in zip(plan.panels, panels, strict=True)),
        *(
            marks.part(o.option_id, "thing trouble" if o in plan.troubled else "thing", marks.rect(area))
            for o, area in zip(plan.obstacles, bodies, strict=True)
        ),
        *(
            marks.number(o.option_id, "trouble" if o in plan.troubled else "", label, em_m)
            for o, label in zip(plan.obstacles, things, strict=True)
        ),
        *(marks.number(p.option_id, "", label, em_m) for p, label in zip(plan.panels, named, strict=True)),
        Markup('<path class="nose" d="M-8 {}l-14 0m5 -5l-5 5l5 5"/>').format(cm(width_m / 2)),
        *(s.drawn for s in sizes),
    ]
    said = [
        f"Roof {length} long and {width} wide, {len(panels)} solar panels placed, {len(bodies)} other things on it."
    ]
    said += [f"No room for {n} of {name}." for name, n in plan.no_room]
    return marks.figure("roof", "Roof plan", "Roof plan, to scale", " ".join(said), view, body, _key(plan, letters))
