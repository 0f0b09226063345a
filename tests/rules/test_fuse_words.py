"""What is said of stated fuses can be done: no range that ends below its beginning."""

import pytest

from engine.rules.fuse_size import RULE
from engine.saying import say

INVERTER = {"circuit": "Inverter 2 kW", "share_a": 206.6, "wanted_a": 236.7, "options": ()}


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (
            {"cable": "4 AWG", "fuse_a": 250, "carries_a": 160},
            "Inverter 2 kW: the fuse is 250 A. The load takes 207 A and 4 AWG carries 160 A, so no fuse suits both.",
        ),
        (
            {"cable": "2/0 AWG", "fuse_a": 20, "carries_a": 330},
            "Inverter 2 kW: the fuse is 20 A, and it must be between 207 A for the load and 330 A for 2/0 AWG.",
        ),
        (
            {"cable": "3/0 AWG", "fuse_a": 225, "carries_a": 206.6},
            "Inverter 2 kW: the fuse is 225 A, and it must be between 207 A for the load and 207 A for 3/0 AWG.",
        ),
    ],
)
def test_a_range_for_a_fuse_is_told_only_where_there_is_one(more: dict[str, object], said: str) -> None:
    found = say(RULE, RULE.inputs.model_validate(INVERTER | more), "us", "USD")
    assert found.verdict == "fails" and found.cause == said
