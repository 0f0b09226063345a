"""Fresh air: fans against openings, a pair of fans, and what warmth and wind drive through two openings."""

from functools import lru_cache
from math import hypot, sqrt
from typing import NamedTuple

from engine.physics.moist_air import air_density_kg_m3
from engine.physics.ranges import within

DISCHARGE_FRAC = 0.6
"""Share of an opening's area that a stream uses: sharp edges (EN 16798-7:2017, any fluid mechanics text). Louvres and
insect screens take off another third to a half: enter their free area."""

GRAVITY_M_S2 = 9.80665
AIR_KG_M3 = 1.2


class Fan(NamedTuple):
    """A fan by the ends of its curve: flow with nothing in the way, and pressure at which none is left."""

    free_m3_h: float
    stall_kpa: float
    """Roof fans of 12 V 0.03 to 0.08 kPa, small axial fans 0.02 to 0.06 (common practice)."""


class Exchange(NamedTuple):
    """Air through the room, and the pressure in it over outside."""

    air_m3_h: float
    """All that comes in, as much as goes out."""
    inside_kpa: float
    in_fan_m3_h: float
    out_fan_m3_h: float
    leak_in_m3_h: float
    """Through leaks and openings; below 0 it goes out."""


def opening_m3_h(area_m2: float, pressure_kpa: float) -> float:
    """Air through an opening under a pressure: C_d·A·√(2·Δp/ρ); below 0 outwards when the pressure is.

    area_m2: free area, 0 to 5. pressure_kpa: −1 to 1. Source: orifice equation (EN 16798-7:2017).

    >>> round(opening_m3_h(0.04, 0.01))
    353
    """
    within("area_m2", area_m2, 0, 5)
    p = within("pressure_kpa", pressure_kpa, -1, 1)
    flow = 3600 * DISCHARGE_FRAC * area_m2 * sqrt(2000 * abs(p) / AIR_KG_M3)
    return flow if p >= 0 else -flow


def fan_m3_h(fan: Fan, opening_m2: float) -> float:
    """Air a single fan moves through an opening on the other side of the room, free area, 0 to 5 m².

    Fan as a straight line from free flow to stall: Q = Q₀·(1 − Δp/p₀), with Δp = ρ/2·(Q/(C_d·A))². free_m3_h: 1 to
    5000. stall_kpa: 0.005 to 1. Source: fan laws (any text); the straight line is an assumption.

    >>> fan = Fan(1000, 0.05)
    >>> round(fan_m3_h(fan, 0.04)), round(fan_m3_h(fan, 0.01)), fan_m3_h(fan, 0)
    (537, 179, 0.0)
    """
    _check_fan(fan)
    if within("opening_m2", opening_m2, 0, 5) == 0:
        return 0.0
    per_m3_h2 = AIR_KG_M3 / 2000 / (3600 * DISCHARGE_FRAC * opening_m2) ** 2
    # per·Q² + (p₀/Q₀)·Q − p₀ = 0
    slope = fan.stall_kpa / fan.free_m3_h
    return 2 * fan.stall_kpa / (slope + sqrt(slope * slope + 4 * per_m3_h2 * fan.stall_kpa))


@lru_cache(maxsize=512)
def fan_pair(in_fan: Fan | None, out_fan: Fan | None, openings_m2: float) -> Exchange:
    """A fan that blows in, one that draws out, and openings: the pressure at which as much comes in as goes out.

    Two equal fans do not double the air: each moves what it does alone with nothing in its way. openings_m2: free area
    of windows, vents and leaks together, 0.0005 (leaks of a tight body) to 5. Fans as for ``fan_m3_h``, None when there
    is none. Source: continuity; found by halving.

    >>> both = fan_pair(Fan(1000, 0.05), Fan(1000, 0.05), 0.002)
    >>> one = fan_pair(None, Fan(1000, 0.05), 0.002)
    >>> round(both.air_m3_h), round(one.air_m3_h)
    (1000, 39)
    """
    for fan in (in_fan, out_fan):
        if fan is not None:
            _check_fan(fan)
    within("openings_m2", openings_m2, 0.0005, 5)

    def at(p: float) -> tuple[float, float, float]:
        blown = in_fan.free_m3_h * (1 - p / in_fan.stall_kpa) if in_fan else 0.0
        drawn = out_fan.free_m3_h * (1 + p / out_fan.stall_kpa) if out_fan else 0.0
        return blown, drawn, opening_m3_h(openings_m2, -p)

    # At the lowest pressure the fan that draws is stalled, at the highest the one that blows.
    low = -(out_fan.stall_kpa if out_fan else 0.0)
    high = in_fan.stall_kpa if in_fan else 0.0
    for _ in range(100):
        middle = (low + high) / 2
        blown, drawn, leak = at(middle)
        low, high = (middle, high) if blown + leak > drawn else (low, middle)
    p = (low + high) / 2
    blown, drawn, leak = at(p)
    return Exchange(blown + max(leak, 0.0), p, blown, drawn, leak)


def stack_m3_h(low_m2: float, high_m2: float, height_m: float, inside_degc: float, outside_degc: float) -> float:
    """Air that rises through a low and a high opening because it is warmer inside (or sinks because it is colder).

    C_d·A_e·√(2·g·h·|ρ_e − ρ_i|/ρ̄), A_e = (1/A₁² + 1/A₂²)^−½. low_m2, high_m2: free areas, 0 to 5. height_m: between
    their middles, 0 to 5. Temperatures: −50 to 60. Source: ASHRAE Handbook Fundamentals 2009, chapter 16; EN 16798-7.

    >>> round(stack_m3_h(0.0015, 0.010, 1.8, 18, 0), 1)
    4.8
    """
    effective = _in_series_m2(low_m2, high_m2)
    inside, outside = (air_density_kg_m3(within("air_degc", t, -50, 60), 0) for t in (inside_degc, outside_degc))
    drive = 2 * GRAVITY_M_S2 * within("height_m", height_m, 0, 5) * abs(outside - inside) / ((outside + inside) / 2)
    return 3600 * DISCHARGE_FRAC * effective * sqrt(drive)


def wind_m3_h(first_m2: float, second_m2: float, wind_m_s: float, pressure_difference_frac: float = 0.9) -> float:
    """Air that wind drives through two openings in unlike places.

    C_d·A_e·v·√ΔC_p. first_m2, second_m2: free areas, 0 to 5. wind_m_s: 0 to 30, at the vehicle.
    pressure_difference_frac: ΔC_p between both, 0 to 2: some 0.9 between windward side and lee, 0.3 between a side and
    the roof, next to 0 in one wall. Source: EN 16798-7:2017, EN 1991-1-4 for the coefficients (from memory).

    >>> round(wind_m3_h(0.02, 0.02, 2))
    58
    """
    within("wind_m_s", wind_m_s, 0, 30)
    within("pressure_difference_frac", pressure_difference_frac, 0, 2)
    return 3600 * DISCHARGE_FRAC * _in_series_m2(first_m2, second_m2) * wind_m_s * sqrt(pressure_difference_frac)


def together_m3_h(first_m3_h: float, second_m3_h: float) -> float:
    """Two drives on the same openings: pressures add, so flows add by their squares. Each 0 to 10,000.

    A fan on its own path adds as it is. Source: ASHRAE Handbook Fundamentals 2009, chapter 16.

    >>> together_m3_h(30, 40)
    50.0
    """
    return hypot(within("first_m3_h", first_m3_h, 0, 1e4), within("second_m3_h", second_m3_h, 0, 1e4))


def _in_series_m2(a: float, b: float) -> float:
    within("opening_m2", a, 0, 5)
    within("opening_m2", b, 0, 5)
    return a * b / hypot(a, b) if a and b else 0.0


def _check_fan(fan: Fan) -> None:
    within("free_m3_h", fan.free_m3_h, 1, 5000)
    within("stall_kpa", fan.stall_kpa, 0.005, 1)
