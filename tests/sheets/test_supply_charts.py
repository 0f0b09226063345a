"""Charts of water and gas say what the figures say, and stand in their chapters on page and paper."""

import re

import pytest

from engine.build.supplies import Level
from engine.sheets.charts.kit import RIGHT, WIDTH
from engine.sheets.charts.supplies import gas, water
from engine.sheets.page import answer_fragments, configurator_html, fragments, report_html
from engine.units import show
from tests.sheets.reading import read_html

FRESH = Level("Fresh water", 100.0, 4.0, 3.0, 5.0, False)
WASTE = Level("Waste water", 80.0, 2.0, 1.5, 2.5, True)
GAS = Level("Gas", 11.0, 6.0, 5.0, 8.0, False)


def _lines(svg: str) -> list[list[tuple[float, float]]]:
    return [
        [(float(x), float(y)) for x, y in (p.split() for p in d.split("L"))]
        for d in re.findall(r'<path class="line" d="M([^"]+)"', svg)
    ]


def test_lines_bend_where_tanks_run_out_or_fill_up() -> None:
    fresh, waste = _lines(water((FRESH, WASTE), 4.0, "metric"))
    end, left = WIDTH - RIGHT, 8.0  # five days from left to right
    assert fresh[1][0] == pytest.approx(left + 4 / 5 * (end - left), abs=0.1)
    assert waste[1][0] == pytest.approx(left + 2 / 5 * (end - left), abs=0.1)
    assert fresh[0][1] < fresh[1][1] and waste[0][1] > waste[1][1]


def test_days_that_do_not_suffice_are_marked() -> None:
    svg = water((FRESH, WASTE), 4.0, "metric")
    assert svg.count('class="wanted"') == 1 and svg.count('class="over"') == 1
    text = read_html(svg).by_id("water-course-d").text
    assert "Waste water, 80 L: full after 2 days (1.5 to 2.5)" in text and "4 days wanted" in text


def test_every_month_of_gas_is_told() -> None:
    svg = gas(GAS, (2.0, 3.0, 4.0, 5.0, 6.0, None, None, 120.0, 6.0, 5.0, 4.0, 3.0), 3.0, (1, 2), "us")
    text = read_html(svg).by_id("gas-course-d").text
    assert "January 2 days" in text and "June none burnt" in text and show(11.0, "kg", "us") in text
    assert svg.count('class="load"') == 2 and svg.count('class="load tint-3"') == 8
    for y, h in re.findall(r'<rect class="load[^"]*" x="[\d.]+" y="([\d.]+)" width="[\d.]+" height="([\d.]+)"', svg):
        assert float(y) > 0 and float(h) <= 70.1


def test_charts_come_after_the_answer_and_stand_on_page_and_paper(stage) -> None:
    scene = stage.scene()
    parts = fragments(scene)
    names = ("water-course", "gas-course")
    assert set(names) <= parts.keys() and not set(names) & answer_fragments(scene).keys()
    for name in names:
        for html in (configurator_html(scene), report_html(scene, "")):
            assert html.count(f'id="{name}"') == 1
    bare = fragments(stage.scene(stage.start.model_copy(update={"options": {}})))
    assert bare.keys() == parts.keys() and "svg" not in bare["water-course"] + bare["gas-course"]


def test_care_of_water_is_open_on_paper_and_folded_on_the_page(stage) -> None:
    scene = stage.scene()
    page, paper = configurator_html(scene), report_html(scene, "")
    assert page.count('<details class="know" id="water-care">') == 1
    assert paper.count('<details class="know" id="water-care" open>') == 1
    # A quarter cup (59.1 mL) of 5 % bleach in 15 gal (56.8 L): the dose for each litre, and 50 mg/L.
    assert pytest.approx(1.0, abs=0.05) == 236.588 / 4 / (15 * 3.785411784)
    us = scene.build.workshop.units == "us"
    dose = (
        "¼ cup of plain unscented 5 % bleach for each 15 gal" if us else "1 mL of plain unscented 5 % bleach for each L"
    )
    assert dose in paper
