"""The inside of a base vehicle as a floor plan needs it: widths, wheel arches, openings, steps, an alcove.

Distances x run rearward from the bare inner front wall, y to the right from the bare left wall, z up from the bare
floor. The frame's length and width are the cabin's.
"""

from typing import Literal, Self

from pydantic import Field, model_validator

from engine.catalogue.quantities import Entry, Line, Metre, Slug

Wall = Literal["left", "right", "front", "rear"]


class WidthAt(Entry):
    """The bare inside width at one distance from the front wall; straight lines run from one to the next."""

    x_m: Metre = Field(ge=0, le=12, description="behind the inner front wall")
    floor_width_m: Metre = Field(gt=0.5, le=2.6, description="inside width at the floor")
    shoulder_width_m: Metre = Field(gt=0.5, le=2.6, description="inside width at shoulder height")


class WheelArch(Entry):
    """A box over a wheel that stands on the floor against a side wall."""

    side: Literal["left", "right"] = Field(description="wall it stands at")
    x_m: Metre = Field(ge=0, le=12, description="its front edge, behind the inner front wall")
    length_m: Metre = Field(gt=0.1, le=3, description="size along the vehicle")
    depth_m: Metre = Field(gt=0.02, le=0.8, description="how far it reaches into the room")
    height_m: Metre = Field(gt=0.02, le=0.9, description="height above the bare floor")


class BodyDoor(Entry):
    """An opening of the body that people or loads pass through."""

    name: Line = Field(description="which door it is")
    wall: Wall = Field(description="wall it is in")
    from_m: Metre = Field(
        ge=0, le=12, description="where the opening begins: behind the front wall, or from the left wall at either end"
    )
    to_m: Metre = Field(gt=0, le=12, description="where the opening ends")
    height_m: Metre = Field(gt=0.2, le=2.4, description="clear height")
    sill_m: Metre = Field(default=0, ge=0, le=1.5, description="its lower edge above the bare floor")
    kind: Literal["hinged", "sliding", "barn"] = Field(description="hinged outwards, sliding, or a pair of rear doors")
    serves: Literal["people", "loads"] = Field(
        default="people", description="people walk in, so the floor behind it stays free; loads are only put in"
    )
    covered_m: Metre = Field(
        default=0, ge=0, le=1.5, description="how much of its rear end furniture may stand before (sliding doors)"
    )
    escape: bool = Field(default=True, description="can be opened from inside without a key")
    needs: Literal["entry", "garage", "service"] | None = Field(
        default=None, description="kind of door option that makes this opening; absent when the bare body has it"
    )

    @model_validator(mode="after")
    def _has_width(self) -> Self:
        if self.to_m - self.from_m < 0.2:
            raise ValueError("an opening ends at least 0.2 m behind its beginning")
        return self


class StepWell(Entry):
    """A sunk step inside a door: nothing can stand there."""

    x_m: Metre = Field(ge=0, le=12, description="its front edge, behind the inner front wall")
    y_m: Metre = Field(ge=0, le=2.6, description="its left edge, from the left wall")
    length_m: Metre = Field(gt=0.1, le=2, description="size along the vehicle")
    depth_m: Metre = Field(gt=0.1, le=1.5, description="size across the vehicle")


class PassThrough(Entry):
    """The way between cab and living space."""

    from_m: Metre = Field(ge=0, le=2.6, description="its left edge, from the left wall")
    to_m: Metre = Field(gt=0, le=2.6, description="its right edge, from the left wall")
    height_m: Metre = Field(gt=0.4, le=2.2, description="clear height")
    open_front: bool = Field(
        default=False, description="the whole front is open to the cab, so that no lining goes there (panel van)"
    )
    opened_by: Slug | None = Field(
        default=None, description="id of the option that opens it; absent when the bare body has it"
    )


class OverCab(Entry):
    """The part of the body that reaches over the cab."""

    length_m: Metre = Field(gt=0.2, le=2.5, description="how far it reaches forward of the inner front wall")
    floor_m: Metre = Field(gt=0.3, le=2, description="its floor above the living space's floor")
    height_m: Metre = Field(gt=0.2, le=1.5, description="clear height in it")
    front_width_m: Metre = Field(gt=0.5, le=2.6, description="inside width at its very front")


class Interior(Entry):
    """The bare inside in detail. A vehicle without it is taken for a plain box of its cabin's size."""

    floor_width_m: Metre = Field(gt=1, le=2.6, description="inside width at the floor, wheel arches aside")
    shoulder_width_m: Metre = Field(gt=1, le=2.6, description="inside width at shoulder height")
    headroom_m: Metre | None = Field(
        default=None, gt=1.2, le=3, description="inside height where people stand; default: the cabin's"
    )
    narrowing: tuple[WidthAt, ...] = Field(
        default=(), description="widths along the vehicle where it tapers, from front to rear"
    )
    wheel_arches: tuple[WheelArch, ...] = Field(default=(), description="boxes over the wheels")
    doors: tuple[BodyDoor, ...] = Field(default=(), description="openings of the body")
    step_wells: tuple[StepWell, ...] = Field(default=(), description="sunk steps")
    pass_through: PassThrough | None = Field(default=None, description="the way to the cab, when there is one")
    over_cab: OverCab | None = Field(default=None, description="the part over the cab, when there is one")

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        xs = [w.x_m for w in self.narrowing]
        if xs != sorted(set(xs)):
            raise ValueError("the widths along the vehicle are not in order from front to rear")
        drawn_in = [
            max(self.floor_width_m - w.floor_width_m, self.shoulder_width_m - w.shoulder_width_m, 0.0)
            for w in self.narrowing
        ]
        least = drawn_in.index(min(drawn_in)) if drawn_in else 0
        if drawn_in[:least] != sorted(drawn_in[:least], reverse=True) or drawn_in[least:] != sorted(drawn_in[least:]):
            raise ValueError("the widths along the vehicle narrow, widen and narrow again; keep one widest stretch")
        return self
