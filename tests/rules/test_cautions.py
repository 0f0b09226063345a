"""What can hurt somebody says so, in the words of its neighbours."""

import pytest

from engine.rules import all_rules

RULES = {r.code: r for r in all_rules()}
SCALE = "Only a weighbridge tells true masses and axle loads."
SUN = "Never leave people or animals in a shut vehicle in the sun."
PROP = "A bed that comes down hurts heads and hands. Prop it before you work under it, and renew tired struts in pairs."


@pytest.mark.parametrize(
    ("code", "says"),
    [
        ("hot-day", SUN), ("cooling-day", SUN), ("cooling-day", "once its power is gone"),
        ("strut-force", PROP), ("strut-stroke", PROP), ("strut-hand-force", PROP), ("strut-shut", "springs open"),
        ("full-tanks", "Ratings, licences and approvals are law: check with your authority."),
        ("static-stability", "tips over sooner"),
        ("heater-too-large", "Carbon monoxide kills, and an alarm is a must."),
    ],
)  # fmt: skip
def test_a_danger_is_named_with_its_cure(code: str, says: str) -> None:
    assert says in RULES[code].caution


def test_whatever_is_made_of_masses_sends_to_the_scale() -> None:
    made = {r.code for r in RULES.values() if r.topic == "mass"} - {"driving-licence", "height-notice", "vehicle-size"}
    assert made
    assert {code for code in made if SCALE not in RULES[code].caution} == set()


def test_every_safety_and_legal_check_has_a_caution() -> None:
    lacking = {r.code for r in RULES.values() if r.category in ("safety", "legal") and not r.caution}
    # Where waste water goes is law, and hurts nobody aboard.
    assert lacking == {"waste-water-kept"}
