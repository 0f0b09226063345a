"""How long a battery lasts at a current: large currents find less in it."""

from math import log

from engine.physics.ranges import within


def discharge_h(capacity_ah: float, rated_h: float, current_a: float, excess_frac: float) -> float:
    """Hours that a full battery lasts at a constant current.

    t = H·(C/(I·H))^k, with C the capacity rated over H hours, and k = 1 + excess_frac. (C/I^k, as often printed, holds
    only for a capacity rated at 1 A.) capacity_ah: 0.1 to 5000. rated_h: 1 to 120. current_a: 0.01 to 5000.
    excess_frac: 0 to 0.6; below the rated current the rule promises more than the rating, which no battery has, so
    there the rating counts.

    Source: W. Peukert, Elektrotechnische Zeitschrift 20, 1897; form for a rating over H hours as battery texts give it.

    >>> round(discharge_h(100, 20, 25, 0.25), 5), discharge_h(100, 20, 5, 0.25)
    (2.67496, 20.0)
    """
    within("capacity_ah", capacity_ah, 0.1, 5000)
    within("rated_h", rated_h, 1, 120)
    within("current_a", current_a, 0.01, 5000)
    within("excess_frac", excess_frac, 0, 0.6)
    rated_a = capacity_ah / rated_h
    exponent = 1.0 if current_a <= rated_a else 1 + excess_frac
    return float(rated_h * (rated_a / current_a) ** exponent)


def delivered_ah(capacity_ah: float, rated_h: float, current_a: float, excess_frac: float) -> float:
    """Charge that a full battery gives at a constant current: I·t. Ranges as for `discharge_h`.

    Source: `discharge_h`.

    >>> round(delivered_ah(100, 20, 25, 0.25), 3), round(delivered_ah(100, 20, 25, 0.10), 3)
    (66.874, 85.134)
    """
    return current_a * discharge_h(capacity_ah, rated_h, current_a, excess_frac)


def excess_frac(slow_ah: float, slow_h: float, fast_ah: float, fast_h: float) -> float:
    """By how much Peukert's exponent is above 1, from two capacities of a datasheet, each with its hours.

    k = ln(H₁/H₂)/ln(I₂/I₁). slow_ah, fast_ah: 0.1 to 5000. slow_h: 1 to 120, more than fast_h, which is 0.1 and more.

    Source: `discharge_h`, solved for k.

    >>> round(excess_frac(100, 20, 66.87403, 2.674961), 4)
    0.25
    """
    within("slow_ah", slow_ah, 0.1, 5000)
    within("fast_ah", fast_ah, 0.1, slow_ah)
    within("slow_h", slow_h, 1, 120)
    within("fast_h", fast_h, 0.1, slow_h * 0.99)
    return log(slow_h / fast_h) / log((fast_ah / fast_h) / (slow_ah / slow_h)) - 1
