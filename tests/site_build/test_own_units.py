"""A workshop's readers get one system of units: in findings, and on every page of the handbook."""

import re

import pytest

from engine.desk import ready_enquiry, set_scene
from engine.rules import all_rules
from engine.units import System
from site_build.pages.own_units import formula_of, in_own_units
from site_build.pages.rules import handbook_pages
from tests.shops import catalogue, resolver

NUMBER = r"(?<![\w.])[−-]?[\d.,]*\d "
FOREIGN = {
    "us": re.compile(
        NUMBER + r"(?:°C|K|k?g|g/m²|[cm]?m[²³]?|km|m³/h|[Ll]it(?:er|re)s?|L(?:/min|/h)?|m?bar|kPa|N|W/K|kWh of heat)"
        r"(?![\w/·°²³-])|(?i:\b(?:centi|milli)?met(?:er|re)s?\b|\blit(?:er|re)s?\b|\bkilograms?\b)"
    ),
    "metric": re.compile(
        NUMBER + r"(?:°F|lbf?|oz(?:/ft²)?|ft[²³]?(?:/min)?|in²|in w\.c\.|gal(?:/min)?|BTU(?:/h)?|psi|AWG"
        r"|in(?= (?:of|over|less|more|wide|long|short)\b|[.,;:)]))(?![\w/·°²³-])"
    ),
}
TRADE = re.compile(r"\d+ °C insulation|insulation for \d+ °C")
"""Cable is sold by its insulation's temperature in °C everywhere."""

SHOPS: tuple[tuple[str, System, str], ...] = (("quillback", "us", "us"), ("hallamoor", "metric", "uk"))


def foreign(words: str, system: System) -> list[str]:
    return FOREIGN[system].findall(TRADE.sub("", words))


@pytest.mark.parametrize(("shop", "system", "region"), SHOPS)
def test_no_finding_of_a_finished_vehicle_has_other_units(shop: str, system: System, region: str) -> None:
    shown = catalogue(shop)
    told = 0
    for ready in shown.ready:
        enquiry = ready_enquiry(shown, ready)
        for months in ((1,), (7,), enquiry.trip.months):
            trip = enquiry.trip.model_copy(update={"months": months, "cooling": True})
            for f in set_scene(resolver(shop), enquiry.model_copy(update={"trip": trip})).findings:
                told += 1
                for words in (f.title, f.cause, f.remedy, *(str(fact.value) for fact in f.facts)):
                    assert not foreign(words, system), (ready.id, f.rule, words)
    assert told > 500


@pytest.mark.parametrize(("system", "region"), [("us", "us"), ("metric", "uk"), ("metric", "eu"), ("metric", "au")])
def test_no_page_of_the_handbook_has_other_units(system: System, region: str) -> None:
    for name, page in handbook_pages(all_rules(), system, "USD", region).items():
        before, _, rest = page.replace("\\", "").partition("## Sources")[0].partition("## Formula")
        words = before + rest.partition("## What goes in")[2]
        assert not foreign(words, system), (name, foreign(words, system), words)


def formula_on(code: str, system: System, region: str) -> str:
    page = handbook_pages(all_rules(), system, "USD", region)[f"handbook/{code}.md"].replace("\\", "")
    return page.partition("## Formula")[2].partition("## What goes in")[0]


def test_a_page_says_once_that_its_formula_is_in_si_and_tells_its_figures() -> None:
    us = formula_on("bed-width", "us", "us")
    assert "≥ 0.60 m" in us and "The formula is in SI units: 0.60 m is 23.6 in." in us
    assert "SI units" not in formula_on("bed-width", "metric", "uk")
    assert "120 kg is 265 lb; 30 kg is 66 lb." in formula_on("step-rating", "us", "us")
    assert "0 °C is 32 °F" in formula_on("tank-heater", "us", "us")
    assert "a difference of 28 K is 50.4 °F" in formula_on("shower-hot", "us", "us")
    assert "SI units." in formula_on("gas-regulator", "us", "us")
    assert "SI units" not in formula_on("berths", "us", "us")


def test_a_formula_has_the_region_s_own_distance() -> None:
    us, uk = (formula_on("flue-clearance", s, r) for s, r in (("us", "us"), ("metric", "uk")))
    assert "3 ft to a filler" in us and "0.5 m" not in us and "United States" not in us
    assert "0.5 m to a filler" in uk and "3 ft" not in uk
    assert formula_of("0.43 m · 0.60 m (United States 17 in · 24 in)", "us", "us") == ("17 in · 24 in", "")


@pytest.mark.parametrize(
    ("words", "us"),
    [
        ("28 kg over", "62 lb over"),
        ("five panels at −20 °C", "five panels at −4 °F"),
        ("3,500 kg and 1 N short", "7,716 lb and 0.225 lbf short"),
        ("46 mm a side", "1.81 in a side"),
        ("19 m³/h of 25 m³/h", "11.2 ft³/min of 14.7 ft³/min"),
        ("1,950 L (69 ft³) for 100 kg", "69 ft³ for 220 lb"),
        ("a 2 kW (6,820 BTU/h) heater", "a 6,820 BTU/h heater"),
        ("105 °C insulation, insulation for 60 °C", "105 °C insulation, insulation for 60 °C"),
        ("230 V, 2 kW, 15 kWh, 6 mm², 12 AWG", "230 V, 2 kW, 15 kWh, 6 mm², 12 AWG"),
    ],
)
def test_words_in_customary_units(words: str, us: str) -> None:
    assert in_own_units(words, "us") == us


@pytest.mark.parametrize(
    ("words", "metric"),
    [
        ("8,737 lb on a rating of 8,600 lb", "3,963 kg on a rating of 3,901 kg"),
        ("272 in of furniture alone in 280 in: ok", "6.91 m of furniture alone in 7.11 m: ok"),
        ("exactly 85 °F", "exactly 29.4 °C"),
        ("3 in parallel, 2 in series, 15 A in each", "3 in parallel, 2 in series, 15 A in each"),
        ("a 6,000 BTU/h heater", "a 1.76 kW heater"),
    ],
)
def test_words_in_metric_units(words: str, metric: str) -> None:
    assert in_own_units(words, "metric") == metric
