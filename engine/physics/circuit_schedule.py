"""A list of circuits turned into a schedule: cable, voltage lost, ampacity, fuse, and what is wrong."""

from collections.abc import Iterable
from typing import Literal, NamedTuple

from engine.physics.ampacity import TABLE_DEGC
from engine.physics.conductor import sized
from engine.physics.conductor_choice import Cable, Practice, Run, cable, drop_allows, thinnest
from engine.physics.overcurrent import CONTINUOUS, FuseKind, kinds_that_break

Fault = Literal[
    "drop-too-large",
    "cable-too-thin",
    "fuse-above-cable",
    "fuse-below-load",
    "fuse-without-margin",
    "fuse-not-standard",
    "no-fuse-fits",
    "no-cable-enough",
    "nothing-breaks-fault",
    "below-least-size",
]


class Circuit(NamedTuple):
    """One circuit as somebody asks for it."""

    name: str
    current_a: float
    one_way_m: float
    system_v: float
    drop_frac: float
    """Share of the voltage that may be lost: 0.03 where it matters, 0.10 elsewhere."""
    at_least: str | None = None
    """Smallest size to use, as a maker prescribes it."""
    bundled_count: int = 1
    engine_space: bool = False
    ambient_degc: float = TABLE_DEGC
    continuous: bool = True
    chosen: str | None = None
    """Size that is already laid or decided; the thinnest that will do when absent."""
    parallel: int = 1
    """How many cables of the chosen size run side by side, each with its own fuse."""
    chosen_fuse_a: float | None = None
    """Fuse that is already there or decided, one on each cable."""
    prospective_a: float | None = None
    """Fault current at the fuse, when it sits at the battery."""


class Row(NamedTuple):
    """One line of the schedule. Ampacity and fuse are those of each of ``parallel`` cables."""

    name: str
    size: str | None
    """None when no size of the list is enough."""
    parallel: int
    current_a: float
    drop_v: float
    drop_frac: float
    ampacity_a: float
    fuse_a: float | None
    fuse_kinds: tuple[FuseKind, ...]
    """Kinds that are made in this rating and break the fault current; all that are made when none is stated."""
    faults: tuple[Fault, ...]


def scheduled(circuit: Circuit, practice: Practice) -> Row:
    """A circuit's line. OutOfRangeError as for `cable`; ValueError for a size that is not in the list.

    Source: as for `cable`, `thinnest` and `kinds_that_break`.

    >>> from engine.physics.ampacity import BOATS_US
    >>> from engine.physics.conductor import AWG
    >>> from engine.physics.overcurrent import RATINGS_US
    >>> us = Practice(AWG, BOATS_US, 105, RATINGS_US)
    >>> row = scheduled(Circuit("Inverter", 206.6, 1.5, 12, 0.03, chosen="4 AWG", chosen_fuse_a=250), us)
    >>> row.faults
    ('drop-too-large', 'cable-too-thin', 'fuse-above-cable', 'fuse-without-margin')
    >>> row = scheduled(Circuit("Inverter", 206.6, 1.5, 12, 0.03, chosen="2/0 AWG"), us)
    >>> row.fuse_a, round(row.drop_v, 3), row.faults
    (300, 0.158, ())
    """
    run = Run(
        circuit.current_a, circuit.one_way_m, circuit.system_v, circuit.drop_frac, circuit.bundled_count,
        circuit.engine_space, circuit.ambient_degc, circuit.continuous,
    )  # fmt: skip
    faults: list[Fault] = []
    if circuit.chosen is not None:
        found = cable(run, practice, sized(circuit.chosen, practice.series), circuit.parallel)
        if found.conductor.area_m2 < sized(practice.table.least, practice.series).area_m2 or (
            circuit.at_least and found.conductor.area_m2 < sized(circuit.at_least, practice.series).area_m2
        ):
            faults.append("below-least-size")
    else:
        best = thinnest(run, practice, circuit.at_least)
        if best is None:
            faults.append("no-cable-enough")
            usable = [c for c in practice.series if c.label in practice.table.sizes]
            best = cable(run, practice, usable[-1], practice.parallel_most)
        found = best
    if not drop_allows(found.drop_v, run):
        faults.append("drop-too-large")
    if circuit.current_a / found.parallel > found.ampacity_a * (1 + 1e-9):
        faults.append("cable-too-thin")
    fuse_a = circuit.chosen_fuse_a if circuit.chosen_fuse_a is not None else found.fuse.rating_a
    faults += _fuse_faults(circuit, practice, found, fuse_a)
    kinds: tuple[FuseKind, ...] = ()
    if fuse_a is not None:
        kinds = kinds_that_break(circuit.prospective_a or 0.0, circuit.system_v, fuse_a)
        if circuit.prospective_a is not None and not kinds:
            faults.append("nothing-breaks-fault")
    return Row(
        name=circuit.name,
        size=None if "no-cable-enough" in faults else found.conductor.label,
        parallel=found.parallel,
        current_a=circuit.current_a,
        drop_v=found.drop_v,
        drop_frac=found.drop_v / circuit.system_v,
        ampacity_a=found.ampacity_a,
        fuse_a=fuse_a,
        fuse_kinds=kinds,
        faults=tuple(faults),
    )


def schedule(circuits: Iterable[Circuit], practice: Practice) -> tuple[Row, ...]:
    """A line for each circuit, in their order. Source: `scheduled`.

    >>> from engine.physics.ampacity import BOATS_US
    >>> from engine.physics.conductor import AWG
    >>> from engine.physics.overcurrent import RATINGS_SMALL_US
    >>> fridge = Circuit("Fridge", 8, 7.62, 12, 0.03)
    >>> [(r.size, r.fuse_a, round(r.drop_frac, 4)) for r in schedule([fridge], Practice(
    ...     AWG, BOATS_US, 105, RATINGS_SMALL_US))]
    [('8 AWG', 10, 0.0209)]
    """
    return tuple(scheduled(c, practice) for c in circuits)


def _fuse_faults(circuit: Circuit, practice: Practice, found: Cable, fuse_a: float | None) -> list[Fault]:
    if fuse_a is None:
        # A cable that is too thin, or none at all, is already said.
        return ["no-fuse-fits"] if circuit.chosen is not None else []
    if circuit.chosen_fuse_a is None:
        return []
    faults: list[Fault] = []
    if fuse_a > found.fuse.most_a * (1 + 1e-9) and fuse_a != found.fuse.rating_a:
        faults.append("fuse-above-cable")
    share_a = circuit.current_a / found.parallel
    if fuse_a < share_a * (1 - 1e-9):
        faults.append("fuse-below-load")
    elif circuit.continuous and fuse_a < CONTINUOUS * share_a * (1 - 1e-9):
        faults.append("fuse-without-margin")
    if fuse_a not in practice.ratings_a:
        faults.append("fuse-not-standard")
    return faults
