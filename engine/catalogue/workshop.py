"""The workshop itself, its ready builds, and the whole catalogue as it is published."""

from collections.abc import Mapping
from functools import cached_property
from typing import Literal

from pydantic import Field

from engine.catalogue.quantities import Ampere, CalendarDay, Entry, Fraction, Line, Metre, Money, Prose, Slug, Volt
from engine.catalogue.section import Option, Section
from engine.catalogue.trip import Trip, TripPart
from engine.catalogue.vehicle import Vehicle
from engine.catalogue.weighed import WeighedReady, WeighedVehicle
from engine.catalogue.wiring import Wiring


class Contact(Entry):
    """How a buyer reaches the workshop."""

    email: Line = Field(
        pattern=r"^[^@\s]+@[^@\s]+$", examples=["mail@example.org"], description="address for enquiries"
    )
    phone: Line | None = Field(default=None, description="telephone number, with country code")
    address: Prose | None = Field(default=None, description="where buyers can come by")


class Tax(Entry):
    """The sales tax or value-added tax that a buyer pays."""

    name: Line = Field(description="what it is called, such as VAT")
    rate_frac: Fraction = Field(ge=0, le=0.4, description="share of the price without it")
    in_prices: bool = Field(default=False, description="true when every price in the folder includes it")


class Interlock(Entry):
    """Loads that the workshop wires so that only one of them can be on."""

    name: Line = Field(description="what it is, such as galley relay")
    options: tuple[Slug, ...] = Field(min_length=2, max_length=40, description="ids of options with such a load")


class Workshop(Entry):
    """The business that publishes the site."""

    id: Slug = Field(description="its name in files and links")
    name: Line = Field(description="name of the business")
    tagline: Line = Field(description="one line under the name")
    about: Prose = Field(description="who it is and what it builds")
    region: Literal["us", "eu", "uk", "au"] = Field(description="whose rules apply")
    units: Literal["us", "metric"] = Field(description="units shown to readers")
    currency: str = Field(
        pattern=r"^[A-Z]{3}$", examples=["EUR"], description="three-letter code of the currency (ISO 4217)"
    )
    tax: Tax = Field(description="tax that a buyer pays")
    labour_rate: Money = Field(gt=0, description="price of one labour hour; with tax where prices include it")
    aisle_m: Metre | None = Field(
        default=None,
        ge=0.25,
        le=1.2,
        description="narrowest way through the living space it builds; default 0.40 m or 16 in",
    )
    mains_v: Volt = Field(gt=90, le=250, description="mains voltage of the region")
    unlisted_work_frac: Fraction | None = Field(
        default=None, ge=0, le=0.3, description="mass of fixings, glue, wire and plumbing nobody lists, over the parts'"
    )
    unlisted_work_tolerance_frac: Fraction = Field(
        default=0.5, ge=0, le=1, description="how far that share may differ, as a part of itself"
    )
    interlocks: tuple[Interlock, ...] = Field(
        default=(), max_length=20, description="loads of which only one can be on at a time"
    )
    hookup_a: Ampere | None = Field(
        default=None, ge=3, le=63, description="breaker of the usual hook-up; default: the region's usual one"
    )
    wiring: Wiring = Field(default=Wiring(), description="how it wires: sizes, insulation, fuses, protection")
    contact: Contact = Field(description="how a buyer reaches it")
    start: Slug | None = Field(
        default=None,
        description="id of the ready build whose choices the configurator opens with; absent: the first vehicle, bare",
    )
    trip: Trip = Field(description="the trip that the workshop's buyers usually have in mind")


class ReadyBuild(Entry):
    """A finished vehicle for sale: a build that is fixed."""

    id: Slug = Field(description="its name in files and addresses")
    name: Line = Field(description="what the buyer sees")
    summary: Prose = Field(description="a few sentences for the buyer")
    status: Literal["for-sale", "reserved", "sold"] = Field(default="for-sale", description="whether it can be had")
    price: Money = Field(gt=0, description="asking price, vehicle included, with or without tax like every price")
    vehicle: Slug = Field(description="id of its base vehicle")
    options: Mapping[Slug, int] = Field(description="option ids with how many")
    trip: TripPart = Field(
        default_factory=TripPart,
        description="the trip it is meant for, as far as it differs from the workshop's usual one",
    )


class Catalogue(Entry):
    """What a workshop publishes. Holds no cost price and no supplier: those fields do not exist here."""

    workshop: Workshop = Field(description="who publishes it")
    vehicles: tuple[Vehicle, ...] = Field(min_length=1, description="base vehicles")
    sections: tuple[Section, ...] = Field(min_length=1, description="chapters")
    ready: tuple[ReadyBuild, ...] = Field(default=(), description="finished vehicles for sale")
    weighed_ready: tuple[WeighedReady, ...] = Field(default=(), description="finished vehicles against their sums")
    weighed: tuple[WeighedVehicle, ...] = Field(default=(), description="what weighings say of base vehicles")
    dated: CalendarDay = Field(description="day the catalogue was published")

    @cached_property
    def options_by_id(self) -> dict[str, tuple[Section, Option]]:
        """Every option with its section, by id."""
        return {o.id: (s, o) for s in self.sections for o in s.options}

    @cached_property
    def vehicles_by_id(self) -> dict[str, Vehicle]:
        """Every base vehicle by id."""
        return {v.id: v for v in self.vehicles}
