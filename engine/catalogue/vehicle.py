"""Base vehicles: what gets converted. Distances x run rearward from the front axle, y from the centre line to the
right, z up from the road."""

from itertools import pairwise
from typing import Annotated, Literal, Self

from pydantic import Field, field_validator, model_validator

from engine.catalogue.facets import Surface
from engine.catalogue.interior import Interior
from engine.catalogue.quantities import (
    Ampere,
    Conductivity,
    Entry,
    Fraction,
    Kg,
    Line,
    Litre,
    Metre,
    Money,
    Prose,
    Slug,
    SquareMetre,
    UValue,
    Volt,
)
from engine.physics.tyre import axle_end_kg, marking, tyre_kg

PlaceName = Literal[
    "cab", "entry", "kitchen", "bathroom", "seating", "bed", "garage", "overhead",
    "underfloor-front", "underfloor-rear", "roof", "shell", "rear-wall",
]  # fmt: skip
"""Where a part can sit. Every vehicle says where each of these lies in it."""


class Masses(Entry):
    """The vehicle as delivered: full fuel and fluids, nobody aboard, nothing fitted out."""

    gross_kg: Kg = Field(gt=1500, le=20000, description="gross vehicle mass rating (GVWR, GVM)")
    front_axle_rating_kg: Kg = Field(gt=500, le=9000, description="front axle rating (GAWR)")
    rear_axle_rating_kg: Kg = Field(gt=500, le=14000, description="rear axle rating (GAWR)")
    empty_front_kg: Kg = Field(gt=300, le=8000, description="front axle load as delivered")
    empty_rear_kg: Kg = Field(gt=200, le=9000, description="rear axle load as delivered")
    tolerance_frac: Fraction = Field(default=0.02, ge=0, le=0.1, description="how far the delivered mass may differ")
    cg_height_m: Metre | None = Field(
        default=None, gt=0.3, le=2, description="centre of gravity above the road, as delivered"
    )
    source: Line = Field(description="where these figures come from (plate, weighbridge, estimate)")


class Cabin(Entry):
    """The bare inside of the living space, before insulation and linings."""

    front_x_m: Metre = Field(ge=-2.5, le=5, description="inner front wall, behind the front axle")
    length_m: Metre = Field(gt=1.5, le=12, description="inside length")
    width_m: Metre = Field(gt=1.2, le=2.6, description="inside width at the height of the bed")
    height_m: Metre = Field(gt=1.2, le=3, description="inside height")
    floor_z_m: Metre = Field(gt=0.2, le=1.5, description="floor above the road")
    treads_at_entry: int = Field(
        default=0, ge=0, le=4, description="fixed treads of the body between road and floor, the floor not counted"
    )


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


class Engine(Entry):
    """What the engine gives the living space while driving."""

    alternator_a: Ampere = Field(gt=30, le=500, description="alternator rating")
    own_use_a: Ampere = Field(gt=5, le=150, description="what lights, blower and engine take")
    hot_output_frac: Fraction = Field(default=0.75, gt=0.3, le=1, description="share of the rating left when hot")
    idle_output_frac: Fraction | None = Field(
        default=None, gt=0.1, le=1, description="share of the rating at idle, when its curve is known"
    )
    voltage_v: Volt = Field(default=13.5, gt=10, le=30, description="voltage at the alternator charger's input")
    fuel: Literal["diesel", "petrol", "electric"] = Field(default="diesel", description="what it runs on")
    fuel_l: Litre = Field(ge=0, le=400, alias="fuel_tank", description="fuel tank")
    fuel_x_m: Metre | None = Field(
        default=None, ge=-2, le=10, description="middle of the fuel tank, behind the front axle"
    )
    fuel_y_m: Metre = Field(default=0, ge=-1.3, le=1.3, description="middle of the fuel tank, right of the centre line")
    fuel_z_m: Metre = Field(default=0.55, gt=0.2, le=2, description="middle of the fuel tank above the road")


LoadIndex = Annotated[str, Field(pattern=r"^[0-9]{2,3}(/[0-9]{2,3})?$", examples=["121/119"])]
"""A tyre's load index as on its sidewall, ``"121/119"``: for single wheels, and behind the stroke for twin ones."""


class Tyres(Entry):
    """What the tyres on the vehicle carry, by their load index; their speed symbol does not matter here."""

    front: LoadIndex = Field(description="load index of the front tyres, as on their sidewall, such as 121/119")
    rear: LoadIndex = Field(description="load index of the rear tyres, as on their sidewall, such as 121/119")

    @field_validator("front", "rear")
    @classmethod
    def _known(cls, value: str) -> str:
        for index_count in marking(value):
            if index_count is not None:
                tyre_kg(index_count)
        return value


class CabSeat(Entry):
    """A seat of the base vehicle, with belt."""

    name: Line = Field(description="which seat it is")
    x_m: Metre = Field(ge=-2, le=10, description="middle of the person, behind the front axle")
    y_m: Metre = Field(default=0, ge=-1.2, le=1.2, description="middle of the person, right of the centre line")


class Place(Entry):
    """Where a named place lies, at its centre."""

    place: PlaceName = Field(description="name of the place")
    x_m: Metre = Field(ge=-2.5, le=12, description="behind the front axle")
    y_m: Metre = Field(default=0, ge=-1.3, le=1.3, description="to the right of the centre line")
    z_m: Metre = Field(gt=0, le=4.2, description="above the road")


class Vehicle(Entry):
    """A base vehicle."""

    id: Slug = Field(description="its name in files and links; stays the same for good")
    name: Line = Field(description="what the buyer sees")
    summary: Prose = Field(description="a few sentences for the buyer")
    body: Literal["box", "van", "bus"] = Field(description="moulded or built box, panel van, bus")
    price: Money | None = Field(
        default=None, ge=0, description="price of the base vehicle, absent when the buyer brings it"
    )
    wheelbase_m: Metre = Field(gt=2, le=8, description="front axle to rear axle")
    length_m: Metre = Field(gt=4, le=13, description="outside length")
    width_m: Metre = Field(gt=1.5, le=2.7, description="outside width without mirrors")
    height_m: Metre = Field(gt=1.8, le=4, description="outside height, bare roof")
    front_overhang_m: Metre = Field(gt=0.4, le=3, description="from the front axle to the nose")
    twin_rear_wheels: bool = Field(default=False, description="two wheels on each side of the rear axle")
    front_track_m: Metre | None = Field(
        default=None, gt=1.2, le=2.4, description="middle of the left front wheel to middle of the right one"
    )
    rear_track_m: Metre | None = Field(
        default=None, gt=1.2, le=2.4, description="the same in the rear; twin wheels from middle to middle of the pairs"
    )
    tyres: Tyres | None = Field(default=None, description="load index of the tyres on both axles")
    coupling_x_m: Metre | None = Field(
        default=None, ge=3, le=14, description="towing coupling behind the front axle; default: the rear end"
    )
    coupling_rating_kg: Kg | None = Field(
        default=None,
        gt=0,
        le=2000,
        description="load of a trailer's nose that coupling and vehicle allow, the smaller of both, when stated",
    )
    masses: Masses = Field(description="ratings, and the vehicle as delivered")
    cabin: Cabin = Field(description="bare inside of the living space")
    interior: Interior | None = Field(
        default=None, description="the inside in detail: widths, wheel arches, openings; absent: a plain box is assumed"
    )
    roof: Roof = Field(description="flat, usable part of the roof")
    shell: Shell = Field(description="skin round the living space")
    engine: Engine = Field(description="what the engine gives the living space")
    seats: tuple[CabSeat, ...] = Field(min_length=1, description="seats of the base vehicle, driver first")
    places: tuple[Place, ...] = Field(description="where each named place lies; all of them are needed")
    assumed: tuple[Line, ...] = Field(default=(), description="figures above that are estimates, in plain words")

    @model_validator(mode="after")
    def _holds_together(self) -> Self:
        names = [p.place for p in self.places]
        if twice := sorted({n for n in names if names.count(n) > 1}):
            raise ValueError("a place is named twice: " + ", ".join(twice))
        if missing := [p for p in PlaceName.__args__ if p not in names]:  # type: ignore[attr-defined]
            raise ValueError("these places are missing: " + ", ".join(missing))
        if self.tyres is not None:
            axle_end_kg(marking(self.tyres.rear), self.twin_rear_wheels)
        return self

    def place(self, name: str) -> Place:
        """The place of that name (every vehicle has all of them)."""
        return next(p for p in self.places if p.place == name)
