"""Chimneys on the roof and what has to keep its distance from them."""

from math import hypot
from typing import NamedTuple

from engine.build.roof_things import OPENINGS, Obstacle
from engine.physics.roof_packing import Rect


class NearChimney(NamedTuple):
    """A chimney and the nearest opening."""

    chimney: Obstacle
    opening: Obstacle
    distance_m: float
    clear_m: float


def distance_m(a: Rect, b: Rect) -> float:
    """Shortest distance between two rectangles."""
    along = max(a.x_m - b.x_m - b.length_m, b.x_m - a.x_m - a.length_m, 0.0)
    across = max(a.y_m - b.y_m - b.width_m, b.y_m - a.y_m - a.width_m, 0.0)
    return hypot(along, across)


def near_chimneys(things: tuple[Obstacle, ...]) -> tuple[NearChimney, ...]:
    """For each chimney whose clearance is stated, the opening that is nearest to it."""
    found = []
    for c in things:
        openings = [(distance_m(c.body, o.body), n) for n, o in enumerate(things) if o.what in OPENINGS]
        if c.heat is not None and c.what == "chimney" and openings:
            nearest, n = min(openings)
            found.append(NearChimney(c, things[n], nearest, c.body.x_m - c.heat.x_m))
    return tuple(found)
