"""Quantities on pages: in a unit that a tradesperson uses for them, and never rounded to nothing.

A sheet rounds to what can be known; a page repeats what a shop's file or an example states, so it stays close to it.
"""

from __future__ import annotations

from engine.physics.glaser import AIR_PERMEABILITY_KG_MSPA
from engine.units import (
    FOOT_M,
    GALLON_L,
    INCH_M,
    POUND_KG,
    SURELY_AN_HOUR,
    SYSTEMS,
    Shown,
    System,
    plain,
    read_number,
    show,
)

AS_STATED, AS_GIVEN = 0.005, 0.0005
"""How far a shown number may be off: of a catalogue's figure, and of one that a sum on the same page is made from."""

_FINER = {"m": ("thick_m", 0.1), "m2": ("opening_m2", 0.1)}
"""Units that are read in a finer one below so much: bores in millimetres, free openings in cm² or in²."""

_EVERYWHERE = {
    "ohm": Shown("mΩ", 1000),
    "frac_k": Shown("%/°C", 100),
    "kwh_m2_d": Shown("kWh/m²/day", 1),
    "milli_a": Shown("mA", 1000),
    "millilitre_l": Shown("mL", 1000),
    "opening_m2": Shown("cm²", 10_000),
    "long_s": Shown("min", 1 / 60),
    "short_h": Shown("min", 60),
}
_OWN: dict[System, dict[str, Shown]] = {
    "metric": _EVERYWHERE
    | {
        "kg_m3": Shown("kg/m³", 1),
        "kg_m2": Shown("kg/m²", 1),
        "km": Shown("km", 1),
    },
    "us": _EVERYWHERE
    | {
        "kg_m3": Shown("lb/ft³", FOOT_M**3 / POUND_KG),
        "kg_m2": Shown("lb/ft²", FOOT_M**2 / POUND_KG),
        "km": Shown("mi", 1 / 1.609344),
        "millilitre_l": Shown("fl oz", 128 / GALLON_L),
        "opening_m2": Shown("in²", 1 / INCH_M**2),
    },
}
"""Units that only pages tell, beside the engine's."""

US_PERM_KG_SM2PA = 5.72135e-11
"""One US perm, grain/(h·ft²·inHg), at 0 °C. ASTM E96, conversion table (from memory)."""


def unit_name(unit: str, system: System) -> str:
    """The unit's own words for a table's column; empty where a number has none."""
    how = SYSTEMS[system].get(unit) or _OWN[system].get(unit)
    return how.unit if how else unit


def amount(value: float, unit: str, system: System, off: float = AS_STATED) -> str:
    """A quantity in the reader's units, with as many places as it takes to be within ``off`` of the truth.

    Temperatures may be off by 0.3 of a degree, or by a twentieth where ``off`` is ``AS_GIVEN``. A unit that neither the
    engine nor this module knows stands as it is written.

    >>> [amount(0.008, "m", s) for s in ("metric", "us")], amount(0.005, "a", "us")
    (['8 mm', '0.315 in'], '5 mA')
    >>> [amount(0.0025, "m2", s) for s in ("metric", "us")], [amount(0.3, "l", s) for s in ("metric", "us")]
    (['25 cm²', '3.88 in²'], ['0.3 L', '10.1 fl oz'])
    >>> amount(0.75, "v", "us"), amount(0.75, "v", "us", AS_GIVEN), amount(13.6, "kg", "metric")
    ('0.75 V', '0.75 V', '13.6 kg')
    >>> amount(5.123, "kwh_m2_d", "metric")
    '5.1 kWh/m²/day'
    """
    unit = _finer(value, unit, system, off == AS_STATED)
    own = _OWN[system].get(unit)
    if own is None and (unit not in SYSTEMS[system] or unit == "d"):
        return show(value, unit, system) if unit == "d" else f"{value:.4g} {unit.replace('_', '/')}".rstrip()
    how = own or SYSTEMS[system][unit]
    wanted = value * how.factor + how.offset
    room = (0.3 if off == AS_STATED else 0.05) if unit == "degc" else off * abs(wanted)

    def made(places: int) -> str:
        return f"{plain(wanted, places)} {how.unit}" if own else show(value, unit, system, places)

    return next(
        (text for text in map(made, range(6)) if abs(read_number(text, how.unit) - wanted) <= room + 1e-12), made(6)
    )


def vapour_layer(still_air_m: float, system: System) -> str:
    """What a vapour layer hinders: metres of still air (its s_d), or its permeance in US perms.

    >>> vapour_layer(20, "metric"), vapour_layer(100, "us")
    ('s_d 20 m', '0.035 perm')
    """
    if system == "metric":
        return f"s_d {still_air_m:.3g} m"
    return f"{AIR_PERMEABILITY_KG_MSPA / still_air_m / US_PERM_KG_SM2PA:.2g} perm"


def _finer(value: float, unit: str, system: System, stated: bool) -> str:
    """The unit in which so little is read. In a sum, volumes keep the unit of the sentence beside them."""
    size = abs(value)
    if unit in _FINER and 0 < size < _FINER[unit][1]:
        return _FINER[unit][0]
    if unit == "a" and 0 < size < 0.5:
        return "milli_a"
    if unit == "h" and 0 < size < SURELY_AN_HOUR:
        return "short_h"
    if not stated:
        return unit
    if unit == "l" and 0 < size < (0.1 if system == "metric" else 0.4):
        return "millilitre_l"
    return "long_s" if unit == "s" and size >= 120 else unit
