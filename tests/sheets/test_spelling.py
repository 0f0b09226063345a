"""Each reader meets one spelling: American with US customary units, British with metric ones."""

import re
import sys
from pathlib import Path

import pytest

from engine.desk import set_scene, start_enquiry
from engine.rules import all_rules
from engine.sheets.page import configurator_html, report_html
from engine.spelling import AMERICAN, TERMS, spelled
from tests.sheets.reading import read_html
from tests.shops import catalogue, enquiry, resolver


def words(html: str) -> set[str]:
    """Every word that is read or read out."""
    text = re.sub(r"<style.*?</style>|<[^>]*>", " ", html, flags=re.DOTALL)
    said = " ".join(re.findall(r'(?:aria-label|title|alt|placeholder)="([^"]*)"', html))
    return set(re.findall(r"[a-z]+", f"{text} {said}".casefold()))


BRITISH = {f"{word}{end}" for word in (*AMERICAN, "honour", "favour", "behaviour", "neighbour") for end in ("", "s")}


@pytest.mark.parametrize(("shop", "foreign"), [("quillback", AMERICAN), ("hallamoor", AMERICAN.values())])
def test_page_and_paper_keep_to_one_spelling(shop, foreign):
    scene = set_scene(resolver(shop), start_enquiry(catalogue(shop)))
    strange = {form for word in foreign for form in (word, f"{word}s", f"centi{word}s", f"milli{word}s")}
    # Words that both spellings have say nothing: a battery meter, a curb on spending.
    strange -= {"curb", "license", "meter", "mold", "tire"}
    for html in (configurator_html(scene), report_html(scene, "")):
        assert len(words(html)) > 500
        assert words(html).intersection(strange) == set()


ROOT = Path(__file__).parents[2]
NOT_CODE = {
    **dict.fromkeys((ROOT / "engine" / "sheets" / "templates").glob("*.jinja"), r"\{#.*?#\}|\{%.*?%\}|\{\{.*?\}\}"),
    **dict.fromkeys((ROOT / "site_build" / "browser").glob("*.js"), r"(?m)^\s*//[^\n]*$"),
}
"""What all workshops' pages are made from, and what of it nobody reads."""


@pytest.mark.parametrize("path", NOT_CODE, ids=lambda p: p.name)
def test_what_both_spellings_share_is_made_of_words_that_both_have(path):
    text = re.sub(NOT_CODE[path], " ", path.read_text(encoding="utf-8"), flags=re.DOTALL)
    if path.suffix == ".js":
        text = " ".join(re.findall(r"""["'`]([^"'`\n]* [^"'`\n]*)["'`]""", text))
    assert words(text).intersection(BRITISH) == set()


def test_a_page_of_the_united_states_uses_its_trade_s_words():
    scene = set_scene(resolver("quillback"), start_enquiry(catalogue("quillback")))
    own = {"socket"}  # words of the workshop itself
    for html in (configurator_html(scene), report_html(scene, "")):
        text = read_html(html).whole_text
        assert "ground-fault device" in text and "Equipment ground to chassis" in text
        for term in TERMS.keys() - own:
            assert not re.search(rf"\b{term}s?\b", text, re.IGNORECASE), term
        assert not re.search(r"\bpitch\b|\d:00", text)
        assert "6 pm" in text or "5 pm" in text


def test_lengths_that_nobody_measured_are_round_in_either_system():
    for shop, spare, aisle in (("quillback", "2 in", "15 in"), ("hallamoor", "0.05 m", "0.4 m")):
        scene = set_scene(resolver(shop), start_enquiry(catalogue(shop)))
        text = read_html(configurator_html(scene)).whole_text
        assert f"Length of a bed beyond the sleeper {spare.replace('0.05 m', '50 mm')}" in text
        assert f"; {aisle} are wanted." in text


def test_placeholders_and_other_words_stay():
    said = "{grey_water_l} of {n:litre|litres}, greyhound"
    assert spelled(said, "us") == "{grey_water_l} of {n:liter|liters}, greyhound"
    assert spelled(said, "metric") == said
    assert spelled("Labour for 3 metres", "us") == "Labor for 3 meters"


BOTH = re.compile(r"(\d+ (?:mm|cm|m|m²|L|kg|°C))\s\(([\d.,]+ (?:in|ft|ft²|gal|lb|°F))\)")


@pytest.mark.parametrize("rule", all_rules(), ids=lambda r: r.code)
def test_a_number_in_both_units_is_told_in_the_reader_s_own(rule):
    for said in (*rule.says.values(), rule.remedy, rule.caution, sys.modules[rule.read.__module__].__doc__ or ""):
        for system, own in (("us", 2), ("metric", 1)):
            told = spelled(said, system)
            assert not BOTH.search(told)
            assert all(found[own] in told for found in BOTH.finditer(said))


@pytest.mark.parametrize(("shop", "foreign"), [("quillback", "mbar|mm|cm|°C"), ("hallamoor", "in w\\.c\\.|psi|ft|°F")])
def test_pages_tell_pipes_gas_and_heat_in_their_reader_s_units(shop, foreign):
    for ready in catalogue(shop).ready:
        scene = set_scene(resolver(shop), enquiry(shop, ready=ready.id))
        text = read_html(report_html(scene, "")).whole_text
        # American cable is sold by its insulation's 105 °C, and laws are cited in their own units.
        strange = re.findall(rf"[^.]*\d ?(?:{foreign})\b(?! insulation)[^.]*", text)
        assert strange == []
        assert ("¼ cup of plain unscented" in text) == (shop == "quillback")
        if shop == "quillback" and any(f.rule == "gas-pressure" for f in scene.findings):
            assert "gas regulator gives 11 in w.c." in text


def test_each_reader_meets_his_own_of_two_units():
    said = "18 cm (7 in) of the post, 1 m (40 in) where sheathed, 2,000 m (6,500 ft), 1 kg/L (8.3 lb/gal)"
    us = "7 in of the post, 40 in where sheathed, 6,500 ft, 8.3 lb/gal"
    assert (spelled(said, "us"), spelled(said, "metric")) == (us, re.sub(r" \([^)]*\)", "", said))
