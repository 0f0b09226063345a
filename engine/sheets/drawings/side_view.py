"""The vehicle from its left, nose to the left: axle loads of the worst cases, and where the main masses sit.

Lengths and heights are to scale; the outline is a plain one for each kind of body and the wheels are of one usual size.
"""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from markupsafe import Markup

from engine.build.masses import Item
from engine.catalogue.facets import BlackTank, Cassette, FreshTank, GasStore, GreyTank
from engine.sheets.bar import FRONT, REAR, gravest
from engine.sheets.drawings.scale import cm, length_class
from engine.sheets.templates import render
from engine.sheets.view import MARKS, Mark, Scene
from engine.units import System, show

WHEEL_RADIUS_M = 0.36
"""Wheels are drawn at this size (assumption; catalogues do not state it)."""

_CM2_PER_KG = 9.0
"""Area of a mass's circle in the drawing."""

_SEAT_ABOVE_FLOOR_M = 0.6


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


class SideView(NamedTuple):
    """All that the drawing shows."""

    body: str
    length_m: float
    height_m: float
    front_overhang_m: float
    wheelbase_m: float
    cabin_front_m: float
    cabin_length_m: float
    floor_m: float
    roof_front_m: float
    masses: tuple[Mass, ...]
    axles: tuple[Axle, Axle]
    units: System


def _masses(scene: Scene) -> tuple[Mass, ...]:
    """The heaviest items, those of one name and place together."""
    build = scene.build
    heights = {p.option.name: p.z_m for p in build.parts}
    for kind, name in ((FreshTank, "fresh water"), (GreyTank, "grey water"), (GasStore, "gas")):
        heights |= {name: p.z_m for p, _ in build.facets(kind)}
    for toilet in (BlackTank, Cassette):
        heights |= {"toilet waste": p.z_m for p, _ in build.facets(toilet)}
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
    return SideView(
        body=v.body,
        length_m=v.length_m,
        height_m=v.height_m,
        front_overhang_m=v.front_overhang_m,
        wheelbase_m=v.wheelbase_m,
        cabin_front_m=v.cabin.front_x_m,
        cabin_length_m=v.cabin.length_m,
        floor_m=v.cabin.floor_z_m,
        roof_front_m=v.roof.front_x_m,
        masses=_masses(scene),
        axles=(
            Axle(
                "Front axle", 0.0, front.axles.front_kg, v.masses.front_axle_rating_kg, front.name,
                MARKS[gravest(by_rule, FRONT)],
            ),
            Axle(
                "Rear axle", v.wheelbase_m, rear.axles.rear_kg, v.masses.rear_axle_rating_kg, rear.name,
                MARKS[gravest(by_rule, REAR)],
            ),
        ),
        units=scene.build.workshop.units,
    )  # fmt: skip


def outline(s: SideView) -> tuple[str, ...]:
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
            (nose, sill), (nose, h - 1.05), (nose + 0.12, h - 1.18), (screen, h - 1.32), (screen + 0.55, cab_top + 0.06),
            (screen + 0.7, cab_top), (start, cab_top), (start, sill),
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


def _axle_values(s: SideView, axle: Axle) -> dict[str, str | Mark]:
    share = max(0.0, axle.load_kg / axle.rating_kg)
    full_m = min(1.7, s.wheelbase_m * 0.42)
    return {
        "name": axle.name,
        "x": cm(axle.x_m),
        "left": cm(axle.x_m - full_m / 2),
        "full": cm(full_m),
        "part": cm(full_m * min(share, 1.15)),
        "load": show(axle.load_kg, "kg", s.units),
        "limit": show(axle.rating_kg, "kg", s.units),
        "case": axle.case,
        "mark": axle.mark,
    }


@lru_cache(maxsize=512)
def draw(s: SideView) -> Markup:
    """The figure ``draw-side``: drawing and key."""
    circles = []
    for n, m in enumerate(s.masses, 1):
        radius_cm = max(9.0, (_CM2_PER_KG * m.mass_kg / 3.1416) ** 0.5)
        circles.append((cm(m.x_m), cm(s.height_m - m.z_m), f"{radius_cm:.1f}", str(n)))
    said = [
        f"{a.name} {show(a.load_kg, 'kg', s.units)} of {show(a.rating_kg, 'kg', s.units)}, {a.mark.word or 'not judged'}."
        for a in s.axles
    ]
    left_m = s.front_overhang_m + 0.35
    return render(
        "side_view",
        view=f"{cm(-left_m)} {cm(-0.25)} {cm(s.length_m + 0.35 + 0.75)} {cm(s.height_m + 0.25 + 1.3)}",
        length_class=length_class(s.length_m + 0.35 + 0.75),
        paths=outline(s),
        ground=cm(s.height_m),
        ground_from=cm(-s.front_overhang_m - 0.2),
        ground_to=cm(s.length_m - s.front_overhang_m + 0.2),
        wheel_y=cm(s.height_m - WHEEL_RADIUS_M),
        wheel_r=cm(WHEEL_RADIUS_M),
        hub_r=cm(WHEEL_RADIUS_M * 0.45),
        wheels=("0", cm(s.wheelbase_m)),
        middle=cm(s.wheelbase_m / 2),
        height_cm=cm(s.height_m),
        height_x=cm(s.length_m - s.front_overhang_m + 0.3),
        height_middle=cm(s.height_m / 2),
        height=show(s.height_m, "m", s.units),
        wheelbase=show(s.wheelbase_m, "m", s.units),
        wheelbase_y=cm(s.height_m + 0.22),
        bar_y=cm(s.height_m + 0.52),
        text_y=cm(s.height_m + 0.98),
        floor_y=cm(s.height_m - s.floor_m),
        floor_from=cm(s.cabin_front_m),
        floor_to=cm(s.cabin_front_m + s.cabin_length_m),
        axles=tuple(_axle_values(s, a) for a in s.axles),
        circles=tuple(circles),
        key=tuple((str(n), m.name, show(m.mass_kg, "kg", s.units)) for n, m in enumerate(s.masses, 1)),
        description=" ".join(said),
    )
