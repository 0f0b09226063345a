"""Openings that may not be shut: for people, and for flames that breathe the room's air.

A flame without a flue, or with an open one, in a room without air makes carbon monoxide. These sums do not replace the
appliance maker's instructions, local codes, a licensed installer and an alarm (EN 50291-2, UL 2034).
"""

from typing import NamedTuple

from engine.physics.ranges import within

FLAME_AIR_M3_KG = 3 * 24.055 / 44.097 / (0.005 - 0.00042)
"""Fresh air for a kilogram of propane burnt without a flue: its carbon dioxide (three molecules from one, 24.055 L/mol
at 20 °C) stays below 5,000 ppm over 420 outside. Limit of air at work: Directive 2006/15/EC, OSHA table Z-1."""

FLUE_AIR_M3_KWH = 3.0
"""Room air that goes up an open flue or chimney for each kilowatt-hour of fuel: some three times what burning takes,
0.93 m³ (common practice)."""


class FixedVents(NamedTuple):
    """Smallest free areas of openings that cannot be shut."""

    roof_m2: float
    """High up, as an outlet in the roof."""
    high_wall_m2: float | None
    """High up elsewhere, instead of the roof; None: not seen for this case, so an outlet in the roof it is."""
    low_m2: float
    """At most 100 mm above the floor."""


def fixed_vents(floor_m2: float, breathes_room_air: bool) -> FixedVents:
    """Safety openings of EN 721 for a living space.

    floor_m2: above 0 to 10; for larger floors the figures were not seen, so it raises. breathes_room_air: whether any
    appliance burns the room's air. High openings lie at least 300 mm
    over the top mattress. Source: EN 721 as told in a TÜV leaflet on motor caravans (the standard was not seen).

    >>> fixed_vents(8, True)
    FixedVents(roof_m2=0.01, high_wall_m2=None, low_m2=0.0015)
    >>> fixed_vents(8, False)
    FixedVents(roof_m2=0.0015, high_wall_m2=0.003, low_m2=0.0005)
    """
    within("floor_m2", floor_m2, 0.1, 10)
    if not breathes_room_air:
        return FixedVents(0.0015, 0.0030, 0.0005)
    return FixedVents(0.0075, None, 0.0010) if floor_m2 <= 5 else FixedVents(0.0100, None, 0.0015)


def flame_opening_m2(input_w: float) -> float:
    """Opening to outside for a flame that breathes the room's air: 1 square inch for each 1,000 BTU/h.

    input_w: 0 to 50,000, as on the plate. Source: a rule of thumb of the United States (common practice); other
    countries fix other areas, and the appliance's instructions come first.

    >>> round(flame_opening_m2(6000 * 0.29307107) / 0.0254**2, 6)
    6.0
    """
    return within("input_w", input_w, 0, 5e4) / 293.07107 * 0.0254**2


def locker_vent_us_m2(gas_kg: float) -> float:
    """Opening of a locker for cylinders in the United States: 1 square inch for each 7 lb of gas.

    gas_kg: 0 to 500, what all its cylinders legally hold. Source: NFPA 1192 (from memory).

    >>> round(locker_vent_us_m2(40 * 0.45359237) / 0.0254**2, 3)
    5.714
    """
    return within("gas_kg", gas_kg, 0, 500) / (7 * 0.45359237) * 0.0254**2
