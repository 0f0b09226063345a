"""Quantities that stand in words, such as "10 kg over", in the reader's units.

Findings are made of numbers and come in the reader's units by themselves. Titles of examples, reasons and formulas of
the handbook are written once, mostly in metric units; a name in an example may have customary ones.
"""

from __future__ import annotations

import re

from engine.spelling import spelled
from engine.units import US, System
from site_build.pages.amounts import amount

_METRIC = {
    "°C": ("degc", 1.0), "K": ("k", 1.0), "kg": ("kg", 1.0), "m": ("m", 1.0), "cm": ("m", 0.01), "mm": ("m", 0.001),
    "m²": ("m2", 1.0), "cm²": ("cm2", 1.0), "m³/h": ("m3_h", 1.0), "L": ("l", 1.0), "L/min": ("l_min", 1.0),
    "N": ("n", 1.0), "mbar": ("gas_kpa", 0.1), "kPa": ("kpa", 1.0), "W/K": ("w_k", 1.0), "g/m²": ("water_kg_m2", 0.001),
}  # fmt: skip
_CUSTOMARY = {
    US[u].unit: (u, 1 / US[u].factor)
    for u in ("kg", "m", "run_m", "m2", "cm2", "l", "l_min", "space_l", "degc", "m3_h", "n", "heat_w", "gas_kpa", "kpa")
}  # fmt: skip
"""A unit in words with the engine's name for what it measures, and how much of the engine's own unit it is."""

_NO_INCH = r"(?!(?<= in) (?:series|parallel|all|the|a|it|which|winter|summer)\b)"
"""What follows "in" where it is no unit."""

_NO_CABLE = r"(?! insulation)"
"""Cable is sold by the °C that its insulation bears, here and there."""

_UNIT_OF_A_FORMULA = re.compile(r"\d (?:°C|K|kg|[cm]?m[²³]?|L|N|g|k?Wh|W)(?:/|\b|²)")
_TWO_LAWS = re.compile(r"([\d.]+ m(?: · [\d.]+ m)?) \(United States ([^)]+)\)")


def _pattern(units: dict[str, tuple[str, float]]) -> re.Pattern[str]:
    names = "|".join(re.escape(u) for u in sorted(units, key=len, reverse=True))
    return re.compile(
        rf"(?<![\w.·/−])(?<!insulation for )(−?\d[\d,]*(?:\.\d+)?) ({names})(?![\w/·°²³])" + _NO_INCH + _NO_CABLE
    )


_FOREIGN = {"us": (_pattern(_METRIC), _METRIC), "metric": (_pattern(_CUSTOMARY), _CUSTOMARY)}


def in_own_units(words: str, system: System) -> str:
    """Words in the reader's spelling and units.

    >>> in_own_units("1.805 m less 0.53 m, at −15 °C", "us"), in_own_units("2 in series, 6 gal, 2.5 in", "metric")
    ('71.1 in less 20.9 in, at 5 °F', '2 in series, 22.7 L, 63.5 mm')
    >>> [in_own_units("10 mm (0.39 in) of foam", s) for s in ("metric", "us")]
    ['10 mm of foam', '0.39 in of foam']
    """
    pattern, units = _FOREIGN[system]
    return pattern.sub(lambda found: _own(found, units, system), spelled(words, system))


def _own(found: re.Match[str], units: dict[str, tuple[str, float]], system: System) -> str:
    number, (unit, factor) = float(found[1].replace(",", "").replace("−", "-")), units[found[2]]
    si = (number - 32) * factor if found[2] == "°F" else number * factor
    return amount(si, unit, system)


def formula_of(formula: str, system: System, region: str) -> tuple[str, str]:
    """A formula in its region's own distances, and what is to be said of its units: formulas stay in those they were
    written in, and what stands in them is told in the reader's beside.

    >>> formula_of("width ≥ 0.40 m; least 0.9 m (United States 3 ft)", "us", "us")
    ('width ≥ 0.40 m; least 3 ft', 'The formula is in SI units: 0.40 m is 15.7 in.')
    >>> formula_of("width ≥ 0.40 m; least 0.9 m (United States 3 ft)", "metric", "uk")
    ('width ≥ 0.40 m; least 0.9 m', '')
    """
    formula = spelled(_TWO_LAWS.sub(r"\2" if region == "us" else r"\1", formula), system)
    pattern, units = _FOREIGN[system]
    told = dict.fromkeys(
        f"{'a difference of ' if m[2] == 'K' else ''}{m[0]} is {_own(m, units, system)}"
        for m in pattern.finditer(formula)
    )
    if system == "us" and _UNIT_OF_A_FORMULA.search(formula):
        return formula, f"The formula is in SI units{': ' if told else ''}{'; '.join(told)}."
    return formula, f"In it {'; '.join(told)}." if told else ""
