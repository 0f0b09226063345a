"""Facets: the technical sides of an option, told apart by ``kind``.

A new facet is a class in one of these files (or a file of its own) and one line in ``AnyFacet``.
"""

from typing import Annotated

from pydantic import Field

from engine.catalogue.facets.base import Facet, Habit, Running, Surface
from engine.catalogue.facets.gas import (
    Alarm,
    FixedVent,
    FlueTerminal,
    GasAppliance,
    GasLine,
    GasLocker,
    GasRegulator,
    GasStore,
)
from engine.catalogue.facets.moving import Drawer, EntryStep, GasStrutLift, LiftedLoad
from engine.catalogue.facets.power import (
    AcLoad,
    AlternatorCharger,
    Battery,
    Converter,
    DcLoad,
    Generator,
    Inverter,
    ShoreCharger,
    ShoreInlet,
    SolarController,
    SolarPanel,
)
from engine.catalogue.facets.space import (
    Berth,
    BikeCarrier,
    FurnitureModule,
    RoofObject,
    RoofSpot,
    Seat,
    Structure,
    Trim,
)
from engine.catalogue.facets.warmth import AirConditioner, Door, InsulationLayer, SpaceHeater, VentFan, Window
from engine.catalogue.facets.water import (
    BlackTank,
    Cassette,
    FreshTank,
    GreyTank,
    OutsidePipe,
    PressureVessel,
    Pump,
    WaterFilter,
    WaterHeater,
    WaterOutlet,
)
from engine.catalogue.facets.wiring import BatterySwitch, DcBoard, MainsProtection, Outlet, Wired

AnyFacet = Annotated[
    SolarPanel
    | SolarController
    | Battery
    | Inverter
    | ShoreCharger
    | AlternatorCharger
    | ShoreInlet
    | Generator
    | Converter
    | DcLoad
    | AcLoad
    | FreshTank
    | GreyTank
    | BlackTank
    | Cassette
    | WaterHeater
    | Pump
    | WaterOutlet
    | PressureVessel
    | WaterFilter
    | OutsidePipe
    | SpaceHeater
    | AirConditioner
    | InsulationLayer
    | Window
    | Door
    | VentFan
    | GasStore
    | GasAppliance
    | GasLocker
    | GasRegulator
    | GasLine
    | FlueTerminal
    | FixedVent
    | Alarm
    | FurnitureModule
    | Berth
    | Seat
    | Structure
    | BikeCarrier
    | Trim
    | RoofObject
    | GasStrutLift
    | LiftedLoad
    | Drawer
    | EntryStep
    | Outlet
    | DcBoard
    | BatterySwitch
    | MainsProtection
    | Wired,
    Field(discriminator="kind"),
]

__all__ = [
    "AcLoad", "AirConditioner", "Alarm", "AlternatorCharger", "AnyFacet", "Battery", "BatterySwitch", "Berth",
    "BikeCarrier", "BlackTank", "Cassette", "Converter", "DcBoard", "DcLoad", "Door", "Drawer", "EntryStep", "Facet",
    "FixedVent", "FlueTerminal", "FreshTank", "FurnitureModule", "GasAppliance", "GasLine", "GasLocker", "GasRegulator",
    "GasStore", "GasStrutLift", "Generator", "GreyTank", "Habit", "InsulationLayer", "Inverter", "LiftedLoad",
    "MainsProtection", "Outlet", "OutsidePipe", "PressureVessel", "Pump", "RoofObject", "RoofSpot", "Running", "Seat",
    "ShoreCharger", "ShoreInlet", "SolarController", "SolarPanel", "SpaceHeater", "Structure", "Surface", "Trim",
    "VentFan", "WaterFilter", "WaterHeater", "WaterOutlet", "Window", "Wired",
]  # fmt: skip
