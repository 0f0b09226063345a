"""Facets of fresh and waste water."""

from typing import Literal

from pydantic import Field

from engine.catalogue.facets.base import Facet, Flue
from engine.catalogue.quantities import (
    Celsius,
    Fraction,
    GasKilopascal,
    HeatWatt,
    Kilopascal,
    Litre,
    LitrePerMinute,
    Metre,
    Watt,
)


class _Tank(Facet):
    volume_l: Litre = Field(gt=1, le=1500, description="usable volume")
    position: Literal["inside", "outside"] = Field(
        default="inside", description="within the warm shell or under the floor"
    )
    heated: bool = Field(default=False, description="has its own frost heater")
    frost_heater_w: HeatWatt | None = Field(
        default=None, gt=1, le=2000, alias="frost_heater", description="what that heater gives, when known"
    )
    insulation_m: Metre | None = Field(
        default=None, ge=0, le=0.2, description="foam or the like all round it, when known"
    )


class FreshTank(_Tank):
    """Holds drinking water."""

    kind: Literal["fresh-tank"]
    travel_fill_l: Litre | None = Field(
        default=None, ge=0, le=1500, description="what it holds while driving, when an overflow or a valve limits it"
    )


class GreyTank(_Tank):
    """Holds waste water from basin, sink and shower."""

    kind: Literal["grey-tank"]


class BlackTank(_Tank):
    """Holds toilet waste in a fixed tank."""

    kind: Literal["black-tank"]


class Cassette(Facet):
    """A toilet with a waste box that is carried away (chemical, or separating)."""

    kind: Literal["cassette"]
    volume_l: Litre = Field(gt=1, le=60, description="waste volume")
    flush_l: Litre = Field(default=0.3, ge=0, le=3, description="fresh water per use")
    people_days_per_fill: float | None = Field(
        default=None, gt=0, le=60, description="person-days until it must be emptied, when the maker states it"
    )


class WaterHeater(Facet):
    """Makes hot water, from a store or as it flows."""

    kind: Literal["water-heater"]
    volume_l: Litre = Field(ge=0, le=120, description="stored volume, 0 for an instant heater")
    heat_w: HeatWatt = Field(gt=50, le=30000, description="heat put into the water")
    energy: Literal["gas", "diesel", "battery", "mains", "engine"] = Field(description="where the heat comes from")
    efficiency_frac: Fraction = Field(default=0.85, gt=0.3, le=1, description="heat in the water over energy used")
    hot_degc: Celsius = Field(default=60, ge=40, le=90, description="how hot a store gets")
    standing_heat_w: HeatWatt | None = Field(
        default=None,
        gt=1,
        le=500,
        alias="standing",
        description="what a hot store loses in a room of 20 °C",
    )
    gas_pressure_kpa: GasKilopascal | None = Field(default=None, gt=1, le=15, description="gas pressure it is made for")
    flue: Flue | None = Field(default=None, description="where its burnt gas goes, of what burns gas or diesel")

    @property
    def burns(self) -> bool:
        """Whether it has a flame of its own."""
        return self.energy in ("gas", "diesel")


class Pump(Facet):
    """A fresh-water pump."""

    not_above = (("cut_in_kpa", "pressure_kpa"),)

    kind: Literal["pump"]
    power_w: Watt = Field(gt=5, le=500, description="electric power while pumping")
    flow_l_min: LitrePerMinute = Field(gt=1, le=40, description="open flow")
    pressure_kpa: Kilopascal = Field(gt=20, le=600, description="cut-out pressure")
    cut_in_kpa: Kilopascal | None = Field(
        default=None, gt=10, le=600, description="pressure at which it starts again; absent: 0.7 of the cut-out"
    )
    bore_m: Metre = Field(default=0.010, ge=0.006, le=0.025, description="bore of the pipes behind it")


class PressureVessel(Facet):
    """A vessel with an air cushion behind the pump, which gives water without the pump."""

    kind: Literal["pressure-vessel"]
    volume_l: Litre = Field(gt=0.1, le=50, description="whole volume")
    precharge_kpa: Kilopascal = Field(gt=10, le=500, description="pressure of its air while it is empty")


class WaterFilter(Facet):
    """A filter with a cartridge that wears out."""

    kind: Literal["water-filter"]
    serves: Literal["drinking", "all"] = Field(description="a tap for drinking water, or everything behind the pump")
    life_l: Litre = Field(gt=50, le=100_000, description="water that a cartridge lasts for")
    rated_l_min: LitrePerMinute = Field(gt=0.3, le=40, description="highest flow it is made for")
    drop_kpa: Kilopascal = Field(default=35, ge=0, le=200, description="pressure lost at that flow, cartridge clean")


class OutsidePipe(Facet):
    """A run of pipe outside the warm shell that stands full."""

    kind: Literal["outside-pipe"]
    length_m: Metre = Field(gt=0.05, le=20, description="length out there")
    bore_m: Metre = Field(default=0.012, ge=0.006, le=0.08, description="inside diameter")
    outer_m: Metre = Field(default=0.015, ge=0.008, le=0.1, description="outside diameter")
    insulation_m: Metre = Field(default=0, ge=0, le=0.1, description="lagging all round it")
    heated: bool = Field(default=False, description="has a heating cable")


class WaterOutlet(Facet):
    """A shower or tap whose flow decides how fast the tank empties."""

    kind: Literal["water-outlet"]
    use: Literal["shower", "outdoor-shower", "sink", "basin"] = Field(description="what it serves")
    flow_l_min: LitrePerMinute = Field(gt=0.5, le=15, description="highest flow, wide open")
