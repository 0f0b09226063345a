"""Facets of heating, cooling, insulation and air."""

from typing import Literal

from pydantic import Field

from engine.catalogue.facets.base import Facet, Flue, Surface
from engine.catalogue.quantities import (
    Conductivity,
    CubicMetrePerHour,
    Fraction,
    GasKilopascal,
    HeatWatt,
    Hour,
    KgPerM3,
    Metre,
    Second,
    UValue,
    Watt,
)


class SpaceHeater(Facet):
    """Heats the living space."""

    not_above = (("min_output_w", "output_w"),)

    kind: Literal["space-heater"]
    output_w: HeatWatt = Field(gt=50, le=20000, description="highest heat output")
    min_output_w: HeatWatt = Field(ge=0, le=10000, description="lowest steady output before it cycles")
    fuel: Literal["gas", "diesel", "wood", "battery", "mains"] = Field(description="what it burns or draws")
    efficiency_frac: Fraction = Field(
        default=0.85, gt=0.3, le=1, description="heat given over fuel energy (lower value)"
    )
    electric_w: Watt | None = Field(
        default=None,
        ge=0,
        le=300,
        description="electric power for fan, pump and control while running; absent: as usual for what burns diesel, "
        "none for others",
    )
    start_w: Watt | None = Field(
        default=None,
        ge=0,
        le=600,
        alias="start_power",
        description="electric power while it lights, fan included; absent: a glow plug's, for what burns diesel",
    )
    start_s: Second = Field(default=180, gt=0, le=1800, alias="start_time", description="how long it takes to light")
    flue: Flue | None = Field(default=None, description="where its burnt gas goes, of what burns gas, diesel or wood")
    gas_pressure_kpa: GasKilopascal | None = Field(default=None, gt=1, le=15, description="gas pressure it is made for")
    role: Literal["main", "floor", "spot"] = Field(default="main", description="heats the cabin, the floor or one spot")

    @property
    def burns(self) -> bool:
        """Whether it has a flame."""
        return self.fuel in ("gas", "diesel", "wood")


class AirConditioner(Facet):
    """Cools the living space."""

    kind: Literal["air-conditioner"]
    cooling_w: HeatWatt = Field(gt=300, le=8000, description="cooling capacity")
    input_w: Watt = Field(gt=100, le=4000, description="electric power while the compressor runs")
    supply: Literal["mains", "battery"] = Field(description="runs at mains voltage or straight from the battery")
    start_multiple: float = Field(default=5, ge=1, le=8, description="starting draw over running draw")
    hours_per_day_h: Hour | None = Field(
        default=None,
        ge=0,
        le=24,
        description="running hours on a day when it is used; absent: worked out from heat and sun",
    )


class InsulationLayer(Facet):
    """A layer that slows heat, on one or more surfaces of the shell."""

    kind: Literal["insulation-layer"]
    surfaces: tuple[Surface, ...] = Field(min_length=1, description="where it goes")
    thickness_m: Metre = Field(gt=0.001, le=0.3, description="thickness as fitted")
    conductivity_w_mk: Conductivity = Field(gt=0.01, le=0.3, description="design thermal conductivity")
    density_kg_m3: KgPerM3 = Field(gt=5, le=400, description="density, for the mass")
    framing_frac: Fraction = Field(
        default=0, ge=0, le=0.5, description="share of the area taken by framing through the layer"
    )
    framing_conductivity_w_mk: Conductivity = Field(
        default=0.13, gt=0.01, le=0.5, description="conductivity of that framing (timber)"
    )
    framing_density_kg_m3: KgPerM3 = Field(default=500, gt=5, le=1000, description="density of that framing")
    over_ribs_m: Metre = Field(
        default=0, ge=0, le=0.1, description="what of it at least covers the faces of metal ribs, cut or wrapped"
    )
    vapour_multiple: float | None = Field(
        default=None, ge=1, le=1_000_000, description="how many times it hinders vapour as much as still air (µ)"
    )
    vapour_layer_m: Metre | None = Field(
        default=None, ge=0.01, le=5000, description="still air that a vapour layer on its room side is worth (s_d)"
    )


class Window(Facet):
    """A window or roof light, with its own heat loss."""

    kind: Literal["window"]
    surface: Literal["walls", "roof"] = Field(default="walls", description="surface it is cut into")
    width_m: Metre = Field(gt=0.1, le=2.5, description="glass width")
    height_m: Metre = Field(gt=0.1, le=1.5, description="glass height")
    u_value_w_m2k: UValue = Field(gt=0.5, le=7, description="heat transmittance with frame")
    opens: bool = Field(default=True, description="can be opened")


class Door(Facet):
    """A door or hatch through the shell."""

    kind: Literal["door"]
    use: Literal["entry", "garage", "service"] = Field(description="what it serves")
    width_m: Metre = Field(gt=0.2, le=2.6, description="clear width")
    height_m: Metre = Field(gt=0.2, le=2.4, description="clear height")
    u_value_w_m2k: UValue = Field(gt=0.3, le=7, description="heat transmittance")


class VentFan(Facet):
    """A fan that moves air in or out."""

    kind: Literal["vent-fan"]
    flow_m3_h: CubicMetrePerHour = Field(gt=5, le=3000, description="free flow at full speed")
    power_w: Watt = Field(gt=0.5, le=100, description="electric power at full speed")
    hours_per_day_h: Hour = Field(default=8, ge=0, le=24, description="hours a day it runs in season")
    power_share_frac: Fraction = Field(default=0.3, gt=0, le=1, description="usual power over full power")
