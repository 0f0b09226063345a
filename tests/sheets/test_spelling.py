"""Each reader meets one spelling: American with US customary units, British with metric ones."""

import re

import pytest

from engine.desk import set_scene, start_enquiry
from engine.sheets.page import configurator_html, report_html
from engine.spelling import AMERICAN, spelled
from tests.shops import catalogue, resolver


def words(html: str) -> set[str]:
    """Every word that is read or read out."""
    text = re.sub(r"<style.*?</style>|<[^>]*>", " ", html, flags=re.DOTALL)
    said = " ".join(re.findall(r'(?:aria-label|title|alt|placeholder)="([^"]*)"', html))
    return set(re.findall(r"[a-z]+", f"{text} {said}".casefold()))


@pytest.mark.parametrize(("shop", "foreign"), [("quillback", AMERICAN), ("hallamoor", AMERICAN.values())])
def test_page_and_paper_keep_to_one_spelling(shop, foreign):
    scene = set_scene(resolver(shop), start_enquiry(catalogue(shop)))
    strange = {form for word in foreign for form in (word, f"{word}s", f"centi{word}s", f"milli{word}s")}
    # Words that both spellings have say nothing: a battery meter, a curb on spending.
    strange -= {"curb", "license", "meter", "mold", "tire"}
    for html in (configurator_html(scene), report_html(scene, "")):
        assert len(words(html)) > 500
        assert words(html).intersection(strange) == set()


def test_placeholders_and_other_words_stay():
    said = "{grey_water_l} of {n:litre|litres}, greyhound"
    assert spelled(said, "us") == "{grey_water_l} of {n:liter|liters}, greyhound"
    assert spelled(said, "metric") == said
    assert spelled("Labour for 3 metres", "us") == "Labor for 3 meters"
