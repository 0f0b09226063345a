"""How a buyer will travel. A workshop states its buyers' usual trip; an enquiry states one buyer's own."""

from typing import Annotated, Any, Self

from pydantic import ConfigDict, Field, model_validator

from engine.catalogue.quantities import Ampere, Celsius, Day, Entry, Hour, Kg, Line, Metre, Money, Slug

Month = Annotated[int, Field(ge=1, le=12)]


class CargoBox(Entry):
    """Something bulky that travels in the garage or on a carrier: a bicycle, a board, a bag."""

    name: Line = Field(description="what it is")
    length_m: Metre = Field(gt=0.05, le=4, description="longest side")
    width_m: Metre = Field(gt=0.02, le=2, description="next side")
    height_m: Metre = Field(gt=0.02, le=2, description="height as it stands")
    count: int = Field(default=1, ge=1, le=8, description="how many")
    mass_kg: Kg | None = Field(default=None, ge=0, le=200, description="mass of one; part of the baggage")
    any_way_up: bool = Field(default=False, description="may lie on its side or stand on end")


def _no_defaults(schema: dict[str, Any]) -> None:
    """What is left out of a part is the workshop's, not this model's default."""
    for value in schema["properties"].values():
        value.pop("default", None)


class TripPart(Entry):
    """What is stated of a trip: a finished vehicle tells only what differs from the workshop's usual one."""

    model_config = ConfigDict(json_schema_extra=_no_defaults)

    adults: int = Field(default=2, ge=1, le=8, description="grown-ups aboard")
    children: int = Field(default=0, ge=0, le=8, description="children aboard")
    pets: int = Field(default=0, ge=0, le=6, description="dogs and the like")
    tallest_m: Metre = Field(default=1.80, ge=1.2, le=2.2, description="tallest person")
    adult_kg: Kg | None = Field(
        default=None, ge=40, le=200, description="mass of each grown-up; absent: what the region's law reckons with"
    )
    place: Slug | None = Field(default=None, description="id of the climate")
    months: tuple[Month, ...] | None = Field(
        default=None, min_length=1, max_length=12, description="months of travel, 1 to 12"
    )
    days_between_fills_d: Day = Field(default=4, ge=0.5, le=60, description="days from one water fill to the next")
    days_off_grid_d: Day = Field(default=4, ge=0.5, le=90, description="days from one hook-up to the next")
    driving_h: Hour = Field(default=1, ge=0, le=14, description="hours of driving on a usual day")
    showers_per_day: float = Field(default=0.5, ge=0, le=3, description="showers for each person a day")
    shower_minutes: float = Field(default=3, ge=0.5, le=20, description="minutes the water runs for each shower")
    hot_meals_per_day: float = Field(default=1.5, ge=0, le=5, description="cooked meals a day for all")
    computer_h: Hour = Field(default=2, ge=0, le=48, description="hours of computer work a day, all persons together")
    cooling: bool = Field(default=False, description="air conditioning is used on hot days")
    inside_degc: Celsius = Field(default=18, ge=5, le=26, description="warmth wanted inside at night")
    baggage_kg: Kg = Field(default=100, ge=0, le=1500, description="clothes, food, tools, sports gear in the garage")
    cupboards_kg: Kg = Field(default=0, ge=0, le=800, description="food, clothes and books in cupboards of the cabin")
    nose_kg: Kg = Field(default=0, ge=0, le=500, description="load of a trailer's nose on the towing coupling")
    height_limit_m: Metre | None = Field(
        default=None, ge=1.5, le=6, description="lowest garage, ferry deck or bridge it has to pass under"
    )
    hookup_a: Ampere | None = Field(
        default=None, ge=3, le=63, description="breaker of the hook-up on the pitch; absent: the workshop's usual one"
    )
    budget: Money | None = Field(default=None, gt=0, description="most the buyer wants to pay, with tax")
    boxes: tuple[CargoBox, ...] = Field(default=(), max_length=8, description="bulky things for garage or carrier")

    @model_validator(mode="after")
    def _months_once(self) -> Self:
        months = self.months or ()
        if twice := sorted({m for m in months if months.count(m) > 1}):
            raise ValueError("a month is named twice: " + ", ".join(map(str, twice)))
        return self

    def over(self, usual: "Trip") -> "Trip":
        """The whole trip: what is stated here, and for the rest the usual one."""
        stated = {name: getattr(self, name) for name in self.model_fields_set}
        return usual.model_copy(update={name: value for name, value in stated.items() if value is not None})


class Trip(TripPart):
    """People, place, months, days and habits."""

    model_config = ConfigDict(json_schema_extra=None)

    place: Slug = Field(description="id of the climate")
    months: tuple[Month, ...] = Field(min_length=1, max_length=12, description="months of travel, 1 to 12")

    @property
    def people(self) -> int:
        """Everybody aboard, pets aside."""
        return self.adults + self.children
