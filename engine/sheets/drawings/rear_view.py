"""The vehicle from behind, with the rear opened: what stands there, and the clear opening of the rear doors.

The vehicle's left is on the left. Widths and heights are to scale; wheels are of one usual size.
"""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from markupsafe import Markup

from engine.build.plan_figures import ClearInside, Opening, Placed, PlanFigures
from engine.sheets.drawings import marks
from engine.sheets.drawings.labels import Area, Wanted, place_labels
from engine.sheets.drawings.scale import cm, em_of
from engine.sheets.drawings.vehicle_shape import WHEEL_RADIUS_M
from engine.sheets.view import Scene
from engine.units import System, show

_SEEN_M = 0.8
"""Things that come this near to the rear are seen through the open doors."""
_SHOULDER_M = 1.2
_BED_M = (0.3, 1.0)
"""Heights between which the cabin's width counts, as the plan has it."""
_TYRE_M, _TWIN_M = 0.22, 0.5
"""Width of a single and of a twin rear wheel (assumption; catalogues do not state it)."""


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
    numbers: tuple[tuple[str, int], ...]
    units: System


def rear_view(scene: Scene, plan: PlanFigures, numbers: dict[str, int]) -> RearView:
    """What there is to draw of a build's rear."""
    v = scene.build.vehicle
    near_m = plan.inside.bare_length_m - plan.inside.rear_m - _SEEN_M
    pieces = tuple(p for p in plan.day if p.x_m + p.length_m > near_m)
    ids = {p.option_id for p in pieces}
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
        (_BED_M[0], i.width_m),
        (_BED_M[1], i.width_m),
        (_SHOULDER_M, i.shoulder_width_m),
        (i.bare_headroom_m - i.roof_m, i.shoulder_width_m),
    )
    right = [(width_m / 2, base_m - z_m) for z_m, width_m in heights]
    return _polygon([(-x, y) for x, y in right] + list(reversed(right)), "room")


def _wheels(view: RearView) -> list[Markup]:
    wide_m = _TWIN_M if view.twin else _TYRE_M
    top_m = view.height_m - 2 * WHEEL_RADIUS_M
    middles = (-view.track_m / 2, view.track_m / 2)
    return [marks.rect(Area(x - wide_m / 2, top_m, x + wide_m / 2, view.height_m), "wheel") for x in middles]


@lru_cache(maxsize=256)
def draw(view: RearView) -> Markup:
    """The figure ``draw-rear``: drawing and key."""
    units, half_m = view.units, view.width_m / 2
    gaps = [(o, _box(view, o.from_m, o.sill_m, o.to_m - o.from_m, o.height_m)) for o in view.openings]
    em_m = em_of(marks.size_of(Area(-half_m - 0.9, -0.1, half_m + 0.9, view.height_m + 0.7)))
    area = Area(-half_m - 1.3 * em_m - 0.25, -0.1, half_m + 2.6 * em_m + 0.3, view.height_m + 1.5 * em_m + 0.15)
    wide, high = show(view.width_m, "m", units), show(view.height_m, "m", units)
    sizes = [
        marks.across((-half_m, half_m), view.height_m + 0.1 + 0.6 * em_m, view.height_m, wide, em_m),
        marks.upright((0.0, view.height_m), half_m + 0.2 + 1.9 * em_m, half_m, high, em_m),
    ]
    for o, a in gaps[:1]:
        clear = show(o.height_m, "m", units)
        sizes.append(marks.upright((a.top_m, a.bottom_m), half_m + 0.1 + 0.6 * em_m, a.right_m, clear, em_m))
    pieces = sorted(view.pieces, key=lambda p: p.x_m + p.length_m)
    numbers = dict(view.numbers)
    areas = [_box(view, p.y_m, p.z_m, p.depth_m, p.height_m) for p in pieces]
    labels = place_labels(
        [Wanted(str(numbers.get(p.option_id, "")), a) for p, a in zip(pieces, areas, strict=True)],
        [s.area for s in sizes],
        area,
        em_m,
        areas,
    )
    body = [
        *_wheels(view),
        _body(view),
        _room(view),
        *(
            marks.part(p.option_id, "piece berth" if p.berth else "piece", marks.rect(a))
            for p, a in zip(pieces, areas, strict=True)
        ),
        *(marks.rect(a, "doorway") for _, a in gaps),
        Markup('<path class="ground" d="M{} {}H{}"/>').format(cm(-half_m - 0.2), cm(view.height_m), cm(half_m + 0.2)),
        *(marks.number(p.option_id, "", label, em_m) for p, label in zip(pieces, labels, strict=True)),
        *(s.drawn for s in sizes),
    ]
    words = [f"{o.name}: clear {_size(o, units)}" for o, _ in gaps] or ["No doors in the rear"]
    said = [f"{w}." for w in words] + [f"{numbers.get(p.option_id, '')} {p.name}." for p in pieces]
    return marks.figure(
        "rear", "Rear view, doors open", "Rear view, to scale", " ".join(said), area, body,
        [marks.Key("", "", w) for w in words],
    )  # fmt: skip


def _size(o: Opening, units: System) -> str:
    return f"{show(o.to_m - o.from_m, 'm', units)} wide, {show(o.height_m, 'm', units)} high"
