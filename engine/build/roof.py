"""What stands on the roof, and where the chosen panels go."""

from typing import NamedTuple

from engine.build.model import Build
from engine.catalogue.facets import RoofObject, SolarPanel
from engine.physics.roof_packing import Packing, PanelKind, Rect, RoofSpace, blocked_by, pack_roof

PANEL_GAP_M = 0.02
"""Free strip between two panels, for frames and brackets (common practice)."""


class Obstacle(NamedTuple):
    """A thing on the roof with the strip it needs free; distances from the roof's front left corner."""

    name: str
    option_id: str | None
    what: str
    body: Rect
    keep_clear: Rect


class RoofFigures(NamedTuple):
    """The roof as it will look."""

    obstacles: tuple[Obstacle, ...]
    clashes: tuple[tuple[Obstacle, Obstacle], ...]
    """Pairs of things that stand in each other."""
    outside: tuple[Obstacle, ...]
    """Things that stick out over the usable roof."""
    panels_wanted: int
    panels_placed: int
    packing: Packing
    space: RoofSpace
    blocking: str
    """What keeps the missing panels off, in words."""
    blocking_ids: tuple[str, ...]
    """Ids of the options among it."""

    @property
    def sure(self) -> bool:
        """Whether it is proven that all panels fit, or that they do not."""
        return self.packing.complete or self.packing.proven or self.packing.bound_w < self.packing.wanted_w


def _grown(r: Rect, by_m: float) -> Rect:
    return Rect(r.x_m - by_m, r.y_m - by_m, r.length_m + 2 * by_m, r.width_m + 2 * by_m)


def _overlap(a: Rect, b: Rect) -> bool:
    eps = 1e-9
    return (
        a.x_m + a.length_m > b.x_m + eps
        and b.x_m + b.length_m > a.x_m + eps
        and a.y_m + a.width_m > b.y_m + eps
        and b.y_m + b.width_m > a.y_m + eps
    )


def obstacles(build: Build) -> tuple[Obstacle, ...]:
    """Everything on the roof that is not a panel: the bare roof's own things, then the chosen ones."""
    roof = build.vehicle.roof
    found = [
        Obstacle(o.name, None, "fixed", body, _grown(body, o.keep_clear_m))
        for o in roof.fixed
        for body in (Rect(o.x_m, o.y_m, o.length_m, o.width_m),)
    ]
    for part, facet in build.facets(RoofObject):
        for spot in facet.spots[: part.count]:
            body = Rect(
                spot.along_frac * roof.length_m - facet.length_m / 2,
                spot.across_frac * roof.width_m - facet.width_m / 2,
                facet.length_m,
                facet.width_m,
            )
            found.append(Obstacle(part.option.name, part.option.id, facet.what, body, _grown(body, facet.keep_clear_m)))
    return tuple(found)


def roof_figures(build: Build) -> RoofFigures:
    """Places for everything on the roof; panels by exact packing."""
    roof = build.vehicle.roof
    things = obstacles(build)
    space = RoofSpace(
        length_m=roof.length_m,
        width_m=roof.width_m,
        edge_m=roof.edge_m,
        gap_m=PANEL_GAP_M,
        keep_clear=tuple(o.keep_clear for o in things),
    )
    kinds = tuple(
        PanelKind(part.option.id, f.length_m, f.width_m, f.power_w, part.count) for part, f in build.facets(SolarPanel)
    )
    packing = pack_roof(space, kinds)
    in_the_way = () if packing.complete else tuple(things[b.index] for b in blocked_by(space, kinds))
    inside = Rect(0, 0, roof.length_m, roof.width_m)
    return RoofFigures(
        obstacles=things,
        clashes=tuple((a, b) for i, a in enumerate(things) for b in things[i + 1 :] if _overlap(a.body, b.body)),
        outside=tuple(o for o in things if not _contains(inside, o.body)),
        panels_wanted=sum(k.count for k in kinds),
        panels_placed=len(packing.placed),
        packing=packing,
        space=space,
        blocking=", ".join(dict.fromkeys(o.name for o in in_the_way)) or "the size of the roof itself",
        blocking_ids=tuple(dict.fromkeys(o.option_id for o in in_the_way if o.option_id)),
    )


def _contains(outer: Rect, r: Rect) -> bool:
    eps = 1e-9
    return (
        r.x_m >= outer.x_m - eps
        and r.y_m >= outer.y_m - eps
        and r.x_m + r.length_m <= outer.x_m + outer.length_m + eps
        and r.y_m + r.width_m <= outer.y_m + outer.width_m + eps
    )
