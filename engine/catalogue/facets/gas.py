"""Facets of liquefied petroleum gas and of safety equipment."""

from typing import Literal, Self

from pydantic import Field, model_validator

from engine.catalogue.facets.base import Facet, Flue, Habit
from engine.catalogue.quantities import (
    Fraction,
    GasKilopascal,
    HeatWatt,
    Hour,
    Kg,
    KgPerHour,
    Litre,
    Metre,
    SquareMetre,
)


class GasStore(Facet):
    """A gas cylinder or a fixed tank. State what it legally holds, or the tank's whole volume."""

    kind: Literal["gas-store"]
    container: Literal["cylinder", "tank"] = Field(description="exchangeable cylinder or fixed tank")
    content_kg: Kg | None = Field(
        default=None, gt=0.2, le=100, description="gas when legally full (the 80 % is already off)"
    )
    total_volume_l: Litre | None = Field(default=None, gt=1, le=300, description="whole inner volume of a tank")
    fill_frac: Fraction = Field(
        default=0.8, gt=0.5, le=0.85, description="share of that whole volume that may be filled"
    )
    propane_frac: Fraction | None = Field(
        default=None,
        ge=0,
        le=1,
        description="propane by mass, the rest butane; absent: counted as propane, which is sure in the United States "
        "alone",
    )

    @property
    def counted_propane_frac(self) -> float:
        """As stated, else propane."""
        return 1.0 if self.propane_frac is None else self.propane_frac

    @model_validator(mode="after")
    def _one_statement(self) -> Self:
        if (self.content_kg is None) == (self.total_volume_l is None):
            raise ValueError("state either content or total_volume, not both and not neither")
        return self


class GasAppliance(Facet):
    """A gas appliance other than a heater: hob, oven, absorption fridge, outdoor grill."""

    kind: Literal["gas-appliance"]
    input_w: HeatWatt = Field(gt=50, le=15000, description="heat input at full flame, as its plate states it")
    hours_per_day_h: Hour = Field(ge=0, le=24, description="hours a day at full flame on the habit's usual day")
    habit: Habit = Field(default="cooking", description="what the hours follow")
    flue: Flue = Field(description="where its burnt gas goes")
    outdoors: bool = Field(default=False, description="used outside the vehicle only")
    gas_pressure_kpa: GasKilopascal | None = Field(default=None, gt=1, le=15, description="gas pressure it is made for")


class GasRegulator(Facet):
    """Brings the cylinder's pressure down to the appliances'. State what it passes, as gas or as heat."""

    kind: Literal["gas-regulator"]
    capacity_kg_h: KgPerHour | None = Field(default=None, gt=0.1, le=20, description="gas it passes")
    passes_heat_w: HeatWatt | None = Field(default=None, gt=1000, le=300_000, description="the same as heat")
    outlet_kpa: GasKilopascal = Field(gt=1, le=15, description="pressure behind it")

    @model_validator(mode="after")
    def _one_statement(self) -> Self:
        if (self.capacity_kg_h is None) == (self.passes_heat_w is None):
            raise ValueError("state either capacity or passes, not both and not neither")
        return self


class GasLine(Facet):
    """The main run of gas pipe, with the hose before it."""

    kind: Literal["gas-line"]
    bore_m: Metre = Field(ge=0.004, le=0.03, description="bore of the pipe")
    hose_m: Metre = Field(default=0, ge=0, le=5, description="length of the hose behind the regulator")
    hose_bore_m: Metre = Field(default=0.008, ge=0.004, le=0.03, description="bore of that hose")


class FlueTerminal(Facet):
    """Where flue gas leaves the vehicle. State the distances that you measured."""

    kind: Literal["flue-terminal"]
    where: Literal["wall", "roof", "floor"] = Field(description="which side it comes out of")
    to_opening_m: Metre | None = Field(
        default=None, ge=0, le=10, description="to the nearest window, hatch or vent that opens"
    )
    to_filler_m: Metre | None = Field(default=None, ge=0, le=20, description="to the nearest fuel filler or tank vent")
    closes_window: bool = Field(default=False, description="a switch stops the burner while that window is open")


class GasLocker(Facet):
    """A box for cylinders, tight towards the living space and open below to outside."""

    kind: Literal["gas-locker"]
    drop_vent_m2: SquareMetre | None = Field(
        default=None, ge=0, le=0.2, description="free opening through its floor to outside; 0 when there is none"
    )
    vent_to_opening_m: Metre | None = Field(
        default=None,
        ge=0,
        le=10,
        description="from it to the nearest door, window or vent of the living space",
    )
    vent_to_ignition_m: Metre | None = Field(
        default=None, ge=0, le=10, description="from it to the nearest flame, flue, exhaust or thing that sparks"
    )


class FixedVent(Facet):
    """Openings to outside that nobody can shut. State free areas: louvres and screens take off a third to a half."""

    kind: Literal["fixed-vent"]
    high_m2: SquareMetre = Field(default=0, ge=0, le=0.2, description="free area high up, in the roof for choice")
    low_m2: SquareMetre = Field(default=0, ge=0, le=0.2, description="free area at the floor")


class Alarm(Facet):
    """A detector or other piece of safety equipment."""

    kind: Literal["alarm"]
    detects: tuple[Literal["carbon-monoxide", "gas", "smoke", "fire-extinguisher"], ...] = Field(
        min_length=1, description="what it warns of or serves"
    )
