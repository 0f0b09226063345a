"""The thinnest cable that carries a load, keeps its voltage, and is protected by its fuse."""

from typing import NamedTuple

from engine.physics.ampacity import TABLE_DEGC, AmpacityTable, ampacity_a, fuse_cap_a
from engine.physics.conductor import Conductor
from engine.physics.overcurrent import Fuse, fuse_for
from engine.physics.ranges import within
from engine.physics.voltage_drop import drop_v


class Practice(NamedTuple):
    """How a workshop wires: its sizes, the table it goes by, the ratings of its fuses."""

    series: tuple[Conductor, ...]
    """Sizes from thin to thick."""
    table: AmpacityTable
    insulation_degc: int
    """Highest temperature of the insulation; a column of the table."""
    ratings_a: tuple[float, ...]
    conductor_degc: float = 20.0
    """Temperature at which resistance is taken."""
    parallel_most: int = 1
    """How many equal cables may run side by side, each with its own fuse. The NEC (310.10(G)) allows that in buildings
    from 1/0 AWG only."""
    next_size_up: bool = False
    """Whether the next rating above a conductor's ampacity will do."""


class Run(NamedTuple):
    """One circuit's cable: what it carries, how far, and where it lies."""

    current_a: float
    one_way_m: float
    system_v: float
    drop_frac: float
    """Share of the voltage that may be lost."""
    bundled_count: int = 1
    """Loaded conductors that lie together; 1 or 2 for a pair by itself."""
    engine_space: bool = False
    ambient_degc: float = TABLE_DEGC
    continuous: bool = True


class Cable(NamedTuple):
    """A cable for a run. ``ampacity_a``, ``fuse`` are those of each of ``parallel`` conductors."""

    conductor: Conductor
    parallel: int
    drop_v: float
    ampacity_a: float
    fuse: Fuse


def cable(run: Run, practice: Practice, conductor: Conductor, parallel: int = 1) -> Cable:
    """What one size does on a run, whether or not it is enough.

    current_a: 0 to 5000. system_v: 5 to 600. drop_frac: 0.001 to 0.5. bundled_count: 1 to
    1000. ambient_degc: −50 to 100. parallel: 1 to 8. ValueError for a size that the
    table lacks. Source: as for `drop_v`, `ampacity_a` and `fuse_for`.

    >>> from engine.physics.ampacity import BOATS_US
    >>> from engine.physics.conductor import AWG, awg
    >>> from engine.physics.overcurrent import RATINGS_US
    >>> two = cable(Run(206.6, 1.5, 12, 0.03), Practice(AWG, BOATS_US, 105, RATINGS_US), awg(4), parallel=2)
    >>> two.ampacity_a, two.fuse.rating_a, round(two.drop_v, 3)
    (160.0, 150, 0.253)
    """
    _check(run)
    return _cable(run, practice, conductor, parallel, _lost_v(run, practice, conductor, parallel))


def drop_allows(lost_v: float, run: Run) -> bool:
    """Whether a run allows to lose so much voltage; exactly its limit is allowed.

    Source: comparison.

    >>> drop_allows(0.36, Run(8, 7.62, 12, 0.03))
    True
    """
    return lost_v <= run.drop_frac * run.system_v * (1 + 1e-9)


def thinnest(run: Run, practice: Practice, at_least: str | None = None) -> Cable | None:
    """The thinnest cable that is enough: voltage, ampacity and fuse; None when even the thickest is not.

    A single cable before several, then thin before thick, never below ``at_least`` or the least that the table lets run
    by itself. Sizes that the table lacks are left out. Source: as for `cable`.

    >>> from engine.physics.ampacity import BOATS_US
    >>> from engine.physics.conductor import AWG
    >>> from engine.physics.overcurrent import RATINGS_SMALL_US
    >>> us = Practice(AWG, BOATS_US, 105, RATINGS_SMALL_US)
    >>> thinnest(Run(8, 7.62, 12, 0.03), us).conductor.label
    '8 AWG'
    >>> thinnest(Run(8, 7.62, 12, 0.10), us).conductor.label
    '14 AWG'
    """
    _check(run)
    floor = max(_area_m2(practice, practice.table.least), _area_m2(practice, at_least) if at_least else 0.0)
    for parallel in range(1, practice.parallel_most + 1):
        for conductor in practice.series:
            if conductor.area_m2 < floor or conductor.label not in practice.table.sizes:
                continue
            lost_v = _lost_v(run, practice, conductor, parallel)
            if drop_allows(lost_v, run):  # most sizes fall short in this already
                found = _cable(run, practice, conductor, parallel, lost_v)
                if found.fuse.rating_a is not None:
                    return found
    return None


def _check(run: Run) -> None:
    within("current_a", run.current_a, 0, 5000)
    within("system_v", run.system_v, 5, 600)
    within("drop_frac", run.drop_frac, 0.001, 0.5)
    within("bundled_count", run.bundled_count, 1, 1000)
    within("ambient_degc", run.ambient_degc, -50, 100)


def _lost_v(run: Run, practice: Practice, conductor: Conductor, parallel: int) -> float:
    return drop_v(conductor, run.current_a, run.one_way_m, practice.conductor_degc, parallel)


def _cable(run: Run, practice: Practice, conductor: Conductor, parallel: int, lost_v: float) -> Cable:
    # Where a run lies in a bundle, so do all its cables; a run by itself has its cables apart.
    bundled = run.bundled_count * parallel if run.bundled_count > 2 else run.bundled_count
    carries_a = ampacity_a(
        practice.table, conductor.label, practice.insulation_degc, bundled, run.engine_space, run.ambient_degc
    )
    fuse = fuse_for(
        run.current_a / parallel, carries_a, practice.ratings_a, run.continuous, practice.next_size_up,
        fuse_cap_a(practice.table, conductor.label),
    )  # fmt: skip
    return Cable(conductor, parallel, lost_v, carries_a, fuse)


def _area_m2(practice: Practice, label: str) -> float:
    for conductor in practice.series:
        if conductor.label == label:
            return conductor.area_m2
    raise ValueError(f"no conductor {label!r} among this practice's sizes")
