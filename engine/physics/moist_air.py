"""Moist air: saturation, dew point, water by mass and by volume, density."""

from functools import lru_cache
from math import exp, log

from engine.physics.ranges import within

TRIPLE_POINT_DEGC = 0.01
"""Below it saturation is over ice, above it over water."""

VAPOUR_J_KGK = 461.5
"""Gas constant of water vapour: 8.314462 J/(mol·K) over 18.0153 g/mol, to the four figures texts use."""

DRY_AIR_J_KGK = 287.042
"""Gas constant of dry air. ASHRAE Handbook Fundamentals 2017, chapter 1."""

SEA_LEVEL_KPA = 101.325
"""Standard pressure."""


@lru_cache(maxsize=8192)
def saturation_kpa(air_degc: float) -> float:
    """Pressure of water vapour at saturation, over ice below 0.01 °C.

    air_degc: −60 to 100. Source: R. W. Hyland and A. Wexler, ASHRAE Transactions 89 (1983), as in ASHRAE Handbook
    Fundamentals 2017, chapter 1, equations 5 and 6.

    >>> [round(saturation_kpa(t), 4) for t in (-20, 0, 20)]
    [0.1033, 0.6112, 2.3388]
    """
    t = within("air_degc", air_degc, -60, 100) + 273.15
    if air_degc <= TRIPLE_POINT_DEGC:
        ln = -5.6745359e3 / t + 6.3925247 - 9.677843e-3 * t + 6.2215701e-7 * t**2 + 2.0747825e-9 * t**3
        ln += -9.484024e-13 * t**4 + 4.1635019 * log(t)
    else:
        ln = -5.8002206e3 / t + 1.3914993 - 4.8640239e-2 * t + 4.1764768e-5 * t**2 - 1.4452093e-8 * t**3
        ln += 6.5459673 * log(t)
    return exp(ln) / 1000


def vapour_kpa(air_degc: float, humidity_frac: float) -> float:
    """Pressure of the water vapour in air: φ·p_sat.

    air_degc: −60 to 100. humidity_frac: relative humidity, 0 to 1. Source: definition of relative humidity.

    >>> round(vapour_kpa(20, 0.5), 4)
    1.1694
    """
    return within("humidity_frac", humidity_frac, 0, 1) * saturation_kpa(air_degc)


@lru_cache(maxsize=4096)
def dew_point_degc(vapour_pressure_kpa: float) -> float:
    """Temperature at which air of this vapour pressure is saturated; below 0 °C the frost point.

    vapour_pressure_kpa: 0.0011 to 100 (−60 to 99.6 °C). Source: ``saturation_kpa``, inverted by Newton's method.

    >>> round(dew_point_degc(vapour_kpa(20, 0.5)), 3)
    9.272
    """
    p = within("vapour_pressure_kpa", vapour_pressure_kpa, 0.0011, 100)
    # Magnus' formula is within a tenth of a degree of it; a few steps do the rest.
    x = log(p / 0.6112)
    at = 243.12 * x / (17.62 - x) if p >= saturation_kpa(TRIPLE_POINT_DEGC) else 272.62 * x / (22.46 - x)
    at = min(max(at, -59.9), 99.9)
    for _ in range(50):
        low, high = max(at - 1e-3, -60.0), min(at + 1e-3, 100.0)
        slope = log(saturation_kpa(high) / saturation_kpa(low)) / (high - low)
        step = log(saturation_kpa(at) / p) / slope
        at = min(max(at - step, -60.0), 100.0)
        if abs(step) < 1e-9:
            break
    return at


def water_kg_m3(air_degc: float, humidity_frac: float) -> float:
    """Water vapour in a cubic metre of air: φ·p_sat/(R_v·T).

    air_degc: −60 to 100. humidity_frac: 0 to 1. Source: ideal gas; g/m³ is a thousand times as much.

    >>> round(1000 * water_kg_m3(18, 0.6), 2)
    9.22
    """
    return vapour_kpa(air_degc, humidity_frac) * 1000 / (VAPOUR_J_KGK * (air_degc + 273.15))


def relative_humidity_frac(air_degc: float, held_kg_m3: float) -> float:
    """Relative humidity of air that holds so much water; above 1 the air cannot hold it.

    air_degc: −60 to 100. held_kg_m3: 0 to 0.6. Source: ideal gas.

    >>> round(relative_humidity_frac(18, 0.00922), 3)
    0.6
    """
    within("held_kg_m3", held_kg_m3, 0, 0.6)
    return held_kg_m3 / water_kg_m3(air_degc, 1)


def air_density_kg_m3(air_degc: float, humidity_frac: float, pressure_kpa: float = SEA_LEVEL_KPA) -> float:
    """Density of moist air, water included; damp air is lighter than dry.

    air_degc: −60 to 60. humidity_frac: 0 to 1. pressure_kpa: 30 to 110. Source: ideal mixture of dry air and vapour.

    >>> round(air_density_kg_m3(20, 0.5), 4), round(air_density_kg_m3(20, 0.5, 79.495), 3)
    (1.1989, 0.939)
    """
    within("air_degc", air_degc, -60, 60)
    p_v = vapour_kpa(air_degc, humidity_frac)
    dry = (within("pressure_kpa", pressure_kpa, 30, 110) - p_v) / DRY_AIR_J_KGK
    return (dry + p_v / VAPOUR_J_KGK) * 1000 / (air_degc + 273.15)
