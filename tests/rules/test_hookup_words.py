"""What a hook-up's note says agrees with what a reader works out."""

import re

import pytest

from engine.rule import Example
from engine.rules.shore_supply import RULE
from engine.saying import say
from engine.units import System

NOTES = [e for e in RULE.examples() if e.verdict == "note"]


@pytest.mark.parametrize("example", NOTES, ids=lambda e: e.note)
def test_what_is_left_for_the_charger_follows_from_the_amps_told(example: Example) -> None:
    system: System = "us" if example.region == "us" else "metric"
    cause = say(RULE, RULE.inputs.model_validate(dict(example.inputs)), system, "USD").cause
    told = re.search(r"The breaker carries ([\d.]+) A(?:, for hours 80 % of that, which is ([\d.]+) A)?: ", cause)
    assert told and bool(told[2]) == (example.region == "us")
    bears_a, mains_v = float(told[2] or told[1]), 120 if told[2] else 230
    left = re.search(r"turn the charger down to ([\d.]+) A", cause)
    assert left
    assert float(left[1]) == pytest.approx((bears_a - example.inputs["loads_a"]) * mains_v * 0.9 / 14.4, abs=0.51)
