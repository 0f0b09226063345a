"""What a cylinder holds."""

from engine.physics.ranges import within

FILLING_KG_L = 0.42
"""Propane for each litre of a cylinder's whole volume. 49 CFR 173.304a and ADR P200 (from memory); OSHA 1910.110."""


def content_kg(whole_volume_l: float, filling_kg_l: float = FILLING_KG_L) -> float:
    """Propane in a cylinder filled by weight, by its whole volume (its water capacity). The label's weight already is
    this: nothing more comes off it.

    whole_volume_l: 0 to 500. filling_kg_l: 0.38 to 0.52. Source: filling density (see above).

    >>> round(content_kg(47.6 / 2.20462) * 2.20462, 1)  # 47.6 lb of water
    20.0
    """
    return within("whole_volume_l", whole_volume_l, 0, 500) * within("filling_kg_l", filling_kg_l, 0.38, 0.52)
