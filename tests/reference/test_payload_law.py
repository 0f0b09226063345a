"""Payloads that laws ask for, against the examples published with them."""

import pytest

from engine.physics.payload_law import (
    capacity_us_kg,
    least_capacity_us_kg,
    least_payload_eu_kg,
    payload_eu_kg,
    running_order_eu_kg,
)

LB_KG = 0.45359237


@pytest.mark.parametrize(
    ("people", "length_m", "least_kg"),
    [
        (4, 7.45, 114.5),  # the example that makers print beside the clause
        (4, 7.0, 110.0),  # a second maker's
        (4, 5.99, 99.9),
    ],
)
def test_smallest_pay_mass_as_makers_print_it(people, length_m, least_kg):
    assert least_payload_eu_kg(people, length_m) == pytest.approx(least_kg, abs=1e-9)


def test_largest_optional_equipment():
    # 3,500 kg, 2,900 kg in running order with the driver, three passengers: 3500 − 2900 − 225 = 375; less 99.9: 275.1.
    left = payload_eu_kg(3500, 2900, 3)
    assert left == 375
    assert left - least_payload_eu_kg(4, 5.99) == pytest.approx(275.1)
    # With 180 kg of equipment 195 kg are left, more than the least.
    assert payload_eu_kg(3500, 2900 + 180, 3) == 195


def test_running_order_counts_nine_tenths_of_the_fuel():
    # 75 kg of diesel when full: a tenth of it, 7.5 kg, is left out. Driver 75 kg.
    assert running_order_eu_kg(2785, 75, 11, 100) == pytest.approx(2785 - 7.5 + 11 + 100 + 75)


def test_seats_on_the_yellow_label():
    # Four belts ask for 600 lb; the rule gives 150 lb as 68 kg.
    assert least_capacity_us_kg(4) == pytest.approx(4 * 150 * LB_KG, rel=1e-3)
    assert capacity_us_kg(14500 * LB_KG, 13000 * LB_KG) == pytest.approx(1500 * LB_KG)
