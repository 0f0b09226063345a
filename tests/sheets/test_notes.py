"""A note says all that a finding knows, and stands where it belongs."""

import pytest

from engine.rule import Fact, Finding
from engine.sheets.book import book_of
from engine.sheets.notes import PRICE, TRIP, VEHICLE, fact_text, place
from tests.sheets.reading import read_html

FINDING = Finding(
    rule="rear-axle-load",
    title="Rear axle within its rating",
    topic="mass",
    category="legal",
    verdict="fails",
    measured=2028.0,
    low=None,
    high=None,
    limit=2000.0,
    unit="kg",
    margin=-28.0,
    cause="Rear axle is 28 kg over: 2,028 kg on a rating of 2,000 kg.",
    remedy="Move load ahead of the rear axle.",
    options=(),
    offers="",
    facts=(
        Fact("load on the rear axle", 2028.0, "kg", "computed"),
        Fact("rear axle rating", 2000.0, "kg", "catalogue"),
        Fact("child's mass", 40.0, "kg", "assumed"),
    ),
    because=(),
    sources=("Statics, balance of moments, any mechanics text",),
)


@pytest.fixture
def book(stages):
    stage = stages("hallamoor")
    return book_of(stage.catalogue, stage.scene().build.climate)


def test_a_note_in_words(book):
    note = read_html(place((FINDING,), book, handbook=True).heads[VEHICLE].html)
    assert note.whole_text == (
        "✕ fails Rear axle within its rating. Rear axle is 28 kg over: 2,028 kg on a rating of 2,000 kg. "
        "Move load ahead of the rear axle. How we know load on the rear axle 2,028 kg worked out "
        "rear axle rating 2,000 kg catalogue child's mass 40 kg assumed "
        "Source: Statics, balance of moments, any mechanics text. "
        "Only a weighbridge tells true masses and axle loads. An overloaded axle is unsafe and against the law. "
        "Handbook: how this is worked out"
    )
    assert note.all("a")[0].get("href") == "../handbook/rear-axle-load/"


def test_without_a_handbook_there_is_no_link_to_it(book):
    assert not read_html(place((FINDING,), book, handbook=False).heads[VEHICLE].html).all("a")


@pytest.mark.parametrize(
    ("change", "head"),
    [
        ({}, VEHICLE),
        ({"topic": "money"}, PRICE),
        ({"topic": "water"}, TRIP),
        ({"topic": "water", "offers": "fresh-tank"}, "water"),
        ({"options": ("long-gone",)}, "left-out"),
    ],
)
def test_a_finding_without_a_choice_stands_with_its_subject(book, change, head):
    placed = place((FINDING._replace(**change),), book, handbook=True)
    assert list(placed.heads) == [head]
    assert placed.heads[head].verdict == "fails"


def test_other_options_point_to_the_note_once(book):
    chapter = next(c for c in book.chapters if len(c.options) > 3)
    finding = FINDING._replace(options=chapter.options[:3])
    placed = place((finding, finding), book, handbook=True)
    for option_id in chapter.options[1:3]:
        pointers = read_html(placed.beside[option_id].html).of_class("pointer")
        assert [p.all("a")[0].get("href") for p in pointers] == ["#note-rear-axle-load"]
    notes = read_html(placed.beside[chapter.options[0]].html).of_class("note")
    assert [n.get("id") for n in notes] == ["note-rear-axle-load", "note-rear-axle-load-2"]


def test_cautions_of_fine_checks_are_shown_too(book):
    option = next(iter(book.chapter_of))
    placed = place((FINDING._replace(verdict="ok", options=(option,)),), book, handbook=True)
    assert placed.cautions[book.chapter_of[option].id] == book.cautions["rear-axle-load"]


@pytest.mark.parametrize(
    ("value", "unit", "said"),
    [
        (True, None, "yes"),
        (False, None, "no"),
        ("Kitchen block", None, "Kitchen block"),
        (100.0, "kg", "220 lb"),
        (0.035, "w_mk", "0.243 BTU·in/h·ft²·°F"),
        (32.0, "kg_m3", "32 kg/m³"),
        (-0.003, "frac_k", "−0.003 1/K"),
        (4.0, None, "4"),
        (90000.0, None, "90,000"),
        (217261.2, "money", "$217,261"),
    ],
)
def test_facts_are_shown_in_the_readers_units(value, unit, said):
    assert fact_text(Fact("it", value, unit, "catalogue"), "us", "USD") == said


def test_a_small_length_keeps_its_figures():
    assert fact_text(Fact("bore", 0.008, "m", "assumed"), "metric", "EUR") == "8 mm"
    assert fact_text(Fact("room", 1.85, "m", "assumed"), "metric", "EUR") == "1.85 m"
    assert fact_text(Fact("to spare", 0.05, "m", "assumed"), "us", "USD") == "1.97 in"


def test_what_several_cautions_have_in_common_is_said_once(book):
    option = next(iter(book.chapter_of))
    codes = ("rear-axle-load", "gross-mass", "steer-axle-share", "tyre-load")
    placed = place(tuple(FINDING._replace(rule=c, options=(option,)) for c in codes), book, handbook=True)
    said = placed.cautions[book.chapter_of[option].id]
    assert said == (
        "Only a weighbridge tells true masses and axle loads. An overloaded axle is unsafe and against the law. "
        "Ratings, licences and approvals are law: check with your authority. An overloaded tyre runs hot and bursts."
    )


def test_no_chapter_warns_twice_of_one_thing(stage):
    heavy = stage.with_trip(adults=7, children=6, baggage_kg=1200.0, nose_kg=100.0)
    placed = place(heavy.findings, book_of(stage.catalogue, heavy.build.climate), handbook=True)
    assert placed.cautions
    for said in placed.cautions.values():
        assert said.count("weighbridge") <= 1 and said.count("authority") <= 1 and said.count("monoxide kills") <= 1


def test_what_several_rules_do_not_know_is_told_once_at_its_place(book):
    """A part without a mass leaves five checks open: one note beside it, and a line for each of the others."""
    part = next(iter(book.chapter_of))
    lacking = FINDING._replace(verdict="unknown", cause="Not known: mass of it.", remedy="Weigh it.", options=(part,))
    asked = tuple(
        lacking._replace(rule=rule, title=rule) for rule in ("gross-mass", "front-axle-load", "rear-axle-load")
    )
    other = lacking._replace(rule="tyre-load", title="tyre-load", cause="Not known: its tyres.")
    placed = place((*asked, other), book, handbook=True)
    margin = read_html(placed.beside[part].html)
    assert [note.get("id") for note in margin.all("aside")] == ["note-gross-mass", "note-tyre-load"]
    pointers = [a for a in margin.all("a") if a.get("href") == "#note-gross-mass"]
    assert [p.whole_text for p in pointers] == ["? not known front-axle-load", "? not known rear-axle-load"]
    assert [anchor for _, anchor in placed.told] == ["note-gross-mass"] * 3 + ["note-tyre-load"]
    assert placed.anchors["rear-axle-load"] == "note-gross-mass" and placed.beside[part].verdict == "unknown"
