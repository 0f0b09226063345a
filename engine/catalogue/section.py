"""Sections of the catalogue and the options in them."""

from decimal import Decimal
from typing import Literal, Self

from pydantic import Field, model_validator

from engine.catalogue.facets import AnyFacet, InsulationLayer, Trim
from engine.catalogue.quantities import Day, Entry, Fraction, Hour, Kg, Line, Money, MoneyPerM2, Prose, Slug
from engine.catalogue.vehicle import PlaceName


class Requires(Entry):
    """Another option that must come along."""

    option: Slug = Field(description="id of the option that must come along")
    because: Line = Field(description="the reason, as the buyer reads it")


class Excludes(Entry):
    """Another option that cannot come along."""

    option: Slug = Field(description="id of the option that cannot come along")
    because: Line = Field(description="the reason, as the buyer reads it")


class NeedsOneOf(Entry):
    """At least one of several options must come along."""

    options: tuple[Slug, ...] = Field(min_length=2, description="ids of the options of which one at least is needed")
    because: Line = Field(description="the reason, as the buyer reads it")


class Option(Entry):
    """One thing that can be chosen. This is the public view: it has no cost price and no supplier."""

    id: Slug = Field(description="its name in files and links; stays the same for good")
    name: Line = Field(description="what the buyer sees")
    summary: Prose | None = Field(default=None, description="a sentence or two for the buyer")
    price: Money = Field(ge=0, description="price of one without labour, with or without tax like every price")
    area_price_per_m2: MoneyPerM2 = Field(
        default=Decimal(0), ge=0, description="added for the area of the surfaces its layers cover"
    )
    labour_h: Hour = Field(ge=0, le=400, description="labour hours to fit one")
    lead_time_d: Day = Field(default=0, ge=0, le=400, description="days until the parts are there")
    mass_kg: Kg | None = Field(
        default=None,
        ge=0,
        le=1500,
        description="mass of one without contents; absent: layers give it, or it is not known",
    )
    mass_tolerance_frac: Fraction | None = Field(default=None, ge=0, le=0.5, description="default: the section's")
    most: int = Field(default=1, ge=1, le=20, description="how many may be chosen")
    fits: tuple[Slug, ...] = Field(default=(), description="vehicles it fits; empty means all")
    place: PlaceName = Field(description="where it sits")
    requires: tuple[Requires, ...] = Field(
        default=(),
        description="options that must come along; a heater that needs another of its fuel is a branch of that one and "
        "gives no heat without it",
    )
    excludes: tuple[Excludes, ...] = Field(default=(), description="options that cannot come along")
    needs_one_of: tuple[NeedsOneOf, ...] = Field(
        default=(), description="groups of which one option at least is needed"
    )
    facets: tuple[AnyFacet, ...] = Field(default=(), description="its technical sides, as many as it has")
    source: Line | None = Field(default=None, description="where mass and technical figures come from")

    @model_validator(mode="after")
    def _area_of_layers(self) -> Self:
        if self.area_price_per_m2 and not any(isinstance(f, InsulationLayer | Trim) for f in self.facets):
            raise ValueError("the area_price goes by the area of layers, and this has no trim and no insulation-layer")
        return self


class Section(Entry):
    """A chapter of the catalogue."""

    id: Slug = Field(description="its name in files and addresses")
    title: Line = Field(description="heading of the chapter")
    intro: Prose | None = Field(default=None, description="what a buyer should know before choosing")
    order: int = Field(ge=0, le=999, description="place among the chapters")
    pick: Literal["any", "one"] = Field(default="any", description="how many of its options may be chosen together")
    mass_tolerance_frac: Fraction = Field(default=0.05, ge=0, le=0.5, description="tolerance of masses in this chapter")
    options: tuple[Option, ...] = Field(min_length=1, alias="option", description="what can be chosen in it")
