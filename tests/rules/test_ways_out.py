"""Remedies name only what a build has, and what could help it."""

import pytest

from engine.build import work_out
from engine.rules import judge
from tests.shops import enquiry, resolver

LONG = {"days_off_grid_d": 30, "months": (12,), "driving_h": 0}


def remedy(code: str, shop: str, options: dict[str, int], **trip: object) -> str:
    """What the rule says helps this build."""
    build = resolver(shop).resolve(enquiry(shop, options=options, **trip))
    return next(f.remedy for f in judge(build, work_out(build)) if f.rule == code)


@pytest.mark.parametrize(
    ("options", "said", "unsaid"),
    [
        ({"lfp-100": 1}, ("Add battery",), ("drive more", "hook up sooner")),
        ({"lfp-100": 1, "shore-charger-60": 1}, ("or hook up sooner.",), ("drive more",)),
        ({}, ("Choose a house battery.",), ("drive more", "hook up", "panels")),
    ],
)
def test_power_s_ways_out_are_those_of_the_build(
    options: dict[str, int], said: tuple[str, ...], unsaid: tuple[str, ...]
) -> None:
    found = remedy("energy-days", "proving-yard", options | {"fridge-12-24": 1}, **LONG)
    assert all(x in found for x in said) and not any(x in found for x in unsaid)
