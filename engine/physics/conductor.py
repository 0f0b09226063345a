"""Copper conductors: American gauges and metric sizes, with their resistance at a temperature."""

from functools import lru_cache
from math import pi
from typing import NamedTuple

from engine.physics.ranges import within

RESISTIVITY_OHM_MM2_M = 1 / 58
"""Annealed copper of 100 % conductivity at 20 °C, in Ω·mm²/m (IEC 60028)."""

WORKSHOP_OHM_MM2_M = 0.0175
"""Copper as workshops reckon it from the size that is printed on a cable, at 20 °C (common practice)."""

PER_KELVIN = 0.00393
"""Rise of copper's resistance per kelvin, from 20 °C (IEC 60028)."""


class Conductor(NamedTuple):
    """One conductor. ``metre_ohm`` is the resistance of one metre at 20 °C."""

    label: str
    area_m2: float
    metre_ohm: float

    def __str__(self) -> str:
        return self.label


def awg_diameter_m(gauge: int) -> float:
    """Diameter of a solid wire of an American gauge; 1/0 to 4/0 are 0, −1, −2 and −3.

    d = 0.127 mm · 92^((36 − n)/39). gauge: −3 to 40. Source: ASTM B258-18 (formula as an encyclopedia gives
    it for B258-02; areas compared with two published tables).

    >>> round(awg_diameter_m(10) * 1000, 4), round(awg_diameter_m(-3) * 1000, 4)
    (2.5882, 11.684)
    """
    within("gauge", gauge, -3, 40)
    return float(0.127e-3 * 92 ** ((36 - gauge) / 39))


@lru_cache(maxsize=64)
def awg(gauge: int) -> Conductor:
    """A conductor of an American gauge, solid copper; stranded cable of the same gauge has about 2 % more resistance.

    gauge: −3 (4/0) to 40. Source: ASTM B258-18 (geometry) and IEC 60028 (resistivity).

    >>> wire = awg(16)
    >>> wire.label, round(wire.metre_ohm * 1000, 3)
    ('16 AWG', 13.174)
    >>> awg(-1).label
    '2/0 AWG'
    """
    area_m2 = pi / 4 * awg_diameter_m(gauge) ** 2
    label = f"{gauge} AWG" if gauge > 0 else f"{1 - gauge}/0 AWG"
    return Conductor(label, area_m2, RESISTIVITY_OHM_MM2_M / (area_m2 * 1e6))


AWG = tuple(map(awg, (18, 16, 14, 12, 10, 8, 6, 4, 3, 2, 1, 0, -1, -2, -3)))
"""American gauges from thin to thick."""

_SIZES_MM2 = (0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120, 150)
_PLAIN_OHM_KM = (26.0, 19.5, 13.3, 7.98, 4.95, 3.30, 1.91, 1.21, 0.780, 0.554, 0.386, 0.272, 0.206, 0.161, 0.129)
_TINNED_OHM_KM = (26.7, 20.0, 13.7, 8.21, 5.09, 3.39, 1.95, 1.24, 0.795, 0.565, 0.393, 0.277, 0.210, 0.164, 0.132)


def _metric(ohm_km: tuple[float, ...]) -> tuple[Conductor, ...]:
    pairs = zip(_SIZES_MM2, ohm_km, strict=True)
    return tuple(Conductor(f"{mm2:g} mm²", mm2 * 1e-6, ohm / 1000) for mm2, ohm in pairs)


CLASS_5 = _metric(_PLAIN_OHM_KM)
"""Flexible conductors of plain copper, the most resistance that the standard allows. Source: IEC 60228:2004, class 5
(compared in four cable makers' tables)."""

CLASS_5_TINNED = _metric(_TINNED_OHM_KM)
"""The same of tinned copper. Source: IEC 60228:2004, class 5, metal-coated (compared in two tables)."""

WORKSHOP_METRIC = _metric(tuple(1000 * WORKSHOP_OHM_MM2_M / mm2 for mm2 in _SIZES_MM2))
"""Metric sizes with the resistance of copper of just that area: what 0.0175·L/A gives. Flexible cable may have up to
15 % more (IEC 60228)."""

SERIES = {"awg": AWG, "class-5": CLASS_5, "class-5-tinned": CLASS_5_TINNED, "workshop-metric": WORKSHOP_METRIC}
"""The lists of sizes by name, each from thin to thick."""


def sized(label: str, series: tuple[Conductor, ...]) -> Conductor:
    """The conductor of a list that bears a label. Raises ValueError when the list has none.

    Source: the list.

    >>> sized("6 mm²", CLASS_5).metre_ohm
    0.0033
    """
    for conductor in series:
        if conductor.label == label:
            return conductor
    raise ValueError(f"no conductor {label!r} in this list")


def resistance_ohm(conductor: Conductor, length_m: float, conductor_degc: float = 20.0) -> float:
    """Resistance of a length of one conductor at its own temperature.

    R = R₂₀·L·(1 + 0.00393·(θ − 20)). length_m: 0 to 1000. conductor_degc: −50 to 200. Source: IEC 60028.

    >>> round(resistance_ohm(CLASS_5[4], 12), 4)  # 4 mm², there and back over 6 m
    0.0594
    >>> round(resistance_ohm(CLASS_5[4], 12, 60), 5)
    0.06874
    """
    within("length_m", length_m, 0, 1000)
    within("conductor_degc", conductor_degc, -50, 200)
    return conductor.metre_ohm * length_m * (1 + PER_KELVIN * (conductor_degc - 20))
