"""Battery side of the inverter, and what an alternator can spare."""

from engine.physics.ranges import within


def battery_current_a(ac_w: float, efficiency_frac: float, dc_w: float, battery_v: float) -> float:
    """Current from the battery for loads behind the inverter and loads at battery voltage.

    I = (P_ac/η + P_dc)/U. The AC watts over 12 would leave the inverter's loss out.

    ac_w, dc_w: 0 to 100 MW. efficiency_frac: 0.5 to 1. battery_v: 8 to 70. Source: power balance.

    >>> round(battery_current_a(1800, 0.88, 0, 12.8))
    160
    """
    within("efficiency_frac", efficiency_frac, 0.5, 1)
    within("battery_v", battery_v, 8, 70)
    within("ac_w", ac_w, 0, 1e8)
    within("dc_w", dc_w, 0, 1e8)
    return (ac_w / efficiency_frac + dc_w) / battery_v


def charger_input_a(output_a: float, output_v: float, efficiency_frac: float, input_v: float) -> float:
    """Current a DC-DC charger takes from the alternator.

    I_in = I_out·U_out/(η·U_in). It is larger than the current the charger gives.

    output_a: 0 to 1000. output_v, input_v: 8 to 70. efficiency_frac: 0.5 to 1. Source: power balance.

    >>> round(charger_input_a(60, 14.2, 0.92, 13.5), 1)
    68.6
    """
    within("output_a", output_a, 0, 1000)
    within("output_v", output_v, 8, 70)
    within("input_v", input_v, 8, 70)
    return output_a * output_v / (within("efficiency_frac", efficiency_frac, 0.5, 1) * input_v)


def alternator_spare_a(rating_a: float, hot_frac: float, own_use_a: float) -> float:
    """What a hot alternator has left after the vehicle's own use; never below 0.

    rating_a, own_use_a: 0 to 1000. hot_frac: 0.2 to 1, share of the rating that is left when hot.
    Source: common practice.

    >>> alternator_spare_a(120, 0.75, 45)
    45.0
    """
    within("rating_a", rating_a, 0, 1000)
    within("own_use_a", own_use_a, 0, 1000)
    return max(0.0, rating_a * within("hot_frac", hot_frac, 0.2, 1) - own_use_a)
