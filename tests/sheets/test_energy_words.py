"""What the page says of a day by the hour and of years in which the battery runs empty."""

import re

import pytest

from engine.desk import set_scene
from engine.sheets.bar import cells, verdicts_by_rule
from engine.sheets.energy import energy
from tests.shops import enquiry, resolver


def said(part: str, **trip: object) -> str:
    """One part's words for a van that stands still with one panel."""
    options = {"lfp-230": 1, "panel-200": 1, "mppt-100-40": 1, "fridge-150": 1, "laptop-supply": 1, "board-12v": 1}
    html = energy(set_scene(resolver("hallamoor"), enquiry("hallamoor", "van-35", options, **trip, driving_h=0)))[part]
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", str(html)))


@pytest.fixture(scope="module")
def dark() -> dict[str, object]:
    """A northern winter at a desk, months long."""
    return {"months": (12,), "place": "aberdeen", "computer_h": 10, "days_off_grid_d": 30}


def test_a_day_on_an_empty_battery_says_what_goes_missing(dark) -> None:
    words = said("energy-hours", **dark)
    missing = re.search(r"loads ([\d,.]+) k?Wh, ([\d,.]+) (k?Wh) more wanted of an empty battery", words)
    assert missing is not None and "takes no more" not in words
    years = said("energy-words", **dark)
    assert re.search(r"In every year the battery runs empty, in half of them within \d+(\.\d)? days\.", years)


def test_a_day_on_a_full_battery_wants_nothing_more() -> None:
    words = said("energy-hours", months=(6,), place="london", computer_h=1)
    assert "wanted" not in words and "a full battery takes no more" in words
    assert "In none of" in said("energy-words", months=(6,), place="london", computer_h=1)


@pytest.mark.parametrize(("charger", "mark"), [({}, "fails"), ({"hookup": 1, "hookup-charger-30": 1}, "ok")])
def test_days_off_grid_are_no_comfort_where_nothing_fills_the_battery(charger: dict[str, int], mark: str) -> None:
    options = {"lfp-230": 1, "fridge-85": 1, "board-12v": 1} | charger
    asked = enquiry("hallamoor", "van-35", options, months=(12,), driving_h=0, days_off_grid_d=1)
    scene = set_scene(resolver("hallamoor"), asked)
    days = next(c for c in cells(scene, verdicts_by_rule(scene.findings), {}) if c.key == "days")
    assert days.mark.css == mark
