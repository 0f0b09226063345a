"""Load indices against printed tables, and against the rule they follow."""

import pytest

from engine.physics.ranges import OutOfRangeError
from engine.physics.tyre import FIRST_INDEX, LAST_INDEX, Marking, axle_end_kg, marking, tyre_kg

PRINTED = {
    84: 500, 88: 560, 91: 615, 95: 690, 98: 750, 100: 800, 102: 850, 104: 900, 106: 950, 108: 1000, 109: 1030,
    110: 1060, 111: 1090, 112: 1120, 113: 1150, 114: 1180, 115: 1215, 116: 1250, 117: 1285, 118: 1320, 119: 1360,
    120: 1400, 121: 1450, 122: 1500, 124: 1600, 126: 1700, 128: 1800, 132: 2000, 136: 2240, 142: 2650, 150: 3350,
}  # fmt: skip
"""Kilograms per tyre, copied from tables that tyre makers and dealers print."""


@pytest.mark.parametrize(("index", "kg"), PRINTED.items())
def test_the_table_is_the_printed_one(index, kg):
    assert tyre_kg(index) == kg


def test_the_table_follows_its_rule():
    # Steps of a preferred-number series: 80 of them are a factor of ten. Rounding keeps it within 2 per cent.
    for index in range(FIRST_INDEX, LAST_INDEX + 1):
        assert tyre_kg(index) == pytest.approx(45 * 10 ** (index / 80), rel=0.02)
    steps = [tyre_kg(i + 1) - tyre_kg(i) for i in range(FIRST_INDEX, LAST_INDEX)]
    assert min(steps) > 0


@pytest.mark.parametrize("index", [0, 74, 151, 279])
def test_outside_the_table_nothing_is_guessed(index):
    with pytest.raises(OutOfRangeError, match="load index"):
        tyre_kg(index)


def test_twin_wheels_carry_twice_the_second_index():
    assert marking("121/119") == Marking(121, 119)
    assert marking("104") == Marking(104, None)
    assert axle_end_kg(marking("121/119"), twin=False) == 1450
    assert axle_end_kg(marking("121/119"), twin=True) == 2 * 1360
    with pytest.raises(ValueError, match="second load index"):
        axle_end_kg(marking("121"), twin=True)


@pytest.mark.parametrize("text", ["", "heavy", "121/", "/119", "121//119"])
def test_what_is_no_load_index_raises(text):
    with pytest.raises(ValueError):
        marking(text)
