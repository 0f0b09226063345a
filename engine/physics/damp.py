"""Water in the room's air: where it comes from, how much fresh air keeps it down, and the damp of a night by hours."""

from math import exp, log
from typing import NamedTuple

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

WET_GEAR_KG_H = 0.1
"""Wet jackets, towels and boots hung up to dry, 50 to 500 g/h (common practice)."""

PROPANE_WATER_KG_KG, BUTANE_WATER_KG_KG = 1.634, 1.550
"""Water from burning a kilogram: 4 or 5 molecules of water (18.015) from one of propane (44.097) or butane (58.122)."""

SURFACE_EXCHANGE_M_H = 10.4
"""Cubic metres of air an hour that give up their surplus to each square metre of wet surface: h_c/(ρ·c_p) with
h_c = 3.5 W/(m²·K), by Lewis' relation (any text on mass transfer)."""


_SAME = 1e-12
"""So close together two amounts count as one."""

_NONE_M3_H = 1e-9
"""A flow of a cubic millimetre an hour counts as none, so that no division by it loses all digits."""


class DampHour(NamedTuple):
    """What happens in one hour."""

    source_kg_h: float
    air_m3_h: float
    inside_degc: float
    outside_degc: float
    outside_frac: float
    coldest_degc: float
    """Temperature of the coldest surface, on which water forms first."""


class DampState(NamedTuple):
    """Air and water at the end of an hour; amounts are of that hour."""

    humidity_frac: float
    held_kg_m3: float
    vented_kg: float
    """Carried out by the air, less what the fresh air brought; below 0 the outside air brought more."""
    condensed_kg: float
    """Condensed on the coldest surface; below 0 it dried off."""
    on_surface_kg: float


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
    to a tenth more air than there need be. water_kg_h: 0 to 10. inside_degc, outside_degc: −40 to 50. humidity_frac,
    outside_frac: 0 to 1. Source: mass balance.

    >>> round(air_for_humidity_m3_h(0.08, 18, 0.6, 0, 0.9), 3), round(air_for_humidity_m3_h(0.08, 18, 0.6, -10, 0.9), 3)
    (16.479, 10.971)
    """
    within("water_kg_h", water_kg_h, 0, 10)
    within("inside_degc", inside_degc, -40, 50)
    within("outside_degc", outside_degc, -40, 50)
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
    within("outside_degc", outside_degc, -40, 50)
    fresh = water_kg_m3(outside_degc, outside_frac)
    return relative_humidity_frac(inside_degc, fresh + water_kg_h / within("air_m3_h", air_m3_h, 1, 2000))


def damp_hours(
    hours: tuple[DampHour, ...],
    volume_m3: float,
    surface_m2: float,
    start_frac: float,
    on_surface_kg: float = 0.0,
) -> tuple[DampState, ...]:
    """Humidity and condensed water hour by hour.

    V·dv/dt = G + Q·(v_e − v) − β·A·(v − v_s), the last as long as the surface is wet or the air wets it. Solved exactly
    within each hour, split where the surface gets wet or runs dry. Each hour closes: source = vented + condensed + more
    in the air. Wood and cloth hold no water here, so peaks come out high.

    hours: as many as wanted, up to 1,000; source_kg_h 0 to 10, air_m3_h 0 to 2000, temperatures −40 to 50 °C,
    outside_frac 0 to 1. volume_m3: 1 to 200 of air. surface_m2: of the coldest surface, 0 to 50. start_frac: 0 to 1
    at the first hour's inside temperature. Source: mass balance with Lewis' relation.

    >>> night = (DampHour(0.09, 25, 18, 0, 0.9, 4.2),) * 8
    >>> last = damp_hours(night, 10, 1.0, 0.5)[-1]
    >>> round(last.humidity_frac, 2), round(1000 * last.on_surface_kg)
    (0.49, 90)
    """
    within("hours_count", len(hours), 1, 1000)
    within("volume_m3", volume_m3, 1, 200)
    exchange = _or_none(SURFACE_EXCHANGE_M_H * within("surface_m2", surface_m2, 0, 50))
    held = water_kg_m3(hours[0].inside_degc, within("start_frac", start_frac, 0, 1))
    stock = within("on_surface_kg", on_surface_kg, 0, 100)
    found = []
    for h in hours:
        source = within("source_kg_h", h.source_kg_h, 0, 10)
        flow = _or_none(within("air_m3_h", h.air_m3_h, 0, 2000))
        for degc in (h.inside_degc, h.outside_degc, h.coldest_degc):
            within("air_degc", degc, -40, 50)
        gain = source + flow * water_kg_m3(h.outside_degc, h.outside_frac)
        before_kg, wet_before = held * volume_m3, stock
        held, stock = _hour(held, stock, gain, flow, exchange, water_kg_m3(h.coldest_degc, 1), volume_m3)
        condensed = stock - wet_before
        vented = source - condensed - (held * volume_m3 - before_kg)
        found.append(DampState(relative_humidity_frac(h.inside_degc, held), held, vented, condensed, stock))
    return tuple(found)


def _or_none(m3_h: float) -> float:
    return m3_h if m3_h > _NONE_M3_H else 0.0


def _hour(
    held: float, stock: float, gain: float, flow: float, exchange: float, saturated: float, volume_m3: float
) -> tuple[float, float]:
    """Water in a cubic metre of air and on the surface after an hour of steady conditions."""
    left_h = 1.0
    for _ in range(8):  # steady air gets wet once and dries once at most
        settles = (gain + exchange * saturated) / (flow + exchange) if flow + exchange else held
        over = held / saturated - 1
        wet = exchange > 0 and (stock > 0 or over > _SAME or (over > -_SAME and settles > saturated))
        rate_h = (flow + (exchange if wet else 0.0)) / volume_m3
        if not wet:
            step_h = left_h
            if exchange > 0 and held < saturated:
                step_h = min(left_h, _reaches_h(held, gain, flow, volume_m3, saturated))
            if rate_h:
                settled = gain / flow
                held = settled + (held - settled) * exp(-rate_h * step_h)
            else:
                held += gain * step_h / volume_m3
            if step_h < left_h:
                held = saturated
        else:
            step_h = left_h
            if _stock(stock, held, settles, rate_h, exchange, saturated, step_h) < 0:
                low, high = 0.0, step_h
                for _ in range(60):
                    step_h = (low + high) / 2
                    low, high = (
                        (low, step_h)
                        if _stock(stock, held, settles, rate_h, exchange, saturated, step_h) < 0
                        else (step_h, high)
                    )
                step_h, stock = high, 0.0
            else:
                stock = _stock(stock, held, settles, rate_h, exchange, saturated, step_h)
            held = settles + (held - settles) * exp(-rate_h * step_h)
        left_h -= step_h
        if left_h <= 0:
            break
    return held, stock


def _reaches_h(held: float, gain: float, flow: float, volume_m3: float, saturated: float) -> float:
    """Hours until dry air reaches the surface's saturation; more than an hour when it does not."""
    if not flow:
        return (saturated - held) * volume_m3 / gain if gain else 2.0
    settled = gain / flow
    if settled <= saturated:
        return 2.0
    return log((settled - held) / (settled - saturated)) * volume_m3 / flow


def _stock(
    stock: float, held: float, settles: float, rate_h: float, exchange: float, saturated: float, step_h: float
) -> float:
    """Water on the wet surface after a time: what was there and what the air gave, an integral of an exponential."""
    mean = settles * step_h + (held - settles) * (1 - exp(-rate_h * step_h)) / rate_h
    return stock + exchange * (mean - saturated * step_h)
