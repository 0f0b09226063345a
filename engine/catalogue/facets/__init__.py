"""Facets: the technical sides of an option, told apart by ``kind``.

A new facet is a class in one of these files (or a file of its own) and one line in ``AnyFacet``.
"""

from typing import Annotated

from pydantic import Field

from engine.catalogue.facets.base import Facet, Habit, Running, Surface
from engine.catalogue.facets.gas import Alarm, GasAppliance, GasStore
from engine.catalogue.facets.moving import Drawer, EntryStep, GasStrutLift, LiftedLoad
from engine.catalogue.facets.power import (
    AcLoad,
    AlternatorCharger,
    Battery,
    DcLoad,
    Inverter,
    ShoreCharger,
    SolarController,
    SolarPanel,
)
from engine.catalogue.facets.space import Berth, FurnitureModule, RoofObject, RoofSpot, Seat, Structure, Trim
from engine.catalogue.facets.warmth import AirConditioner, Door, InsulationLayer, SpaceHeater, VentFan, Window
from engine.catalogue.facets.water import BlackTank, Cassette, FreshTank, GreyTank, Pump, WaterHeater, WaterOutlet

AnyFacet = Annotated[
    SolarPanel
    | SolarController
    | Battery
    | Inverter
    | ShoreCharger
    | AlternatorCharger
    | DcLoad
    | AcLoad
    | FreshTank
    | GreyTank
    | BlackTank
    | Cassette
    | WaterHeater
    | Pump
    | WaterOutlet
    | SpaceHeater
    | AirConditioner
    | InsulationLayer
    | Window
    | Door
    | VentFan
    | GasStore
    | GasAppliance
    | Alarm
    | FurnitureModule
    | Berth
    | Seat
    | Structure
    | Trim
    | RoofObject
    | GasStrutLift
    | LiftedLoad
    | Drawer
    | EntryStep,
    Field(discriminator="kind"),
]

__all__ = [
    "AcLoad", "AirConditioner", "Alarm", "AlternatorCharger", "AnyFacet", "Battery", "Berth", "BlackTank", "Cassette",
    "DcLoad", "Door", "Drawer", "EntryStep", "Facet", "FreshTank", "FurnitureModule", "GasAppliance", "GasStore",
    "GasStrutLift", "GreyTank", "Habit", "InsulationLayer", "Inverter", "LiftedLoad", "Pump", "RoofObject", "RoofSpot",
    "Running", "Seat", "ShoreCharger", "SolarController", "SolarPanel", "SpaceHeater", "Structure", "Surface", "Trim",
    "VentFan", "WaterHeater", "WaterOutlet", "Window",
]  # fmt: skip
