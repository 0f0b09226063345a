"""The workshop itself, its ready builds, and the whole catalogue as it is published."""

from collections.abc import Mapping
from functools import cached_property
from typing import Literal

from pydantic import Field

from engine.catalogue.quantities import Entry, Fraction, Line, Money, Prose, Slug, Volt
from engine.catalogue.section import Option, Section
from engine.catalogue.trip import Trip
from engine.catalogue.vehicle import Vehicle


class Contact(Entry):
    """How a buyer reaches the workshop."""

    email: Line
    phone: Line | None = None
    address: Prose | None = None


class Tax(Entry):
    """The sales tax or value-added tax that a buyer pays."""

    name: Line
    rate_frac: Fraction = Field(ge=0, le=0.4)
    in_prices: bool = Field(default=False, description="true when shown prices include it")


class Workshop(Entry):
    """The business that publishes the site."""

    id: Slug
    name: Line
    tagline: Line
    about: Prose
    region: Literal["us", "eu", "uk", "au"] = Field(description="whose rules apply")
    units: Literal["us", "metric"] = Field(description="units shown to readers")
    currency: str = Field(pattern=r"^[A-Z]{3}$", description="ISO 4217 code")
    tax: Tax
    labour_rate: Money = Field(gt=0, description="price of one labour hour, before tax")
    mains_v: Volt = Field(gt=90, le=250, description="mains voltage of the region")
    contact: Contact
    start: Slug = Field(description="id of the ready build whose choices the configurator opens with")
    trip: Trip = Field(description="the trip that the workshop's buyers usually have in mind")


class ReadyBuild(Entry):
    """A finished vehicle for sale: a build that is fixed."""

    id: Slug
    name: Line
    summary: Prose
    status: Literal["for-sale", "reserved", "sold"] = "for-sale"
    price: Money = Field(gt=0, description="asking price before tax, vehicle included")
    vehicle: Slug
    options: Mapping[Slug, int] = Field(description="option ids with how many")


class Catalogue(Entry):
    """What a workshop publishes. Holds no cost price and no supplier: those fields do not exist here."""

    workshop: Workshop
    vehicles: tuple[Vehicle, ...] = Field(min_length=1)
    sections: tuple[Section, ...] = Field(min_length=1)
    ready: tuple[ReadyBuild, ...] = ()
    dated: str = Field(pattern=r"^\d{4}-\d{2}-\d{2}$", description="day the catalogue was published")

    @cached_property
    def options_by_id(self) -> dict[str, tuple[Section, Option]]:
        """Every option with its section, by id."""
        return {o.id: (s, o) for s in self.sections for o in s.options}

    @cached_property
    def vehicles_by_id(self) -> dict[str, Vehicle]:
        """Every base vehicle by id."""
        return {v.id: v for v in self.vehicles}
