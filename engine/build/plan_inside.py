"""What the chosen linings leave of the bare inside, the one place where that is worked out."""

from functools import lru_cache
from itertools import pairwise

from engine.build.model import Part
from engine.build.plan_figures import ClearInside, Span
from engine.catalogue.facets import InsulationLayer, Trim
from engine.catalogue.interior import Interior, WidthAt
from engine.catalogue.vehicle import Vehicle

BED_LOW_M, BED_HIGH_M, SHOULDER_M = 0.3, 1.0, 1.2
"""Between the first two heights the cabin's width counts, from the third on that at the shoulder (common practice)."""

BUILT_TO_M = 0.005
"""What a fit-out is built to (common practice): a body that lacks less inside lacks nothing."""


def reached_m(found_m: float, wanted_m: float) -> float:
    """A length inside that somebody's body wants, taken for as long as wanted where hardly anything is missing.

    >>> reached_m(1.7995, 1.8), reached_m(1.79, 1.8), reached_m(1.9, 1.8)
    (1.8, 1.79, 1.9)
    """
    return wanted_m if 0 < wanted_m - found_m <= BUILT_TO_M else found_m


def layers_m(parts: tuple[Part, ...], surface: str) -> tuple[float, tuple[str, ...]]:
    """Thickness that insulation and linings add to a surface, and the ids of the options that add it."""
    total_m = 0.0
    ids: list[str] = []
    for part in parts:
        for f in part.option.facets:
            if isinstance(f, InsulationLayer) and surface in f.surfaces:
                total_m += f.thickness_m * part.count
            elif isinstance(f, Trim) and surface in f.surfaces:
                total_m += f.thickness_m
            else:
                continue
            ids.append(part.option.id)
    return total_m, tuple(dict.fromkeys(ids))


def interior_of(vehicle: Vehicle) -> Interior:
    """The inside as stated, or a plain box of the cabin's size."""
    if vehicle.interior is not None:
        return vehicle.interior
    return Interior(floor_width_m=vehicle.cabin.width_m, shoulder_width_m=vehicle.cabin.width_m)


def clear_inside(vehicle: Vehicle, parts: tuple[Part, ...]) -> ClearInside:
    """Length, widths and height between the finished surfaces. Layers can be chosen until nothing is left: then 0."""
    side_m, takers = layers_m(parts, "walls")
    return _clear(vehicle, side_m, takers, layers_m(parts, "floor")[0], layers_m(parts, "roof")[0])


@lru_cache(maxsize=512)
def _clear(vehicle: Vehicle, side_m: float, takers: tuple[str, ...], floor_m: float, roof_m: float) -> ClearInside:
    cabin, interior = vehicle.cabin, interior_of(vehicle)
    open_front = interior.pass_through is not None and interior.pass_through.open_front
    front_m = 0.0 if open_front else side_m
    headroom_m = interior.headroom_m if interior.headroom_m is not None else cabin.height_m
    return ClearInside(
        front_m=front_m,
        rear_m=side_m,
        side_m=side_m,
        floor_m=floor_m,
        roof_m=roof_m,
        bare_length_m=cabin.length_m,
        bare_width_m=cabin.width_m,
        bare_floor_width_m=interior.floor_width_m,
        bare_shoulder_width_m=interior.shoulder_width_m,
        bare_headroom_m=headroom_m,
        length_m=max(0.0, cabin.length_m - front_m - side_m),
        floor_width_m=max(0.0, interior.floor_width_m - 2 * side_m),
        width_m=max(0.0, cabin.width_m - 2 * side_m),
        shoulder_width_m=max(0.0, interior.shoulder_width_m - 2 * side_m),
        headroom_m=max(0.0, headroom_m - floor_m - roof_m),
        takers=takers,
        assumed=vehicle.interior is None,
    )


def widths_at(interior: Interior, x_m: float) -> tuple[float, float]:
    """Bare width at floor and shoulder at one distance from the front wall."""
    points = interior.narrowing
    if not points:
        return interior.floor_width_m, interior.shoulder_width_m
    if x_m <= points[0].x_m:
        return points[0].floor_width_m, points[0].shoulder_width_m
    for a, b in pairwise(points):
        if x_m <= b.x_m:
            return _between(a, b, (x_m - a.x_m) / (b.x_m - a.x_m))
    return points[-1].floor_width_m, points[-1].shoulder_width_m


def _between(a: WidthAt, b: WidthAt, share_frac: float) -> tuple[float, float]:
    return (
        a.floor_width_m + share_frac * (b.floor_width_m - a.floor_width_m),
        a.shoulder_width_m + share_frac * (b.shoulder_width_m - a.shoulder_width_m),
    )


@lru_cache(maxsize=256)
def outline(vehicle: Vehicle, inside: ClearInside) -> tuple[Span, ...]:
    """Clear floor, as spans from front to rear."""
    interior = interior_of(vehicle)
    begin_m, end_m = inside.front_m, inside.bare_length_m - inside.rear_m
    xs = [begin_m, *(w.x_m for w in interior.narrowing if begin_m < w.x_m < end_m), end_m]
    spans = []
    for x in xs:
        off_m = (inside.bare_width_m - widths_at(interior, x)[0]) / 2 + inside.side_m
        spans.append(Span(x, off_m, max(off_m, inside.bare_width_m - off_m)))
    return tuple(spans)
