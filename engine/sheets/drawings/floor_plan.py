"""The floor from above, by day or by night, nose to the left, so that the vehicle's left side is at the bottom."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from markupsafe import Markup

from engine.build.plan_figures import Arch, ClearInside, Opening, Placed, PlanFigures, Span, Well, Zone
from engine.sheets.drawings import marks
from engine.sheets.drawings.labels import Area, Wanted, place_labels
from engine.sheets.drawings.scale import cm, em_of, rect_at
from engine.sheets.view import Scene
from engine.units import System, show

_BEFORE_M, _AROUND_M = 0.35, 0.6
"""Room before the front wall, and round the rest for dimension lines."""
_OFF_M = 0.14
"""Dimension lines run this far from the walls."""
_SILL_M = 0.05
"""Openings are drawn this far out of the bare wall."""
_OVERHEAD_M = 1.2
"""What begins above this height hangs over the floor and is drawn with broken lines."""

NO_PLACE = "no free place"
STATE_WORDS = {"day": "by day", "night": "by night"}


class FloorPlan(NamedTuple):
    """All that the drawing shows."""

    state: str
    inside: ClearInside
    outline: tuple[Span, ...]
    openings: tuple[Opening, ...]
    arches: tuple[Arch, ...]
    wells: tuple[Well, ...]
    pieces: tuple[Placed, ...]
    troubled: frozenset[tuple[str, int]]
    """Pieces without a free place."""
    in_the_way: frozenset[str]
    """Ids of options whose pieces take each other's space."""
    aisle_m: float | None
    aisle_known: bool
    """False while something that would stand in the way has no place."""
    numbers: tuple[tuple[str, int], ...]
    units: System
    by_hand: bool
    """Whether the reader can move things."""


def floor_plan(scene: Scene, plan: PlanFigures, state: str, numbers: dict[str, int], by_hand: bool) -> FloorPlan:
    """What there is to draw of the floor in one state, ``"day"`` or ``"night"``."""
    pieces = plan.day if state == "day" else plan.night
    ids = {p.option_id for p in pieces}
    met = {i for o in plan.overlaps if o.state == state for i in (o.first_id, o.second_id)}
    return FloorPlan(
        state=state,
        inside=plan.inside,
        outline=plan.outline,
        openings=plan.openings,
        arches=plan.arches,
        wells=plan.wells,
        pieces=pieces,
        troubled=frozenset((p.option_id, p.piece) for p in pieces if not p.fits),
        in_the_way=frozenset(met - {""}),
        aisle_m=plan.aisle_m if state == "day" else plan.night_aisle_m,
        aisle_known=not plan.aisle_wants,
        numbers=tuple((i, n) for i, n in numbers.items() if i in ids),
        units=scene.build.workshop.units,
        by_hand=by_hand and state == "day",
    )


def _area(plan: FloorPlan, x_m: float, y_m: float, length_m: float, depth_m: float) -> Area:
    # y counts from the left wall, which is at the bottom.
    bottom_m = plan.inside.bare_width_m - y_m
    return Area(x_m, bottom_m - depth_m, x_m + length_m, bottom_m)


def piece_area(plan: FloorPlan, p: Placed | Zone | Arch | Well) -> Area:
    """Where a thing lies in the drawing."""
    return _area(plan, p.x_m, p.y_m, p.length_m, p.depth_m)


def _walls(plan: FloorPlan) -> Markup:
    """What lies between the bare wall and the clear room, as one shape with a hole."""
    length_m, width_m = plan.inside.bare_length_m, plan.inside.bare_width_m
    points = [(s.x_m, width_m - s.right_m) for s in plan.outline]
    points += [(s.x_m, width_m - s.left_m) for s in reversed(plan.outline)]
    hole = "L".join(f"{cm(x)} {cm(y)}" for x, y in points)
    hollow = f"M{hole}Z" if points else ""
    return Markup('<path class="walls" fill-rule="evenodd" d="M0 0H{0}V{1}H0Z{2}"/>').format(
        cm(length_m), cm(width_m), hollow
    )


def _opening(plan: FloorPlan, o: Opening) -> Area | None:
    """The gap an opening makes in its wall."""
    inside = plan.inside
    depth_m = inside.side_m + _SILL_M
    length_m, width_m = inside.bare_length_m, inside.bare_width_m
    match o.wall:
        case "left":
            return _area(plan, o.from_m, -_SILL_M, o.to_m - o.from_m, depth_m)
        case "right":
            return _area(plan, o.from_m, width_m - inside.side_m, o.to_m - o.from_m, depth_m)
        case "front":
            return _area(plan, -_SILL_M, o.from_m, inside.front_m + _SILL_M, o.to_m - o.from_m)
        case "rear":
            return _area(plan, length_m - inside.rear_m, o.from_m, inside.rear_m + _SILL_M, o.to_m - o.from_m)
    return None


def _order(p: Placed) -> tuple[float, float]:
    """Low things first, of equally high ones the larger first, as they lie over each other."""
    return p.z_m, -p.length_m * p.depth_m


def _css(plan: FloorPlan, p: Placed) -> str:
    names = ["piece"]
    if p.z_m >= _OVERHEAD_M:
        names.append("over")
    if p.berth:
        names.append("berth")
    if p.side == "inside":
        names.append("within")
    if (p.option_id, p.piece) in plan.troubled or p.option_id in plan.in_the_way:
        names.append("trouble")
    return " ".join(names)


def where(p: Placed, units: System) -> str:
    """A piece's place in words; what has none is drawn where the catalogue would put it, and stands nowhere."""
    if not p.fits:
        return NO_PLACE
    place = {"left": "left wall", "right": "right wall", "front": "front", "rear": "rear"}.get(p.side, "")
    if p.side == "inside":
        return "built in"
    from_front = f"{show(p.x_m, 'm', units)} from the front"
    return f"{place}, {from_front}" if place else from_front


def _moves(plan: FloorPlan, p: Placed) -> bool:
    """Whether the reader can take hold of it: of several pieces of one option only the first can be moved."""
    return plan.by_hand and p.movable and p.piece == 0


def _piece(plan: FloorPlan, p: Placed) -> Markup:
    body = marks.rect(piece_area(plan, p))
    if _moves(plan, p):
        # The handle is the rectangle itself: what has the focus keeps its children when the page draws it anew.
        body = Markup(
            '<rect id="move-{0}" data-part="{0}" data-move="{1}" tabindex="0" role="button" aria-label="{2}" '
            'aria-describedby="by-hand" {3}/>'
        ).format(
            p.option_id,
            f"{p.x_m:.4f} {p.y_m + p.depth_m / 2:.4f}",
            f"{dict(plan.numbers).get(p.option_id, '')} {p.name}, {where(p, plan.units)}",
            rect_at(*piece_area(plan, p)[:2], p.length_m, p.depth_m),
        )
    zones = (marks.rect(piece_area(plan, z), "zone") for z in p.zones if z.use != "solid")
    return marks.part(p.option_id, _css(plan, p), Markup("").join((body, *zones)))


def _key(plan: FloorPlan) -> list[marks.Key]:
    numbers = dict(plan.numbers)
    lines = []
    if plan.aisle_m is not None:
        lines.append(marks.Key("", "", f"Aisle {show(plan.aisle_m, 'm', plan.units)} at its narrowest"))
    if not plan.aisle_known:
        lines.append(marks.Key("", "", "Aisle not known until everything has a place"))
    for p in plan.pieces:
        if (p.option_id, p.piece) in plan.troubled:
            lines.append(marks.Key("trouble", str(numbers.get(p.option_id, "")), f"{p.name}: {NO_PLACE}"))
    return lines


@lru_cache(maxsize=512)
def draw(plan: FloorPlan, tools: Markup) -> Markup:
    """The figure ``draw-day`` or ``draw-night``: drawing, key and, for the page, tools that move things."""
    inside = plan.inside
    length_m, width_m = inside.bare_length_m, inside.bare_width_m
    view = Area(-_BEFORE_M, -0.15, length_m + _AROUND_M, width_m + _AROUND_M)
    em_m = em_of(marks.size_of(view))
    clear_length, clear_width = show(inside.length_m, "m", plan.units), show(inside.width_m, "m", plan.units)
    off_m = (width_m - inside.width_m) / 2
    clear = inside.front_m, length_m - inside.rear_m
    sizes = (
        marks.across(clear, width_m + _OFF_M + em_m / 2, width_m, clear_length, em_m),
        marks.upright((off_m, width_m - off_m), length_m + _OFF_M + em_m / 2, length_m, clear_width, em_m),
    )  # fmt: skip
    pieces = sorted(plan.pieces, key=_order)
    numbers = dict(plan.numbers)
    areas = [piece_area(plan, p) for p in pieces]
    small = [a for a in areas if min(a.right_m - a.left_m, a.bottom_m - a.top_m) < 2 * em_m]
    labels = place_labels(
        [Wanted(str(numbers.get(p.option_id, "")), a) for p, a in zip(pieces, areas, strict=True)],
        [s.area for s in sizes], view, em_m, small,
    )  # fmt: skip
    gaps = [(o, a) for o in plan.openings if (a := _opening(plan, o)) is not None]
    body = [
        marks.rect(Area(0.0, 0.0, length_m, width_m), "floor"),
        _walls(plan),
        *(marks.rect(a, f"opening {o.serves}") for o, a in gaps),
        *(marks.rect(piece_area(plan, w), "well") for w in plan.wells),
        *(marks.rect(piece_area(plan, a), "arch") for a in plan.arches),
        *(_piece(plan, p) for p in pieces),
        *(
            marks.number(
                p.option_id,
                ("trouble" if "trouble" in _css(plan, p) else "") + (" first" if _moves(plan, p) else ""),
                label,
                em_m,
            )
            for p, label in zip(pieces, labels, strict=True)
        ),
        Markup('<path class="nose" d="M-10 {}l-14 0m5 -5l-5 5l5 5"/>').format(cm(width_m / 2)),
        *(s.drawn for s in sizes),
    ]
    words = STATE_WORDS[plan.state]
    said = [f"Clear inside {clear_length} long and {clear_width} wide."]
    said += [f"{numbers.get(p.option_id, '')} {p.name}: {where(p, plan.units)}." for p in plan.pieces]
    return marks.figure(
        plan.state, f"Floor plan {words}", f"Floor plan {words}, to scale", " ".join(said), view, body, _key(plan),
        role="group" if plan.by_hand else "img", below=tools,
    )  # fmt: skip
