"""Facets of wiring: outlets, boards, protection, and how a workshop wires an option where it says so itself."""

from typing import Literal

from pydantic import Field

from engine.catalogue.facets.base import Facet
from engine.catalogue.quantities import Ampere, Fraction, Metre, Volt
from engine.catalogue.wiring import ConductorLabel, FuseCode


class Outlet(Facet):
    """Sockets that things are plugged into."""

    kind: Literal["outlet"]
    supply: Literal["battery", "mains"] = Field(description="battery voltage or mains")
    outside: bool = Field(default=False, description="on the outside of the vehicle")
    rating_a: Ampere | None = Field(
        default=None, gt=0.5, le=32, description="what its circuit is made for; absent: the usual of its kind"
    )
    own_circuit: bool = Field(default=True, description="its circuit, with its own fuse or breaker, feeds nothing else")
    switched: bool = Field(default=True, description="an outside one can be switched off from inside")


class DcBoard(Facet):
    """The board of fuses that direct-current loads hang on."""

    kind: Literal["dc-board"]
    circuits: int = Field(ge=1, le=80, description="how many fused circuits it has")


class BatterySwitch(Facet):
    """The main switch that cuts the house battery off."""

    kind: Literal["battery-switch"]
    rating_a: Ampere = Field(gt=20, le=2000, description="current it carries for long")


class MainsProtection(Facet):
    """A residual-current device (RCD, RCBO, GFCI) in front of every mains circuit aboard."""

    kind: Literal["mains-protection"]
    trip_a: Ampere = Field(default=0.03, ge=0.004, le=0.5, description="residual current at which it trips")


class Wired(Facet):
    """How the workshop wires this option, where it does not leave that to the sums."""

    kind: Literal["wired"]
    side: Literal["battery", "mains"] = Field(default="battery", description="which of the option's circuits is meant")
    conductor: ConductorLabel | None = Field(default=None, description='size of its cable, such as "4 AWG" or "25 mm²"')
    parallel: int = Field(
        default=1, ge=1, le=4, description="how many such cables side by side, each with its own fuse"
    )
    fuse_a: Ampere | None = Field(default=None, ge=0.5, le=1000, description="rating of its fuse, one on each cable")
    fuse_kind: FuseCode | None = Field(default=None, description="kind of that fuse")
    length_m: Metre | None = Field(
        default=None, gt=0.05, le=40, description="length of its cable, one way; absent: worked out from the places"
    )
    drop_frac: Fraction | None = Field(
        default=None, ge=0.005, le=0.2, description="share of the voltage that its cable may lose"
    )
    lowest_v: Volt | None = Field(default=None, gt=4, le=60, description="voltage below which it stops working")
