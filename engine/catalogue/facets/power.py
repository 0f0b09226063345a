"""Facets of electricity: sources, store, conversion and loads."""

from typing import Literal, Self

from pydantic import Field, model_validator

from engine.catalogue.facets.base import Facet, Habit, Running
from engine.catalogue.quantities import (
    Ampere,
    AmpereHour,
    Celsius,
    Degree,
    Entry,
    Fraction,
    FractionPerKelvin,
    Hour,
    Litre,
    Metre,
    Ohm,
    Second,
    Volt,
    VoltAmpere,
    Watt,
)

ROUNDED_FRAC = 0.99
"""Printed powers, voltages and currents are rounded."""


CHARGED_FRAC = 1.1
"""Voltage of a full battery at rest over the round one of its class: 13.2 V of 12 V (common practice)."""


class SolarPanel(Facet):
    """A photovoltaic panel that needs a rectangle of roof."""

    not_above = (("max_power_v", "open_circuit_v"),)

    kind: Literal["solar-panel"]
    power_w: Watt = Field(gt=0, le=900, description="rated power at standard test conditions")
    length_m: Metre = Field(gt=0.2, le=2.6, description="longer side of the frame")
    width_m: Metre = Field(gt=0.2, le=1.5, description="shorter side of the frame")
    thickness_m: Metre = Field(default=0.035, gt=0, le=0.1, description="frame height")
    open_circuit_v: Volt = Field(gt=5, le=120, description="open-circuit voltage at 25 °C cell temperature")
    max_power_v: Volt = Field(gt=4, le=100, description="voltage at maximum power at 25 °C")
    short_circuit_a: Ampere = Field(gt=0.5, le=25, description="short-circuit current")
    series_fuse_a: Ampere | None = Field(
        default=None, gt=1, le=60, description="largest fuse its maker allows in its string, when stated"
    )
    voltage_coefficient_frac_k: FractionPerKelvin = Field(
        default=-0.0030, ge=-0.006, lt=0, description="change of open-circuit voltage per kelvin"
    )
    max_power_voltage_coefficient_frac_k: FractionPerKelvin | None = Field(
        default=None,
        ge=-0.008,
        lt=0,
        description="change of the voltage at maximum power per kelvin; absent: -0.40 %/K, common practice",
    )
    power_coefficient_frac_k: FractionPerKelvin = Field(
        default=-0.0035, ge=-0.006, lt=0, description="change of power per kelvin"
    )
    in_series: int | None = Field(
        default=None, ge=1, le=20, description="how many the workshop wires in series; absent: the best is worked out"
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

    @model_validator(mode="after")
    def _one_label(self) -> Self:
        if self.short_circuit_a < ROUNDED_FRAC * self.power_w / self.max_power_v:
            raise ValueError("short_circuit is less than power / max_power: a panel's current is highest when shorted")
        return self


class SolarController(Facet):
    """A charge controller between panels and house battery."""

    kind: Literal["solar-controller"]
    technology: Literal["mppt", "pwm"] = Field(default="mppt", description="maximum-power tracking or switching only")
    max_input_v: Volt = Field(gt=10, le=600, description="highest panel voltage it survives")
    max_input_a: Ampere | None = Field(
        default=None,
        gt=1,
        le=400,
        alias="max_input_current",
        description="largest short-circuit current on its panel side, when stated",
    )
    headroom_v: Volt = Field(
        default=1, ge=0, le=10, description="how far above the battery the panels must be for it to keep working"
    )
    max_output_a: Ampere = Field(gt=1, le=200, description="charging current limit")
    efficiency_frac: Fraction = Field(default=0.96, gt=0.5, le=1, description="output over input energy")


class Battery(Facet):
    """One house battery; several of one kind stand in parallel, after as many in series as the bank's voltage needs."""

    not_above = (("continuous_discharge_a", "peak_discharge_a"),)

    kind: Literal["battery"]
    chemistry: Literal["lfp", "agm", "gel", "flooded", "nmc", "lto", "sodium"] = Field(
        description="lithium iron phosphate (lfp), other lithium (nmc, lto), sodium ion or a kind of lead-acid"
    )
    nominal_v: Volt = Field(ge=2, le=60, description="nominal voltage")
    bank_v: Volt | None = Field(
        default=None, gt=10, le=60, description="voltage of the bank they are wired for in series; absent: their own"
    )
    capacity_ah: AmpereHour = Field(gt=5, le=1500, description="rated capacity at the nominal voltage")
    usable_frac: Fraction = Field(gt=0.2, le=1, description="depth of discharge to plan with")
    continuous_discharge_a: Ampere = Field(gt=1, le=1000, description="continuous discharge limit")
    peak_discharge_a: Ampere = Field(gt=1, le=3000, description="short discharge limit")
    peak_s: Second = Field(default=5, gt=0, le=60, description="how long the peak may last")
    charge_a: Ampere = Field(gt=1, le=1000, description="charging current limit")
    min_charge_degc: Celsius = Field(default=0, ge=-40, le=10, description="coldest cell that may be charged")
    heated: bool = Field(default=False, description="warms its own cells before charging")
    internal_ohm: Ohm | None = Field(
        default=None, gt=0.0001, le=1, description="internal resistance at 25 °C; absent: typical of its chemistry"
    )
    short_circuit_a: Ampere | None = Field(
        default=None,
        gt=50,
        le=100_000,
        description="largest current of a short circuit, when its sheet states one; absent: worked out from the "
        "resistance of its cells alone",
    )


class Surge(Entry):
    """What an inverter gives for a time."""

    lasts_s: Second = Field(gt=0, le=3600, description="how long")
    gives_va: VoltAmpere = Field(gt=50, le=60000, description="apparent power")


class Inverter(Facet):
    """Makes mains-voltage alternating current from the house battery."""

    not_above = (("continuous_w", "surge_va"), ("hot_continuous_w", "continuous_w"))

    kind: Literal["inverter"]
    input_v: Volt = Field(gt=10, le=60, description="nominal battery voltage it is made for")
    output_v: Volt = Field(gt=90, le=250, description="mains voltage it makes")
    continuous_w: Watt = Field(gt=50, le=15000, description="continuous output")
    surge_va: VoltAmpere = Field(gt=50, le=40000, description="output for a motor start")
    surge_s: Second = Field(default=5, gt=0, le=60, alias="surge_duration", description="how long the surge lasts")
    surges: tuple[Surge, ...] = Field(
        default=(), max_length=6, description="what it gives for other times, when its sheet has several"
    )
    hot_continuous_w: Watt | None = Field(
        default=None, gt=30, le=15000, description="continuous output in air of 40 °C, when its sheet states one"
    )
    legs: int = Field(
        default=1, ge=1, le=2, description="2: split phase, the output voltage twice, each leg half of the rating"
    )
    efficiency_frac: Fraction = Field(default=0.9, gt=0.5, le=0.99, description="output over input at working load")
    idle_w: Watt = Field(ge=0, le=200, description="own draw while switched on with nothing plugged in")
    switched: bool = Field(default=True, description="is off between uses; false when wired to stay on")
    cutoff_v: Volt | None = Field(default=None, gt=8, le=56, description="low-voltage cut-off, when known")

    @model_validator(mode="after")
    def _switches_on(self) -> Self:
        if self.cutoff_v is not None and self.cutoff_v >= CHARGED_FRAC * self.input_v:
            raise ValueError("cutoff is above what a battery of its input has: it would never switch on")
        return self


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


class ShoreInlet(Facet):
    """The inlet of a hook-up, with its breakers; its cable carries what the inlet carries."""

    kind: Literal["shore-inlet"]
    rating_a: Ampere = Field(gt=3, le=63, description="breaker of each leg")
    legs: int = Field(default=1, ge=1, le=2, description="2: split phase, two legs of the region's mains voltage")


class Generator(Facet):
    """An engine that makes mains voltage, aboard or carried along."""

    not_above = (("continuous_w", "surge_va"),)

    kind: Literal["generator"]
    continuous_w: Watt = Field(gt=100, le=20000, description="output that it keeps up")
    output_v: Volt = Field(gt=90, le=250, alias="output_voltage", description="mains voltage it makes")
    surge_va: VoltAmpere | None = Field(default=None, gt=100, le=40000, description="output for a motor start")
    hourly_l: Litre | None = Field(
        default=None, gt=0.05, le=20, alias="fuel_in_an_hour", description="fuel it burns in an hour at full output"
    )


class Converter(Facet):
    """Feeds loads of one direct voltage from a house battery of another."""

    kind: Literal["converter"]
    output_v: Volt = Field(gt=4, le=60, alias="output_voltage", description="voltage it makes")
    output_a: Ampere = Field(gt=0.5, le=200, description="current it gives for long")
    efficiency_frac: Fraction = Field(default=0.9, gt=0.5, le=1, description="output over input energy")
    idle_w: Watt = Field(default=0, ge=0, le=50, description="own draw with nothing switched on")


class _Load(Facet):
    power_w: Watt | None = Field(
        default=None, gt=0, le=6000, description="power taken while running (input, not what it gives out)"
    )
    output_w: Watt | None = Field(
        default=None, gt=0, le=6000, description="what it gives out, for an appliance sold by that (microwave, hob)"
    )
    output_over_input_frac: Fraction | None = Field(
        default=None, gt=0.2, le=1, description="output over input, to work out the power it takes"
    )
    standby_w: Watt = Field(default=0, ge=0, le=100, description="power taken while it is not running")
    hours_per_day_h: Hour = Field(ge=0, le=24, description="hours a day it runs at that power on the habit's usual day")
    habit: Habit = Field(default="always", description="what the hours follow")
    running: Running = Field(default="now-and-then", description="how it runs")
    keeps_degc: Celsius | None = Field(
        default=None, ge=-30, le=15, description="inside of a fridge or freezer; its hours then follow the room"
    )
    rated_degc: Celsius | None = Field(
        default=None, ge=16, le=45, description="room temperature for which its hours a day hold (keeps needs it)"
    )
    start_multiple: float = Field(default=1, ge=1, le=8, description="starting draw over running draw")
    start_a: Ampere | None = Field(
        default=None,
        gt=0,
        le=500,
        alias="start_current",
        description="locked-rotor current of the nameplate; counts before start_multiple",
    )
    start_s: Second = Field(default=0.5, gt=0, le=30, alias="start_time", description="how long the start lasts")
    interlock: str | None = Field(
        default=None, max_length=40, description="only one load of this name can be on at once"
    )

    @model_validator(mode="after")
    def _one_power(self) -> Self:
        if self.power_w is None and (self.output_w is None or self.output_over_input_frac is None):
            raise ValueError("state power (what it takes), or output with output_over_input")
        if self.power_w is not None and self.output_w is not None and self.power_w < self.output_w:
            raise ValueError("power is less than output: power is what it takes, output what it gives")
        if (self.keeps_degc is None) != (self.rated_degc is None):
            raise ValueError("keeps and rated belong together: state both or neither")
        return self

    @property
    def input_w(self) -> float:
        """Power taken while running."""
        if self.power_w is not None:
            return self.power_w
        assert self.output_w is not None and self.output_over_input_frac is not None  # held by the model
        return self.output_w / self.output_over_input_frac


class DcLoad(_Load):
    """A load at battery voltage, or at that of a converter."""

    kind: Literal["dc-load"]
    supply_v: Volt | None = Field(
        default=None, gt=4, le=60, description="voltage it is made for; absent: what the converter or battery gives"
    )
    highest_supply_v: Volt | None = Field(
        default=None, gt=4, le=60, description="highest nominal voltage it takes too, such as 24 V of a 12/24 V fridge"
    )


class AcLoad(_Load):
    """A load at mains voltage, fed through the inverter or from a hook-up."""

    kind: Literal["ac-load"]
    supply_v: Volt | None = Field(
        default=None, gt=90, le=260, description="mains voltage it is made for; absent: the region's"
    )
    power_factor_frac: Fraction = Field(default=1, gt=0.3, le=1, description="real over apparent power")
    shore_only: bool = Field(default=False, description="wired so that the inverter never feeds it")
