"""The damp of a night by the hour: air, its exchange, and a cold surface that gets wet and dries."""

from math import exp, log
from typing import NamedTuple

from engine.physics.moist_air import relative_humidity_frac, water_kg_m3
from engine.physics.ranges import within

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

    hours: as many as wanted, up to 1,000; source_kg_h 0 to 100, air_m3_h 0 to 2000, temperatures −40 to 50 °C,
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
    stock = within("on_surface_kg", on_surface_kg, 0, 10_000)
    found = []
    for h in hours:
        source = within("source_kg_h", h.source_kg_h, 0, 100)
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
