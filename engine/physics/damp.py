"""Water in the room's air: where it comes from, and how much fresh air keeps it down."""

from engine.physics.moist_air import relative_humidity_frac, water_kg_m3
from engine.physics.ranges import within

ASLEEP_KG_H = 0.045
"""Breath and skin of one person asleep, 40 to 50 g/h (BS 5250 has 40; common practice)."""

AWAKE_KG_H = 0.065
"""One person sitting or at light work: 45 W of latent heat (ASHRAE Handbook Fundamentals 2013, chapter 18, table 1)
over 2,501 kJ/kg."""

SHOWER_KG_MIN = 0.040
"""While a shower runs: 250 g in 6 minutes (common practice)."""

COOKED_MEAL_KG = 0.3
"""A cooked meal for two, water of the pots alone (600 to 1,500 g/h while cooking; common practice)."""

PROPANE_WATER_KG_KG, BUTANE_WATER_KG_KG = 1.634, 1.550
"""Water from burning a kilogram: 4 or 5 molecules of water (18.015) from one of propane (44.097) or butane (58.122)."""


def burnt_water_kg_kg(propane_frac: float) -> float:
    """Water from burning a kilogram of a propane-butane mix; of an unvented flame all of it stays in the room.

    propane_frac: 0 to 1 by mass, the rest is butane. Source: C₃H₈ + 5 O₂ → 3 CO₂ + 4 H₂O and the same for C₄H₁₀.

    >>> burnt_water_kg_kg(1)
    1.634
    """
    within("propane_frac", propane_frac, 0, 1)
    return propane_frac * PROPANE_WATER_KG_KG + (1 - propane_frac) * BUTANE_WATER_KG_KG


def source_kg_h(
    asleep_count: float, awake_count: float = 0, open_gas_kg_h: float = 0, wet_gear_kg_h: float = 0
) -> float:
    """Water that goes into the air in an hour.

    asleep_count, awake_count: people, 0 to 30. open_gas_kg_h: propane burnt without a flue, 0 to 3. wet_gear_kg_h:
    0 to 2. Source: the constants above.

    >>> round(1000 * source_kg_h(2, open_gas_kg_h=0.127))
    298
    """
    within("asleep_count", asleep_count, 0, 30)
    within("awake_count", awake_count, 0, 30)
    within("open_gas_kg_h", open_gas_kg_h, 0, 3)
    within("wet_gear_kg_h", wet_gear_kg_h, 0, 2)
    people = asleep_count * ASLEEP_KG_H + awake_count * AWAKE_KG_H
    return people + open_gas_kg_h * PROPANE_WATER_KG_KG + wet_gear_kg_h


def air_for_humidity_m3_h(
    water_kg_h: float, inside_degc: float, humidity_frac: float, outside_degc: float, outside_frac: float
) -> float | None:
    """Fresh air that holds a humidity; None when the outside air is too damp for any amount to do it.

    Q = G/(v_i − v_e) with v the water in a cubic metre. The fresh air is not thinned for warming up, which asks for up
    to a tenth more air than there need be. water_kg_h: 0 to 10. inside_degc: −40 to 50. outside_degc: −60 to 50.
    humidity_frac, outside_frac: 0 to 1. Source: mass balance.

    >>> round(air_for_humidity_m3_h(0.08, 18, 0.6, 0, 0.9), 3), round(air_for_humidity_m3_h(0.08, 18, 0.6, -10, 0.9), 3)
    (16.479, 10.971)
    """
    within("water_kg_h", water_kg_h, 0, 10)
    within("inside_degc", inside_degc, -40, 50)
    within("outside_degc", outside_degc, -60, 50)
    room_kg_m3 = water_kg_m3(inside_degc, humidity_frac) - water_kg_m3(outside_degc, outside_frac)
    if room_kg_m3 <= 0:
        return 0.0 if water_kg_h == 0 and room_kg_m3 == 0 else None
    return water_kg_h / room_kg_m3


def settled_frac(
    water_kg_h: float, air_m3_h: float, inside_degc: float, outside_degc: float, outside_frac: float
) -> float:
    """Relative humidity the room would settle at if nothing condensed; above 1 it drips before that.

    air_m3_h: 1 to 2000, others as for ``air_for_humidity_m3_h``. Source: mass balance.

    >>> round(settled_frac(0.297, 25, 18, 0, 0.9), 2), round(settled_frac(0.09, 25, 18, 0, 0.9), 2)
    (1.06, 0.52)
    """
    within("water_kg_h", water_kg_h, 0, 10)
    within("inside_degc", inside_degc, -40, 50)
    within("outside_degc", outside_degc, -60, 50)
    fresh = water_kg_m3(outside_degc, outside_frac)
    return relative_humidity_frac(inside_degc, fresh + water_kg_h / within("air_m3_h", air_m3_h, 1, 2000))
