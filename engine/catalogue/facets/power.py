"""Facets of electricity: sources, store, conversion and loads."""

from typing import Literal

from pydantic import Field

from engine.catalogue.facets.base import Facet, Habit, Running
from engine.catalogue.quantities import (
    Ampere,
    AmpereHour,
    Celsius,
    Degree,
    Fraction,
    FractionPerKelvin,
    Hour,
    Metre,
    Second,
    Volt,
    VoltAmpere,
    Watt,
)


class SolarPanel(Facet):
    """A photovoltaic panel that needs a rectangle of roof."""

    kind: Literal["solar-panel"]
    power_w: Watt = Field(gt=0, le=900, description="rated power at standard test conditions")
    length_m: Metre = Field(gt=0.2, le=2.6, description="longer side of the frame")
    width_m: Metre = Field(gt=0.2, le=1.5, description="shorter side of the frame")
    thickness_m: Metre = Field(default=0.035, gt=0, le=0.1, description="frame height")
    open_circuit_v: Volt = Field(gt=5, le=120, description="open-circuit voltage at 25 °C cell temperature")
    max_power_v: Volt = Field(gt=4, le=100, description="voltage at maximum power at 25 °C")
    short_circuit_a: Ampere = Field(gt=0.5, le=25, description="short-circuit current")
    voltage_coefficient_frac_k: FractionPerKelvin = Field(
        default=-0.0030, ge=-0.006, lt=0, description="change of open-circuit voltage per kelvin"
    )
    power_coefficient_frac_k: FractionPerKelvin = Field(
        default=-0.0035, ge=-0.006, lt=0, description="change of power per kelvin"
    )
    mount: Literal["raised", "glued"] = Field(default="raised", description="on brackets with air below, or glued flat")
    fixing: Literal["ribs", "adhesive"] | None = Field(
        default=None,
        description="what holds it: two ribs or rails, or adhesive; absent: ribs when raised, else adhesive",
    )
    standoff_m: Metre | None = Field(
        default=None, ge=0, le=0.3, description="roof to underside; absent: 5 cm when raised, none when glued"
    )
    tilt_deg: Degree = Field(
        default=0, ge=0, le=60, description="tilt of its frame about the long side while parked; flat on the road"
    )


class SolarController(Facet):
    """A charge controller between panels and house battery."""

    kind: Literal["solar-controller"]
    technology: Literal["mppt", "pwm"] = Field(default="mppt", description="maximum-power tracking or switching only")
    max_input_v: Volt = Field(gt=10, le=600, description="highest panel voltage it survives")
    max_output_a: Ampere = Field(gt=1, le=200, description="charging current limit")
    efficiency_frac: Fraction = Field(default=0.96, gt=0.5, le=1, description="output over input energy")


class Battery(Facet):
    """One house battery; several of one kind stand in parallel."""

    kind: Literal["battery"]
    chemistry: Literal["lfp", "agm", "flooded"] = Field(description="lithium iron phosphate or lead-acid type")
    nominal_v: Volt = Field(gt=10, le=60, description="nominal voltage")
    capacity_ah: AmpereHour = Field(gt=5, le=1500, description="rated capacity at nominal_v")
    usable_frac: Fraction = Field(gt=0.2, le=1, description="depth of discharge to plan with")
    continuous_discharge_a: Ampere = Field(gt=1, le=1000, description="continuous discharge limit")
    peak_discharge_a: Ampere = Field(gt=1, le=3000, description="short discharge limit")
    peak_s: Second = Field(default=5, gt=0, le=60, description="how long the peak may last")
    charge_a: Ampere = Field(gt=1, le=1000, description="charging current limit")
    min_charge_degc: Celsius = Field(default=0, ge=-40, le=10, description="coldest cell that may be charged")
    heated: bool = Field(default=False, description="warms its own cells before charging")


class Inverter(Facet):
    """Makes mains-voltage alternating current from the house battery."""

    kind: Literal["inverter"]
    input_v: Volt = Field(gt=10, le=60, description="nominal battery voltage it is made for")
    output_v: Volt = Field(gt=90, le=250, description="mains voltage it makes")
    continuous_w: Watt = Field(gt=50, le=15000, description="continuous output")
    surge_va: VoltAmpere = Field(gt=50, le=40000, description="output for a motor start")
    surge_s: Second = Field(default=5, gt=0, le=60, alias="surge_duration", description="how long the surge lasts")
    efficiency_frac: Fraction = Field(default=0.9, gt=0.5, le=0.99, description="output over input at working load")
    idle_w: Watt = Field(ge=0, le=200, description="own draw while switched on with nothing plugged in")
    switched: bool = Field(default=True, description="is off between uses; false when wired to stay on")
    cutoff_v: Volt | None = Field(default=None, gt=8, le=56, description="low-voltage cut-off, when known")


class ShoreCharger(Facet):
    """Charges the house battery from a hook-up."""

    kind: Literal["shore-charger"]
    output_v: Volt = Field(gt=10, le=60, alias="output_voltage", description="nominal battery voltage")
    output_a: Ampere = Field(gt=1, le=300, description="charging current")
    efficiency_frac: Fraction = Field(default=0.9, gt=0.5, le=1, description="output over input energy")


class AlternatorCharger(Facet):
    """A DC-DC charger that takes from the engine's alternator."""

    kind: Literal["alternator-charger"]
    output_v: Volt = Field(gt=10, le=60, alias="output_voltage", description="charging voltage at the house battery")
    output_a: Ampere = Field(gt=1, le=250, description="charging current at the house battery")
    efficiency_frac: Fraction = Field(default=0.92, gt=0.5, le=1, description="output over input energy")


class _Load(Facet):
    power_w: Watt = Field(gt=0, le=6000, description="power taken while running (input, not what it gives out)")
    hours_per_day_h: Hour = Field(ge=0, le=24, description="hours a day it runs at that power on the habit's usual day")
    habit: Habit = Field(default="always", description="what the hours follow")
    running: Running = Field(default="now-and-then", description="how it runs")
    start_multiple: float = Field(default=1, ge=1, le=8, description="starting draw over running draw")
    interlock: str | None = Field(
        default=None, max_length=40, description="only one load of this name can be on at once"
    )


class DcLoad(_Load):
    """A load at battery voltage."""

    kind: Literal["dc-load"]


class AcLoad(_Load):
    """A load at mains voltage, fed through the inverter or from a hook-up."""

    kind: Literal["ac-load"]
    power_factor_frac: Fraction = Field(default=1, gt=0.3, le=1, description="real over apparent power")
    shore_only: bool = Field(default=False, description="wired so that the inverter never feeds it")
