"""Facets of space: furniture, beds, seats, structure, linings and things on the roof."""

from typing import Literal, Self

from pydantic import Field, model_validator

from engine.catalogue.facets.base import Facet, Surface
from engine.catalogue.facets.standing import FreeSpace, Night, Stands, Storage
from engine.catalogue.quantities import (
    Conductivity,
    Entry,
    Fraction,
    Kg,
    KgPerM2,
    Metre,
    SpaceLitre,
)


class FurnitureModule(Facet):
    """A piece of fitted furniture with its footprint."""

    kind: Literal["furniture"]
    length_m: Metre = Field(gt=0.005, le=4, description="size along the vehicle")
    depth_m: Metre = Field(gt=0.1, le=2.6, description="size across the vehicle")
    height_m: Metre = Field(gt=0.05, le=2.4, description="height, the mattress of a bed included")
    storage_l: SpaceLitre = Field(default=0, ge=0, le=5000, description="storage volume inside")
    storage_kind: Storage | None = Field(default=None, description="what kind of storage that is; default: cupboard")
    stands: Stands | None = Field(
        default=None, description="wall it may stand at; default: the side of its place, or either"
    )
    base_m: Metre = Field(default=0, ge=0, le=2, description="its underside above the finished floor")
    hangs: bool | None = Field(default=None, description="hangs under the ceiling; default: when its place is overhead")
    built_into: Literal["kitchen", "bed", "bathroom", "seating"] | None = Field(
        default=None,
        description="stands in or under a module of that place when there is one (a fridge under the worktop); "
        "default: what belongs in the garage goes under the bed",
    )
    over_wheel_arch: bool = Field(default=True, description="may be cut out round a wheel arch")
    ends_aisle: bool = Field(
        default=False, description="nobody walks past it: the aisle ends here (a bed across the rear)"
    )
    headroom_m: Metre | None = Field(
        default=None,
        gt=0,
        le=2.3,
        description="height wanted over it or in it, whoever travels",
    )
    standing: Literal["inside", "before"] | None = Field(
        default=None, description="people stand upright in it (shower) or before it (kitchen)"
    )
    tray_m: Metre = Field(default=0, ge=0, le=0.3, description="how far its own floor is raised (shower tray)")
    storage_height_m: Metre | None = Field(
        default=None,
        gt=0.05,
        le=2,
        description="clear height of the storage in it; default: 50 mm less than its height",
    )
    free: tuple[FreeSpace, ...] = Field(default=(), description="what has to stay free round it")
    night: Night | None = Field(default=None, description="its size and place by night, when these differ")


class Berth(Facet):
    """A bed, by day or by night."""

    kind: Literal["berth"]
    length_m: Metre = Field(gt=1, le=2.4, description="mattress length")
    width_m: Metre = Field(gt=0.4, le=2.2, description="mattress width")
    sleeps: int = Field(ge=1, le=3, description="how many adults")
    lies: Literal["along", "across"] = Field(default="along", description="along or across the vehicle")
    made_from_seats: bool = Field(default=False, description="made up from the seats at night")


class Seat(Facet):
    """Seats in the living space."""

    not_above = (("belted", "seats"),)

    kind: Literal["seat"]
    seats: int = Field(ge=1, le=6, description="how many people sit")
    belted: int = Field(default=0, ge=0, le=6, description="how many of them may ride along")


class Structure(Facet):
    """A reinforcement of body, roof or floor."""

    kind: Literal["structure"]
    roof_load_kg: Kg = Field(
        default=0, ge=0, le=800, description="roof load while driving it carries beyond the bare body"
    )
    carries: tuple[Literal["roof", "floor", "rear-wall"], ...] = Field(min_length=1, description="what it strengthens")
    rails_across_frac: tuple[Fraction, ...] = Field(
        default=(),
        max_length=6,
        description="rails along the roof for brackets: shares of its width from the left edge",
    )
    ribs_along_frac: tuple[Fraction, ...] = Field(
        default=(), max_length=12, description="ribs it adds across the roof: shares of its length from the front edge"
    )
    parked_load_kg: Kg = Field(
        default=0, ge=0, le=2000, description="roof load while parked it carries beyond the bare body"
    )


class BikeCarrier(Facet):
    """A carrier outside for bicycles, which then weigh there."""

    kind: Literal["bike-carrier"]
    bikes: int = Field(ge=1, le=6, description="how many bicycles it takes")
    load_kg: Kg = Field(gt=5, le=300, description="load it is rated for, as its maker states")


class Trim(Facet):
    """A wall, ceiling or floor covering; its mass and price follow from the area."""

    kind: Literal["trim"]
    surfaces: tuple[Surface, ...] = Field(min_length=1, description="where it goes")
    area_mass_kg_m2: KgPerM2 = Field(gt=0.1, le=40, description="mass per area")
    thickness_m: Metre = Field(gt=0.0005, le=0.05, description="thickness")
    conductivity_w_mk: Conductivity = Field(default=0.13, gt=0.02, le=1.5, description="thermal conductivity")
    coverage_frac: Fraction = Field(default=1, gt=0, le=1, description="share of the surface it covers")
    vapour_multiple: float | None = Field(
        default=None, ge=1, le=1_000_000, description="how many times it hinders vapour as much as still air (µ)"
    )


class RoofSpot(Entry):
    """Where the centre of a thing stands on the roof, as shares of the roof's length and width."""

    along_frac: Fraction = Field(ge=0, le=1, description="from the roof's front edge to its rear edge")
    across_frac: Fraction = Field(default=0.5, ge=0, le=1, description="from the left edge to the right edge")


class RoofObject(Facet):
    """A fan, hatch, chimney, antenna, rack or cooler that stands on the roof, or a strip to walk on."""

    kind: Literal["roof-object"]
    what: Literal["fan", "hatch", "chimney", "antenna", "rack", "air-conditioner", "awning", "walkway", "box"] = Field(
        description="what it is; a walkway is a strip that stays free to walk on, a box stands on a rack or beside it"
    )
    length_m: Metre = Field(gt=0.03, le=12, description="size along the vehicle")
    width_m: Metre = Field(gt=0.03, le=2.6, description="size across the vehicle")
    height_m: Metre = Field(default=0.1, gt=0, le=0.8, description="height above the roof")
    keep_clear_m: Metre = Field(
        default=0.03, ge=0, le=0.6, description="free strip all round (lid swing, heat, access)"
    )
    spots: tuple[RoofSpot, ...] = Field(
        min_length=1, max_length=8, description="where each one stands, in order of choice"
    )
    lid_side: Literal["front", "rear", "left", "right"] | None = Field(
        default=None, description="side on which the opened lid reaches out, absent when it stays over its frame"
    )
    lid_reach_m: Metre = Field(default=0, ge=0, le=1.2, description="how far the opened lid reaches out on that side")
    heat_clear_m: Metre = Field(
        default=0, ge=0, le=2, description="distance of a chimney from panels, and from fans and hatches"
    )
    rating_kg: Kg | None = Field(
        default=None, gt=0, le=800, description="of a rack: what it carries itself while driving"
    )
    under_panels: bool = Field(default=False, description="of a rack: panels are mounted on top of it, not beside it")
    parked_load_kg: Kg = Field(
        default=0, ge=0, le=1000, description="people or loads it brings onto the roof while parked"
    )

    @model_validator(mode="after")
    def _distinct(self) -> Self:
        if len(set(self.spots)) != len(self.spots):
            raise ValueError("two spots are the same place")
        if (self.lid_side is None) != (self.lid_reach_m == 0):
            raise ValueError("lid_side and lid_reach go together")
        if self.what != "rack" and (self.rating_kg is not None or self.under_panels):
            raise ValueError("rating and under_panels belong to a rack")
        return self
