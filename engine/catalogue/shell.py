"""The skin round a base vehicle's living space: layers, ribs, glass and the way to the cab."""

from typing import Literal, Self

from pydantic import Field, model_validator

from engine.catalogue.facets import Surface
from engine.catalogue.quantities import Conductivity, Entry, Line, Metre, Slug, SquareMetre, UValue


class ShellLayer(Entry):
    """A layer the bare body already has."""

    name: Line = Field(description="material")
    surfaces: tuple[Surface, ...] = Field(min_length=1, description="where it is")
    thickness_m: Metre = Field(gt=0.0003, le=0.2, description="thickness")
    conductivity_w_mk: Conductivity = Field(gt=0.01, le=250, description="thermal conductivity")
    vapour_multiple: float | None = Field(
        default=None, ge=1, le=1_000_000, description="how many times it hinders vapour as much as still air (µ)"
    )


class ShellRibs(Entry):
    """A row of metal ribs that stand on the outer skin of walls and roof."""

    depth_m: Metre = Field(ge=0.015, le=0.1, description="from the skin to the rib's flange")
    flange_m: Metre = Field(ge=0.02, le=0.1, description="width of the flange towards the room")
    sheet_m: Metre = Field(ge=0.0006, le=0.003, description="thickness of its sheet")
    webs: int = Field(default=1, ge=1, le=2, description="1: an angle or channel, 2: a hat")
    spacing_m: Metre = Field(ge=0.2, le=1.2, description="from rib to rib")
    conductivity_w_mk: Conductivity = Field(default=50, ge=10, le=250, description="thermal conductivity of its metal")

    @model_validator(mode="after")
    def _apart(self) -> Self:
        if self.spacing_m < 3 * self.flange_m:
            raise ValueError("spacing: ribs stand at least three flanges apart")
        return self


class ShellWindow(Entry):
    """Glass that the bare body already has in the living space."""

    name: Line = Field(description="which glass it is")
    area_m2: SquareMetre = Field(gt=0.05, le=20, description="area, all of that name together")
    u_value_w_m2k: UValue = Field(gt=0.5, le=7, description="heat transmittance with frame")
    surface: Literal["walls", "roof"] = Field(default="walls", description="surface it is in")


class ShellCab(Entry):
    """The cab behind or before the living space, and what parts them."""

    closed_by: Literal["open", "curtain", "bulkhead"] = Field(description="what parts cab and living space at night")
    closing_option: Slug | None = Field(
        default=None, description="id of the option that is this curtain or bulkhead; absent when the bare body has it"
    )
    area_m2: SquareMetre = Field(gt=0.3, le=8, description="area of that opening or partition")
    u_value_w_m2k: UValue | None = Field(
        default=None, gt=0.2, le=7, description="heat transmittance of curtain or bulkhead, air on both sides"
    )
    glass_m2: SquareMetre = Field(gt=0.2, le=12, description="windscreen and side windows of the cab")
    body_m2: SquareMetre = Field(gt=0.5, le=25, description="the rest of the cab's outside, floor with it")

    @model_validator(mode="after")
    def _stated(self) -> Self:
        if (self.closed_by == "open") != (self.u_value_w_m2k is None):
            raise ValueError("u_value: state it of a curtain or bulkhead, and leave it out where the cab is open")
        if self.closed_by == "open" and self.closing_option:
            raise ValueError("closing_option: name it of a curtain or bulkhead, and leave it out where the cab is open")
        return self


class Shell(Entry):
    """The skin round the living space, gross areas with openings included."""

    walls_m2: SquareMetre = Field(
        gt=4, le=90, description="walls with front, rear and doors; without the way to the cab where `cab` is stated"
    )
    roof_m2: SquareMetre = Field(gt=2, le=40, description="roof")
    floor_m2: SquareMetre = Field(gt=2, le=40, description="floor")
    layers: tuple[ShellLayer, ...] = Field(min_length=1, description="layers from inside to outside")
    windows: tuple[ShellWindow, ...] = Field(default=(), description="glass the bare body already has")
    cab: ShellCab | None = Field(
        default=None,
        description="the way to the cab; absent: it counts as wall, or, where the inside has `open_front`, as open",
    )
    air_changes_per_hour: float = Field(default=0.5, gt=0, le=5, description="leakage with everything shut, per hour")
    metal_ribs: bool = Field(default=False, description="steel ribs run through the insulation (panel van, bus)")
    ribs: ShellRibs | None = Field(
        default=None, description="those ribs measured; absent: ribs through all of the insulation are assumed"
    )
