"""The vehicle from behind, with the rear opened: what stands there, the garage below the bed with the trip's bulky
things in it, and the clear openings it is loaded through.

The vehicle's left is on the left. Widths and heights are to scale; wheels are of one usual size.
"""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from markupsafe import Markup

from engine.build.plan_cargo import cargo_of, door_clear_m
from engine.build.plan_figures import ClearInside, Opening, Placed, PlanFigures
from engine.build.plan_inside import BED_HIGH_M, BED_LOW_M, SHOULDER_M
from engine.physics.box_fit import Space, Stowed
from engine.sheets.drawings import marks
from engine.sheets.drawings.labels import Area, Wanted, place_labels
from engine.sheets.drawings.scale import cm, em_of
from engine.sheets.drawings.vehicle_shape import WHEEL_RADIUS_M
from engine.sheets.view import Scene
from engine.units import System, show

_SEEN_M = 0.8
"""Things that come this near to the rear are seen through the open doors."""
_TYRE_M, _TWIN_M = 0.22, 0.5
"""Width of a single and of a twin rear wheel (assumption; catalogues do not state it)."""


class Door(NamedTuple):
    """A door of the garage with what is clear of it, the bed above and the body beside it counted."""

    name: str
    width_m: float
    height_m: float


class Aboard(NamedTuple):
    """A bulky thing in the garage."""

    name: str
    stowed: Stowed


class RearView(NamedTuple):
    """All that the drawing shows."""

    body: str
    width_m: float
    height_m: float
    floor_m: float
    track_m: float
    twin: bool
    inside: ClearInside
    openings: tuple[Opening, ...]
    pieces: tuple[Placed, ...]
    bed: Placed | None
    """The module with the garage in it."""
    garage: Space | None
    doors: tuple[Door, ...]
    aboard: tuple[Aboard, ...]
    numbers: tuple[tuple[str, int], ...]
    units: System


def rear_view(scene: Scene, plan: PlanFigures, numbers: dict[str, int]) -> RearView:
    """What there is to draw of a build's rear."""
    v = scene.build.vehicle
    near_m = plan.inside.bare_length_m - plan.inside.rear_m - _SEEN_M
    pieces = tuple(p for p in plan.day if p.x_m + p.length_m > near_m)
    ids = {p.option_id for p in pieces}
    cargo = cargo_of(scene.build)
    garage = cargo.garage
    bed = next((p for p in pieces if garage is not None and p.option_id == garage.option_id), None)
    doors: tuple[Door, ...] = ()
    if garage is not None and bed is not None:
        doors = tuple(Door(d.name, *door_clear_m(d, garage, bed.x_m)) for d in garage.doors)
    stowed = cargo.fit.stowed if cargo.fit is not None and bed is not None else ()
    return RearView(
        body=v.body,
        width_m=v.width_m,
        height_m=v.height_m,
        floor_m=v.cabin.floor_z_m,
        track_m=v.rear_track_m if v.rear_track_m is not None else v.width_m - (_TWIN_M if v.twin_rear_wheels else 0.35),
        twin=v.twin_rear_wheels,
        inside=plan.inside,
        openings=tuple(o for o in plan.openings if o.wall == "rear"),
        pieces=pieces,
        bed=bed,
        garage=garage.space if garage is not None and bed is not None else None,
        doors=doors,
        aboard=tuple(Aboard(cargo.boxes[s.box].name, s) for s in stowed),
        numbers=tuple((i, n) for i, n in numbers.items() if i in ids),
        units=scene.build.workshop.units,
    )


def _box(view: RearView, y_m: float, z_m: float, depth_m: float, height_m: float) -> Area:
    """From the room's y and z to the drawing: x from the centre line, y down from the top of the vehicle."""
    left_m = y_m - view.inside.bare_width_m / 2
    bottom_m = view.height_m - view.floor_m - z_m
    return Area(left_m, bottom_m - height_m, left_m + depth_m, bottom_m)


def _polygon(points: list[tuple[float, float]], css: str) -> Markup:
    return Markup('<path class="{}" d="M{}Z"/>').format(css, "L".join(f"{cm(x)} {cm(y)}" for x, y in points))


def _body(view: RearView) -> Markup:
    """A plain outline: a box has square corners, sheet metal leans in towards the roof."""
    half_m, sill_m = view.width_m / 2, view.height_m - max(0.3, view.floor_m - 0.18)
    if view.body == "box":
        return _polygon([(-half_m, 0.0), (half_m, 0.0), (half_m, sill_m), (-half_m, sill_m)], "body")
    lean_m = 0.12
    waist_m = view.height_m - view.floor_m - 0.9
    right = [(half_m - lean_m - 0.12, 0.0), (half_m - lean_m, 0.1), (half_m, waist_m), (half_m - 0.02, sill_m)]
    return _polygon([(-x, y) for x, y in reversed(right)] + right, "body")


def _room(view: RearView) -> Markup:
    """The clear room behind the doors, at its stated widths."""
    i, base_m = view.inside, view.height_m - view.floor_m
    heights = (
        (i.floor_m, i.floor_width_m),
        (BED_LOW_M, i.width_m),
        (BED_HIGH_M, i.width_m),
        (SHOULDER_M, i.shoulder_width_m),
        (i.bare_headroom_m - i.roof_m, i.shoulder_width_m),
    )
    right = [(width_m / 2, base_m - z_m) for z_m, width_m in heights]
    return _polygon([(-x, y) for x, y in right] + list(reversed(right)), "room")


def _wheels(view: RearView) -> list[Markup]:
    wide_m = _TWIN_M if view.twin else _TYRE_M
    top_m = view.height_m - 2 * WHEEL_RADIUS_M
    middles = (-view.track_m / 2, view.track_m / 2)
    return [marks.rect(Area(x - wide_m / 2, top_m, x + wide_m / 2, view.height_m), "wheel") for x in middles]


def _space(view: RearView) -> Area | None:
    """The clear room of the garage."""
    if view.garage is None or view.bed is None:
        return None
    return _box(view, view.bed.y_m, view.inside.floor_m, view.garage.width_m, view.garage.height_m)


def _stowed(view: RearView, thing: Aboard) -> Area:
    s, bed = thing.stowed, view.bed
    assert bed is not None  # things are stowed in a garage only
    return _box(view, bed.y_m + s.y_m, view.inside.floor_m + s.z_m, s.width_m, s.height_m)


def _letters(view: RearView) -> dict[str, str]:
    """Bulky things are no part of the build and have letters, those of one name the same."""
    names = dict.fromkeys(t.name for t in view.aboard)
    return {name: chr(ord("a") + n % 26) for n, name in enumerate(names)}


def _key(view: RearView) -> list[marks.Key]:
    units = view.units
    lines = [marks.Key("wide", "", f"{d.name}: clear {_size(d.width_m, d.height_m, units)}") for d in view.doors]
    if view.garage is not None:
        lines.append(marks.Key("wide", "", f"garage: {_size(view.garage.width_m, view.garage.height_m, units)} inside"))
    lines += [marks.Key("", letter, name) for name, letter in _letters(view).items()]
    return lines


def _size(width_m: float, height_m: float, units: System) -> str:
    return f"{show(width_m, 'm', units)} wide, {show(height_m, 'm', units)} high"


@lru_cache(maxsize=256)
def draw(view: RearView) -> Markup:
    """The figure ``draw-rear``: drawing and key."""
    half_m = view.width_m / 2
    em_m = em_of(marks.size_of(Area(-half_m - 0.9, -0.1, half_m + 0.9, view.height_m + 0.7)))
    area = Area(-half_m - 1.3 * em_m - 0.25, -0.1, half_m + 2.6 * em_m + 0.3, view.height_m + 1.5 * em_m + 0.15)
    wide, high = show(view.width_m, "m", view.units), show(view.height_m, "m", view.units)
    sizes = [
        marks.across((-half_m, half_m), view.height_m + 0.1 + 0.6 * em_m, view.height_m, wide, em_m),
        marks.upright((0.0, view.height_m), half_m + 0.2 + 1.9 * em_m, half_m, high, em_m),
    ]
    space = _space(view)
    if space is not None:
        inside = show(space.bottom_m - space.top_m, "m", view.units)
        sizes.append(
            marks.upright((space.top_m, space.bottom_m), half_m + 0.1 + 0.6 * em_m, space.right_m, inside, em_m)
        )
    pieces = sorted(view.pieces, key=lambda p: (p.x_m + p.length_m, p.side == "inside"))
    numbers, letters = dict(view.numbers), _letters(view)
    areas = [_box(view, p.y_m, p.z_m, p.depth_m, p.height_m) for p in pieces]
    things = [_stowed(view, t) for t in view.aboard]
    named = [Wanted(letters[t.name], a) for t, a in zip(view.aboard, things, strict=True)]
    named += [Wanted(str(numbers.get(p.option_id, "")), a) for p, a in zip(pieces, areas, strict=True)]
    labels = place_labels(named, [s.area for s in sizes], area, em_m, [*things, *areas])
    body = [
        *_wheels(view),
        _body(view),
        _room(view),
        *(marks.part(p.option_id, _css(p), marks.rect(a)) for p, a in zip(pieces, areas, strict=True)),
        *([] if space is None else [marks.rect(space, "garage")]),
        *(marks.part(None, "cargo", marks.rect(a)) for a in things),
        *(marks.rect(_box(view, o.from_m, o.sill_m, o.to_m - o.from_m, o.height_m), "doorway") for o in view.openings),
        Markup('<path class="ground" d="M{} {}H{}"/>').format(cm(-half_m - 0.2), cm(view.height_m), cm(half_m + 0.2)),
        *(marks.number(None, "", label, em_m) for label in labels[: len(things)]),
        *(marks.number(p.option_id, "", n, em_m) for p, n in zip(pieces, labels[len(things) :], strict=True)),
        *(s.drawn for s in sizes),
    ]
    key = _key(view)
    said = [f"{k.label} {k.text}.".strip() for k in key]
    said += [f"{numbers.get(p.option_id, '')} {p.name}." for p in pieces]
    caption = "Rear view, doors open" if view.openings else "Rear view, seen through the rear wall"
    return marks.figure("rear", caption, f"{caption}, to scale", " ".join(said), area, body, key)


def _css(p: Placed) -> str:
    return "piece" + (" berth" if p.berth else "") + (" within" if p.side == "inside" else "")
