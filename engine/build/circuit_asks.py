"""What a circuit is asked for: between which places, for which current, how it is protected."""

from typing import Literal, NamedTuple

from engine.build.model import Build, Part
from engine.catalogue.facets import Wired

Group = Literal["battery", "charging", "loads", "mains"]
LETTER: dict[Group, str] = {"battery": "B", "charging": "C", "loads": "D", "mains": "M"}
"""First letter of a circuit's number."""

LOWEST_FRAC = 11 / 12
"""Voltage of a nearly empty battery over its class: 11 V of 12 V, where an inverter's cut-off is not stated (common
practice)."""

FUSE_MARGIN = 1.25
"""A fuse carries for hours what is a quarter below its rating (NEC 210.20(A))."""


OUTSIDE_SOCKET = "outside: own circuit, switched from inside, lidded"


class Spot(NamedTuple):
    """A place in the vehicle, as in shop files."""

    name: str
    x_m: float
    y_m: float
    z_m: float


class Ask(NamedTuple):
    """One circuit before anybody has looked for a cable."""

    group: Group
    what: str
    option_ids: tuple[str, ...]
    start: str
    end: str
    one_way_m: float
    system_v: float
    current_a: float
    """At which its voltage drop is told."""
    design_a: float
    """What fuse and conductor have to carry for long, margins included."""
    drop_limit_frac: float
    device: Literal["fuse", "breaker", "isolator"]
    bundled_count: int = 1
    engine_space: bool = False
    conductor_degc: float = 20.0
    """Copper's temperature, at which its resistance is told."""
    prospective_a: float | None = None
    """Fault current at its fuse, where that sits at a battery."""
    at_least: str | None = None
    mains: bool = False
    pieces: int = 1
    """So many equal circuits."""
    conductor: str | None = None
    """As the workshop states it; the rest of these too."""
    parallel: int = 1
    fuse_a: float | None = None
    fuse_kind: str | None = None
    lowest_v: float | None = None
    remarks: tuple[str, ...] = ()
    start_a: float = 0.0
    """What of ``current_a`` is a start that passes in seconds."""


def spot(part: Part) -> Spot:
    """Where a part sits."""
    return Spot(part.option.name, part.x_m, part.y_m, part.z_m)


def run_m(a: Spot, b: Spot, slack_m: float) -> float:
    """Length of a cable one way: along, across and up the body, and what going up, round and into boxes takes."""
    return abs(a.x_m - b.x_m) + abs(a.y_m - b.y_m) + abs(a.z_m - b.z_m) + slack_m


def class_v(nominal_v: float) -> float:
    """The round voltage of a system, of which drops are told: 12 V of 12.8 V, 24 V of 25.6 V, 48 V of 51.2 V."""
    return 12.0 * max(1, round(nominal_v / 12.8))


def stated(build: Build, option_id: str, side: str) -> Wired | None:
    """How the workshop says it wires an option, on one of its sides."""
    return next((f for p, f in build.facets(Wired) if p.option.id == option_id and f.side == side), None)


def with_stated(ask: Ask, wired: Wired | None) -> Ask:
    """A circuit with what the workshop states in place of what would be worked out."""
    if wired is None:
        return ask
    return ask._replace(
        one_way_m=wired.length_m or ask.one_way_m,
        drop_limit_frac=wired.drop_frac or ask.drop_limit_frac,
        conductor=wired.conductor,
        parallel=wired.parallel,
        fuse_a=wired.fuse_a,
        fuse_kind=wired.fuse_kind,
        lowest_v=wired.lowest_v,
    )
