"""A battery in the cold and the heat: what it holds, what charge it takes, and what warming it costs."""

from engine.physics.battery_chemistry import Chemistry
from engine.physics.ranges import within

HEAT_WH_KGK = 1.0 / 3.6
"""Heat capacity of a lithium battery: 1.0 kJ/(kg·K); published cells lie within a tenth of it (from memory)."""


def capacity_left_frac(chemistry: Chemistry, cell_degc: float) -> float:
    """What is left of the capacity at a cell temperature; ranges are those of the chemistry's curve.

    Source: the chemistry's.

    >>> from engine.physics.battery_chemistry import LFP
    >>> capacity_left_frac(LFP, 0), round(capacity_left_frac(LFP, -15), 3)
    (0.8, 0.615)
    """
    return chemistry.capacity_curve_frac.between("cell_degc", cell_degc)


def charge_limit_a(chemistry: Chemistry, capacity_ah: float, cell_degc: float) -> float:
    """Largest charging current at a cell temperature; 0 where it must not be charged.

    capacity_ah: 0 to 100 000. cell_degc: −60 to 100. A limit on a datasheet has priority. Source: the chemistry's.

    >>> from engine.physics.battery_chemistry import LFP
    >>> [charge_limit_a(LFP, 100, degc) for degc in (-15, 0, 3, 8, 25, 50, 61)]
    [0.0, 0.0, 10.0, 20.0, 50.0, 10.0, 0.0]
    """
    within("capacity_ah", capacity_ah, 0, 1e5)
    return capacity_ah * chemistry.charge_steps_frac.step(within("cell_degc", cell_degc, -60, 100))


def warming_wh(mass_kg: float, from_degc: float, to_degc: float) -> float:
    """Energy that warms a battery, before losses; 0 when it is warm enough.

    c·m·ΔT with c = 1.0 kJ/(kg·K). mass_kg: 0 to 2000. from_degc, to_degc: −60 to 60. Source: heat capacity from memory,
    good to a tenth.

    >>> round(warming_wh(25, -15, 5))
    139
    """
    within("mass_kg", mass_kg, 0, 2000)
    within("from_degc", from_degc, -60, 60)
    within("to_degc", to_degc, -60, 60)
    return HEAT_WH_KGK * mass_kg * max(0.0, to_degc - from_degc)
