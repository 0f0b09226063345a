"""Quantities on pages: units of the trade, and close enough that a sum can be made from them."""

import doctest

import pytest

from engine.units import System
from site_build.pages import amounts
from site_build.pages.amounts import AS_GIVEN, AS_STATED, amount
from site_build.pages.facts import value_text


def test_worked_examples_hold() -> None:
    assert doctest.testmod(amounts).failed == 0


@pytest.mark.parametrize(
    ("value", "unit", "metric", "us"),
    [
        (0.011, "m2", "110 cm²", "17 in²"),
        (0.45, "m2", "0.45 m²", "4.84 ft²"),
        (0.012, "m", "12 mm", "0.472 in"),
        (1.99, "m", "1.99 m", "78.3 in"),
        (0.03, "a", "30 mA", "30 mA"),
        (6.05, "a", "6.05 A", "6.05 A"),
        (0.3, "l", "0.3 L", "10.1 fl oz"),
        (0.02, "h", "1.2 min", "1.2 min"),
        (0.75, "h", "45 min", "45 min"),
        (0.75, "work_h", "0.75 h", "0.75 h"),
        (180, "s", "3 min", "3 min"),
        (13.6, "kg", "13.6 kg", "30 lb"),
        (0.885, "frac", "88.5 %", "88.5 %"),
        (0.003, "ohm", "3 mΩ", "3 mΩ"),
        (-0.0028, "frac_k", "−0.28 %/°C", "−0.28 %/°C"),
        (32.04, "kg_m3", "32 kg/m³", "2 lb/ft³"),
        (6.3, "kg_m2", "6.3 kg/m²", "1.29 lb/ft²"),
        (1450, "w", "1.45 kW", "1.45 kW"),
        (4660, "heat_w", "4.66 kW", "15,900 BTU/h"),
        (0, "m2", "0 m²", "0 ft²"),
    ],
)
def test_a_stated_figure_is_read_in_the_units_of_the_trade(value: float, unit: str, metric: str, us: str) -> None:
    assert (amount(value, unit, "metric"), amount(value, unit, "us")) == (metric, us)


@pytest.mark.parametrize(
    ("name", "value", "system", "said"),
    [
        ("lost_v", 0.75, "metric", "0.75 V"),
        ("lost_v", 0.25, "us", "0.25 V"),
        ("all_strings_a", 30.1, "us", "30.1 A"),
        ("trip_a", 0.005, "us", "5 mA"),
        ("together_kg", 271.0, "us", "597.5 lb"),
        ("outside_degc", -0.3, "metric", "−0.3 °C"),
        ("outside_degc", -0.3, "us", "31.5 °F"),
        ("first_ice_h", 0.2, "metric", "12 min"),
        ("night_h", 1.2, "metric", "1.2 h"),
        ("burnt_l", 0.1, "us", "0.02642 gal"),
        ("people", 2, "us", "2"),
        ("heated", True, "us", "yes"),
    ],
)
def test_what_goes_into_a_sum_is_not_rounded_away(name: str, value: object, system: System, said: str) -> None:
    assert value_text(name, value, system) == said


@pytest.mark.parametrize("system", ["us", "metric"])
@pytest.mark.parametrize("unit", ["kg", "m", "m2", "l", "a", "v", "h", "w", "heat_w", "w_mk", "gas_kpa", "kg_m3"])
@pytest.mark.parametrize("value", [0.0007, 0.0123, 0.4567, 9.876, 345.6])
def test_nothing_is_rounded_to_nothing(system: System, unit: str, value: float) -> None:
    for off in (AS_STATED, AS_GIVEN):
        number = amount(value, unit, system, off).split(" ")[0].replace(",", "")
        assert float(number) > 0 and len(number.replace(".", "").lstrip("0")) >= 1
