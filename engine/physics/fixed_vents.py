"""Openings that may not be shut: for people, and for flames that breathe the room's air.

A flame without a flue, or with an open one, in a room without air makes carbon monoxide. These sums do not replace the
appliance maker's instructions, local codes, a licensed installer and an alarm (EN 50291-2, UL 2034).
"""

from typing import Literal, NamedTuple

from engine.physics.ranges import within

AIR_M3_KG = 12.8
"""Air that a kilogram of propane needs to burn, at 15 °C: 15.68 kg (C₃H₈ + 5 O₂, air of 23.14 % oxygen by mass)."""

CARBON_DIOXIDE_M3_KG = 1.60
"""Carbon dioxide from a kilogram of propane: 2.994 kg of 1.87 kg/m³ (15 °C)."""

PERSON_CARBON_DIOXIDE_M3_H = 0.018
"""A person at rest, 0.005 L/s (EN 16798-1; from memory)."""

OUTSIDE_CARBON_DIOXIDE_FRAC = 0.00042
"""Carbon dioxide in outside air, 420 ppm."""

Draws = Literal["sealed", "open-flued", "flueless"]
"""Where an appliance takes its air and leaves its gases: outside both; the room and a flue; the room both."""


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
    appliance burns the room's air (hobs apart, which the rule treats on their own). High openings lie at least 300 mm
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


def combustion_air_m3_h(gas_kg_h: float, draws: Draws, excess_multiple: float = 1.5) -> float:
    """Air the flames take from the room.

    gas_kg_h: 0 to 5. draws: "sealed" takes none. excess_multiple: 1 to 10, air let in over air burnt (1.3 to 2 with a
    burner in a box, more through an open flue with a draught hood; common practice). Source: stoichiometry of propane.

    >>> round(combustion_air_m3_h(0.127, "flueless", 1), 2), combustion_air_m3_h(0.127, "sealed")
    (1.63, 0.0)
    """
    within("gas_kg_h", gas_kg_h, 0, 5)
    within("excess_multiple", excess_multiple, 1, 10)
    return 0.0 if draws == "sealed" else gas_kg_h * AIR_M3_KG * excess_multiple


def carbon_dioxide_frac(people_count: float, flueless_kg_h: float, air_m3_h: float) -> float:
    """Carbon dioxide the room settles at; 0.001 (1,000 ppm) is good air, 0.005 the limit of a working day.

    people_count: 0 to 30. flueless_kg_h: propane burnt without a flue, 0 to 3. air_m3_h: 1 to 5000. It says nothing of
    carbon monoxide. Source: mass balance with the constants above; 5,000 ppm from EU directive 2006/15/EC.

    >>> round(carbon_dioxide_frac(2, 0, 36), 5), round(carbon_dioxide_frac(2, 0.127, 36), 4)
    (0.00142, 0.0071)
    """
    within("people_count", people_count, 0, 30)
    within("flueless_kg_h", flueless_kg_h, 0, 3)
    made = people_count * PERSON_CARBON_DIOXIDE_M3_H + flueless_kg_h * CARBON_DIOXIDE_M3_KG
    return OUTSIDE_CARBON_DIOXIDE_FRAC + made / within("air_m3_h", air_m3_h, 1, 5000)


def air_for_carbon_dioxide_m3_h(people_count: float, flueless_kg_h: float, most_frac: float) -> float:
    """Fresh air that keeps carbon dioxide at a level, 0.0005 to 0.05. Others as for ``carbon_dioxide_frac``.

    Source: mass balance.

    >>> round(air_for_carbon_dioxide_m3_h(2, 0, 0.00142))
    36
    """
    within("people_count", people_count, 0, 30)
    within("flueless_kg_h", flueless_kg_h, 0, 3)
    made = people_count * PERSON_CARBON_DIOXIDE_M3_H + flueless_kg_h * CARBON_DIOXIDE_M3_KG
    return made / (within("most_frac", most_frac, 0.0005, 0.05) - OUTSIDE_CARBON_DIOXIDE_FRAC)
