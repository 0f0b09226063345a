"""The roof's outline from above, and what lies under and over it: ribs, rails and noon shade."""

from __future__ import annotations

from typing import NamedTuple

from markupsafe import Markup

from engine.build.roof import RoofFigures, narrowing_of, rib_lines_m
from engine.catalogue.roof import Roof
from engine.physics.roof_outline import Widths, width_at_m
from engine.physics.roof_packing import Rect
from engine.sheets.drawings.scale import cm


class RoofShape(NamedTuple):
    """A roof's outline with its lines and its shade."""

    length_m: float
    width_m: float
    edge_m: float
    corner_radius_m: float
    narrowing: Widths
    ribs_m: tuple[float, ...]
    rails_m: tuple[float, ...]
    strips: tuple[Rect, ...]
    """Noon shade, cut off at the roof's rectangle."""

    @property
    def plain(self) -> bool:
        """Whether it is just a rectangle."""
        return not self.narrowing and self.corner_radius_m == 0


def roof_shape(roof: Roof, figures: RoofFigures) -> RoofShape:
    """What there is to draw of it; reinforcements' ribs and rails included."""
    strips = figures.shade.strips if figures.shade else ()
    return RoofShape(
        roof.length_m,
        roof.width_m,
        roof.edge_m,
        min(roof.corner_radius_m, roof.width_m / 2),
        narrowing_of(roof),
        tuple(sorted({*figures.space.ribs_m, *rib_lines_m(roof)})),
        figures.space.rails_m,
        tuple(c for c in (_cut(s, roof.length_m, roof.width_m) for s in strips) if c.length_m > 0 and c.width_m > 0),
    )


def _cut(r: Rect, length_m: float, width_m: float) -> Rect:
    x, y = max(0.0, r.x_m), max(0.0, r.y_m)
    return Rect(x, y, min(length_m, r.x_m + r.length_m) - x, min(width_m, r.y_m + r.width_m) - y)


def outline(shape: RoofShape, css: str, edge_m: float = 0.0) -> Markup:
    """The outline as a path, ``edge_m`` inside the roof's own."""
    radius = max(0.0, shape.corner_radius_m - edge_m)
    front, rear = edge_m, shape.length_m - edge_m
    turns = [x for x, _ in shape.narrowing if front + radius < x < rear - radius]
    side = [(x, _inset(shape, x) + edge_m) for x in (front + radius, *turns, rear - radius)]
    first, last = side[0][1], side[-1][1]
    across = shape.width_m
    arc = f"A{cm(radius)} {cm(radius)} 0 0 1 "

    def to(x: float, y: float) -> str:
        return f"{cm(x)} {cm(y)}"

    way = [f"M{to(front, first + radius)}"]
    way += [(arc if radius else "L") + to(*side[0])]
    way += ["L" + to(x, y) for x, y in side[1:]]
    if radius:
        way += [arc + to(rear, last + radius)]
    way += ["L" + to(rear, across - last - radius)]
    if radius:
        way += [arc + to(rear - radius, across - last)]
    way += ["L" + to(x, across - y) for x, y in reversed(side)]
    if radius:
        way += [arc + to(front, across - first - radius)]
    return Markup('<path class="{}" d="{}Z"/>').format(css, "".join(way))


def _inset(shape: RoofShape, x_m: float) -> float:
    return (shape.width_m - width_at_m(x_m, shape.width_m, shape.narrowing)) / 2


def lines(shape: RoofShape) -> Markup:
    """Ribs across the roof and rails along it, as one path; empty without any."""
    d = "".join(
        f"M{cm(x)} {cm(_inset(shape, x))}V{cm(shape.width_m - _inset(shape, x))}"
        for x in shape.ribs_m
        if 0 <= x <= shape.length_m
    )
    d += "".join(f"M0 {cm(shape.width_m - y)}H{cm(shape.length_m)}" for y in shape.rails_m)
    return Markup('<path class="rib" d="{}"/>').format(d) if d else Markup("")
