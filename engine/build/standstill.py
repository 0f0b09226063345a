"""What stands still: without a house battery fans, and what burns fuel with an electric fan, pump, spark or control;
without driving what the engine warms; and coolers that nothing feeds."""

from engine.build.model import Build, Part
from engine.catalogue.facets import (
    AirConditioner,
    Battery,
    DcLoad,
    Generator,
    Inverter,
    ShoreInlet,
    SpaceHeater,
    VentFan,
    WaterHeater,
)

DIESEL_DRAW_FRAC = 0.01
"""Fan, pump and control of a diesel heater over its heat, where nobody states them (common practice)."""


def draw_w(heater: SpaceHeater) -> float:
    """Electric power of fan, pump and control: none of gas and wood burns with it unless stated."""
    if heater.electric_w is not None:
        return heater.electric_w
    return DIESEL_DRAW_FRAC * heater.output_w if heater.fuel == "diesel" else 0.0


def heater_stands_still(build: Build, heater: SpaceHeater) -> bool:
    """A heater with fan, pump or control, or one that makes its heat from the battery, where there is none."""
    return not build.facets(Battery) and (heater.fuel == "battery" or draw_w(heater) > 0)


def boiler_stands_still(build: Build, part: Part, boiler: WaterHeater) -> bool:
    """A water heater that draws from the battery, where there is none: each for diesel (common practice: it has a fuel
    pump and a fan), one for gas where its option states such a draw, for others light by hand. One on the engine, where
    nobody drives."""
    if boiler.energy == "engine":
        return not build.trip.driving_h
    if build.facets(Battery) or boiler.energy == "mains":
        return False
    draws = (isinstance(f, DcLoad) or (isinstance(f, SpaceHeater) and draw_w(f)) for f in part.option.facets)
    return boiler.energy != "gas" or any(draws)


def running_fans(build: Build) -> tuple[tuple[Part, VentFan], ...]:
    """Fans that something feeds. All run at battery voltage; on hook-up the charger feeds them through the battery."""
    return build.facets(VentFan) if build.facets(Battery) else ()


def running_coolers(build: Build) -> tuple[tuple[Part, AirConditioner], ...]:
    """Coolers that something feeds: the battery, or at mains voltage a hook-up, a generator or an inverter on it."""
    battery = bool(build.facets(Battery))
    mains = bool(build.facets(ShoreInlet) or build.facets(Generator) or (battery and build.facets(Inverter)))
    return tuple((p, f) for p, f in build.facets(AirConditioner) if (mains if f.supply == "mains" else battery))
