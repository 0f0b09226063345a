"""Modules in their places, as rules and drawings see them, and the way that is left between them."""

from engine.build.plan_figures import Placed, Span, Zone
from engine.build.plan_modules import WALKING_M, Module
from engine.catalogue.facets import Berth
from engine.physics.arrangement import Arrangement
from engine.physics.clearance import GRID_M, LEFT, MIDDLE, RIGHT, Extent, Room, taper_at
from engine.physics.passage import Narrowest, Standing, narrowest


def spots_of(room: Room, own: tuple[Module, ...], arranged: Arrangement) -> tuple[tuple[str, int, bool], ...]:
    """Side, front edge and whether it fits, of every module that stands by itself.

    What has no free place is shown where the catalogue would put it.
    """
    found = []
    for m, spot in zip(own, arranged.spots, strict=True):
        if spot is not None:
            found.append((spot.side, spot.x, True))
            continue
        last = room.x_to - m.box.day.x_to
        wish = {"front": room.x_from, "rear": last}.get(m.box.anchor, m.box.wish)
        found.append((m.box.sides[0], max(room.x_from, min(wish, last)), False))
    return tuple(found)


def _left_edge(room: Room, width_m: float, e: Extent, side: str, x: int) -> float:
    """In a taper a thing stands off its wall as far as its narrowest spot asks."""
    drawn_in = max(taper_at(room, x + e.x_from), taper_at(room, x + e.x_to)) * GRID_M
    if side == LEFT:
        return e.out_from * GRID_M + drawn_in
    if side == RIGHT:
        return width_m - e.out_to * GRID_M - drawn_in
    return (width_m - (e.out_to - e.out_from) * GRID_M) / 2


def placed(
    room: Room, width_m: float, modules: tuple[Module, ...], spots: tuple[tuple[str, int, bool], ...]
) -> tuple[tuple[Placed, ...], tuple[Placed, ...]]:
    """Every piece by day and by night; what is built into another stands in it, from the front on."""
    day: list[Placed] = []
    night: list[Placed] = []
    used: dict[int, int] = {}
    for n, m in enumerate(modules):
        host = n if m.host is None else m.host
        side, x, fits = spots[host]
        if m.host is not None:
            x += used.get(host, 0)
            used[host] = used.get(host, 0) + m.box.day.x_to
        zones = (
            tuple(_zone(room, width_m, f.use, z, side, x) for f, z in zip(m.facet.free, m.box.free, strict=True))
            if m.host is None
            else ()
        )
        stands = m.box.anchor or ("middle" if side == MIDDLE else side)
        for e, state, into in ((m.box.day, "day", day), (m.box.night, "night", night)):
            into.append(
                Placed(
                    option_id=m.part.option.id,
                    piece=m.piece,
                    name=m.part.option.name,
                    x_m=x * GRID_M,
                    y_m=_left_edge(room, width_m, e, side, x),
                    z_m=e.z_from * GRID_M,
                    length_m=e.x_to * GRID_M,
                    depth_m=(e.out_to - e.out_from) * GRID_M,
                    height_m=(e.z_to - e.z_from) * GRID_M,
                    side="inside" if m.host is not None else stands,
                    zones=zones,
                    fixed_by_buyer=m.box.fixed,
                    fits=fits,
                    movable=m.host is None,
                    berth=m.berth and (state == "night" or not _made_at_night(m)),
                )
            )
    return tuple(day), tuple(night)


def _zone(room: Room, width_m: float, use: str, z: Extent, side: str, x: int) -> Zone:
    return Zone(
        use,
        (x + z.x_from) * GRID_M,
        _left_edge(room, width_m, z, side, x),
        z.z_from * GRID_M,
        (z.x_to - z.x_from) * GRID_M,
        (z.out_to - z.out_from) * GRID_M,
        (z.z_to - z.z_from) * GRID_M,
    )


def _made_at_night(m: Module) -> bool:
    return m.facet.night is not None or any(isinstance(f, Berth) and f.made_from_seats for f in m.part.option.facets)


def _walked_by(
    floor_m: float, modules: tuple[Module, ...], standing: tuple[Placed, ...]
) -> list[tuple[Module, Placed]]:
    """What stands where people walk, or would if it had a place."""
    low, high = floor_m + WALKING_M[0], floor_m + WALKING_M[1]
    return [
        (m, p)
        for m, p in zip(modules, standing, strict=True)
        if m.host is None and p.z_m < high and p.z_m + p.height_m > low
    ]


def wanting_place(floor_m: float, modules: tuple[Module, ...], standing: tuple[Placed, ...]) -> tuple[str, ...]:
    """Options that would stand where people walk and have no place: nobody knows what way they leave."""
    return tuple(dict.fromkeys(p.option_id for _, p in _walked_by(floor_m, modules, standing) if not p.fits))


def way_through(
    outline: tuple[Span, ...], floor_m: float, modules: tuple[Module, ...], standing: tuple[Placed, ...]
) -> Narrowest | None:
    """The narrowest place of the way between everything that stands where people walk; None without any such thing, and
    while any of it has no place."""
    begin, end = outline[0].x_m, outline[-1].x_m
    things = []
    for m, p in _walked_by(floor_m, modules, standing):
        if not p.fits:
            return None
        ends = ""
        if m.box.ends_aisle:
            ends = "rear" if p.x_m + p.length_m / 2 > (begin + end) / 2 else "front"
        things.append(Standing(p.option_id, p.x_m, p.x_m + p.length_m, p.y_m, p.y_m + p.depth_m, ends))
    return narrowest(outline, things, begin, end) if things else None


def centres(
    modules: tuple[Placed, ...], front_x_m: float, width_m: float, floor_z_m: float
) -> tuple[tuple[str, float, float, float], ...]:
    """The middle of each option's pieces in the vehicle's coordinates, by option id."""
    sums: dict[str, list[float]] = {}
    for p in modules:
        total = sums.setdefault(p.option_id, [0.0, 0.0, 0.0, 0.0])
        for k, value in enumerate(p.in_vehicle(front_x_m, width_m, floor_z_m)):
            total[k] += value
        total[3] += 1
    return tuple((i, x / n, y / n, z / n) for i, (x, y, z, n) in sums.items())
