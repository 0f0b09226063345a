"""A base vehicle's roof: its usable part, what the bare roof already has, and the ribs below it."""

from itertools import pairwise
from typing import Self

from pydantic import Field, model_validator

from engine.catalogue.quantities import Entry, Kg, Line, Metre


class FixedRoofObject(Entry):
    """Something the bare roof already has."""

    name: Line = Field(description="what it is")
    x_m: Metre = Field(ge=0, le=12, description="its front edge, behind the roof's front edge")
    y_m: Metre = Field(ge=0, le=2.6, description="its left edge, from the roof's left edge")
    length_m: Metre = Field(gt=0.02, le=4, description="size along the vehicle")
    width_m: Metre = Field(gt=0.02, le=2.6, description="size across the vehicle")
    keep_clear_m: Metre = Field(default=0.03, ge=0, le=0.6, description="free strip all round")
    height_m: Metre = Field(default=0.05, ge=0, le=0.8, description="height above the roof")
    escape: bool = Field(
        default=False, description="opens from inside without a key; its size is then the clear opening to climb out by"
    )


class RoofWidth(Entry):
    """Usable width of the roof at one place."""

    x_m: Metre = Field(ge=0, le=12, description="behind the roof's front edge")
    width_m: Metre = Field(gt=0.3, le=2.6, description="usable width there, half of it on each side of the middle")


class Roof(Entry):
    """The flat, usable part of the roof."""

    front_x_m: Metre = Field(ge=-2.5, le=5, description="its front edge, behind the front axle")
    length_m: Metre = Field(gt=1, le=12, description="usable length")
    width_m: Metre = Field(gt=0.8, le=2.6, description="usable width")
    edge_m: Metre = Field(default=0.05, ge=0, le=0.5, description="strip along every edge that stays free")
    load_rating_kg: Kg | None = Field(
        default=None, gt=0, le=800, description="roof load while driving, when the maker states one"
    )
    static_rating_kg: Kg | None = Field(
        default=None, gt=0, le=2000, description="roof load while parked, when the maker states one"
    )
    bare_carries_rack: bool | None = Field(
        default=None,
        description="whether the bare roof takes a rack's feet; absent: a van's and a bus's do, a box's not",
    )
    fixed: tuple[FixedRoofObject, ...] = Field(default=(), description="what the bare roof already has")
    corner_radius_m: Metre = Field(
        default=0, ge=0, le=0.5, description="radius of the outline's four corners from above"
    )
    narrowing: tuple[RoofWidth, ...] = Field(
        default=(), max_length=8, description="widths where it is narrower, front to rear, straight lines in between"
    )
    rib_positions_m: tuple[Metre, ...] = Field(
        default=(), max_length=40, description="ribs across the roof that brackets hold on to, behind its front edge"
    )
    rib_spacing_m: Metre | None = Field(
        default=None, gt=0.1, le=2, description="in place of positions: distance from rib to rib"
    )
    first_rib_m: Metre | None = Field(
        default=None,
        ge=0,
        le=2,
        description="with a spacing: the first rib behind the front edge, half a spacing if absent",
    )

    @model_validator(mode="after")
    def _outline_holds(self) -> Self:
        xs = [w.x_m for w in self.narrowing]
        if any(b <= a for a, b in pairwise(xs)):
            raise ValueError("narrowing: the places must run from front to rear")
        if xs and (xs[-1] > self.length_m or max(w.width_m for w in self.narrowing) > self.width_m):
            raise ValueError("narrowing: a place lies behind the roof's end, or is wider than the roof")
        if self.rib_positions_m and self.rib_spacing_m is not None:
            raise ValueError("give rib_positions or rib_spacing, not both")
        if self.first_rib_m is not None and self.rib_spacing_m is None:
            raise ValueError("first_rib needs a rib_spacing")
        if any(r < 0 or r > self.length_m for r in self.rib_positions_m):
            raise ValueError("rib_positions: a rib lies outside the roof")
        return self
