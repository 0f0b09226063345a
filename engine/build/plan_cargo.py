"""The garage below the bed, and whether the trip's bulky things go into it."""

from typing import NamedTuple

from engine.build.carriers import Carried, carried
from engine.build.model import Build
from engine.build.plan_figures import Opening, Placed
from engine.build.plan_storage import garage_height_m
from engine.catalogue.facets import FurnitureModule
from engine.catalogue.trip import CargoBox
from engine.physics.box_fit import MOST_BOXES, Box, BoxFit, Space, Taken, fit_boxes, passes


class Garage(NamedTuple):
    """The largest garage of a build, and the doors it is loaded through."""

    option_id: str
    name: str
    space: Space
    doors: tuple[Opening, ...]


class Cargo(NamedTuple):
    """What becomes of the boxes."""

    boxes: tuple[CargoBox, ...]
    """Those for the garage, one by one."""
    outside: tuple[Carried, ...]
    garage: Garage | None
    fit: BoxFit | None
    """None without a garage, or when there are too many boxes to search."""
    too_large: tuple[str, ...]
    """Names of boxes that no door of the garage lets through."""


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
        return Cargo(tuple(every), outside, None, None, ())
    bed = next(p for p in build.plan.day if p.option_id == garage.option_id)
    doors = [door_clear_m(d, garage, bed.x_m) for d in garage.doors]
    too_large = tuple(
        dict.fromkeys(b.name for b in every if doors and not any(passes(_box(b), w, h) for w, h in doors))
    )
    fit = fit_boxes(garage.space, tuple(_box(b) for b in every)) if len(every) <= MOST_BOXES else None
    return Cargo(tuple(every), outside, garage, fit, too_large)


def _box(b: CargoBox) -> Box:
    return Box(b.length_m, b.width_m, b.height_m, b.any_way_up)
