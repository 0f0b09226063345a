"""What is said of a trip, in its sentence and in what it asks of a build."""

import pytest

from engine.desk import ready_enquiry
from engine.sheets.page import fragments
from engine.sheets.trip import asked, month_words, places, summary
from site_build.pages.ready import ready_pages


def test_the_sentence_names_everybody_and_every_month(stages):
    said = summary(stages("quillback").with_trip(adults=2, children=1, pets=2, place="denver", months=(2, 3)))
    assert said.startswith("2 grown-ups, 1 child, 2 pets; Denver in February and March; ")
    alone = summary(stages("quillback").with_trip(adults=1, children=0, pets=0, months=(7,)))
    assert alone.startswith("1 grown-up; ") and "child" not in alone and "pet" not in alone


@pytest.mark.parametrize(
    ("months", "said"),
    [
        ((7,), "July"),
        ((12, 1), "December and January"),
        ((1, 12, 11, 10), "October to January"),
        ((1, 2, 3, 6, 9, 10), "January to March, June, September and October"),
        (tuple(range(2, 13)), "February to December"),
        (tuple(range(1, 13)), "every month"),
    ],
)
def test_months_are_said_as_stretches(months, said):
    assert month_words(months) == said


def test_the_sentence_says_what_energy_and_water_rest_on(stage):
    said = summary(
        stage.with_trip(
            driving_h=2, showers_per_day=1, shower_minutes=2.5, hot_meals_per_day=0, computer_h=3, cooling=True,
            boxes=({"name": "crate", "length_m": 0.6, "width_m": 0.4, "height_m": 0.3, "count": 2},),
        )
    )  # fmt: skip
    assert "2 h of driving a day, 1 shower of 2.5 min each a day, no cooked meals a day, " in said
    assert "3 h of computers a day, air conditioning on hot days; " in said
    assert "2 bulky things; " in said


def test_a_finished_vehicles_page_names_the_whole_trip(stage):
    pages = ready_pages(stage.catalogue, stage.resolver)
    for ready in stage.catalogue.ready:
        said = summary(stage.scene(ready_enquiry(stage.catalogue, ready)))
        assert said in pages[f"ready/{ready.id}.md"].replace("\\", "")


@pytest.mark.parametrize(("place", "month", "name"), [
    ("tucson", 7, "Diesel for hot water"), ("helsinki", 1, "Diesel for heat"),
])  # fmt: skip
def test_diesel_in_summer_is_hot_water(stages, place, month, name):
    stage = stages("quillback")
    start = next(r for r in stage.catalogue.ready if r.id == "long-winter-box")
    scene = stage.with_trip(place=place, months=(month,))
    chosen = scene.enquiry.model_copy(update={"vehicle": start.vehicle, "options": dict(start.options)})
    lines = {line.name: line for line in asked(stage.scene(chosen))}
    assert {n for n in lines if n.startswith("Diesel")} == {name}
    assert (lines[name].have == "more than a year") == (month == 7)


@pytest.mark.parametrize(("name", "said"), [
    ("quillback", "150 lb (49 CFR 567.4(g)(3)); state yours in the trip"),
    ("hallamoor", "75 kg (Regulation (EU) 1230/2012); state yours in the trip"),
])  # fmt: skip
def test_the_laws_grown_up_is_told_with_its_source_until_the_trip_states_one(stages, name, said):
    stage = stages(name)
    usual, own = stage.scene(), stage.with_trip(adult_kg=90)
    assert f"<dt>Mass of a grown-up</dt><dd>{said}" in fragments(usual)["assumed"]
    assert "Mass of a grown-up" not in fragments(own)["assumed"]
    assert " of 90 kg" in summary(own) or " of 198 lb" in summary(own)
    assert "grown-ups;" in summary(usual) or "grown-ups," in summary(usual)


def test_places_stand_with_their_country():
    told = places(
        (
            ("denver", "Denver", "Colorado, USA"),
            ("northway", "Northway", "Alaska interior, USA"),
            ("seville", "Seville", "Spain"),
            ("boston", "Boston", "Massachusetts, USA"),
        )
    )
    assert told == (
        ("Spain", (("seville", "Seville"),)),
        (
            "USA",
            (
                ("boston", "Boston, Massachusetts"),
                ("denver", "Denver, Colorado"),
                ("northway", "Northway, Alaska interior"),
            ),
        ),
    )
