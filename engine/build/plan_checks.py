"""What of a plan shares space that only one can have: modules, the body, doors and drawers; and rows along a wall."""

from engine.build.plan_figures import ClearInside, Overlap, Placed, WallSum, Zone
from engine.build.plan_modules import Module
from engine.physics.arrangement import rows
from engine.physics.clearance import GRID_M, LEFT, MIDDLE, RIGHT, Room, clash, in_block

Spots = tuple[tuple[str, int, bool], ...]

_SWINGS = ("door", "drawer", "sliding-door")


def overlaps(room: Room, own: tuple[Module, ...], spots: Spots) -> tuple[Overlap, ...]:
    """Every pair of things that share space, by day or night, and everything that reaches into the body.

    Only a buyer's moves bring that about; what has no free place at all is in no pair.
    """
    found: list[Overlap] = []
    standing = [k for k, (_, _, fits) in enumerate(spots) if fits]
    for n, i in enumerate(standing):
        found += _against_body(room, own[i], spots[i])
        for j in standing[n + 1 :]:
            found += _between(room, own[i], spots[i], own[j], spots[j])
    return tuple(found)


def _between(room: Room, a: Module, at: tuple[str, int, bool], b: Module, bt: tuple[str, int, bool]) -> list[Overlap]:
    (side, x, _), (other, x2, _) = at, bt
    if clash(room, a.box.day, side, x, b.box.day, other, x2):
        return [_overlap(a, b, "solid", "day")]
    if clash(room, a.box.night, side, x, b.box.night, other, x2):
        return [_overlap(a, b, "solid", "night")]
    found = []
    for one, s, x_one, two, t, x_two in ((a, side, x, b, other, x2), (b, other, x2, a, side, x)):
        for f, z in zip(one.facet.free, one.box.free, strict=True):
            if clash(room, z, s, x_one, two.box.day, t, x_two):
                found.append(_overlap(two, one, f.use, "day"))
    return found


def _overlap(a: Module, b: Module, use: str, state: str) -> Overlap:
    return Overlap(a.part.option.id, a.part.option.name, b.part.option.id, b.part.option.name, use, state)


def _against_body(room: Room, m: Module, at: tuple[str, int, bool]) -> list[Overlap]:
    side, x, _ = at
    names = []
    for e in dict.fromkeys((m.box.day, m.box.night)):
        if x + e.x_from < room.x_from or x + e.x_to > room.x_to:
            names.append("end wall")
        depth = e.out_to - e.out_from
        need = depth + 2 * m.box.inset if side == MIDDLE else e.out_to + m.box.inset
        if need > room.width:
            names.append("side wall")
        names += [
            b.name
            for b in room.blocks
            if not (b.arch and m.box.over_arch)
            and not (b.by_day and e != m.box.day)
            and in_block(room, e, side, b)
            and x + e.x_from < b.x_to
            and b.x_from < x + e.x_to
        ]
    option = m.part.option
    return [Overlap(option.id, option.name, "", name, "solid", "day") for name in dict.fromkeys(names)]


def _meet(a: Zone, b: Zone) -> bool:
    return (
        a.x_m + a.length_m > b.x_m + 1e-6
        and b.x_m + b.length_m > a.x_m + 1e-6
        and a.y_m + a.depth_m > b.y_m + 1e-6
        and b.y_m + b.depth_m > a.y_m + 1e-6
        and a.z_m + a.height_m > b.z_m + 1e-6
        and b.z_m + b.height_m > a.z_m + 1e-6
    )


def meets(day: tuple[Placed, ...]) -> tuple[Overlap, ...]:
    """Doors and drawers of two modules that would hit each other when both are open."""
    moving = [(p, z) for p in day for z in p.zones if z.use in _SWINGS]
    found = [
        Overlap(p.option_id, p.name, q.option_id, q.name, z.use, "day")
        for i, (p, z) in enumerate(moving)
        for q, y in moving[i + 1 :]
        if (p.option_id, p.piece) != (q.option_id, q.piece) and _meet(z, y)
    ]
    return tuple(dict.fromkeys(found))


def walls(room: Room, own: tuple[Module, ...], spots: Spots, inside: ClearInside) -> tuple[WallSum, ...]:
    """The fullest row of modules along each wall: those at one height, and all that go right across."""
    found = []
    sides = [side for side, _, _ in spots]
    for wall in (LEFT, RIGHT):
        every = rows(room, [m.box for m in own], sides, wall)
        fullest = [own[k] for k in max(every, key=lambda row: sum(own[k].box.day.x_to for k in row), default=())]
        found.append(
            WallSum(
                side=wall,
                modules_m=sum(m.box.day.x_to for m in fullest) * GRID_M,
                linings_m=inside.front_m + inside.rear_m,
                bare_length_m=inside.bare_length_m,
                option_ids=tuple(dict.fromkeys(m.part.option.id for m in fullest)),
            )
        )
    return tuple(found)
