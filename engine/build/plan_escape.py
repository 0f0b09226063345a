"""Ways out at night: from each bed along the free floor to doors, and the windows large enough to climb through."""

from functools import lru_cache
from typing import NamedTuple

from engine.build.model import Build
from engine.build.plan_figures import Opening, Placed, PlanFigures
from engine.build.plan_people import beds
from engine.catalogue.facets import Window
from engine.physics.passage import Standing, narrowest
from engine.units import INCH_M

SQUEEZE_M = 0.28
"""Least way that a person gets through sideways (common practice: the depth of a chest)."""

WINDOW_M, WINDOW_US_M = (0.43, 0.6), (17 * INCH_M, 24 * INCH_M)
"""Clear opening of a window or hatch to climb out of, either way: 17 in by 24 in (NFPA 1192, from memory), rounded
where no standard asks for it."""

CRAWL_M = 0.4
"""Least height of a door over a bed to get out across the bed (common practice)."""

LOW_M, HIGH_M = 0.5, 1.5
"""What reaches into these heights above the floor blocks the way of somebody who may step over lower things."""


class WaysOut(NamedTuple):
    """How somebody in one bed gets out."""

    option_id: str
    name: str
    doors: tuple[str, ...]
    """Of the living space itself."""
    cab: bool
    """Whether the way to the cab can be reached: a way out, but no door of the living space."""
    windows: int
    placed: bool
    """False of a bed without a module: where it stands is not known, and the doors it reaches are not."""


def windows_to_climb(build: Build) -> int:
    """Windows and roof hatches, chosen or the bare body's own, that open and are large enough. How near they are to a
    bed is not looked at."""
    least = least_opening_m(build)
    chosen = sum(p.count for p, f in build.facets(Window) if f.opens and _climbable(f.width_m, f.height_m, least))
    return chosen + sum(o.escape and _climbable(o.length_m, o.width_m, least) for o in build.vehicle.roof.fixed)


def least_opening_m(build: Build) -> tuple[float, float]:
    """Short and long side of the least opening to climb through, by the workshop's region."""
    return WINDOW_US_M if build.workshop.region == "us" else WINDOW_M


def _climbable(a_m: float, b_m: float, least_m: tuple[float, float]) -> bool:
    return min(a_m, b_m) >= least_m[0] - 1e-9 and max(a_m, b_m) >= least_m[1] - 1e-9


def ways_out(build: Build) -> tuple[WaysOut, ...]:
    """Of every bed that is made up at night."""
    windows = windows_to_climb(build)
    found: dict[str, WaysOut] = {}
    for bed in beds(build):
        option = bed.part.option
        if option.id in found:
            continue
        reached = doors_reached(build.plan, bed.placed) if bed.placed else ()
        doors = tuple(o.name for o in reached if o.kind != "pass-through")
        found[option.id] = WaysOut(
            option.id, option.name, doors, len(doors) < len(reached), windows, bed.placed is not None
        )
    return tuple(found.values())


@lru_cache(maxsize=1024)
def doors_reached(plan: PlanFigures, bed: Placed) -> tuple[Opening, ...]:
    """Doors, with the way to the cab, that somebody in this bed can get to with all beds made up."""
    return tuple(o for o in plan.openings if o.escape and _reaches(plan, bed, o))


def _reaches(plan: PlanFigures, bed: Placed, door: Opening) -> bool:
    """Whether the door is at the bed itself, or the floor between is free enough."""
    begin, end = plan.outline[0].x_m, plan.outline[-1].x_m
    top = bed.z_m + bed.height_m
    at = {"front": (begin, begin), "rear": (end, end)}.get(door.wall, (door.from_m, door.to_m))
    beside = bed.x_m <= at[1] + 0.1 and bed.x_m + bed.length_m >= at[0] - 0.1
    if beside and door.sill_m + door.height_m - top >= CRAWL_M:
        return True
    # The way on the floor runs from the bed's near edge to the door's near edge; the bed itself is no obstacle.
    middle = (bed.x_m + bed.length_m / 2, (at[0] + at[1]) / 2)
    if middle[0] > middle[1]:
        start, stop = at[1] - min(SQUEEZE_M, at[1] - at[0]), bed.x_m
    else:
        start, stop = bed.x_m + bed.length_m, at[0] + min(SQUEEZE_M, at[1] - at[0])
    start, stop = max(begin, start), min(end, stop)
    if stop - start < 1e-6:
        return True
    floor_m = plan.inside.floor_m
    low, high = floor_m + LOW_M, floor_m + HIGH_M
    things = [
        Standing(p.option_id, p.x_m, p.x_m + p.length_m, p.y_m, p.y_m + p.depth_m)
        for p in plan.night
        if (p.option_id, p.piece) != (bed.option_id, bed.piece)
        and p.side != "inside"
        and p.z_m < high
        and (p.z_m + p.height_m > low or p.berth)
        and p.z_m + p.height_m > floor_m + 0.15
    ]
    way = narrowest(plan.outline, things, start, stop)
    return way is None or way.width_m >= SQUEEZE_M
