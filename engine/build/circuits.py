"""Every circuit of a build with its cable and protection, the bonds between them, and what it takes to make them."""

from functools import lru_cache
from typing import NamedTuple

from engine.build.cable_list import Needed, needed
from engine.build.circuit_lines import Line, lines
from engine.build.circuits_battery import EACH_BATTERY, JOINTS_OHM, MAIN_CABLE, battery_side
from engine.build.circuits_mains import mains_aboard, mains_side
from engine.build.model import Build
from engine.build.power import PowerFigures
from engine.build.wiring_practice import lay_of, practice
from engine.catalogue.facets import (
    AcLoad,
    AlternatorCharger,
    Battery,
    BatterySwitch,
    Converter,
    DcBoard,
    Generator,
    Inverter,
    MainsProtection,
    Outlet,
    ShoreCharger,
    ShoreInlet,
    SolarController,
    SolarPanel,
    Wired,
)  # fmt: skip

BOND = {True: "4 mm²", False: "8 AWG"}
"""Least conductor between mains earth and chassis, metric or not (HD 60364-7-721 and NEC 551.56, from memory)."""


class Bond(NamedTuple):
    """A conductor that carries current only when something is wrong."""

    what: str
    size: str
    why: str


class CircuitFigures(NamedTuple):
    """The wiring of a build: proposals, except where the workshop states its own."""

    lines: tuple[Line, ...]
    bonds: tuple[Bond, ...]
    main_a: float | None
    """Current of the main cable, a start of seconds aside; None without a battery."""
    short_a: float | None
    """Prospective short-circuit current of the battery."""
    board_lines: int
    """Fused circuits that hang on the boards."""
    board_circuits: int | None
    """What the chosen boards have; None where none is stated."""
    switch_a: float | None
    """Rating of the main switch; None where none is stated."""
    mains_ids: tuple[str, ...]
    """Options that bring or use mains voltage."""
    trip_a: float | None
    """Residual current of the mains protection; None where there is none."""
    conductor_words: str
    """Which tables and insulation the proposals go by."""

    @property
    def needed(self) -> tuple[Needed, ...]:
        """Cable, fuses, breakers and lugs for all of it; worked out where they are listed."""
        return needed(self.lines)


_ELECTRIC = (
    Battery, Inverter, Converter, SolarPanel, SolarController, AlternatorCharger, ShoreCharger, ShoreInlet, Generator,
    AcLoad, Outlet, DcBoard, BatterySwitch, MainsProtection, Wired,
)  # fmt: skip
"""Facets whose options matter here, beside those of every load."""

_MOST_KNOWN = 64


@lru_cache(maxsize=1)
def _known() -> dict[object, tuple[Build, CircuitFigures]]:
    """Figures already worked out, by all that they follow from. Options, vehicle and workshop stand in the key by
    identity, because reading all their fields would take longer than the sums; the build beside the figures keeps them
    alive, so that nothing else can have their identity."""
    return {}


def circuit_figures(build: Build, power: PowerFigures) -> CircuitFigures:
    """Every circuit of a build; remembered while nothing electric changes."""
    electric = {*build.ids(*_ELECTRIC), *(x.option_id for x in power.all_loads)}
    key = (
        id(build.workshop), id(build.vehicle), id(build.option_names), power.bank, power.all_loads, power.converting,
        power.strings, power.shore,
        tuple((id(p.option), p.count, p.x_m, p.y_m, p.z_m) for p in build.parts if p.option.id in electric),
    )  # fmt: skip
    known = _known()
    found = known.get(key)
    if found is None:
        if len(known) >= _MOST_KNOWN:
            known.clear()
        found = known[key] = (build, _work_out(build, power))
    return found[1]


def sized_lines(circuits: CircuitFigures, power: PowerFigures) -> list[Line]:
    """Lines with a cable, but for those of a thing made for another voltage: its current there is none it ever has."""
    unlike = set(power.unlike_ids)
    return [x for x in circuits.lines if x.size is not None and unlike.isdisjoint(x.ask.option_ids[:1])]


def _work_out(build: Build, power: PowerFigures) -> CircuitFigures:
    wiring = build.workshop.wiring
    lay = lay_of(build)
    asks = (*battery_side(build, power), *mains_side(build, power, lay.metric))
    found = lines(asks, lay, wiring.fuse_kinds)
    boards = build.facets(DcBoard)
    switches = build.facets(BatterySwitch)
    trips = [f.trip_a for _, f in build.facets(MainsProtection)]
    if wiring.residual_current_a is not None:
        trips.append(wiring.residual_current_a)
    mains = mains_aboard(build)
    bonds = _bonds(found, bool(mains), lay.metric)
    used = practice(lay)
    sizes = "Square millimetres" if lay.metric else "American gauges"
    return CircuitFigures(
        lines=found,
        bonds=bonds,
        main_a=next((x.ask.current_a - x.ask.start_a for x in found if x.ask.what == MAIN_CABLE), None),
        short_a=power.bank.short_a,
        board_lines=sum(x.ask.pieces for x in found if x.group == "loads" and x.ask.prospective_a is None),
        board_circuits=sum(f.circuits * p.count for p, f in boards) if boards else None,
        switch_a=min((f.rating_a for _, f in switches), default=None),
        mains_ids=mains,
        trip_a=min(trips, default=None),
        conductor_words=f"{sizes}, {used.insulation_degc} °C insulation",
    )


def _ohm(line: Line) -> float:
    """A circuit's cables there and back, with the joints of its fuse."""
    return line.drop_v / line.ask.current_a + (JOINTS_OHM if line.fuse_a is not None else 0.0)


def inverter_cable_ohm(circuits: CircuitFigures, inverter_ids: tuple[str, ...]) -> float | None:
    """Cables and joints between batteries and inverters; None where a cable of them is not found.

    Copper at 20 °C: a start is over before a cable is warm.
    """
    on_battery = [x for x in circuits.lines if x.group == "battery"]
    main = [x for x in on_battery if x.ask.what == MAIN_CABLE]
    posts = [x for x in on_battery if x.ask.what == EACH_BATTERY]
    own = [x for x in on_battery if any(i in inverter_ids for i in x.ask.option_ids[:1]) and x not in main]
    if not main or not own or any(x.size is None for x in (*main, *posts, *own)):
        return None
    side_by_side = 1 / sum(x.ask.pieces / _ohm(x) for x in own)
    return side_by_side + sum(_ohm(x) / x.ask.pieces for x in (*main, *posts))


def _bonds(found: tuple[Line, ...], mains: bool, metric: bool) -> tuple[Bond, ...]:
    bonds = []
    main = next((x for x in found if x.ask.what == MAIN_CABLE and x.size), None)
    if main is not None and main.size is not None:
        bonds.append(
            Bond("Battery negative to chassis, at one point", main.size, "a fault to the body has to blow a fuse")
        )
    if mains:
        bonds.append(
            Bond("Mains earth to chassis, gas pipes and metal parts", BOND[metric], "no metal may become live")
        )
    return tuple(bonds)
