"""What is over each bed by night, and whether all who travel have a bed where there is room enough."""

from collections.abc import Iterable
from itertools import product
from typing import NamedTuple

from engine.build.model import Build
from engine.build.plan_alcove import OVER_CAB
from engine.build.plan_figures import Placed
from engine.build.plan_inside import interior_of
from engine.build.plan_people import Bed, beds, sleeping_places
from engine.physics.lying import BODY_WIDTH_M

TURN_OVER_M = 0.5
"""Least room over a lying person (common practice)."""

FEET_M, OVER_FEET_M = 0.5, 0.25
"""How far something may reach in over an end of the bed, and at what height over the mattress, so that feet lie under
it and nothing else does (common practice)."""


_Piece = tuple[str, int]


class OverBed(NamedTuple):
    """The lowest thing over a bed."""

    room_m: float
    """From the mattress up to it."""
    name: str
    """Empty: the ceiling."""


class Lying(NamedTuple):
    """A bed of which no piece has less room."""

    bed: Bed
    over: OverBed
    """What is over somebody who turns over where that is too low for it, and else over somebody who sits up."""
    spared: bool
    """It is made up from seats, and all who travel have a bed while nobody lies both here and in the one over it."""


def lying(build: Build) -> tuple[Lying, ...]:
    """Every kind of bed that stands in the plan, with the piece that has least room."""
    every = [(bed, bed.placed) for bed in beds(build) if bed.placed is not None]
    berths = {(at.option_id, at.piece) for _, at in every}
    found: dict[str, tuple[Bed, Placed, OverBed]] = {}
    crowded: dict[_Piece, tuple[_Piece, _Piece]] = {}
    for bed, at in every:
        over, above = _over(build, bed, at)
        if bed.berth.made_from_seats and above in berths and over.room_m < TURN_OVER_M:
            crowded[at.option_id, at.piece] = (at.option_id, at.piece), above
        if at.option_id not in found or over.room_m < found[at.option_id][2].room_m:
            found[at.option_id] = bed, at, over
    spared = bool(crowded) and build.trip.people <= max(
        sleeping_places(build, [option_id for option_id, _ in set(empty)]) for empty in product(*crowded.values())
    )
    return tuple(Lying(bed, over, spared and (at.option_id, at.piece) in crowded) for bed, at, over in found.values())


def _over(build: Build, bed: Bed, at: Placed) -> tuple[OverBed, _Piece]:
    """The lowest thing over a bed that leaves too little to turn over, or else to sit up, and which piece it is."""
    inside, top_m = build.plan.inside, at.z_m + at.height_m
    ceiling_m = inside.bare_headroom_m - inside.roof_m
    alcove = interior_of(build.vehicle).over_cab
    if alcove is not None and at.side == OVER_CAB:
        ceiling_m = alcove.floor_m + alcove.height_m - inside.roof_m
    things = [
        (_reach_m(at, p, bed), p)
        for p in build.plan.night
        if p.fits and p.z_m >= top_m - 1e-6 and p.x_m < at.x_m + at.length_m and at.x_m < p.x_m + p.length_m
    ]
    half_m = (at.depth_m if bed.berth.lies == "across" else at.length_m) / 2
    lowest = _lowest(p for reach_m, p in things if reach_m > FEET_M or (reach_m and p.z_m - top_m < OVER_FEET_M))
    if lowest is None or lowest.z_m - top_m >= TURN_OVER_M:
        # At an end that is free as far as the middle somebody sits beside it.
        lowest = _lowest(p for reach_m, p in things if reach_m > half_m)
    if lowest is None or lowest.z_m >= ceiling_m:
        return OverBed(max(0.0, ceiling_m - top_m), ""), ("", 0)
    return OverBed(max(0.0, lowest.z_m - top_m), lowest.name), (lowest.option_id, lowest.piece)


def _lowest(things: Iterable[Placed]) -> Placed | None:
    return min(things, key=lambda p: (p.z_m, p.option_id, p.piece), default=None)


def _reach_m(at: Placed, p: Placed, bed: Bed) -> float:
    """How far a thing comes in over the bed from that end that makes it less; 0 where it is over none of it, or leaves
    beside it the width that those who sleep there take up."""
    starts, ends = (at.x_m, at.y_m), (at.x_m + at.length_m, at.y_m + at.depth_m)
    low = [max(a, b) for a, b in zip(starts, (p.x_m, p.y_m), strict=True)]
    high = [min(a, b) for a, b in zip(ends, (p.x_m + p.length_m, p.y_m + p.depth_m), strict=True)]
    long, wide = (1, 0) if bed.berth.lies == "across" else (0, 1)
    beside_m = max(low[wide] - starts[wide], ends[wide] - high[wide])
    if low[long] >= high[long] or low[wide] >= high[wide] or beside_m >= bed.berth.sleeps * BODY_WIDTH_M:
        return 0.0
    return min(high[long] - starts[long], ends[long] - low[long])
