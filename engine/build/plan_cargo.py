"""The garage below the bed, and whether the trip's bulky things go into it."""

from typing import Literal, NamedTuple

from engine.build.carriers import Carried, carried
from engine.build.model import Build
from engine.build.plan_figures import Opening, Placed
from engine.build.plan_storage import garage_height_m
from engine.catalogue.facets import FurnitureModule
from engine.catalogue.trip import CargoBox
from engine.physics.box_fit import MOST_BOXES, Box, BoxFit, Space, Taken, fit_boxes, passes

ANY_M = 99.0
"""Wide enough for everything."""


class Garage(NamedTuple):
    """The largest garage of a build, and the doors it is loaded through."""

    option_id: str
    name: str
    space: Space
    doors: tuple[Opening, ...]


Shut = Literal["low", "small", "cut", "door"]
"""The room under the bed is too low, or too small otherwise; the bed leaves too little of a door's opening; the door
itself is too small."""


class ShutOut(NamedTuple):
    """A box that cannot get into the garage, even by itself, and what is in the way."""

    box: CargoBox
    by: Shut


class Cargo(NamedTuple):
    """What becomes of the boxes."""

    boxes: tuple[CargoBox, ...]
    """Those for the garage, one by one."""
    outside: tuple[Carried, ...]
    garage: Garage | None
    fit: BoxFit | None
    """None without a garage, or when there are too many boxes to search."""
    shut_out: tuple[ShutOut, ...]
    """Each kind of box once."""
    widest_m: tuple[float, float]
    """Clear width and height of the door that is open widest; nothing without one."""


def garage_of(build: Build) -> Garage | None:
    """The largest module for a garage that has a place."""
    heights = {
        p.option.id: garage_height_m(f)
        for p, f in build.facets(FurnitureModule)
        if f.storage_kind == "garage" or (f.storage_kind is None and p.option.place == "bed")
    }
    found = [p for p in build.plan.day if p.fits and p.side != "inside" and p.option_id in heights]
    if not found:
        return None
    bed = max(found, key=lambda p: (p.length_m * p.depth_m * heights[p.option_id], p.option_id))
    top_m = heights[bed.option_id]
    taken = [
        Taken(p.x_m - bed.x_m, p.y_m - bed.y_m, 0.0, p.length_m, p.depth_m, p.height_m)
        for p in build.plan.day
        if p.side == "inside" and bed.x_m - 1e-6 <= p.x_m < bed.x_m + bed.length_m
    ]
    floor_m = build.plan.inside.floor_m
    taken += [
        Taken(max(0.0, a.x_m - bed.x_m), a.y_m - bed.y_m, 0.0, a.length_m + min(0.0, a.x_m - bed.x_m), a.depth_m,
              max(0.0, a.height_m - floor_m))
        for a in build.plan.arches
        if a.x_m < bed.x_m + bed.length_m and a.x_m + a.length_m > bed.x_m
    ]  # fmt: skip
    return Garage(
        bed.option_id,
        bed.name,
        Space(bed.length_m, bed.depth_m, top_m, tuple(taken)),
        tuple(o for o in build.plan.openings if o.serves == "loads" and _leads_into(o, bed)),
    )


def _leads_into(door: Opening, bed: Placed) -> bool:
    if door.wall in ("front", "rear"):
        return bed.side == door.wall
    return door.from_m < bed.x_m + bed.length_m and door.to_m > bed.x_m


def door_clear_m(door: Opening, garage: Garage, bed_from_m: float) -> tuple[float, float]:
    """Clear width and height where the door and the garage are both open."""
    width_m = door.to_m - door.from_m
    if door.wall in ("left", "right"):
        width_m = min(door.to_m, bed_from_m + garage.space.length_m) - max(door.from_m, bed_from_m)
    else:
        width_m = min(width_m, garage.space.width_m)
    return width_m, min(door.sill_m + door.height_m, garage.space.height_m) - door.sill_m


def cargo_of(build: Build) -> Cargo:
    """Every box of the trip that no carrier takes against the garage and its doors."""
    every = [b for b in build.trip.boxes for _ in range(b.count)]
    outside = carried(build)
    for bike in (b for c in outside for b in c.bikes):
        every.remove(bike)
    garage = garage_of(build)
    if garage is None:
        return Cargo(tuple(every), outside, None, None, (), (0.0, 0.0))
    bed = next(p for p in build.plan.day if p.option_id == garage.option_id)
    doors = [door_clear_m(d, garage, bed.x_m) for d in garage.doors]
    shut_out = [ShutOut(b, by) for b in dict.fromkeys(every) if (by := _shut_out(b, garage, doors)) is not None]
    fit = fit_boxes(garage.space, tuple(_box(b) for b in every)) if len(every) <= MOST_BOXES else None
    widest_m = max(doors, key=lambda d: d[0] * d[1], default=(0.0, 0.0))
    return Cargo(tuple(every), outside, garage, fit, tuple(shut_out), widest_m)


def _shut_out(b: CargoBox, garage: Garage, doors: list[tuple[float, float]]) -> Shut | None:
    """What keeps a box out of an empty garage."""
    box, space = _box(b), garage.space
    if not passes(box, ANY_M, space.height_m):
        return "low"
    if fit_boxes(space._replace(taken=()), (box,)).fits is False:
        return "small"
    if not doors or any(passes(box, w, h) for w, h in doors):
        return None
    bare = any(passes(box, d.to_m - d.from_m, d.height_m) for d in garage.doors)
    return "cut" if bare else "door"


def _box(b: CargoBox) -> Box:
    return Box(b.length_m, b.width_m, b.height_m, b.any_way_up)
