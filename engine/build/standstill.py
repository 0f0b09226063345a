"""What stands still: without a house battery fans, and what burns fuel with an electric fan, pump, spark or control;
without driving what the engine warms; without its heater a branch of one; and coolers that nothing feeds."""

from collections.abc import Mapping

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
from engine.catalogue.section import Option

DIESEL_DRAW_FRAC = 0.01
"""Fan, pump and control of a diesel heater over its heat, where nobody states them (common practice)."""

GLOW_W = 120.0
"""Taken for minutes by the glow plug of a diesel heater whose start is not stated (common practice: 8 to 12 A at
12 V)."""


def draw_w(heater: SpaceHeater) -> float:
    """Electric power of fan, pump and control: none of gas and wood burns with it unless stated."""
    if heater.electric_w is not None:
        return heater.electric_w
    return DIESEL_DRAW_FRAC * heater.output_w if heater.fuel == "diesel" else 0.0


def heater_draws_w(f: SpaceHeater) -> tuple[float, float]:
    """(power that a heater takes from the battery while it runs, and while it lights): what burns diesel has a glow
    plug."""
    running_w = draw_w(f) + (f.output_w if f.fuel == "battery" else 0.0)
    glows = f.fuel == "diesel" and f.role == "main"
    return running_w, max(running_w, f.start_w if f.start_w is not None else GLOW_W if glows else 0.0)


def _fuels(option: Option) -> set[str]:
    """What the flames of an option's heaters burn."""
    rooms = {f.fuel for f in option.facets if isinstance(f, SpaceHeater) and f.burns}
    return rooms | {f.energy for f in option.facets if isinstance(f, WaterHeater) and f.burns}


def heat_branches(options: Mapping[str, Option]) -> Mapping[str, tuple[tuple[str, ...], ...]]:
    """As ``Build.branches``. A heater with a flame that needs another one of its fuel is a branch of that: it has no
    burner of its own."""
    burns = {option_id: fuels for option_id, option in options.items() if (fuels := _fuels(option))}
    found: dict[str, tuple[tuple[str, ...], ...]] = {}
    for option_id, fuels in burns.items():
        option = options[option_id]
        needed = [(n.option,) for n in option.requires] + [n.options for n in option.needs_one_of]
        groups = tuple(g for g in needed if all(fuels & burns.get(i, set()) for i in g))
        if groups:
            found[option_id] = groups
    return found


def without_source(build: Build, part: Part) -> str:
    """The heater of which this one is a branch, or those of which it takes one, where none is chosen; else empty."""
    for group in build.branches.get(part.option.id, ()):
        if not any(build.has(i) for i in group):
            return " or ".join(f"“{build.option_names[i]}”" for i in group)
    return ""


def heater_stands_still(build: Build, heater: SpaceHeater) -> bool:
    """A heater with fan, pump or control, or one that makes its heat from the battery, where there is none."""
    return not build.facets(Battery) and (heater.fuel == "battery" or draw_w(heater) > 0)


def boiler_stands_still(build: Build, part: Part, boiler: WaterHeater) -> bool:
    """A water heater that draws from the battery, where there is none: each for diesel (common practice: it has a fuel
    pump and a fan), one for gas where its option states such a draw, for others light by hand. One on the engine, where
    nobody drives. A branch of a heater that is not chosen."""
    if without_source(build, part):
        return True
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
    """Coolers that something feeds: the battery, or at mains voltage a hook-up, a generator or an inverter on it. Where
    no inlet is on offer nothing is said of hook-ups, and one may come in all the same."""
    battery = bool(build.facets(Battery))
    plugged = build.facets(ShoreInlet) or "shore-inlet" not in build.offered_kinds
    mains = bool(plugged or build.facets(Generator) or (battery and build.facets(Inverter)))
    return tuple((p, f) for p, f in build.facets(AirConditioner) if (mains if f.supply == "mains" else battery))
