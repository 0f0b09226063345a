"""The vehicle from its left, nose to the left: axle loads of the worst cases, and where the main masses sit.

Lengths and heights are to scale; the outline is a plain one for each kind of body and the wheels are of one usual size.
"""

from __future__ import annotations

from functools import lru_cache
from math import hypot, pi
from typing import NamedTuple

from markupsafe import Markup

from engine.build.masses import Item
from engine.catalogue.facets import BlackTank, Cassette, Facet, FreshTank, GasStore, GreyTank
from engine.sheets.bar import FRONT, REAR, gravest
from engine.sheets.drawings.scale import cm, length_class, rect_at, text_at
from engine.sheets.templates import joined, render
from engine.sheets.view import MARKS, Mark, Scene
from engine.units import System, show

WHEEL_RADIUS_M = 0.36
"""Wheels are drawn at this size (assumption; catalogues do not state it)."""

_CM2_PER_KG = 7.0
"""Area of a mass's circle in the drawing."""

_TOGETHER_M = 0.2
"""Masses closer than this share a circle, at their common centre."""

_SEAT_ABOVE_FLOOR_M = 0.6

_LONGEST_BAR = 1.15
"""An axle's load is drawn up to this share of its rating; the number says how much it is."""


_CONTENTS: dict[type[Facet], str] = {
    FreshTank: "fresh water",
    GreyTank: "grey water",
    BlackTank: "toilet waste",
    Cassette: "toilet waste",
    GasStore: "gas",
}
"""What the load cases call the contents of each store."""


class Mass(NamedTuple):
    """A mass in its place."""

    name: str
    mass_kg: float
    x_m: float
    z_m: float


class Axle(NamedTuple):
    """One axle with the load of its worst case."""

    name: str
    x_m: float
    load_kg: float
    rating_kg: float
    case: str
    mark: Mark


class Shape(NamedTuple):
    """The vehicle as it is drawn, whatever is built into it."""

    body: str
    length_m: float
    height_m: float
    front_overhang_m: float
    wheelbase_m: float
    cabin_front_m: float
    cabin_length_m: float
    floor_m: float
    roof_front_m: float
    units: System


class SideView(NamedTuple):
    """All that the drawing shows."""

    shape: Shape
    masses: tuple[Mass, ...]
    axles: tuple[Axle, Axle]


def _masses(scene: Scene) -> tuple[Mass, ...]:
    """The heaviest items, those of one name and place together."""
    build = scene.build
    heights: dict[str, float] = {}
    for p in build.parts:
        heights[p.option.name] = p.z_m
        for facet in p.option.facets:
            if type(facet) in _CONTENTS:
                heights[_CONTENTS[type(facet)]] = p.z_m
    heights["baggage"] = build.vehicle.place("garage").z_m
    seat_m = build.vehicle.cabin.floor_z_m + _SEAT_ABOVE_FLOOR_M
    together: dict[tuple[str, float], float] = {}
    largest: tuple[Item, ...] = scene.figures.mass.largest
    for item in largest:
        key = (item.name, item.x_m)
        together[key] = together.get(key, 0.0) + item.mass_kg
    found = [Mass(name, kg, x, heights.get(name, seat_m)) for (name, x), kg in together.items()]
    return tuple(sorted(found, key=lambda m: -m.mass_kg))


def side_view(scene: Scene, by_rule: dict[str, str]) -> SideView:
    """What there is to draw of a build's side."""
    v, mass = scene.build.vehicle, scene.figures.mass
    front, rear = mass.front_worst, mass.rear_worst
    shape = Shape(
        body=v.body,
        length_m=v.length_m,
        height_m=v.height_m,
        front_overhang_m=v.front_overhang_m,
        wheelbase_m=v.wheelbase_m,
        cabin_front_m=v.cabin.front_x_m,
        cabin_length_m=v.cabin.length_m,
        floor_m=v.cabin.floor_z_m,
        roof_front_m=v.roof.front_x_m,
        units=scene.build.workshop.units,
    )
    plate = v.masses
    axles = (
        Axle(
            "Front axle",
            0.0,
            front.axles.front_kg,
            plate.front_axle_rating_kg,
            front.name,
            MARKS[gravest(by_rule, FRONT)],
        ),
        Axle(
            "Rear axle",
            v.wheelbase_m,
            rear.axles.rear_kg,
            plate.rear_axle_rating_kg,
            rear.name,
            MARKS[gravest(by_rule, REAR)],
        ),
    )
    return SideView(shape, _masses(scene), axles)


def outline(s: Shape) -> tuple[str, ...]:
    """Paths of the body, in centimetres: x behind the front axle, y down from the top of the vehicle."""
    nose, tail = -s.front_overhang_m, s.length_m - s.front_overhang_m
    top, h = 0.0, s.height_m
    sill = h - max(0.22, s.floor_m - 0.18)

    def path(*points: tuple[float, float]) -> str:
        return "M" + "L".join(f"{cm(x)} {cm(y)}" for x, y in points) + "Z"

    if s.body == "box":
        start, end = s.cabin_front_m - 0.06, min(tail, s.cabin_front_m + s.cabin_length_m + 0.06)
        cab_top = max(top + 0.1, h - 2.3)
        screen = nose + 0.75
        cab = path(
            (nose, sill), (nose, h - 1.05), (nose + 0.12, h - 1.18), (screen, h - 1.32),
            (screen + 0.55, cab_top + 0.06), (screen + 0.7, cab_top), (start, cab_top), (start, sill),
        )  # fmt: skip
        body = path((start, top), (end, top), (end, h - s.floor_m + 0.06), (start, h - s.floor_m + 0.06))
        return (cab, body)
    if s.body == "bus":
        return (
            path(
                (nose, sill), (nose + 0.02, h - 1.2), (nose + 0.28, top + 0.16), (nose + 0.45, top), (tail - 0.12, top),
                (tail, top + 0.12), (tail, sill),
            ),
        )  # fmt: skip
    roof = max(s.roof_front_m - 0.25, nose + 1.3)
    return (
        path(
            (nose, sill), (nose, h - 0.95), (nose + 0.1, h - 1.08), (nose + 0.85, h - 1.28), (roof - 0.12, top + 0.14),
            (roof + 0.1, top), (tail - 0.1, top), (tail, top + 0.12), (tail, sill),
        ),
    )  # fmt: skip


def _circles(s: Shape, masses: tuple[Mass, ...]) -> list[Markup]:
    groups: list[list[tuple[int, Mass]]] = []
    for n, m in enumerate(masses, 1):
        near = (g for g in groups if hypot(g[0][1].x_m - m.x_m, g[0][1].z_m - m.z_m) < _TOGETHER_M)
        group = next(near, None)
        if group is None:
            groups.append([(n, m)])
        else:
            group.append((n, m))
    drawn = []
    for group in groups:
        total_kg = sum(m.mass_kg for _, m in group)
        x_m = sum(m.mass_kg * m.x_m for _, m in group) / total_kg
        z_m = sum(m.mass_kg * m.z_m for _, m in group) / total_kg
        drawn.append(_circle(" ".join(str(n) for n, _ in group), x_m, s.height_m - z_m, total_kg))
    return drawn


@lru_cache(maxsize=64)
def _frame(s: Shape) -> Markup:
    """Body, wheels, ground and dimensions."""
    tail_m = s.length_m - s.front_overhang_m
    return render(
        "side_frame",
        paths=outline(s),
        ground=cm(s.height_m),
        ground_from=cm(-s.front_overhang_m - 0.2),
        ground_to=cm(tail_m + 0.2),
        wheel_y=cm(s.height_m - WHEEL_RADIUS_M),
        wheel_r=cm(WHEEL_RADIUS_M),
        hub_r=cm(WHEEL_RADIUS_M * 0.45),
        rear=cm(s.wheelbase_m),
        middle=cm(s.wheelbase_m / 2),
        height_x=cm(tail_m + 0.3),
        height_middle=cm(s.height_m / 2),
        height=show(s.height_m, "m", s.units),
        wheelbase=show(s.wheelbase_m, "m", s.units),
        wheelbase_y=cm(s.height_m + 0.22),
        floor_y=cm(s.height_m - s.floor_m),
        floor_from=cm(s.cabin_front_m),
        floor_to=cm(s.cabin_front_m + s.cabin_length_m),
    )


@lru_cache(maxsize=1024)
def _circle(label: str, x_m: float, y_m: float, mass_kg: float) -> Markup:
    """A mass: the circle's area grows with it, down to a size that holds the number."""
    radius_cm = max(9.0, (_CM2_PER_KG * mass_kg / pi) ** 0.5)
    return Markup('<g class="mass"><circle cx="{}" cy="{}" r="{}"/><text {}>{}</text></g>').format(
        cm(x_m), cm(y_m), f"{radius_cm:.1f}", text_at(x_m, y_m), label
    )


@lru_cache(maxsize=1024)
def _axle(s: Shape, axle: Axle) -> Markup:
    """An axle's load as a bar on its rating, both to one scale, and in numbers."""
    full_m = min(1.7, s.wheelbase_m * 0.42)
    left_m, top_m = axle.x_m - full_m / 2, s.height_m + 0.5
    share = min(_LONGEST_BAR, max(0.0, axle.load_kg / axle.rating_kg))
    return render(
        "side_axle",
        mark=axle.mark,
        limit_bar=rect_at(left_m, top_m, full_m, 0.14),
        load_bar=rect_at(left_m, top_m, full_m * share, 0.14),
        x=cm(axle.x_m),
        first=cm(top_m + 0.4),
        load=show(axle.load_kg, "kg", s.units),
        limit=show(axle.rating_kg, "kg", s.units),
    )


@lru_cache(maxsize=512)
def draw(view: SideView) -> Markup:
    """The figure ``draw-side``: drawing and key."""
    s = view.shape
    left_m = s.front_overhang_m + 0.35
    lines = tuple(
        (a.mark, f"{a.name}: {show(a.load_kg, 'kg', s.units)} of {show(a.rating_kg, 'kg', s.units)}", a.case)
        for a in view.axles
    )
    return render(
        "side_view",
        view=f"{cm(-left_m)} {cm(-0.25)} {cm(s.length_m + 0.35 + 0.75)} {cm(s.height_m + 0.25 + 1.4)}",
        length_class=length_class(s.length_m + 0.35 + 0.75),
        frame=_frame(s),
        circles=joined(_circles(s, view.masses)),
        axles=joined(_axle(s, a) for a in view.axles),
        lines=lines,
        key=tuple((str(n), m.name, show(m.mass_kg, "kg", s.units)) for n, m in enumerate(view.masses, 1)),
        description=" ".join(f"{text}, {mark.word or 'not judged'}." for mark, text, _ in lines),
    )
