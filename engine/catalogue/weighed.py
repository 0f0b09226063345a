"""What weighbridges taught: readings as a workshop writes them down, and the correction that is published instead.

A reading stays with the workshop, for it tells who sat in the vehicle and what lay in it. Published is only how much
more (or less) vehicles weighed than was worked out.
"""

from typing import Self

from pydantic import Field, model_validator

from engine.catalogue.quantities import CalendarDay, Entry, Fraction, Kg, Line, Slug
from engine.catalogue.vehicle import PlaceName


class Aboard(Entry):
    """Something that was in the vehicle on the weighbridge and does not belong to it."""

    name: Line = Field(description="what it was")
    mass_kg: Kg = Field(gt=0, le=2000, description="its mass")
    place: PlaceName = Field(description="where it lay")


class Reading(Entry):
    """One visit to a weighbridge. Never published."""

    dated: CalendarDay = Field(description="day of the reading, YYYY-MM-DD")
    front_kg: Kg = Field(gt=300, le=12000, description="load on the front axle")
    rear_kg: Kg = Field(gt=200, le=16000, description="load on the rear axle")
    front_right_kg: Kg | None = Field(default=None, gt=0, le=8000, description="of it, on the right front wheel")
    rear_right_kg: Kg | None = Field(default=None, gt=0, le=9000, description="of it, on the right rear wheels")
    tolerance_kg: Kg = Field(default=10, gt=0, le=200, description="how far the scale may be off for one axle")
    fresh_water_frac: Fraction = Field(default=0, ge=0, le=1, description="how full the fresh water tanks were")
    grey_water_frac: Fraction = Field(default=0, ge=0, le=1, description="how full the grey water tanks were")
    toilet_frac: Fraction = Field(default=0, ge=0, le=1, description="how full the toilet's tank was")
    boiler_frac: Fraction = Field(default=0, ge=0, le=1, description="how full the water heater was")
    gas_frac: Fraction = Field(default=1, ge=0, le=1, description="how full the gas cylinders were")
    fuel_frac: Fraction = Field(default=1, ge=0, le=1, description="how full the fuel tank was")
    people: int = Field(default=0, ge=0, le=9, description="grown-ups aboard, seated from the driver's seat on")
    aboard: tuple[Aboard, ...] = Field(default=(), description="what else was aboard")

    @model_validator(mode="after")
    def _sides(self) -> Self:
        for right, axle in ((self.front_right_kg, self.front_kg), (self.rear_right_kg, self.rear_kg)):
            if right is not None and right >= axle:
                raise ValueError("the right wheels cannot carry all of their axle's load or more")
        return self


class WeighedReady(Entry):
    """How a finished vehicle differs from what is worked out for it."""

    ready: Slug = Field(description="id of the ready build")
    front_kg: Kg = Field(ge=-3000, le=3000, description="front axle, scale less sum")
    rear_kg: Kg = Field(ge=-3000, le=3000, description="rear axle, scale less sum")
    front_right_kg: Kg = Field(ge=-3000, le=3000, description="of it, on the right wheel; half where nobody weighed it")
    rear_right_kg: Kg = Field(ge=-3000, le=3000, description="of it, on the right wheels; half where nobody weighed it")
    front_spread_kg: Kg = Field(ge=0, le=1000, description="half-width of the front axle's 90 % band after weighing")
    rear_spread_kg: Kg = Field(ge=0, le=1000, description="half-width of the rear axle's 90 % band after weighing")


class WeighedVehicle(Entry):
    """What all weighings together teach about a base vehicle that is fitted out anew."""

    vehicle: Slug = Field(description="id of the base vehicle")
    count: int = Field(ge=0, le=500, description="finished vehicles of this kind that were weighed")
    more_kg: Kg = Field(ge=-3000, le=3000, description="what they weighed more than was worked out, on average")
    delivered_frac: Fraction = Field(ge=-0.3, le=0.3, description="to be added to the delivered mass")
    unlisted_frac: Fraction = Field(ge=-0.5, le=0.5, description="to be added to the allowance, over the parts' mass")
    delivered_spread_frac: Fraction = Field(
        ge=0, le=0.3, description="half-width left of the error that all delivered masses of this kind share"
    )
    own_spread_frac: Fraction = Field(ge=0, le=0.3, description="half-width of one vehicle's own delivered mass")
    unlisted_spread_frac: Fraction = Field(ge=0, le=0.5, description="half-width left of the allowance by itself")
    unlisted_tied_frac: Fraction = Field(
        ge=-0.5, le=0.5, description="half-width left of the allowance that goes with the delivered masses' error"
    )
