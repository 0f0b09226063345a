"""What a cylinder holds, and the gas that appliances ask for by the hour."""

from typing import NamedTuple

from engine.physics.fuel import gas_gross_kwh_kg
from engine.physics.ranges import within

FILLING_KG_L = 0.42
"""Propane for each litre of a cylinder's whole volume. 49 CFR 173.304a and ADR P200 (from memory); OSHA 1910.110."""


class Burner(NamedTuple):
    """An appliance by its heat input on the plate and its use in each of 24 hours as a share of that."""

    input_w: float
    use_frac: tuple[float, ...]


def content_kg(whole_volume_l: float, filling_kg_l: float = FILLING_KG_L) -> float:
    """Propane in a cylinder filled by weight, by its whole volume (its water capacity). The label's weight already is
    this: nothing more comes off it.

    whole_volume_l: 0 to 500. filling_kg_l: 0.38 to 0.52. Source: filling density (see above).

    >>> round(content_kg(47.6 / 2.20462) * 2.20462, 1)  # 47.6 lb of water
    20.0
    """
    return within("whole_volume_l", whole_volume_l, 0, 500) * within("filling_kg_l", filling_kg_l, 0.38, 0.52)


def demand_kg_h(burners: tuple[Burner, ...], propane_frac: float = 1.0) -> tuple[float, ...]:
    """Gas asked for in each of 24 hours, by gross heating value, as plates are stated.

    input_w: 0 to 50,000. use_frac: 24 shares of 0 to 1. propane_frac: 0 to 1. Source: heat balance.

    >>> evening = tuple(1.0 if 18 <= h < 20 else 0.0 for h in range(24))
    >>> [round(x, 3) for x in demand_kg_h((Burner(1800, evening),))][17:21]
    [0.0, 0.129, 0.129, 0.0]
    """
    kwh_kg = gas_gross_kwh_kg(propane_frac)
    hours = [0.0] * 24
    for b in burners:
        within("hours_count", len(b.use_frac), 24, 24)
        kg_h = within("input_w", b.input_w, 0, 5e4) / 1000 / kwh_kg
        for h, share in enumerate(b.use_frac):
            hours[h] += kg_h * within("use_frac", share, 0, 1)
    return tuple(hours)
