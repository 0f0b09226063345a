"""Keeping a room cool: what has to be taken away, and what a compressor cooler can take at an outside temperature."""

from typing import NamedTuple

from engine.physics.heat import air_loss_w_k
from engine.physics.ranges import within

PERSON_SENSIBLE_W, PERSON_LATENT_W = 70.0, 45.0
"""A seated adult at very light work, 24 °C. ASHRAE Handbook Fundamentals 2013, chapter 18, table 1."""

SENSIBLE_FRAC = 0.75
"""Share of a small cooler's capacity that lowers the temperature, the rest dries the air (common practice)."""

RATED_WET_BULB_DEGC = 19.44
"""Air inside where coolers are rated, at 35 °C outside: AHRI 210/240 and ISO 5151 T1, 27 °C dry and 19.4 (19) °C wet
bulb."""

# EnergyPlus example files (curves HPACCoolCapFT and HPACEIRFT): 1, x, x², y, y², x·y with x the wet bulb of the air to
# the cooler and y the outside air. Another published set for capacity lies within 0.5 % of it at 19.4 °C.
_CAPACITY = (0.942587793, 0.009543347, 0.000683770, -0.011042676, 0.000005249, -0.000009720)
_INPUT_RATIO = (0.342414409, 0.034885008, -0.000623700, 0.004977216, 0.000437951, -0.000728028)


class Sunlit(NamedTuple):
    """A part of the shell with what it feels outside (the sol-air temperature)."""

    name: str
    area_m2: float
    u_w_m2k: float
    skin_degc: float


class HeatGain(NamedTuple):
    """Sensible heat that one thing brings in."""

    name: str
    gain_w: float


def _curve(c: tuple[float, ...], x: float, y: float) -> float:
    return c[0] + c[1] * x + c[2] * x * x + c[3] * y + c[4] * y * y + c[5] * x * y


def capacity_frac(outside_degc: float, wet_bulb_degc: float = RATED_WET_BULB_DEGC) -> float:
    """Cooling capacity over that at 35 °C outside.

    outside_degc: 18 to 46.1. wet_bulb_degc: 12.8 to 23.9, of the air to the cooler. A fit to ordinary split and window
    units; a maker's own figures have priority. Source: EnergyPlus example files, curve HPACCoolCapFT.

    >>> [round(capacity_frac(t), 2) for t in (25, 35, 46)]
    [1.11, 1.0, 0.88]
    """
    within("outside_degc", outside_degc, 18, 46.2)
    return _curve(_CAPACITY, within("wet_bulb_degc", wet_bulb_degc, 12.7, 24), outside_degc)


def input_frac(outside_degc: float, wet_bulb_degc: float = RATED_WET_BULB_DEGC) -> float:
    """Electric power of a running cooler over that at 35 °C outside. Ranges as for ``capacity_frac``.

    Source: EnergyPlus example files, curve HPACEIRFT.

    >>> [round(input_frac(t), 2) for t in (25, 35, 46)]
    [0.92, 1.0, 1.14]
    """
    return capacity_frac(outside_degc, wet_bulb_degc) * _curve(_INPUT_RATIO, wet_bulb_degc, outside_degc)


def heat_gains(
    shell: tuple[Sunlit, ...],
    glass_sun_w: float,
    people_count: float,
    equipment_w: float,
    air_m3_h: float,
    outside_degc: float,
    inside_degc: float,
) -> tuple[HeatGain, ...]:
    """Sensible heat to take away to hold a temperature, the largest first; below 0 a thing helps to cool.

    Steady: a light shell follows the sun within an hour. area_m2: 0 to 500. u_w_m2k: 0 to 10. skin_degc: −50 to 120.
    glass_sun_w: 0 to 20,000. people_count: 0 to 30. equipment_w: 0 to 20,000. air_m3_h: 0 to 2000. outside_degc,
    inside_degc: −50 to 60. Source: heat balance (the sum of ASHRAE's cooling load chapters, without storage).

    >>> shell = (Sunlit("roof", 10.45, 0.7, 44.6), Sunlit("walls", 24, 1, 35))
    >>> gains = heat_gains(shell, 525, 2, 0, 20.9, 35, 26)
    >>> gains[0], round(sum(g.gain_w for g in gains))
    (HeatGain(name='sun through glass', gain_w=525.0), 1080)
    """
    within("outside_degc", outside_degc, -50, 60)
    within("inside_degc", inside_degc, -50, 60)
    found = []
    for x in shell:
        area_m2, u = within("area_m2", x.area_m2, 0, 500), within("u_w_m2k", x.u_w_m2k, 0, 10)
        found.append(HeatGain(x.name, area_m2 * u * (within("skin_degc", x.skin_degc, -50, 120) - inside_degc)))
    found += [
        HeatGain("sun through glass", float(within("glass_sun_w", glass_sun_w, 0, 2e4))),
        HeatGain("people", within("people_count", people_count, 0, 30) * PERSON_SENSIBLE_W),
        HeatGain("equipment", within("equipment_w", equipment_w, 0, 2e4)),
        HeatGain("air", air_loss_w_k(air_m3_h) * (outside_degc - inside_degc)),
    ]
    return tuple(sorted(found, key=lambda g: -g.gain_w))
