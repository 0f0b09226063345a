"""The floor plan of a build: every module in its place, the way through, what fits and what does not."""

from functools import lru_cache

from engine.build.model import Part
from engine.build.plan_alcove import over_cab
from engine.build.plan_checks import meets, overlaps, walls
from engine.build.plan_figures import Arch, Conflict, PlanFigures, Well
from engine.build.plan_inside import clear_inside, interior_of, outline
from engine.build.plan_modules import Module, modules_of, openings, room_of
from engine.build.plan_place import placed, spots_of, wanting_place, way_through
from engine.build.plan_storage import storage_of
from engine.catalogue.facets import Berth, Door, FurnitureModule, InsulationLayer, Trim
from engine.catalogue.vehicle import Vehicle
from engine.catalogue.workshop import Workshop
from engine.enquiry.model import Move
from engine.physics.arrangement import AISLES_M, arrange
from engine.physics.clearance import grid
from engine.units import INCH_M

AISLE_M, AISLE_US_M = 0.4, 16 * INCH_M
"""Narrowest way through the living space, where a workshop states none (common practice), in round figures of either
system."""

Moves = tuple[tuple[str, Move], ...]


def least_aisle_m(workshop: Workshop) -> float:
    """The narrowest way through the living space that a workshop builds."""
    if workshop.aisle_m is not None:
        return workshop.aisle_m
    return AISLE_US_M if workshop.units == "us" else AISLE_M


def plan_parts(vehicle: Vehicle, parts: tuple[Part, ...]) -> tuple[Part, ...]:
    """The parts that a floor plan depends on."""
    way = interior_of(vehicle).pass_through
    opens = way.opened_by if way is not None else None
    return tuple(
        p
        for p in parts
        if p.option.id == opens
        or any(isinstance(f, (FurnitureModule, Berth, InsulationLayer, Trim, Door)) for f in p.option.facets)
    )


@lru_cache(maxsize=512)
def plan(vehicle: Vehicle, parts: tuple[Part, ...], moves: Moves, aisle_m: float) -> PlanFigures:
    """The plan of these parts (``plan_parts``) in this vehicle, wanting an aisle of at least that width."""
    inside = clear_inside(vehicle, parts)
    interior = interior_of(vehicle)
    ways = openings(vehicle, parts)
    room = room_of(vehicle, inside, ways)
    modules = modules_of(vehicle, parts, inside, moves)
    own = tuple(m for m in modules if m.host is None)
    aisles = tuple(sorted({grid(a) for a in (*AISLES_M, aisle_m)}, reverse=True))
    arranged = arrange(room, tuple(m.box for m in own), aisles)
    spots = spots_of(room, own, arranged)
    width_m = inside.bare_width_m
    day, night = placed(room, width_m, modules, spots)
    floor = outline(vehicle, inside)
    day_aloft, night_aloft, no_room = over_cab(vehicle, parts, inside)
    by_day = way_through(floor, inside.floor_m, modules, day)
    by_night = way_through(floor, inside.floor_m, modules, night)
    return PlanFigures(
        inside=inside,
        outline=floor,
        openings=ways,
        arches=tuple(
            Arch(a.x_m, 0.0 if a.side == "left" else width_m - a.depth_m, a.length_m, a.depth_m, a.height_m)
            for a in interior.wheel_arches
        ),
        wells=tuple(Well(s.x_m, s.y_m, s.length_m, s.depth_m) for s in interior.step_wells),
        day=day + day_aloft,
        night=night + night_aloft,
        aisle_m=by_day.width_m if by_day else None,
        aisle_ids=tuple(dict.fromkeys(by_day.keys)) if by_day else (),
        aisle_wants=wanting_place(inside.floor_m, modules, day),
        night_aisle_m=by_night.width_m if by_night else None,
        walls=walls(room, own, spots, inside) if own else (),
        conflicts=(*(_conflict(own, c) for c in arranged.conflicts), *no_room),
        overlaps=overlaps(room, own, spots),
        meets=meets(day),
        storage_l=storage_of(modules, tuple(fits for _, _, fits in spots)),
        proven=arranged.proven,
    )


def _conflict(own: tuple[Module, ...], which: tuple[int, ...]) -> Conflict:
    options = [own[i].part.option for i in which]
    return Conflict(tuple(dict.fromkeys(o.id for o in options)), tuple(dict.fromkeys(o.name for o in options)))
