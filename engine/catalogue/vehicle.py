"""Base vehicles: what gets converted. Distances x run rearward from the front axle, y from the centre line to the
right, z up from the road."""

from typing import Annotated, Literal, Self

from pydantic import Field, field_validator, model_validator

from engine.catalogue.interior import Interior
from engine.catalogue.quantities import (
    Ampere,
    Entry,
    Fraction,
    Kg,
    Line,
    Litre,
    Metre,
    Money,
    Prose,
    Slug,
    Volt,
)
from engine.catalogue.roof import Roof
from engine.catalogue.shell import Shell
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
