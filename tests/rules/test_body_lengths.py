"""A body that lacks less than a fit-out is built to lacks nothing; more is told."""

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
