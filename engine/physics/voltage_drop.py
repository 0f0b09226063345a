"""Voltage lost in a cable, there and back."""

from engine.physics.conductor import Conductor, resistance_ohm
from engine.physics.ranges import within

CRITICAL_FRAC = 0.03
"""Share of the voltage that may be lost where it matters: panel feeders, chargers, safety, electronics (ABYC E-11,
as reproduced by marine suppliers; ISO 10133:2012 names the same share for critical circuits)."""

ORDINARY_FRAC = 0.10
"""Share that may be lost elsewhere, as in cabin lights and fans (ABYC E-11, same reproductions)."""


def drop_v(
    conductor: Conductor, current_a: float, one_way_m: float, conductor_degc: float = 20.0, parallel: int = 1
) -> float:
    """Voltage lost on the way to a load and back, in one cable or several equal ones side by side.

    ΔU = 2·L·I·R'(θ)/n. current_a: 0 to 5000. one_way_m: 0 to 100. parallel: 1 to 8. Fuse holders and lugs add 0.1 to
    0.3 V in a real circuit (common practice). Source: Ohm's law.

    >>> from engine.physics.conductor import CLASS_5, awg
    >>> round(drop_v(awg(16), 8, 7.62), 2)
    1.61
    >>> round(drop_v(CLASS_5[4], 10, 6), 3)
    0.594
    """
    within("current_a", current_a, 0, 5000)
    within("one_way_m", one_way_m, 0, 100)
    within("parallel", parallel, 1, 8)
    return current_a * resistance_ohm(conductor, 2 * one_way_m, conductor_degc) / parallel
