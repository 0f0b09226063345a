"""Voltage of a battery under load, and the current of a short circuit."""

from math import sqrt

from engine.physics.ranges import within


def loaded_v(open_v: float, source_ohm: float, load_w: float) -> float | None:
    """Voltage at an inverter that takes a constant power; None when battery and cable cannot give that power at all.

    U = (E + √(E² − 4·P·R))/2: what an inverter takes in current rises as the voltage falls. open_v: 2 to 100, the
    battery's own voltage at rest. source_ohm: 0 to 10, battery and cable there and back. load_w: 0 to 1e6, at the
    inverter's battery side.

    Source: Ohm's law and power balance.

    >>> round(loaded_v(13.0, 0.005, 2045), 2), loaded_v(12.0, 0.02, 2045) is None
    (12.16, True)
    """
    within("open_v", open_v, 2, 100)
    within("source_ohm", source_ohm, 0, 10)
    within("load_w", load_w, 0, 1e6)
    inside = open_v**2 - 4 * load_w * source_ohm
    return (open_v + sqrt(inside)) / 2 if inside >= 0 else None


def prospective_a(open_v: float, bank_ohm: float, cable_ohm: float = 0.0) -> float:
    """Current of a dead short circuit behind a cable; at the terminals without one.

    I = E/(R_battery + R_cable). A battery's own electronics are no help: they may fail closed. open_v: 2 to 100.
    bank_ohm: 0.00001 to 10. cable_ohm: 0 to 10, there and back.

    Source: Ohm's law; ABYC E-11 has the short-circuit ratings of parallel batteries added, as a supplier reproduces it.

    >>> round(prospective_a(12, 0.005)), round(prospective_a(13.3, 0.002))
    (2400, 6650)
    """
    within("open_v", open_v, 2, 100)
    return open_v / (within("bank_ohm", bank_ohm, 1e-5, 10) + within("cable_ohm", cable_ohm, 0, 10))
