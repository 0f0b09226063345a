"""Batteries together: cells and batteries in series and parallel, and the resistance of the whole."""

from typing import NamedTuple

from engine.physics.battery_chemistry import Chemistry
from engine.physics.ranges import within


class Bank(NamedTuple):
    """Equal batteries: ``series`` in each string, ``parallel`` strings."""

    series: int
    parallel: int
    nominal_v: float
    capacity_ah: float

    @property
    def energy_wh(self) -> float:
        """Nominal energy."""
        return self.nominal_v * self.capacity_ah


def cells_in_series(chemistry: Chemistry, nominal_v: float) -> int:
    """Cells in series in a battery of a nominal voltage. nominal_v: 2 to 100.

    ValueError when no whole number of cells comes within 7 % of it (four cells of 3.2 V
    are sold as 12 V, too). Source: the chemistry's cell voltage.

    >>> from engine.physics.battery_chemistry import AGM, LFP
    >>> cells_in_series(LFP, 12.8), cells_in_series(LFP, 51.2), cells_in_series(AGM, 12)
    (4, 16, 6)
    """
    cells = round(within("nominal_v", nominal_v, 2, 100) / chemistry.cell_v)
    if cells < 1 or abs(cells * chemistry.cell_v / nominal_v - 1) > 0.07:
        raise ValueError(f"{nominal_v:g} V is no whole number of {chemistry.code} cells")
    return cells


def bank(battery_count: int, battery_v: float, battery_ah: float, system_v: float) -> Bank:
    """Equal batteries connected for a system's voltage: as many in series as it needs, the rest in parallel.

    battery_count: 1 to 64. battery_v: 2 to 100. battery_ah: 0.1 to 5000. system_v: 5 to 100. ValueError when the
    voltages do not fit (within 15 %: 12.8 V batteries make 12, 24 or 48 V) or batteries are left over.

    Source: Kirchhoff's laws.

    >>> bank(4, 12.8, 100, 24)
    Bank(series=2, parallel=2, nominal_v=25.6, capacity_ah=200.0)
    """
    within("battery_count", battery_count, 1, 64)
    within("battery_v", battery_v, 2, 100)
    within("battery_ah", battery_ah, 0.1, 5000)
    within("system_v", system_v, 5, 100)
    series = round(system_v / battery_v)
    if series < 1 or abs(series * battery_v / system_v - 1) > 0.15:
        raise ValueError(f"batteries of {battery_v:g} V make no {system_v:g} V")
    if battery_count % series:
        raise ValueError(f"{battery_count} batteries do not make strings of {series}")
    parallel = battery_count // series
    return Bank(series, parallel, series * battery_v, float(parallel * battery_ah))


def battery_ohm(chemistry: Chemistry, battery_v: float, battery_ah: float, cell_degc: float = 25.0) -> float:
    """Internal resistance of one battery at its terminals, where its datasheet says nothing.

    cells · r₁/C · cold factor + fixed. battery_ah: 0.1 to 5000. cell_degc: the chemistry's curve.

    Source: the chemistry's typical values; a datasheet has priority.

    >>> from engine.physics.battery_chemistry import LFP
    >>> round(battery_ohm(LFP, 12.8, 100) * 1000, 2)
    3.0
    """
    within("battery_ah", battery_ah, 0.1, 5000)
    cold = chemistry.resistance_multiple.between("cell_degc", cell_degc)
    return cells_in_series(chemistry, battery_v) * chemistry.cell_1ah_ohm / battery_ah * cold + chemistry.fixed_ohm


def cells_only_ohm(chemistry: Chemistry, battery_v: float, battery_ah: float) -> float:
    """Resistance of a battery's cells alone at 25 °C: for a short circuit no help of links or electronics is counted.

    battery_ah: 0.1 to 5000. Source: the chemistry's typical values; a datasheet's short-circuit current has priority.

    >>> from engine.physics.battery_chemistry import AGM
    >>> round(cells_only_ohm(AGM, 12, 100) * 1000, 2)
    4.8
    """
    within("battery_ah", battery_ah, 0.1, 5000)
    return cells_in_series(chemistry, battery_v) * chemistry.cell_1ah_ohm / battery_ah


def together_ohm(one_ohm: float, series: int, parallel: int) -> float:
    """Resistance of equal batteries: r·s/p. one_ohm: 0 to 10. series, parallel: 1 to 64. Source: Kirchhoff's laws.

    >>> together_ohm(0.003, 2, 3)
    0.002
    """
    within("one_ohm", one_ohm, 0, 10)
    return one_ohm * within("series", series, 1, 64) / within("parallel", parallel, 1, 64)
