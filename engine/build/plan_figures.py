"""What the floor plan consists of: plain tuples that rules compare and drawings show.

The plan's frame is the bare inside: x rearward from the inner front wall, y to the right from the left wall, z up from
the bare floor, all in metres.
"""

from dataclasses import dataclass
from typing import NamedTuple

Storages = tuple[tuple[str, float], ...]


class Span(NamedTuple):
    """Left and right end of the free width at one distance from the front wall."""

    x_m: float
    left_m: float
    right_m: float


class ClearInside(NamedTuple):
    """What insulation, framing and linings of the chosen build leave of the bare inside."""

    front_m: float
    """Taken off the length at the front (nothing where it is open to the cab)."""
    rear_m: float
    side_m: float
    """Taken off the width on each side."""
    floor_m: float
    roof_m: float
    bare_length_m: float
    bare_width_m: float
    bare_floor_width_m: float
    bare_shoulder_width_m: float
    bare_headroom_m: float
    length_m: float
    floor_width_m: float
    width_m: float
    """At the height of the bed."""
    shoulder_width_m: float
    headroom_m: float
    takers: tuple[str, ...]
    """Ids of the options that take thickness off the sides."""
    assumed: bool
    """The vehicle states no inside in detail: a plain box is assumed."""


class Opening(NamedTuple):
    """A way through the body."""

    name: str
    wall: str
    """left, right, front, rear or roof."""
    from_m: float
    to_m: float
    sill_m: float
    height_m: float
    kind: str
    """hinged, sliding, barn or pass-through."""
    serves: str
    """people or loads."""
    escape: bool


class Arch(NamedTuple):
    """A wheel arch."""

    x_m: float
    y_m: float
    length_m: float
    depth_m: float
    height_m: float


class Well(NamedTuple):
    """A step well."""

    x_m: float
    y_m: float
    length_m: float
    depth_m: float


class Zone(NamedTuple):
    """A box that has to stay free, and what for."""

    use: str
    x_m: float
    y_m: float
    z_m: float
    length_m: float
    depth_m: float
    height_m: float


class Placed(NamedTuple):
    """One piece of a module in its place, by day or by night."""

    option_id: str
    piece: int
    """Counts from 0: pieces of one option."""
    name: str
    x_m: float
    """Front edge."""
    y_m: float
    """Left edge."""
    z_m: float
    """Underside."""
    length_m: float
    depth_m: float
    height_m: float
    side: str
    """left, right, front, rear, middle, inside (built into another module) or over-cab (then x is less than 0)."""
    zones: tuple[Zone, ...]
    fixed_by_buyer: bool
    fits: bool
    """False: no free place is left, so it is shown where the catalogue would put it."""
    movable: bool
    """A buyer may move it along a side wall."""
    berth: bool
    """Somebody sleeps on it by day, or by night."""

    def in_vehicle(self, front_x_m: float, bare_width_m: float, floor_z_m: float) -> tuple[float, float, float]:
        """Its centre in the vehicle's coordinates: behind the front axle, right of the centre line, above the road."""
        return (
            front_x_m + self.x_m + self.length_m / 2,
            self.y_m + self.depth_m / 2 - bare_width_m / 2,
            floor_z_m + self.z_m + self.height_m / 2,
        )


class Overlap(NamedTuple):
    """Two things that want the same space."""

    first_id: str
    first: str
    second_id: str
    """Empty when the second is part of the body."""
    second: str
    use: str
    """solid, or the use of the space that is taken up."""
    state: str


class Conflict(NamedTuple):
    """Modules that cannot be together in this room, while any fewer of them can."""

    option_ids: tuple[str, ...]
    names: tuple[str, ...]


class WallSum(NamedTuple):
    """What stands in a row along one wall, at the height where most does."""

    side: str
    modules_m: float
    linings_m: float
    bare_length_m: float
    option_ids: tuple[str, ...]


@dataclass(frozen=True, eq=False)
class PlanFigures:
    """The room and everything in it. One plan is one object, so that what is remembered of it is found at once."""

    inside: ClearInside
    outline: tuple[Span, ...]
    """Clear floor, from front to rear."""
    openings: tuple[Opening, ...]
    arches: tuple[Arch, ...]
    wells: tuple[Well, ...]
    day: tuple[Placed, ...]
    night: tuple[Placed, ...]
    aisle_m: float | None
    """Narrowest place of the way through; None when nothing stands on the floor, or something has no place."""
    aisle_ids: tuple[str, ...]
    """What stands on its two sides there."""
    aisle_wants: tuple[str, ...]
    """Options that would stand in the way through and have no place."""
    night_aisle_m: float | None
    walls: tuple[WallSum, ...]
    conflicts: tuple[Conflict, ...]
    overlaps: tuple[Overlap, ...]
    meets: tuple[Overlap, ...]
    """Doors and drawers that meet when both are open."""
    storage_l: Storages
    """Litres by kind of storage, largest first."""
    proven: bool
    """The search went through to its end."""
