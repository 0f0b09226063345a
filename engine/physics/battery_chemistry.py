"""What battery chemistries are like: typical values for a battery whose datasheet says no more."""

from typing import NamedTuple

from engine.physics.curve import Curve


class Chemistry(NamedTuple):
    """Typical values. Curves are pairs with the second value between pairs in proportion, unless they say otherwise."""

    code: str
    title: str
    cell_v: float
    """Nominal voltage of a cell."""
    cell_full_v: float
    """Charging voltage that must not be passed."""
    cell_empty_v: float
    """Voltage at which a discharge ends."""
    usable_frac: float
    """Depth of discharge to plan with."""
    peukert_excess_frac: float
    """By how much Peukert's exponent is above 1."""
    round_trip_frac: float
    """Energy out over energy in."""
    coulombic_frac: float
    """Charge out over charge in."""
    capacity_curve_frac: Curve
    """Cell temperature in °C, and what is left of the capacity."""
    charge_steps_frac: Curve
    """Above which cell temperature in °C, and how many amperes of charge for each Ah; none below the first."""
    cell_1ah_ohm: float
    """Internal resistance of a cell of 1 Ah at 25 °C; a larger one has less in proportion."""
    fixed_ohm: float
    """Terminals, links and electronics of one battery."""
    resistance_multiple: Curve
    """Cell temperature in °C, and how many times the resistance of 25 °C."""
    cycles: Curve
    """Depth of each cycle, and how many until 80 % of the capacity is left."""
    calendar_d: float
    """Days until 80 % is left though it is hardly used."""
    taper_from_frac: float
    """State of charge at which a charger holds the voltage and its current begins to fall."""
    tail_frac: float
    """Amperes for each Ah at which it is called full."""
    source: str


_LITHIUM_OHM = Curve(((-20.0, 3.0), (0.0, 1.7), (25.0, 1.0), (60.0, 0.8)))
_LEAD_OHM = Curve(((-20.0, 2.0), (0.0, 1.4), (25.0, 1.0), (50.0, 0.9)))
_LEAD_CAPACITY = Curve(
    ((-18.0, 0.45), (0.0, 0.84), (5.0, 0.88), (10.0, 0.90), (15.0, 0.94), (20.0, 0.99), (25.0, 1.0), (50.0, 1.0))
)
"""0 to 25 °C: a battery maker's page, discharges over an hour; −18 °C: a page that compares it with lithium. What heat
adds is left out."""

LFP = Chemistry(
    code="lfp",
    title="lithium iron phosphate",
    cell_v=3.2,
    cell_full_v=3.65,
    cell_empty_v=2.5,
    usable_frac=0.85,
    peukert_excess_frac=0.03,
    round_trip_frac=0.94,
    coulombic_frac=0.99,
    capacity_curve_frac=Curve(((-20.0, 0.55), (-10.0, 0.68), (0.0, 0.80), (10.0, 0.90), (25.0, 1.0), (60.0, 1.0))),
    charge_steps_frac=Curve(((0.0, 0.1), (5.0, 0.2), (10.0, 0.5), (45.0, 0.1), (60.0, 0.0))),
    cell_1ah_ohm=0.050,
    fixed_ohm=0.001,
    resistance_multiple=_LITHIUM_OHM,
    cycles=Curve(((0.5, 5000), (0.7, 3500), (0.8, 3000), (1.0, 2000))),
    calendar_d=15 * 365.25,
    taper_from_frac=0.95,
    tail_frac=0.05,
    source="voltages: cell makers' sheets; charge by temperature: a telecom module's manual, table 4.3, and a cell "
    "maker's sheet (never below 0 °C); capacity in the cold: tests of three cells that a maker published (44 to 70 % "
    "at −20 °C); usable depth and efficiency: common practice; resistance, exponent, cycles, calendar life from memory",
)

AGM = Chemistry(
    code="agm",
    title="lead-acid with glass mat",
    cell_v=2.0,
    cell_full_v=2.45,
    cell_empty_v=1.75,
    usable_frac=0.50,
    peukert_excess_frac=0.12,
    round_trip_frac=0.82,
    coulombic_frac=0.92,
    capacity_curve_frac=_LEAD_CAPACITY,
    charge_steps_frac=Curve(((-20.0, 0.1), (0.0, 0.25), (50.0, 0.0))),
    cell_1ah_ohm=0.080,
    fixed_ohm=0.0005,
    resistance_multiple=_LEAD_OHM,
    cycles=Curve(((0.3, 1200), (0.5, 600), (0.8, 350), (1.0, 250))),
    calendar_d=8 * 365.25,
    taper_from_frac=0.80,
    tail_frac=0.005,
    source="exponent: 1.05 to 1.15 in a textbook's table; capacity in the cold and charge current: battery makers' "
    "pages; taper from 80 %: makers' and suppliers' pages; cycles between published 370 and 800 at half depth; the "
    "rest common practice and from memory",
)

GEL = AGM._replace(
    code="gel",
    title="lead-acid with gel",
    cell_full_v=2.37,
    peukert_excess_frac=0.17,
    charge_steps_frac=Curve(((-20.0, 0.1), (0.0, 0.2), (50.0, 0.0))),
    cell_1ah_ohm=0.090,
    cycles=Curve(((0.3, 1500), (0.5, 750), (0.8, 450), (1.0, 350))),
    source="exponent: 1.10 to 1.25 in a textbook's table; the rest as for glass mat, cycles from memory",
)

FLOODED = AGM._replace(
    code="flooded",
    title="flooded lead-acid",
    cell_full_v=2.45,
    peukert_excess_frac=0.25,
    round_trip_frac=0.78,
    coulombic_frac=0.88,
    charge_steps_frac=Curve(((-20.0, 0.05), (0.0, 0.2), (50.0, 0.0))),
    cell_1ah_ohm=0.130,
    cycles=Curve(((0.3, 1300), (0.5, 750), (0.8, 225), (1.0, 150))),
    calendar_d=6 * 365.25,
    source="exponent: 1.20 to 1.60 in a textbook's table; cycles at 50 and 80 %: a battery seller's page on golf-cart "
    "batteries; the rest as for glass mat, common practice and from memory",
)

NMC = LFP._replace(
    code="nmc",
    title="lithium nickel manganese cobalt",
    cell_v=3.65,
    cell_full_v=4.2,
    cell_empty_v=3.0,
    usable_frac=0.80,
    capacity_curve_frac=Curve(((-20.0, 0.60), (0.0, 0.85), (25.0, 1.0), (60.0, 1.0))),
    charge_steps_frac=Curve(((0.0, 0.1), (10.0, 0.5), (45.0, 0.0))),
    cell_1ah_ohm=0.060,
    cycles=Curve(((0.5, 2500), (0.8, 1200), (1.0, 800))),
    calendar_d=10 * 365.25,
    taper_from_frac=0.80,
    source="common practice and from memory",
)

LTO = LFP._replace(
    code="lto",
    title="lithium titanate",
    cell_v=2.3,
    cell_full_v=2.8,
    cell_empty_v=1.8,
    usable_frac=0.90,
    capacity_curve_frac=Curve(((-30.0, 0.70), (0.0, 0.90), (25.0, 1.0), (55.0, 1.0))),
    charge_steps_frac=Curve(((-30.0, 0.5), (0.0, 1.0), (55.0, 0.0))),
    cell_1ah_ohm=0.030,
    resistance_multiple=Curve(((-30.0, 3.0), (0.0, 1.5), (25.0, 1.0), (60.0, 0.8))),
    cycles=Curve(((0.8, 15000), (1.0, 10000))),
    calendar_d=20 * 365.25,
    source="common practice and from memory",
)

SODIUM = LFP._replace(
    code="sodium",
    title="sodium ion",
    cell_v=3.0,
    cell_full_v=3.9,
    cell_empty_v=2.0,
    usable_frac=0.85,
    round_trip_frac=0.90,
    capacity_curve_frac=Curve(((-30.0, 0.75), (-20.0, 0.85), (0.0, 0.93), (25.0, 1.0), (60.0, 1.0))),
    charge_steps_frac=Curve(((-10.0, 0.1), (0.0, 0.3), (10.0, 0.5), (45.0, 0.1), (60.0, 0.0))),
    cell_1ah_ohm=0.060,
    resistance_multiple=Curve(((-30.0, 3.0), (0.0, 1.6), (25.0, 1.0), (60.0, 0.8))),
    cycles=Curve(((0.8, 3000), (1.0, 2000))),
    taper_from_frac=0.90,
    source="common practice and from memory",
)

CHEMISTRIES = {c.code: c for c in (LFP, AGM, GEL, FLOODED, NMC, LTO, SODIUM)}
