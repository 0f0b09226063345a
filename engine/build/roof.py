"""What stands on the roof, and where the chosen panels go."""

from collections import Counter
from dataclasses import replace
from functools import lru_cache
from math import radians, tan
from typing import Literal, NamedTuple

from engine.build.model import Build, counted
from engine.build.roof_things import Obstacle, beside, contains, in_each_other, obstacles, shared_m2
from engine.catalogue.facets import SolarPanel, Structure
from engine.catalogue.roof import Roof
from engine.physics.panel_day import SHADE_AT_DEG
from engine.physics.roof_outline import Widths, outside, width_at_m
from engine.physics.roof_packing import (
    Packing,
    PanelKind,
    Placed,
    Rect,
    RoofSpace,
    blocked_by,
    blocked_together,
    pack_roof,
)
from engine.physics.roof_shade import LOWEST_DEG, noon_altitude_deg, shade_reach_m, tilted_depth_m

PANEL_GAP_M = 0.02
"""Free strip between two panels, for frames and brackets (common practice)."""

RAISED_M = 0.05
"""Air under a panel on brackets when its data do not say (common practice)."""

_SHADE_EFFORT = 30
_SIDES: tuple[Literal["front", "rear", "left", "right"], ...] = ("front", "rear", "left", "right")
_LEAST_SHADE_M = 0.05  # shorter shade falls on frames and into gaps


class Shade(NamedTuple):
    """Noon shade on the roof in the month with the lowest useful sun of the trip."""

    month: int
    altitude_deg: float
    strips: tuple[Rect, ...]
    """On all four sides of every tall thing: the buyer parks as the place allows. One side at a time is in shade."""
    worst_frac: float
    """Share of the panels' area in shade when parked the worst way round."""
    mean_frac: float
    """The same over the four ways to park."""


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
    """What keeps the missing panels off, in words; empty where it is the size of the roof itself."""
    blocking_ids: tuple[str, ...]
    """Ids of the options among it."""
    freed: tuple[tuple[str, int], ...]
    """Options one piece of which is in the way, with how many panels were seen to fit without it; most first."""
    shade: Shade | None
    """None without panels, without anything taller than they are, or where the sun stays too low to plan for."""
    shaded_by_height_frac: tuple[float, ...] = ()
    """Share of the panels' area in shade with the sun at each of ``SHADE_AT_DEG``; none where nothing throws any."""

    @property
    def sure(self) -> bool:
        """Whether it is proven that all panels fit, or that they do not."""
        return self.packing.complete or self.packing.proven or self.packing.bound_w < self.packing.wanted_w


def panel_top_m(f: SolarPanel) -> float:
    """Top of a panel above the roof, lying flat."""
    stand = f.standoff_m if f.standoff_m is not None else (RAISED_M if f.mount == "raised" else 0.0)
    return stand + f.thickness_m


def needs_holding(f: SolarPanel) -> bool:
    """Whether a panel hangs on ribs or rails; a glued one does not."""
    return (f.fixing or ("ribs" if f.mount == "raised" else "adhesive")) == "ribs"


@lru_cache(maxsize=256)
def rib_lines_m(roof: Roof) -> tuple[float, ...]:
    """Where the bare roof's ribs run across it, behind its front edge."""
    if roof.rib_spacing_m is None:
        return tuple(sorted(roof.rib_positions_m))
    at = roof.first_rib_m if roof.first_rib_m is not None else roof.rib_spacing_m / 2
    return tuple(at + n * roof.rib_spacing_m for n in range(int((roof.length_m - at) / roof.rib_spacing_m + 1e-9) + 1))


def narrowing_of(roof: Roof) -> Widths:
    """Widths where the roof is narrower, behind its front edge."""
    return tuple((w.x_m, w.width_m) for w in roof.narrowing)


@lru_cache(maxsize=256)
def roof_outside(roof: Roof) -> tuple[Rect, ...]:
    """What of the roof's rectangle is no usable roof: corners and narrowing."""
    radius_m = min(roof.corner_radius_m, roof.width_m / 2)
    return outside(roof.length_m, roof.width_m, roof.edge_m, radius_m, narrowing_of(roof))


def lowest_useful_noon(build: Build) -> tuple[int, float] | None:
    """Month of the trip with the lowest noon sun worth planning for, and that sun's altitude."""
    noons = [(noon_altitude_deg(build.climate.latitude_deg, m), m) for m in build.trip.months]
    useful = [n for n in noons if n[0] >= LOWEST_DEG]
    if not useful:
        return None
    altitude_deg, month = min(useful)
    return month, altitude_deg


def _space(build: Build, things: tuple[Obstacle, ...]) -> RoofSpace:
    roof = build.vehicle.roof
    ribs = rib_lines_m(roof)
    rails: tuple[float, ...] = ()
    if ribs:  # only a roof whose ribs are stated asks what a panel hangs on
        added = [f for _, f in build.facets(Structure) if "roof" in f.carries]
        ribs += tuple(share * roof.length_m for f in added for share in f.ribs_along_frac)
        rails = tuple(share * roof.width_m for f in added for share in f.rails_across_frac)
    beyond = roof_outside(roof)
    bearing = next((o.body for o in things if o.under_panels), None)
    if bearing is not None:
        # Such a rack holds the panels itself, and they lie on it or nowhere.
        ribs, rails = (), ()
        end, side = bearing.x_m + bearing.length_m, bearing.y_m + bearing.width_m
        beyond += (
            Rect(-1.0, -1.0, max(0.0, bearing.x_m + 1), roof.width_m + 2),
            Rect(end, -1.0, max(0.0, roof.length_m + 1 - end), roof.width_m + 2),
            Rect(-1.0, -1.0, roof.length_m + 2, max(0.0, bearing.y_m + 1)),
            Rect(-1.0, side, roof.length_m + 2, max(0.0, roof.width_m + 1 - side)),
        )
    clear = tuple(o.keep_clear for o in things if not o.under_panels)
    return RoofSpace(roof.length_m, roof.width_m, roof.edge_m, PANEL_GAP_M, clear, beyond, ribs, rails)


def _kinds(build: Build, altitude_deg: float) -> tuple[PanelKind, ...]:
    found = []
    for part, f in build.facets(SolarPanel):
        deep = tilted_depth_m(f.width_m, f.tilt_deg, altitude_deg) if f.tilt_deg else f.width_m
        found.append(PanelKind(part.option.id, f.length_m, deep, f.power_w, part.count, needs_holding(f)))
    return tuple(found)


def _tall(build: Build, things: tuple[Obstacle, ...]) -> tuple[tuple[Rect, float], ...]:
    """What rises above the panels, and by how much."""
    panels = [f for _, f in build.facets(SolarPanel)]
    if not panels:
        return ()
    top_m = min(panel_top_m(f) for f in panels) + max((o.height_m for o in things if o.under_panels), default=0.0)
    return tuple(
        (o.body, min(2.0, o.height_m - top_m))
        for o in things
        if o.height_m > top_m and not o.under_panels and o.what != "walkway"
    )


def _strips(tall: tuple[tuple[Rect, float], ...], altitude_deg: float) -> tuple[tuple[Rect, ...], ...]:
    """Noon shade beside each tall thing, a row for each of the four ways to park."""
    reaches = [(body, shade_reach_m(height_m, altitude_deg)) for body, height_m in tall]
    long = [(body, reach) for body, reach in reaches if reach >= _LEAST_SHADE_M]
    return tuple(tuple(beside(body, side, reach) for body, reach in long) for side in _SIDES) if long else ()


@lru_cache(maxsize=256)
def _shade_by_height(placed: tuple[Placed, ...], tall: tuple[tuple[Rect, float], ...]) -> tuple[float, ...]:
    """Share of the panels' area in shade at each of ``SHADE_AT_DEG``, the mean of four ways to park."""
    beside_m = []
    for p in placed:
        for r, height_m in tall:
            across_m = min(p.y_m + p.width_m, r.y_m + r.width_m) - max(p.y_m, r.y_m)
            along_m = min(p.x_m + p.length_m, r.x_m + r.length_m) - max(p.x_m, r.x_m)
            for wide_m, deep_m, before_m, behind_m in (
                (across_m, p.length_m, r.x_m - p.x_m - p.length_m, p.x_m - r.x_m - r.length_m),
                (along_m, p.width_m, r.y_m - p.y_m - p.width_m, p.y_m - r.y_m - r.width_m),
            ):
                gap_m = max(before_m, behind_m)
                if wide_m > 0 and gap_m > -1e-9:
                    beside_m.append((wide_m, max(0.0, gap_m), deep_m, height_m))
    if not beside_m:
        return ()
    area_m2 = sum(p.length_m * p.width_m for p in placed)
    found = []
    for degrees in SHADE_AT_DEG:
        cot = 1 / tan(radians(degrees)) if degrees < 90 else 0.0
        shaded = sum(w * min(d, max(0.0, h * cot - g)) for w, g, d, h in beside_m if h * cot >= _LEAST_SHADE_M)
        found.append(min(1.0, shaded / len(_SIDES) / area_m2))
    return tuple(found) if any(found) else ()


@lru_cache(maxsize=1024)
def _shaded_frac(placed: tuple[Placed, ...], strips: tuple[Rect, ...]) -> float:
    area = shaded = 0.0
    for p in placed:
        rect = Rect(p.x_m, p.y_m, p.length_m, p.width_m)
        own = p.length_m * p.width_m
        area += own
        shaded += min(own, sum(shared_m2(rect, s) for s in strips))
    # Places are whole steps of 10 nanometres, so slivers of shade are none.
    return round(shaded / area, 6) if area else 0.0


@lru_cache(maxsize=1024)
def _pack(space: RoofSpace, kinds: tuple[PanelKind, ...], strips: tuple[Rect, ...]) -> Packing:
    """The most powerful layout; of several the one found clear of shade."""
    if strips:
        unshaded = pack_roof(space._replace(keep_clear=space.keep_clear + strips), kinds, _SHADE_EFFORT)
        if unshaded.complete:
            return unshaded
        best = pack_roof(space, kinds)
        if unshaded.power_w < best.power_w:
            return best
        return unshaded._replace(bound_w=best.bound_w, proven=best.proven)
    return pack_roof(space, kinds)


def _on_roof(roof: Roof, body: Rect) -> bool:
    """Whether a thing stands within the roof's sides; its rounded corners are no matter to what is screwed down."""
    if not contains(Rect(0, 0, roof.length_m, roof.width_m), body):
        return False
    narrowing = narrowing_of(roof)
    places = (body.x_m, body.x_m + body.length_m, *(x for x, _ in narrowing if 0 < x - body.x_m < body.length_m))
    free_m = min(body.y_m, roof.width_m - body.y_m - body.width_m)
    return all((roof.width_m - width_at_m(x, roof.width_m, narrowing)) / 2 <= free_m + 1e-9 for x in places)


def _blocking(
    things: tuple[Obstacle, ...], space: RoofSpace, kinds: tuple[PanelKind, ...]
) -> tuple[tuple[Obstacle, ...], str, tuple[tuple[str, int], ...]]:
    """Things any one of which is in the way, or else those that are so only together; what they are called; and how
    many panels were seen to fit without one of the former, by option."""
    blockers = blocked_by(space, kinds)
    alone = tuple(things[b.index] for b in blockers)
    if alone:
        # Whoever takes one of several out leaves the last of their spots empty.
        last = {o.option_id: i for i, o in enumerate(things) if o.option_id}
        fit = {
            o.option_id: len(b.without.placed)
            for o, b in zip(alone, blockers, strict=True)
            if o.option_id and last[o.option_id] == b.index
        }
        freed = tuple(sorted(fit.items(), key=lambda x: -x[1]))
        return alone, ", ".join(dict.fromkeys(f"“{o.name}”" for o in alone)), freed
    both = tuple(things[i] for i in blocked_together(space, kinds))
    names = Counter(o.name for o in both)
    said = " and ".join(counted(name, n) for name, n in names.items())
    return both, f"{said}, together" if both else "", ()


def room_for_one_more(build: Build, roof: RoofFigures, option_id: str) -> bool:
    """Whether a layout with one more of these panels is found on the roof as it stands."""
    if not roof.packing.complete:
        return False
    noon = lowest_useful_noon(build)
    kinds = _kinds(build, noon[1] if noon else LOWEST_DEG)
    more = tuple(replace(k, count=k.count + 1) if k.key == option_id else k for k in kinds)
    return _pack(roof.space, more, ()).complete


def roof_figures(build: Build) -> RoofFigures:
    """Places for everything on the roof; panels by exact packing, clear of shade where that costs no power."""
    roof = build.vehicle.roof
    things = obstacles(build)
    space = _space(build, things)
    noon = lowest_useful_noon(build)
    kinds = _kinds(build, noon[1] if noon else LOWEST_DEG)
    tall = _tall(build, things)
    rows = _strips(tall, noon[1]) if noon and kinds else ()
    strips = tuple(s for row in rows for s in row)
    packing = _pack(space, kinds, strips)
    open_things = tuple(o for o in things if not o.under_panels)
    in_the_way, blocking, freed = _blocking(open_things, space, kinds) if not packing.complete else ((), "", ())
    shares = [_shaded_frac(packing.placed, row) for row in rows]
    return RoofFigures(
        obstacles=things,
        clashes=tuple((a, b) for i, a in enumerate(things) for b in things[i + 1 :] if in_each_other(a, b)),
        outside=tuple(o for o in things if not _on_roof(roof, o.body)),
        panels_wanted=sum(k.count for k in kinds),
        panels_placed=len(packing.placed),
        packing=packing,
        space=space,
        blocking=blocking,
        blocking_ids=tuple(dict.fromkeys(o.option_id for o in in_the_way if o.option_id)),
        freed=freed,
        shaded_by_height_frac=_shade_by_height(packing.placed, tall) if tall else (),
        shade=Shade(noon[0], noon[1], strips, max(shares), sum(shares) / len(shares)) if noon and rows else None,
    )
