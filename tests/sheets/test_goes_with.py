"""What an option's row says of the options that must or cannot come along."""

import html
import re

import pytest

from engine.build import work_out
from engine.enquiry.climate import load_places
from engine.rules import judge
from engine.sheets.book import book_of
from engine.sheets.page import answer_fragments
from engine.sheets.view import Scene
from tests.shops import catalogue, enquiry, resolver


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


@pytest.mark.parametrize("shop", ["quillback", "hallamoor"])
def test_what_rules_another_out_is_said_by_both(shop: str) -> None:
    known = catalogue(shop)
    pairs = [(o, x) for s in known.sections for o in s.options for x in o.excludes]
    assert pairs
    for option, x in pairs:
        told = " ".join(line for line in _lines(shop, x.option) if line.startswith("Not with "))
        assert x.because in told and (option.name in told or " more: " in told), (x.option, option.id)


def test_a_bench_that_three_others_rule_out_says_so() -> None:
    assert [line for line in _lines("quillback", "bench-side") if line.startswith("Not with")] == [
        "Not with Facing dinette, makes a bed 74 in by 42 in; Belted dinette, makes a bed 74 in by 48 in; "
        "L-shaped lounge, makes a bed 76 in by 52 in: Both want the same wall."
    ]


def _row(shop: str, options: dict[str, int], option_id: str) -> list[str]:
    known = catalogue(shop)
    asked = enquiry(shop, known.vehicles[0].id, options)
    build = resolver(shop).resolve(asked)
    figures = work_out(build)
    row = answer_fragments(Scene(known, asked, build, figures, judge(build, figures), ""))[f"opt-{option_id}"]
    return [html.unescape(re.sub(r"<[^>]*>", "", line)) for line in re.findall(r'<p class="goes">.*?</p>', row)]


def test_a_chosen_option_names_only_the_needs_that_are_not_met() -> None:
    every = _row("quillback", {}, "panel-200")
    assert [line[:12] for line in every] == ["Needs one of"]
    assert _row("quillback", {"panel-200": 2}, "panel-200") == every
    assert _row("quillback", {"panel-200": 2, "solar-controller-100-30": 1}, "panel-200") == []
    hob = _row("quillback", {}, "hob-gas-2")
    needs = [line for line in hob if line.startswith("Needs ")]
    assert len(needs) >= 2
    met = _row("quillback", {"hob-gas-2": 1, "gas-cylinder-20": 1}, "hob-gas-2")
    assert set(met) < set(hob) and all("20 lb" not in line for line in met if line.startswith("Needs "))
    assert [line for line in met if line.startswith("Not with")] == [x for x in hob if x.startswith("Not with")]


@pytest.mark.parametrize(
    ("shop", "option_id", "vehicle"),
    [
        ("quillback", "insulation-spray-50", "box"),
        ("quillback", "insulation-rubber-25", "box"),
        ("hallamoor", "foam-32", "box-72"),
    ],
)
def test_what_goes_by_area_tells_no_share_of_its_price_where_there_is_none(
    shop: str, option_id: str, vehicle: str
) -> None:
    known = catalogue(shop)
    offers = book_of(known, load_places()[known.workshop.trip.place]).offers(vehicle)
    assert not offers[option_id].fits
    assert re.findall(r"</span> ([^<]*)", offers[option_id].figures)[:2] == ["by area", "by area"]
