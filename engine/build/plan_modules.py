"""The chosen modules as boxes that want a place, and the room they want it in, ready for the search."""

from functools import lru_cache
from typing import NamedTuple

from engine.build.model import Part
from engine.build.plan_alcove import OVER_CAB
from engine.build.plan_figures import ClearInside, Opening
from engine.build.plan_inside import BED_HIGH_M, BED_LOW_M, SHOULDER_M, interior_of, widths_at
from engine.catalogue.facets import Berth, Door, FurnitureModule
from engine.catalogue.facets.standing import Night
from engine.catalogue.interior import BodyDoor
from engine.catalogue.vehicle import Vehicle
from engine.enquiry.model import Move
from engine.physics.clearance import LEFT, MIDDLE, RIGHT, Block, Extent, Piece, Room, grid

WALKING_M = (0.15, 1.5)
"""Things that reach into this height stand in the way of people who walk (common practice)."""

DOOR_ROOM_M = 0.5
"""Floor that stays free behind a door for people (common practice)."""

STEP_M = 0.3
"""Things that begin lower than this above a step well would stand in it (common practice)."""

FULL_HEIGHT_M = 1.6
"""Furniture from this height on is built up to the ceiling, however low that is (common practice)."""

SEAT_M = 0.45
"""Height of a seat with its cushion, on which a bed is made up (common practice)."""

SPARE_M = 1e-4
"""A tenth of a millimetre: less is no overlap, only rounding between inches and millimetres."""

_WALKED = ("standing", "aisle")
"""Uses of free space that a flat tray or step in the floor does not spoil."""


class Module(NamedTuple):
    """One piece of a chosen module."""

    part: Part
    facet: FurnitureModule
    piece: int
    host: int | None
    """Index of the module it is built into, or None when it stands by itself."""
    box: Piece
    berth: bool


def width_m(inside: ClearInside, low_m: float, high_m: float) -> float:
    """Bare width that a thing between two heights above the floor finds: the least of those it passes."""
    floor, bed, shoulder = inside.bare_floor_width_m, inside.bare_width_m, inside.bare_shoulder_width_m
    knots = ((0.0, floor), (BED_LOW_M, bed), (BED_HIGH_M, bed), (SHOULDER_M, shoulder))

    def at(z_m: float) -> float:
        before = knots[0]
        for z, w in knots:
            if z_m <= z:
                return w if z == before[0] else before[1] + (w - before[1]) * (z_m - before[0]) / (z - before[0])
            before = (z, w)
        return before[1]

    return min(at(low_m), at(high_m), *(w for z, w in knots if low_m < z < high_m), 9.9)


def openings(vehicle: Vehicle, parts: tuple[Part, ...]) -> tuple[Opening, ...]:
    """Ways through the body that this build has."""
    interior = interior_of(vehicle)
    fitted = {
        use: sum(p.count for p in parts for f in p.option.facets if isinstance(f, Door) and f.use == use)
        for use in ("entry", "garage", "service")
    }
    found = []
    for door in interior.doors:
        if door.needs is not None:
            if fitted[door.needs] <= 0:
                continue
            fitted[door.needs] -= 1
        found.append(_opening(door, parts))
    way = interior.pass_through
    if way is not None and (way.opened_by is None or any(p.option.id == way.opened_by for p in parts)):
        found.append(
            Opening("way to the cab", "front", way.from_m, way.to_m, 0.0, way.height_m, "pass-through", "people", True)
        )
    return tuple(found)


def _opening(door: BodyDoor, parts: tuple[Part, ...]) -> Opening:
    """A door of the body; one that an option makes has that option's size, round the middle of its place."""
    from_m, to_m, height_m = door.from_m, door.to_m, door.height_m
    if door.needs is not None:
        made = next(f for p in parts for f in p.option.facets if isinstance(f, Door) and f.use == door.needs)
        middle_m = (from_m + to_m) / 2
        from_m, to_m, height_m = middle_m - made.width_m / 2, middle_m + made.width_m / 2, made.height_m
    return Opening(door.name, door.wall, from_m, to_m, door.sill_m, height_m, door.kind, door.serves, door.escape)


@lru_cache(maxsize=256)
def room_of(vehicle: Vehicle, inside: ClearInside, ways: tuple[Opening, ...]) -> Room:
    """The room between its finished ends, with doors, steps and wheel arches in it."""
    interior = interior_of(vehicle)
    w = inside.bare_width_m
    blocks = [
        Block(
            "wheel arch", grid(a.x_m), grid(a.x_m + a.length_m),
            0 if a.side == "left" else grid(w - a.depth_m), grid(a.depth_m) if a.side == "left" else grid(w),
            0, grid(a.height_m), arch=True,
        )
        for a in interior.wheel_arches
    ]  # fmt: skip
    blocks += [
        Block("step well", grid(s.x_m), grid(s.x_m + s.length_m), grid(s.y_m), grid(s.y_m + s.depth_m), 0, grid(STEP_M))
        for s in interior.step_wells
    ]
    covered = {d.name: d.covered_m for d in interior.doors}
    deep = inside.side_m + DOOR_ROOM_M
    for o in ways:
        if o.serves != "people":
            continue
        top = grid(o.sill_m + o.height_m)
        to_m = o.to_m - covered.get(o.name, 0.0)
        if o.wall in ("left", "right"):
            y_from, y_to = (0.0, deep) if o.wall == "left" else (w - deep, w)
            blocks.append(Block(o.name, grid(o.from_m), grid(to_m), grid(y_from), grid(y_to), 0, top, by_day=True))
        else:
            x = inside.bare_length_m
            x_from, x_to = (
                (0.0, inside.front_m + DOOR_ROOM_M) if o.wall == "front" else (x - inside.rear_m - DOOR_ROOM_M, x)
            )
            blocks.append(Block(o.name, grid(x_from), grid(x_to), grid(o.from_m), grid(o.to_m), 0, top, by_day=True))
    taper = []
    for p in interior.narrowing:
        floor, shoulder = widths_at(interior, p.x_m)
        drawn_in = max(inside.bare_floor_width_m - floor, inside.bare_shoulder_width_m - shoulder, 0.0) / 2
        taper.append((grid(p.x_m), grid(drawn_in)))
    return Room(
        x_from=grid(inside.front_m),
        x_to=grid(inside.bare_length_m - inside.rear_m + SPARE_M),
        width=grid(w + SPARE_M),
        blocks=tuple(blocks),
        taper=tuple(taper),
    )


def hangs(part: Part, f: FurnitureModule) -> bool:
    """Whether it hangs under the ceiling."""
    return part.option.place == "overhead" if f.hangs is None else f.hangs


def _heights(f: FurnitureModule, hung: bool, inside: ClearInside) -> tuple[float, float]:
    """Underside and top above the bare floor, by day."""
    ceiling = inside.bare_headroom_m - inside.roof_m
    if hung:
        return ceiling - f.height_m, ceiling
    low = inside.floor_m + f.base_m
    high = low + f.height_m
    return low, min(high, ceiling) if f.height_m >= FULL_HEIGHT_M else high


def _extents(
    f: FurnitureModule, hung: bool, inside: ClearInside, deck_only: bool, from_seats: bool
) -> tuple[Extent, Extent, float]:
    """Day, night and how far the wall stands in at that height."""
    low, high = _heights(f, hung, inside)
    inset = (
        inside.side_m + (inside.bare_width_m - width_m(inside, max(0.0, high - 0.1) if deck_only else low, high)) / 2
    )
    wall = grid(inset)

    def extent(length_m: float, depth_m: float, z_from: float, z_to: float) -> Extent:
        return Extent(0, grid(length_m), wall, wall + grid(depth_m), grid(z_from), grid(z_to))

    day = extent(f.length_m, f.depth_m, low, high)
    n = f.night
    if n is None and not from_seats:
        return day, day, inset
    n = n or Night()
    base = low if n.base_m is None else inside.floor_m + n.base_m
    height = n.height_m or (min(f.height_m, SEAT_M) if from_seats else f.height_m)
    return day, extent(n.length_m or f.length_m, n.depth_m or f.depth_m, base, base + height), inset


def _sides(f: FurnitureModule, part: Part, piece: int, y_m: float) -> tuple[tuple[str, ...], str]:
    """Sides best first, and the end it has to stand at."""
    stands = f.stands
    if stands is None:
        stands = "rear" if part.option.place == "bed" else "either"
    if stands in ("front", "rear"):
        return (MIDDLE,), stands
    if stands == "free":
        return (MIDDLE,), ""
    if stands in (LEFT, RIGHT):
        return (stands,), ""
    if abs(y_m) > 0.05:
        return (LEFT, RIGHT) if y_m < 0 else (RIGHT, LEFT), ""
    return (LEFT, RIGHT) if piece % 2 == 0 else (RIGHT, LEFT), ""


def modules_of(
    vehicle: Vehicle, parts: tuple[Part, ...], inside: ClearInside, moves: tuple[tuple[str, Move], ...]
) -> tuple[Module, ...]:
    """Every piece of every chosen module, the largest first, those built into others last."""
    fixed = dict(moves)
    found: list[Module] = []
    for part in parts:
        berth = any(isinstance(f, Berth) for f in part.option.facets)
        # An option may come as several modules, each with its own facet.
        every = [f for f in part.option.facets if isinstance(f, FurnitureModule) and f.stands != OVER_CAB]
        for piece in range(len(every) * min(part.count, part.option.most)):
            f = every[piece % len(every)]
            alike = sum(1 for other in every if other == f) * min(part.count, part.option.most)
            move = fixed.get(part.option.id) if piece == 0 else None
            found.append(
                Module(part, f, piece, None, _piece(vehicle, part, f, piece, alike, inside, move, berth), berth)
            )
    # Alike pieces that like the same side stand together, so that the search can tell them apart from no other order.
    found.sort(key=lambda m: (not m.box.fixed, -_size(m.box.day), m.part.option.id, m.piece % 2, m.piece))
    return _hosted(found)


def _size(e: Extent) -> float:
    return (e.x_to - e.x_from) * (e.out_to - e.out_from) * (e.z_to - e.z_from)


def _piece(
    vehicle: Vehicle,
    part: Part,
    f: FurnitureModule,
    piece: int,
    alike: int,
    inside: ClearInside,
    move: Move | None,
    berth: bool,
) -> Piece:
    place = vehicle.place(part.option.place)
    from_seats = any(isinstance(x, Berth) and x.made_from_seats for x in part.option.facets)
    day, night, inset = _extents(f, hangs(part, f), inside, berth, from_seats)
    sides, anchor = _sides(f, part, piece, place.y_m)
    wish = place.x_m - vehicle.cabin.front_x_m - f.length_m / 2
    if alike > 1:
        rows = len(sides) if len(sides) > 1 else 1
        wish += (piece // rows - (alike / rows - 1) / 2) * f.length_m
    free = tuple(
        Extent(
            grid(z.x_m),
            grid(z.x_m + (z.length_m if z.length_m is not None else f.length_m)),
            day.out_to + grid(z.y_m),
            day.out_to + grid(z.y_m + z.depth_m),
            grid(inside.floor_m + (max(z.z_m, WALKING_M[0]) if z.use in _WALKED else z.z_m)),
            grid(inside.floor_m + z.z_m + z.height_m),
        )
        for z in f.free
    )
    return Piece(
        key=f"{part.option.id}/{piece}",
        day=day,
        night=night,
        sides=(move.side,) if move else sides,
        wish=grid(move.x_m) if move else grid(wish),
        fixed=move is not None,
        anchor="" if move else anchor,
        free=free,
        kin=f"{part.option.id}/{f.length_m}/{f.depth_m}" if alike > 1 and move is None else "",
        in_way=day.z_from < grid(WALKING_M[1] + inside.floor_m) and day.z_to > grid(WALKING_M[0] + inside.floor_m),
        ends_aisle=f.ends_aisle or anchor == "rear",
        over_arch=f.over_wheel_arch,
        inset=grid(inset),
    )


def _hosted(found: list[Module]) -> tuple[Module, ...]:
    """Modules that are built into others get their host, as long as it has length left; they come after all others."""
    into = {id(m): m.facet.built_into or ("bed" if m.part.option.place == "garage" else None) for m in found}
    own = [m for m in found if into[id(m)] is None]
    guests = [m for m in found if into[id(m)] is not None]
    left = {i: m.box.day.x_to for i, m in enumerate(own)}
    inside: list[Module] = []
    for m in guests:
        host = next(
            (
                i
                for i, h in enumerate(own)
                if h.part.option.place == into[id(m)]
                and not hangs(h.part, h.facet)
                and i in left
                and left[i] >= m.box.day.x_to
                and h.box.day.z_to >= m.box.day.z_to - m.box.day.z_from
            ),
            None,
        )
        if host is None or m.box.fixed:
            own.append(m)
        else:
            left[host] -= m.box.day.x_to
            inside.append(m._replace(host=host))
    return (*own, *inside)
