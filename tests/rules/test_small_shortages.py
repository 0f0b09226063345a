"""A body that lacks less than a fit-out is built to lacks nothing, and a supply that lacks less than habits differ is
tight; more is told."""

import pytest

from engine.rules import all_rules

BY_CODE = {r.code: r for r in all_rules()}
CASES = {
    "standing-headroom": ({"bare_m": 2.0, "wanted_m": 1.8}, "taken_m", 0.2, 1, ("ok", "tight")),
    "bed-width": ({"room_m": 1.7, "sleepers_count": 2}, "mattress_m", 1.2, -1, ("ok", "fails")),
    "bed-headroom": ({"tallest_m": 1.8}, "room_m", 0.936, -1, ("ok", "note")),
}


@pytest.mark.parametrize("code", CASES)
def test_a_shortage_counts_from_five_millimetres_on(code):
    values, field, at, toward, (calm, told) = CASES[code]
    rule = BY_CODE[code]

    def verdict(short_m):
        asked = values | {"name": "It", field: at + toward * short_m}
        return rule.judge(rule.inputs.model_validate(asked)).verdict()

    assert [verdict(s) for s in (0, 0.0005, 0.0049, 0.006, 0.02)] == [calm, calm, calm, told, told]


DAYS = {
    "fresh-water-days": ({"use_l": 25, "shower_l": 9, "wanted_d": 4}, "tank_l", 25.0),
    "grey-water-days": ({"waste_l": 20, "left_l": 0, "wanted_d": 4}, "tank_l", 20.0),
    "heater-fuel-days": ({"burnt_for": "Heating", "use_l": 4, "half_tank_l": 32.0, "wanted_d": 4}, "available_d", 1.0),
}


@pytest.mark.parametrize("code", DAYS)
def test_a_supply_that_is_short_by_less_than_habits_differ_is_tight(code):
    values, field, each = DAYS[code]
    rule = BY_CODE[code]

    def verdict(days):
        return rule.judge(rule.inputs.model_validate(values | {field: each * days})).verdict()

    assert [verdict(d) for d in (8, 4, 3.9, 3.8, 3.79, 3)] == ["ok", "tight", "tight", "tight", "fails", "fails"]
