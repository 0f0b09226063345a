"""Heating values and densities of fuels against thermochemical tables and an equation of state."""

import pytest

from engine.physics.fuel import (
    BUTANE_GROSS_KWH_KG,
    BUTANE_KWH_KG,
    DIESEL_KWH_L,
    PROPANE_GROSS_KWH_KG,
    PROPANE_KG_L,
    PROPANE_KWH_KG,
    gas_gross_kwh_kg,
    gas_kg,
    gas_kwh_kg,
    tank_content_kg,
)

pytestmark = pytest.mark.reference

MJ_KWH = 3.6
# Enthalpies of formation at 298.15 K in kJ/mol. Carbon dioxide and water vapour: CODATA key values for thermodynamics
# (1989). Propane and n-butane, gases: Pittam and Pilcher, J. Chem. Soc. Faraday Trans. 1, 68 (1972), as carried in the
# NIST Chemistry WebBook; uncertainties 0.50 and 0.67 kJ/mol. The tables were read from memory.
CARBON_DIOXIDE, WATER_VAPOUR = -393.51, -241.826
PROPANE, BUTANE = -104.7, -125.6
# Standard atomic weights (IUPAC, abridged).
CARBON_G_MOL, HYDROGEN_G_MOL = 12.011, 1.008


def _lower_heating_value_mj_kg(carbon: int, hydrogen: int, formation_kj_mol: float) -> float:
    burnt = carbon * CARBON_DIOXIDE + hydrogen / 2 * WATER_VAPOUR
    return (formation_kj_mol - burnt) / (carbon * CARBON_G_MOL + hydrogen * HYDROGEN_G_MOL)


@pytest.mark.parametrize(
    ("kwh_kg", "carbon", "hydrogen", "formation"),
    [(PROPANE_KWH_KG, 3, 8, PROPANE), (BUTANE_KWH_KG, 4, 10, BUTANE)],
    ids=["propane", "butane"],
)
def test_lower_heating_values_follow_from_enthalpies_of_formation(kwh_kg, carbon, hydrogen, formation):
    # The uncertainty of the formation enthalpies alone is 0.025 % of the heating value.
    expected = _lower_heating_value_mj_kg(carbon, hydrogen, formation)
    assert kwh_kg * MJ_KWH == pytest.approx(expected, rel=5e-4)


@pytest.mark.parametrize(
    ("kwh_kg", "carbon", "hydrogen", "formation"),
    [(PROPANE_GROSS_KWH_KG, 3, 8, PROPANE), (BUTANE_GROSS_KWH_KG, 4, 10, BUTANE)],
    ids=["propane", "butane"],
)
def test_higher_heating_values_count_the_water_as_condensed(kwh_kg, carbon, hydrogen, formation):
    # Liquid water: −285.83 kJ/mol (CODATA), so the difference is the heat of its condensation.
    lower = _lower_heating_value_mj_kg(carbon, hydrogen, formation)
    mass = carbon * CARBON_G_MOL + hydrogen * HYDROGEN_G_MOL
    expected = lower + hydrogen / 2 * (285.83 + WATER_VAPOUR) / mass
    assert kwh_kg * MJ_KWH == pytest.approx(expected, rel=5e-4)


def test_density_of_liquid_propane():
    from CoolProp.CoolProp import PropsSI

    # Saturated liquid at 15 °C; the constant has four figures.
    assert pytest.approx(PropsSI("D", "T", 288.15, "Q", 0, "Propane") / 1000, abs=5e-5) == PROPANE_KG_L


def test_diesel_lies_in_the_range_of_published_values():
    # 128,488 BTU per US gallon, lower heating value of US low-sulphur diesel (Argonne GREET, figure from memory).
    assert pytest.approx(128_488 * 1055.05585262 / 3.785411784 / 3.6e6, rel=2e-3) == DIESEL_KWH_L


def test_consumption_of_a_two_kilowatt_heater():
    # 2.0 kW of heat at 85 %: 182.79 g/h, and 11 kg last 60.18 h; by hand from 46.34 MJ/kg, four figures.
    an_hour_kg = gas_kg(2000 / 0.85)
    assert an_hour_kg * 1000 == pytest.approx(182.79, rel=2e-4)
    assert 11 / an_hour_kg == pytest.approx(60.18, rel=2e-4)


def test_filled_tank_counts_the_fifth_once():
    # An underslung tank of 10 US gallons filled to 80 % holds 33.9 lb; worked by hand, good to 2 %.
    assert tank_content_kg(37.854) / 0.45359237 == pytest.approx(33.9, rel=0.02)


def test_long_weekend_on_a_twenty_pound_cylinder():
    # 6,000 BTU/h for 1 h and 8,000 BTU/h for 6 h a day: 2.51 lb a day by 21,500 BTU/lb, the rounded higher heating
    # value of US tables, 8.0 days from 20 lb.
    a_day_kg = gas_kg(54_000 * 0.29307107, gas_gross_kwh_kg(1))
    assert a_day_kg / 0.45359237 == pytest.approx(2.51, rel=0.01)


def test_a_mix_lies_between_its_gases():
    assert BUTANE_KWH_KG < gas_kwh_kg(0.4) < PROPANE_KWH_KG
    assert gas_kwh_kg(0.0) == BUTANE_KWH_KG
