"""Which way to connect equal panels to a charge controller: every split into strings, with what speaks against it."""

from functools import lru_cache
from typing import Literal, NamedTuple

from engine.physics.panel import Panel
from engine.physics.panel_curve import held_frac
from engine.physics.ranges import within
from engine.physics.string_current import needs_fuse, source_a, string_fuse_a
from engine.physics.string_voltage import STANDARD_DEGC, cold_open_v, voltage_v

Objection = Literal["cold-voltage", "hot-voltage", "input-current", "no-string-fuse"]

LEAST_HELD_FRAC = 0.5
"""Share of their current that hot panels keep at a switching controller: with less it hardly charges (assumption)."""


class Input(NamedTuple):
    """The panel side of a charge controller and what its battery needs."""

    highest_v: float
    """Panel voltage it survives."""
    charge_v: float
    """Battery voltage at the end of a charge."""
    headroom_v: float = 1.0
    """How far above the battery the panels must be for it to keep on working; makers ask 1 to 5 V."""
    highest_a: float | None = None
    """Short-circuit current that it allows on its panel side, when stated."""
    output_a: float | None = None
    """Charging current limit, when stated."""
    switching: bool = False
    """A switching (PWM) controller pulls the panels down to the battery's voltage."""


class Split(NamedTuple):
    """Panels in series, strings in parallel, and what comes of it."""

    series: int
    parallel: int
    cold_open_v: float
    hot_power_v: float
    needed_v: float
    input_a: float
    string_fuse_a: float | None
    """Fuse of each string; None when none is needed, or none fits (see ``objections``)."""
    used_frac: float
    """Share of the panels' rated power that the controller can use."""
    held_frac: float
    """Share of their current that hot panels keep at the full battery's voltage, where the controller switches."""
    objections: tuple[Objection, ...]

    @property
    def panel_count(self) -> int:
        """How many panels it takes."""
        return self.series * self.parallel


@lru_cache(maxsize=1024)
def split(
    panel: Panel, into: Input, series: int, parallel: int, coldest_degc: float, hottest_cell_degc: float
) -> Split:
    """One way to connect panels. Exactly at a limit is allowed.

    On a tracking controller hot panels must stay above the voltage it needs; a switching one asks how much of their
    current is left there.

    series, parallel: 1 to 100. coldest_degc: −60 to 60 (−40 and warmer without a coefficient). hottest_cell_degc: 25 to
    120. highest_v: 5 to 1500. charge_v: 8 to 100. headroom_v: 0 to 20.

    Source: `cold_open_v`, `voltage_v`, `needs_fuse`; limits are the maker's.

    >>> sp = split(Panel(300, 38, 31, 9.8, -0.0030), Input(100, 28.4, 0), 1, 1, -15, 65)
    >>> round(sp.hot_power_v, 1), sp.objections
    (26.0, ('hot-voltage',))
    """
    within("series", series, 1, 100)
    within("hottest_cell_degc", hottest_cell_degc, 25, 120)
    within("highest_v", into.highest_v, 5, 1500)
    within("charge_v", into.charge_v, 8, 100)
    within("headroom_v", into.headroom_v, 0, 20)
    cold_v = series * cold_open_v(panel.open_circuit_v, panel.open_coefficient_frac_k, coldest_degc)
    hot_v = series * voltage_v(panel.max_power_v, panel.power_voltage_coefficient_frac_k, hottest_cell_degc)
    needed_v = into.charge_v + (0.0 if into.switching else into.headroom_v)
    short_a = panel.short_circuit_a * parallel
    objections: list[Objection] = []
    if cold_v > into.highest_v * (1 + 1e-9):
        objections.append("cold-voltage")
    held = 1.0
    if into.switching:
        held = held_frac(panel, series, into.charge_v, hottest_cell_degc)
    if held < LEAST_HELD_FRAC if into.switching else hot_v < needed_v * (1 - 1e-9):
        objections.append("hot-voltage")
    if into.highest_a is not None and short_a > into.highest_a * (1 + 1e-9):
        objections.append("input-current")
    fuse_a = None
    if needs_fuse(panel.short_circuit_a, parallel, panel.series_fuse_a):
        fuse_a = string_fuse_a(panel.short_circuit_a, panel.series_fuse_a)
        if fuse_a is None:
            objections.append("no-string-fuse")
    return Split(
        series=series,
        parallel=parallel,
        cold_open_v=cold_v,
        hot_power_v=hot_v,
        needed_v=needed_v,
        input_a=source_a(panel.short_circuit_a, parallel),
        string_fuse_a=fuse_a,
        used_frac=_used_frac(panel, into, series, parallel),
        held_frac=held,
        objections=tuple(objections),
    )


def splits(
    panel: Panel, into: Input, panel_count: int, coldest_degc: float, hottest_cell_degc: float
) -> tuple[Split, ...]:
    """Every way to connect all of some equal panels, the best first, those that cannot be last.

    Best: nothing speaks against it, then most of the panels' power used, then no fuses in strings, then the voltage
    stays under 90 % of the controller's limit, then the longest strings (least current, least lost in cables).
    panel_count: 1 to 100. Source: `split`; the order is common practice.

    >>> four = splits(Panel(250, 37, 31, 8.7, -0.0030), Input(150, 14.4), 4, -20, 70)
    >>> [(x.series, x.parallel, x.objections) for x in four]
    [(2, 2, ()), (1, 4, ()), (4, 1, ('cold-voltage',))]
    >>> round(four[-1].cold_open_v)
    168
    """
    within("panel_count", panel_count, 1, 100)
    found = [
        split(panel, into, series, panel_count // series, coldest_degc, hottest_cell_degc)
        for series in range(1, panel_count + 1)
        if panel_count % series == 0
    ]
    return tuple(sorted(found, key=lambda x: _rank(x, into)))


def most_panels(
    panel: Panel, into: Input, panel_count: int, coldest_degc: float, hottest_cell_degc: float
) -> Split | None:
    """The best split that works with as many of the panels as possible; None when not even one panel does.

    Source: `splits`.

    >>> most_panels(Panel(250, 37, 31, 8.7, -0.0030), Input(150, 28.4), 5, -20, 70)[:2]
    (2, 2)
    """
    for count in range(int(within("panel_count", panel_count, 1, 100)), 0, -1):
        best = splits(panel, into, count, coldest_degc, hottest_cell_degc)[0]
        if not best.objections:
            return best
    return None


def _rank(x: Split, into: Input) -> tuple[bool, float, bool, bool, int]:
    return (
        bool(x.objections),
        -round(x.used_frac, 6),
        x.string_fuse_a is not None,
        x.cold_open_v > 0.9 * into.highest_v,
        -x.series,
    )


def _used_frac(panel: Panel, into: Input, series: int, parallel: int) -> float:
    rated_w = panel.power_w * series * parallel
    useful_w = rated_w
    if into.switching:
        # The panels' current at the battery's voltage; the rest of their voltage is lost.
        held = held_frac(panel, series, into.charge_v, STANDARD_DEGC)
        useful_w *= min(1.0, held * into.charge_v / (panel.max_power_v * series))
    if into.output_a is not None:
        useful_w = min(useful_w, into.output_a * into.charge_v)
    return useful_w / rated_w
