"""Everything on the roof that is not a panel: where it stands and what it needs free around it."""

from functools import lru_cache
from typing import Literal, NamedTuple

from engine.build.model import Build
from engine.catalogue.facets import RoofObject
from engine.catalogue.roof import Roof
from engine.physics.roof_packing import Rect

OPENINGS = ("fan", "hatch")
"""What lets air into the living space."""


class Obstacle(NamedTuple):
    """A thing on the roof with the strip it needs free; distances from the roof's front left corner."""

    name: str
    option_id: str | None
    what: str
    body: Rect
    keep_clear: Rect
    """What panels keep off: the body with its free strip, its opened lid and its heat."""
    height_m: float = 0.05
    """Above the roof's skin, what it stands on included."""
    lid: Rect | None = None
    """Where an opened lid reaches beyond the body."""
    heat: Rect | None = None
    """What is too near a chimney."""
    on_rack: bool = False
    """Stands on a rack and not on the roof."""
    under_panels: bool = False
    """A rack that panels are mounted on."""


def grown(r: Rect, by_m: float) -> Rect:
    """A rectangle with a strip all round."""
    return Rect(r.x_m - by_m, r.y_m - by_m, r.length_m + 2 * by_m, r.width_m + 2 * by_m)


def overlap(a: Rect, b: Rect) -> bool:
    """Whether two rectangles share more than an edge."""
    eps = 1e-9
    return (
        a.x_m + a.length_m > b.x_m + eps
        and b.x_m + b.length_m > a.x_m + eps
        and a.y_m + a.width_m > b.y_m + eps
        and b.y_m + b.width_m > a.y_m + eps
    )


def contains(outer: Rect, r: Rect) -> bool:
    """Whether a rectangle lies wholly in another."""
    eps = 1e-9
    return (
        r.x_m >= outer.x_m - eps
        and r.y_m >= outer.y_m - eps
        and r.x_m + r.length_m <= outer.x_m + outer.length_m + eps
        and r.y_m + r.width_m <= outer.y_m + outer.width_m + eps
    )


def shared_m2(a: Rect, b: Rect) -> float:
    """Area that two rectangles share."""
    along = min(a.x_m + a.length_m, b.x_m + b.length_m) - max(a.x_m, b.x_m)
    across = min(a.y_m + a.width_m, b.y_m + b.width_m) - max(a.y_m, b.y_m)
    return max(0.0, along) * max(0.0, across)


def beside(r: Rect, side: Literal["front", "rear", "left", "right"], by_m: float) -> Rect:
    """The strip along one side of a rectangle."""
    if side == "front":
        return Rect(r.x_m - by_m, r.y_m, by_m, r.width_m)
    if side == "rear":
        return Rect(r.x_m + r.length_m, r.y_m, by_m, r.width_m)
    if side == "left":
        return Rect(r.x_m, r.y_m - by_m, r.length_m, by_m)
    return Rect(r.x_m, r.y_m + r.width_m, r.length_m, by_m)


def _around(*rects: Rect) -> Rect:
    x, y = min(r.x_m for r in rects), min(r.y_m for r in rects)
    end, side = max(r.x_m + r.length_m for r in rects), max(r.y_m + r.width_m for r in rects)
    return Rect(x, y, end - x, side - y)


@lru_cache(maxsize=1024)
def _obstacle(roof: Roof, facet: RoofObject, nth: int, name: str, option_id: str) -> Obstacle:
    spot = facet.spots[nth]
    body = Rect(
        spot.along_frac * roof.length_m - facet.length_m / 2,
        spot.across_frac * roof.width_m - facet.width_m / 2,
        facet.length_m,
        facet.width_m,
    )
    lid = beside(body, facet.lid_side, facet.lid_reach_m) if facet.lid_side else None
    heat = grown(body, facet.heat_clear_m) if facet.heat_clear_m else None
    free = _around(grown(body, facet.keep_clear_m), *(r for r in (lid, heat) if r))
    return Obstacle(
        name, option_id, facet.what, body, free, facet.height_m, lid, heat, under_panels=facet.under_panels
    )  # fmt: skip


@lru_cache(maxsize=256)
def _bare(roof: Roof) -> tuple[Obstacle, ...]:
    return tuple(
        Obstacle(o.name, None, "fixed", body, grown(body, o.keep_clear_m), o.height_m)
        for o in roof.fixed
        for body in (Rect(o.x_m, o.y_m, o.length_m, o.width_m),)
    )


def obstacles(build: Build) -> tuple[Obstacle, ...]:
    """The bare roof's own things, then the chosen ones; a box or an awning within a rack's outline stands on it."""
    roof = build.vehicle.roof
    chosen = [
        _obstacle(roof, facet, n, part.option.name, part.option.id)
        for part, facet in build.facets(RoofObject)
        for n in range(min(part.count, len(facet.spots)))
    ]
    racks = [o for o in chosen if o.what == "rack"]
    return _bare(roof) + tuple(_set_on(o, racks) for o in chosen)


def _set_on(o: Obstacle, racks: list[Obstacle]) -> Obstacle:
    under = [r.height_m for r in racks if o.what in ("box", "awning") and contains(r.body, o.body)]
    return o._replace(on_rack=True, height_m=o.height_m + max(under)) if under else o


def in_each_other(a: Obstacle, b: Obstacle) -> bool:
    """Whether two things want the same piece of roof; what stands on a rack and what an open rack goes round do not."""
    if not overlap(a.body, b.body):
        return False
    for rack, other in ((a, b), (b, a)):
        if rack.what == "rack" and (other.on_rack or (rack.under_panels and other.what != "rack")):
            return False
    return True
