"""The vehicle from its left, nose to the left: axle loads of the worst cases, and where the main masses sit.

Lengths and heights are to scale; the outline is a plain one for each kind of body and the wheels are of one usual size.
"""

from __future__ import annotations

from functools import lru_cache
from math import pi, sqrt
from typing import NamedTuple

from markupsafe import Markup

from engine.build.masses import Item
from engine.catalogue.facets import FreshTank, GasStore
from engine.sheets.bar import FRONT, REAR, gravest
from engine.sheets.drawings import marks
from engine.sheets.drawings.labels import Area, Wanted, place_labels, text_area
from engine.sheets.drawings.scale import cm, em_of, rect_at
from engine.sheets.drawings.vehicle_shape import Shape, frame, shape_of
from engine.sheets.parts_list import heaviest
from engine.sheets.templates import render
from engine.sheets.view import MARKS, Mark, Scene
from engine.units import show

_CM2_PER_KG = 7.0
"""Area of a mass's circle in the drawing."""
_SMALLEST_CM = 6.0

_SEAT_ABOVE_FLOOR_M = 0.6

_LONGEST_BAR = 1.15
"""An axle's load is drawn up to this share of its rating; the number says how much it is."""
_BAR_M = 0.14

_STORES: tuple[tuple[type[FreshTank | GasStore], str], ...] = ((FreshTank, "fresh water"), (GasStore, "gas"))
_ABOARD = {"fresh water": "W", "gas": "G", "people": "P", "baggage": "B"}
"""What is aboard but no part of the build has letters."""


class Mass(NamedTuple):
    """A mass in its place. Parts have an id, what is aboard has none."""

    option_id: str | None
    label: str
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

    shape: Shape
    masses: tuple[Mass, ...]
    axles: tuple[Axle, Axle]


def _aboard(scene: Scene) -> list[Mass]:
    """Water, gas, people and baggage of the loaded vehicle, those of one name and place together."""
    build = scene.build
    seat_m = build.vehicle.cabin.floor_z_m + _SEAT_ABOVE_FLOOR_M
    heights = {"baggage": build.vehicle.place("garage").z_m}
    heights |= {name: p.z_m for kind, name in _STORES for p, _ in build.facets(kind)}
    together: dict[tuple[str, float], float] = {}
    largest: tuple[Item, ...] = scene.figures.mass.largest
    for item in largest:
        if item.name in _ABOARD:
            together[(item.name, item.x_m)] = together.get((item.name, item.x_m), 0.0) + item.mass_kg
    return [Mass(None, _ABOARD[n], n, kg, x, heights.get(n, seat_m)) for (n, x), kg in together.items()]


def side_view(scene: Scene, by_rule: dict[str, str], numbers: dict[str, int]) -> SideView:
    """What there is to draw of a build's side."""
    v, mass = scene.build.vehicle, scene.figures.mass
    front, rear = mass.front_worst, mass.rear_worst
    heavy = set(heaviest(scene.build))
    parts = [
        Mass(p.option.id, str(numbers[p.option.id]), p.option.name, p.mass_kg or 0.0, p.x_m, p.z_m)
        for p in scene.build.parts
        if p.option.id in heavy
    ]
    axles = (
        Axle(
            "Front axle", 0.0, front.axles.front_kg, v.masses.front_axle_rating_kg, front.name,
            MARKS[gravest(by_rule, FRONT)],
        ),
        Axle(
            "Rear axle", v.wheelbase_m, rear.axles.rear_kg, v.masses.rear_axle_rating_kg, rear.name,
            MARKS[gravest(by_rule, REAR)],
        ),
    )  # fmt: skip
    masses = tuple(sorted(parts + _aboard(scene), key=lambda m: -m.mass_kg))
    return SideView(shape_of(v, scene.build.workshop.units), masses, axles)


def _radius_m(mass_kg: float) -> float:
    """The circle's area grows with the mass."""
    return max(_SMALLEST_CM, sqrt(_CM2_PER_KG * mass_kg / pi)) / 100


def _round(s: Shape, m: Mass) -> Area:
    """The square in a mass's circle, which is where its number can stand."""
    half_m, y_m = _radius_m(m.mass_kg) * 0.9, s.height_m - m.z_m
    return Area(m.x_m - half_m, y_m - half_m, m.x_m + half_m, y_m + half_m)


@lru_cache(maxsize=1024)
def _axle(s: Shape, axle: Axle, em_m: float) -> Markup:
    """An axle's load as a bar on its rating, both to one scale, and in numbers."""
    full_m = min(1.7, s.wheelbase_m * 0.42)
    left_m, top_m = axle.x_m - full_m / 2, _bars_m(s, em_m)
    share = min(_LONGEST_BAR, max(0.0, axle.load_kg / axle.rating_kg))
    return render(
        "side_axle",
        mark=axle.mark,
        limit_bar=rect_at(left_m, top_m, full_m, _BAR_M),
        load_bar=rect_at(left_m, top_m, full_m * share, _BAR_M),
        x=cm(axle.x_m),
        first=cm(top_m + _BAR_M + 0.75 * em_m),
        second=cm(top_m + _BAR_M + 1.95 * em_m),
        load=show(axle.load_kg, "kg", s.units),
        limit=show(axle.rating_kg, "kg", s.units),
    )


def _bars_m(s: Shape, em_m: float) -> float:
    """Where the bars of the axles begin, below the wheelbase's dimension line."""
    return s.height_m + 0.12 + 1.45 * em_m


@lru_cache(maxsize=512)
def draw(view: SideView) -> Markup:
    """The figure ``draw-side``: drawing and key."""
    s = view.shape
    nose_m, tail_m = -s.front_overhang_m, s.length_m - s.front_overhang_m
    em_m = em_of(marks.size_of(Area(nose_m - 0.3, -0.2, tail_m + 0.7, s.height_m + 1.2)))
    area = Area(nose_m - 0.3, -0.15 - em_m, tail_m + 0.15 + 1.2 * em_m, _bars_m(s, em_m) + _BAR_M + 2.6 * em_m)
    sizes = (
        marks.across(
            (0.0, s.wheelbase_m), s.height_m + 0.1 + 0.6 * em_m, s.height_m, show(s.wheelbase_m, "m", s.units), em_m
        ),
        marks.upright((0.0, s.height_m), tail_m + 0.1 + 0.6 * em_m, tail_m, show(s.height_m, "m", s.units), em_m),
    )
    places = [_round(s, m) for m in view.masses]
    taken = [d.area for d in sizes] + [
        text_area(f"✓ {show(a.load_kg, 'kg', s.units)}", a.x_m, s.height_m + 1.0, em_m) for a in view.axles
    ]
    bounds = area._replace(bottom_m=s.height_m - 0.02)
    labels = place_labels(
        [Wanted(m.label, a) for m, a in zip(view.masses, places, strict=True)], taken, bounds, em_m, places
    )
    lines = [
        marks.Key(
            f"v-{a.mark.css} wide", a.mark.badge,
            f"{a.name} worst with {a.case}",
        )
        for a in view.axles
    ]  # fmt: skip
    lines += [
        marks.Key("mass", m.label, f"{m.name} {show(m.mass_kg, 'kg', s.units)}")
        for m in view.masses
        if m.option_id is None
    ]
    said = " ".join(
        f"{a.name}: {show(a.load_kg, 'kg', s.units)} of {show(a.rating_kg, 'kg', s.units)}, "
        f"{a.mark.word or 'not judged'}."
        for a in view.axles
    )
    body = [
        frame(s),
        *(d.drawn for d in sizes),
        *(_mass(s, m) for m in view.masses),
        *(marks.number(m.option_id, "", label, em_m) for m, label in zip(view.masses, labels, strict=True)),
        *(_axle(s, a, em_m) for a in view.axles),
    ]
    return marks.figure(
        "side", "Side view with the worst load on each axle", "Side view, to scale, with axle loads", said, area, body,
        lines,
    )  # fmt: skip


def _mass(s: Shape, m: Mass) -> Markup:
    circle = Markup('<circle cx="{}" cy="{}" r="{}"/>').format(
        cm(m.x_m), cm(s.height_m - m.z_m), cm(_radius_m(m.mass_kg))
    )
    return marks.part(m.option_id, "mass" if m.option_id else "mass aboard", circle)
