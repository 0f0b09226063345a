"""Heat in fuels.

Lower heating values for heaters, whose efficiency is stated on them: the water of combustion leaves as vapour. Higher
ones for the heat input on an appliance's plate, which counts that water as condensed (ANSI Z21.1, EN 30-1-1; both from
memory).
"""

from engine.physics.ranges import within

PROPANE_KWH_KG = 12.872
"""Lower heating value of propane, 46.338 MJ/kg. Source: enthalpies of formation (CODATA; NIST Chemistry
WebBook), tested to 0.05 %."""

BUTANE_KWH_KG = 12.699
"""Lower heating value of n-butane, 45.716 MJ/kg. Same source."""

PROPANE_GROSS_KWH_KG = 13.980
"""Higher heating value of propane, 50.33 MJ/kg: what a rating plate's heat input of a hob or oven counts with."""

BUTANE_GROSS_KWH_KG = 13.753
"""Higher heating value of n-butane, 49.51 MJ/kg. Same sources."""

DIESEL_KWH_L = 9.95
"""Lower heating value of diesel, 35.8 MJ/L, from memory of common tables."""

PROPANE_KG_L = 0.5075
"""Density of liquid propane at 15 °C. Source: Lemmon equation of state (CoolProp, tested)."""


def gas_kwh_kg(propane_frac: float) -> float:
    """Lower heating value of a propane-butane mix by mass.

    propane_frac: 0 to 1, the rest is n-butane. Source: the two constants above, mixed by mass.

    >>> gas_kwh_kg(1)
    12.872
    """
    within("propane_frac", propane_frac, 0, 1)
    return propane_frac * PROPANE_KWH_KG + (1 - propane_frac) * BUTANE_KWH_KG


def gas_gross_kwh_kg(propane_frac: float) -> float:
    """Higher heating value of a propane-butane mix by mass.

    propane_frac: 0 to 1, the rest is n-butane. Source: the two constants above, mixed by mass.

    >>> gas_gross_kwh_kg(1)
    13.98
    """
    within("propane_frac", propane_frac, 0, 1)
    return propane_frac * PROPANE_GROSS_KWH_KG + (1 - propane_frac) * BUTANE_GROSS_KWH_KG


THIN_AIR_FROM_M, THIN_AIR_FRAC_M = 2000 * 0.3048, 0.04 / (1000 * 0.3048)


def thin_air_frac(altitude_m: float) -> float:
    """Share of its rated heat that a gas burner gives so high up: 4 % less for each 1,000 ft above 2,000 ft.

    altitude_m: -500 to 5000. Source: NFPA 54, derating of appliances that are not made for a height (from memory).

    >>> thin_air_frac(600), round(thin_air_frac(7000 * 0.3048), 6)
    (1.0, 0.8)
    """
    within("altitude_m", altitude_m, -500, 5000)
    return 1.0 - THIN_AIR_FRAC_M * max(0.0, altitude_m - THIN_AIR_FROM_M)


def gas_kg(energy_wh: float, kwh_kg: float = PROPANE_KWH_KG) -> float:
    """Gas burnt for an amount of heat input.

    energy_wh: 0 to 1 TWh. kwh_kg: 12 to 14, for the same basis (lower or higher) as the energy. Source: heat balance.

    >>> round(gas_kg(2000 / 0.85) * 1000, 1)
    182.8
    """
    within("energy_wh", energy_wh, 0, 1e12)
    return energy_wh / 1000 / within("kwh_kg", kwh_kg, 12, 14)


def tank_content_kg(total_volume_l: float, fill_frac: float = 0.8) -> float:
    """Propane in a fixed tank filled to its legal level, at 15 °C. The share is taken off once, here.

    total_volume_l: 0 to 1000. fill_frac: 0.5 to 0.85. Source: 80 % filling rule (common practice, NFPA 58).

    >>> round(tank_content_kg(37.854), 1)
    15.4
    """
    within("total_volume_l", total_volume_l, 0, 1000)
    return total_volume_l * within("fill_frac", fill_frac, 0.5, 0.85) * PROPANE_KG_L


GENERATOR_IDLE_FRAC = 0.4
"""What a small generator burns without a load, as a share of its fuel at full output (common practice: 0.3 to 0.5)."""


def generator_l(full_l_h: float, load_frac: float, running_h: float) -> float:
    """Fuel of a small generator: a straight line from idle to full output.

    full_l_h: 0 to 20, litres an hour at full output. load_frac: 0 to 1 of its output. running_h: 0 to 1,000.
    Source: common practice, good to a fifth; a maker's curve has priority.

    >>> round(generator_l(1.0, 0.5, 4), 2)
    2.8
    """
    within("full_l_h", full_l_h, 0, 20)
    within("load_frac", load_frac, 0, 1)
    share = GENERATOR_IDLE_FRAC + (1 - GENERATOR_IDLE_FRAC) * load_frac
    return full_l_h * share * within("running_h", running_h, 0, 1000)
