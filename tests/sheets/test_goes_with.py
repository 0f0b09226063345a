"""What an option's row says of the options that must or cannot come along."""

import html
import re

import pytest

from engine.enquiry.climate import load_places
from engine.sheets.book import book_of
from tests.shops import catalogue


def _lines(shop: str, option_id: str) -> list[str]:
    known = catalogue(shop)
    book = book_of(known, load_places()[known.workshop.trip.place])
    body = book.offers(known.vehicles[0].id)[option_id].body
    return [html.unescape(re.sub(r"<[^>]*>", "", line)) for line in re.findall(r'<p class="goes">.*?</p>', body)]


@pytest.mark.parametrize("shop", ["quillback", "hallamoor"])
def test_a_reason_stands_once_with_all_that_it_speaks_of(shop: str) -> None:
    known = catalogue(shop)
    seen = 0
    for option in (o for s in known.sections for o in s.options):
        lines = _lines(shop, option.id)
        for sort, links in (("Needs ", option.requires), ("Not with ", option.excludes)):
            for why in {x.because for x in links}:
                told = [line for line in lines if line.startswith(sort) and line.endswith(": " + why)]
                assert len(told) == 1, (option.id, why)
                together = [x.option for x in links if x.because == why]
                for other in together[:3]:
                    assert known.options_by_id[other][1].name in told[0]
                seen += len(together) > 1
    assert seen, f"no option of {shop} has one reason for two others; this test sees nothing"


def test_names_with_commas_of_their_own_are_told_apart_by_semicolons() -> None:
    needs = next(line for line in _lines("quillback", "panel-200") if line.startswith("Needs one of"))
    assert needs.count(";") == 2 and " and 1 more: " in needs
