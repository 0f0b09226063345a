"""Voltage lost in a cable, there and back."""

from engine.physics.conductor import PER_KELVIN, Conductor, resistance_ohm
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


def longest_m(
    conductor: Conductor, current_a: float, allowed_v: float, conductor_degc: float = 20.0, parallel: int = 1
) -> float:
    """How far from the source a load may be until the cable loses the voltage that is allowed, one way.

    L = ΔU·n/(2·I·R'). current_a: 0.01 to 5000. allowed_v: 0 to 50. Source: Ohm's law.

    >>> from engine.physics.conductor import awg
    >>> round(longest_m(awg(10), 10, 0.36), 2)
    5.49
    """
    within("current_a", current_a, 0.01, 5000)
    within("allowed_v", allowed_v, 0, 50)
    within("parallel", parallel, 1, 8)
    return allowed_v * parallel / (2 * current_a * resistance_ohm(conductor, 1, conductor_degc))


def warm_frac(conductor_degc: float) -> float:
    """Resistance of a warm conductor as a share of that at 20 °C; more than 1 when it is warmer.

    1 + 0.00393·(θ − 20). conductor_degc: −50 to 200. Source: IEC 60028.

    >>> round(warm_frac(60), 4)
    1.1572
    """
    return 1 + PER_KELVIN * (within("conductor_degc", conductor_degc, -50, 200) - 20)
