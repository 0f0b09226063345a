"""What lies over the cab: beds and lockers in the alcove of a body that reaches forward there."""

from engine.build.model import Part
from engine.build.plan_figures import ClearInside, Conflict, Placed
from engine.build.plan_inside import interior_of
from engine.catalogue.facets import Berth, FurnitureModule
from engine.catalogue.vehicle import Vehicle

OVER_CAB = "over-cab"


def over_cab(
    vehicle: Vehicle, parts: tuple[Part, ...], inside: ClearInside
) -> tuple[tuple[Placed, ...], tuple[Placed, ...], tuple[Conflict, ...]]:
    """Modules that stand over the cab, by day and by night, and those that have no room there.

    The alcove narrows evenly toward the front; its lining takes the same thickness as the walls'. One module fits.
    """
    day: list[Placed] = []
    night: list[Placed] = []
    conflicts: list[Conflict] = []
    for part in parts:
        berth = any(isinstance(f, Berth) for f in part.option.facets)
        for f in part.option.facets:
            if not isinstance(f, FurnitureModule) or f.stands != OVER_CAB:
                continue
            for _ in range(min(part.count, part.option.most)):
                fits = not day and has_room(vehicle, f, inside)
                for into in (day, night):
                    into.append(_placed(vehicle, part, f, inside, fits, berth, len(into)))
                if not fits:
                    conflicts.append(Conflict((part.option.id,), (part.option.name,)))
    return tuple(day), tuple(night), tuple(conflicts)


def has_room(vehicle: Vehicle, f: FurnitureModule, inside: ClearInside) -> bool:
    """Whether a module fits the alcove, if there is one."""
    alcove = interior_of(vehicle).over_cab
    if alcove is None:
        return False
    at_front_m = inside.bare_width_m - (inside.bare_width_m - alcove.front_width_m) * f.length_m / alcove.length_m
    return (
        f.length_m + inside.side_m <= alcove.length_m + 1e-6
        and f.depth_m <= at_front_m - 2 * inside.side_m + 1e-6
        and f.height_m <= alcove.height_m - inside.roof_m + 1e-6
    )


def _placed(
    vehicle: Vehicle,
    part: Part,
    f: FurnitureModule,
    inside: ClearInside,
    fits: bool,
    berth: bool,
    piece: int,
) -> Placed:
    alcove = interior_of(vehicle).over_cab
    return Placed(
        option_id=part.option.id,
        piece=piece,
        name=part.option.name,
        x_m=-f.length_m,
        y_m=(inside.bare_width_m - f.depth_m) / 2,
        z_m=alcove.floor_m if alcove is not None else inside.bare_headroom_m - inside.roof_m - f.height_m,
        length_m=f.length_m,
        depth_m=f.depth_m,
        height_m=f.height_m,
        side=OVER_CAB,
        zones=(),
        fixed_by_buyer=False,
        fits=fits,
        movable=False,
        berth=berth,
    )
