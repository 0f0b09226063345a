"""The vehicle from its left, nose to the left: axle loads of the worst cases, and where the main masses sit.

Lengths and heights are to scale; the outline is a plain one for each kind of body and the wheels are of one usual size.
"""

from __future__ import annotations

from functools import lru_cache
from math import pi, sqrt
from typing import NamedTuple

from markupsafe import Markup

from engine.sheets.bar import FRONT, REAR, gravest
from engine.sheets.drawings import marks
from engine.sheets.drawings.labels import Area, Wanted, place_labels
from engine.sheets.drawings.scale import cm, em_of, rect_at
from engine.sheets.drawings.vehicle_shape import Shape, frame, shape_of
from engine.sheets.parts_list import heaviest
from engine.sheets.templates import render
from engine.sheets.view import MARKS, Mark, Scene
from engine.spelling import spelled
from engine.units import show

_CM2_PER_KG = 7.0
"""Area of a mass's circle in the drawing."""
_SMALLEST_CM = 6.0

_LONGEST_BAR = 1.15
"""An axle's load is drawn up to this share of its rating; the number says how much it is."""
_BAR_M = 0.14

_ABOARD = {
    "fresh water": "W", "people": "P", "baggage": "B", "gas": "G", "things in cupboards": "C", "pets": "D",
    "water in the boiler": "H", "bicycles": "O",
}  # fmt: skip
"""What is aboard but no part of the build has letters."""

_CG_RADIUS_M = 0.1


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


class Centre(NamedTuple):
    """The centre of gravity in the heaviest case."""

    x_m: float
    z_m: float | None
    """None where the delivered vehicle's height of it is not stated."""
    case: str


class SideView(NamedTuple):
    """All that the drawing shows."""

    shape: Shape
    masses: tuple[Mass, ...]
    axles: tuple[Axle, Axle]
    centre: Centre


def _aboard(scene: Scene) -> list[Mass]:
    """Water, gas, people and baggage among the heaviest things of the loaded vehicle, those of one kind and place
    together."""
    together: dict[tuple[str, float, float], float] = {}
    for item in scene.figures.mass.largest:
        if item.name in _ABOARD and item.z_m is not None:
            key = (item.name, item.x_m, item.z_m)
            together[key] = together.get(key, 0.0) + item.mass_kg
    return [Mass(None, _ABOARD[name], name, kg, x_m, z_m) for (name, x_m, z_m), kg in together.items()]


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
    x_m, _, z_m = mass.heaviest.cg
    centre = Centre(x_m, z_m, mass.heaviest.name)
    return SideView(shape_of(v, scene.build.workshop.units), masses, axles, centre)


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


def _centre_area(s: Shape, c: Centre) -> Area:
    y_m = _CG_RADIUS_M if c.z_m is None else s.height_m - c.z_m
    return Area(c.x_m - _CG_RADIUS_M, y_m - _CG_RADIUS_M, c.x_m + _CG_RADIUS_M, y_m + _CG_RADIUS_M)


def _centre(s: Shape, c: Centre) -> Markup:
    """The usual quartered disc; only an upright line where the height is not known."""
    if c.z_m is None:
        return Markup('<path class="cg-line" d="M{} 0V{}"/>').format(cm(c.x_m), cm(s.height_m))
    return Markup(
        '<g class="cg"><circle cx="{0}" cy="{1}" r="{2}"/>'
        '<path d="M{0} {1}v-{2}a{2} {2} 0 0 1 {2} {2}zM{0} {1}v{2}a{2} {2} 0 0 1 -{2} -{2}z"/></g>'
    ).format(cm(c.x_m), cm(s.height_m - c.z_m), cm(_CG_RADIUS_M))


def _centre_words(s: Shape, c: Centre) -> str:
    height = "height not known" if c.z_m is None else f"{show(c.z_m, 'm', s.units)} above the road"
    centre = spelled("centre", s.units)
    return f"{centre} of gravity, {c.case}: {show(c.x_m, 'm', s.units)} behind the front axle, {height}"


def _mass(s: Shape, m: Mass) -> Markup:
    circle = Markup(f'<circle cx="{cm(m.x_m)}" cy="{cm(s.height_m - m.z_m)}" r="{cm(_radius_m(m.mass_kg))}"/>')
    return marks.part(m.option_id, "mass" if m.option_id else "mass aboard", circle)


def _key(view: SideView) -> list[marks.Key]:
    s = view.shape
    lines = [marks.Key(f"v-{a.mark.css} wide", a.mark.badge, f"{a.name} worst with {a.case}") for a in view.axles]
    lines.append(marks.Key("wide", "CG", _centre_words(s, view.centre)))
    aboard = (m for m in view.masses if m.option_id is None)
    return lines + [marks.Key("mass", m.label, f"{m.name} {show(m.mass_kg, 'kg', s.units)}") for m in aboard]


@lru_cache(maxsize=512)
def draw(view: SideView) -> Markup:
    """The figure ``draw-side``: drawing and key."""
    s = view.shape
    nose_m, tail_m = -s.front_overhang_m, s.length_m - s.front_overhang_m
    em_m = em_of(marks.size_of(Area(nose_m - 0.3, -0.2, tail_m + 0.7, s.height_m + 1.2)))
    area = Area(nose_m - 0.3, -0.15 - em_m, tail_m + 0.15 + 1.2 * em_m, _bars_m(s, em_m) + _BAR_M + 2.6 * em_m)
    wheelbase, height = show(s.wheelbase_m, "m", s.units), show(s.height_m, "m", s.units)
    sizes = (
        marks.across((0.0, s.wheelbase_m), s.height_m + 0.1 + 0.6 * em_m, s.height_m, wheelbase, em_m),
        marks.upright((0.0, s.height_m), tail_m + 0.1 + 0.6 * em_m, tail_m, height, em_m),
    )
    places = [_round(s, m) for m in view.masses]
    centre = _centre_area(s, view.centre)
    labels = place_labels(
        [*(Wanted(m.label, a) for m, a in zip(view.masses, places, strict=True)), Wanted("CG", centre)],
        [*(d.area for d in sizes), *([] if view.centre.z_m is None else [centre])],
        area._replace(bottom_m=s.height_m - 0.02),
        em_m,
        places,
    )
    said = [
        f"{a.name}: {show(a.load_kg, 'kg', s.units)} of {show(a.rating_kg, 'kg', s.units)}, "
        f"{a.mark.word or 'not judged'}."
        for a in view.axles
    ]
    body = [
        frame(s),
        *(d.drawn for d in sizes),
        *(_mass(s, m) for m in view.masses),
        _centre(s, view.centre),
        *(marks.number(m.option_id, "", n, em_m) for m, n in zip(view.masses, labels[:-1], strict=True)),
        marks.number(None, "cg-tag", labels[-1], em_m),
        *(_axle(s, a, em_m) for a in view.axles),
    ]
    return marks.figure(
        "side", "Side view with the worst load on each axle", "Side view, to scale, with axle loads",
        " ".join([*said, _centre_words(s, view.centre) + "."]), area, body, _key(view),
    )  # fmt: skip
