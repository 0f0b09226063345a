"""Files and links give back exactly the enquiry they were made from."""

import json
import string
import timeit
from decimal import Decimal

import pytest
from hypothesis import given

from engine.catalogue.trip import CargoBox
from engine.enquiry import Enquiry, Trip
from engine.enquiry.door import EnquiryProblems, check_enquiry, from_link, read_enquiry, to_link, write_enquiry
from engine.enquiry.file import plain
from engine.enquiry.model import Move
from tests.strategies import enquiries

TRIP = Trip(place="denver", months=(12, 1, 2), budget=Decimal("45000.50"))
ENQUIRY = Enquiry(
    workshop="quillback",
    vehicle="long-van",
    options={"solar-200": 3, "battery-300": 1, "no-longer-sold": 2},
    trip=TRIP,
    title="Ours, with Ä and 🚐",
    catalogue_dated="2031-05-04",
)


@given(enquiries())
def test_a_file_gives_back_its_enquiry(enquiry):
    assert read_enquiry(write_enquiry(enquiry)) == enquiry


@given(enquiries())
def test_a_link_gives_back_its_enquiry(enquiry):
    assert from_link(to_link(enquiry)) == enquiry


@given(enquiries())
def test_plain_values_give_back_their_enquiry(enquiry):
    assert check_enquiry(json.loads(json.dumps(plain(enquiry)))) == enquiry


@given(enquiries())
def test_a_link_needs_no_escaping_in_an_address(enquiry):
    assert set(to_link(enquiry)) <= set(string.ascii_letters + string.digits + "-_")


def test_the_order_of_choices_leaves_no_trace():
    turned = ENQUIRY.model_copy(update={"options": dict(reversed(ENQUIRY.options.items()))})
    assert write_enquiry(turned) == write_enquiry(ENQUIRY)
    assert to_link(turned) == to_link(ENQUIRY)


def test_options_that_no_catalogue_has_are_kept():
    assert read_enquiry(write_enquiry(ENQUIRY)).options["no-longer-sold"] == 2
    assert from_link(to_link(ENQUIRY)).options["no-longer-sold"] == 2


@pytest.mark.parametrize("budget", ["0.01", "45000.50", "9999999999.99", "1000", "1E+3", "0.1"])
def test_the_budget_keeps_every_cent(budget):
    enquiry = ENQUIRY.model_copy(update={"trip": TRIP.model_copy(update={"budget": Decimal(budget)})})
    for again in (read_enquiry(write_enquiry(enquiry)), from_link(to_link(enquiry))):
        assert again.trip.budget == Decimal(budget)
        assert isinstance(again.trip.budget, Decimal)


@pytest.mark.parametrize(("written", "read"), [("45000", "45000"), ("45000.1", "45000.1"), ('"45000.10"', "45000.10")])
def test_a_budget_may_be_written_as_number_or_as_text(written, read):
    text = '{"vehicle": "van", "trip": {"place": "denver", "months": [1], "budget": BUDGET}}'.replace("BUDGET", written)
    assert read_enquiry(text).trip.budget == Decimal(read)


def test_a_file_is_stable_and_made_for_people():
    assert write_enquiry(ENQUIRY) == write_enquiry(read_enquiry(write_enquiry(ENQUIRY)))
    assert write_enquiry(ENQUIRY).startswith(
        '{\n  "format": 1,\n  "workshop": "quillback",\n  "vehicle": "long-van",\n'
    )
    assert "Ours, with Ä and 🚐" in write_enquiry(ENQUIRY)
    assert write_enquiry(ENQUIRY).endswith("}\n")


def test_a_short_file_takes_the_usual_trip_for_what_it_leaves_out():
    enquiry = read_enquiry('{"vehicle": "van", "trip": {"place": "denver", "months": [1, 2]}}')
    assert enquiry == Enquiry(vehicle="van", trip=Trip(place="denver", months=(1, 2)))


def test_a_mark_at_the_start_of_a_file_is_passed_over():
    # Some editors put U+FEFF before the text.
    assert read_enquiry("\ufeff" + write_enquiry(ENQUIRY)) == ENQUIRY


def test_a_link_may_come_with_its_hash():
    assert from_link("#" + to_link(ENQUIRY)) == ENQUIRY


def test_a_link_made_long_ago_still_opens():
    # Whatever the packing becomes: links that buyers keep must open. Never renew this text to make the test pass.
    kept = (
        "1ePlhKBfkwxUThaVALycBcxFKlOTkA1NLWWIeatTA0okx0GiQMXn5uiCFwKQBTDEpYC9Ako4RSIExNaIxJRW"
        "USFEi00gHGJ-DNOJIjykTU1BcmaLElX9pUbGOQjkwNyocblFIzEtR-DB_1gQl7DnN2FDXwFTXwESpFgDoyZ4g"
    )
    assert from_link(kept) == ENQUIRY


def test_links_are_short():
    # A usual build with 30 options fits into a message.
    things = ("solar-panel", "battery", "window", "tank", "heater", "bed")
    options = {f"{a}-{b}": 1 for a in things for b in ("small", "large", "200", "front", "rear")}
    assert len(to_link(ENQUIRY.model_copy(update={"options": options}))) < 400
    assert len(to_link(Enquiry(vehicle="van", trip=Trip(place="denver", months=(1,))))) < 80


def test_what_is_too_long_for_a_link_says_so_and_fits_a_file():
    ids = [f"{i * 7919 % 10**9:09d}-{i * 104729 % 10**9:09d}-{i * 1299709 % 10**9:09d}" for i in range(400)]
    large = ENQUIRY.model_copy(update={"options": dict.fromkeys(ids, 1)})
    with pytest.raises(EnquiryProblems, match="too long for a link; send it as a file"):
        to_link(large)
    assert read_enquiry(write_enquiry(large)) == large


def test_making_a_link_takes_no_time():
    # Every pick makes one. A third of a millisecond is six times what was measured.
    best = min(timeit.repeat(lambda: to_link(ENQUIRY), number=50, repeat=5)) / 50
    assert best < 0.3e-3


MOVED = ENQUIRY.model_copy(
    update={
        "moves": {"kitchen": Move(x_m=1.25, side="right"), "bench": Move(x_m=0.0, side="left")},
        "trip": TRIP.model_copy(
            update={
                "boxes": (
                    CargoBox(name="Bicycle", length_m=1.8, width_m=0.6, height_m=1.05, count=2),
                    CargoBox(name="Bag", length_m=1, width_m=0.5, height_m=0.4, mass_kg=12.5, any_way_up=True),
                )
            }
        ),
    }
)


def test_moves_and_boxes_travel_in_file_and_link():
    assert read_enquiry(write_enquiry(MOVED)) == MOVED
    assert from_link(to_link(MOVED)) == MOVED
    turned = MOVED.model_copy(update={"moves": dict(reversed(MOVED.moves.items()))})
    assert to_link(turned) == to_link(MOVED)


def test_an_enquiry_without_moves_and_boxes_is_written_as_ever():
    assert "moves" not in write_enquiry(ENQUIRY) and "boxes" not in write_enquiry(ENQUIRY)


@pytest.mark.parametrize(
    ("change", "where", "words"),
    [
        ({"moves": {"kitchen": {"x_m": 1}}}, "moves.kitchen.side", "is missing; needs left or right"),
        ({"moves": {"kitchen": {"x_m": -1, "side": "left"}}}, "moves.kitchen.x_m", "a number from 0 to 12"),
        ({"moves": {"kitchen": {"x_m": 1, "side": "roof"}}}, "moves.kitchen.side", "left or right"),
        ({"moves": {"Kitchen!": {"x_m": 1, "side": "left"}}}, "moves", "small letters"),
        ({"moves": {"kitchen": 3}}, "moves.kitchen", "a group of keys in braces"),
    ],
)
def test_a_wrong_move_is_told_with_its_place(change, where, words):
    with pytest.raises(EnquiryProblems) as caught:
        check_enquiry(plain(ENQUIRY) | change)
    told = [p for p in caught.value.problems if p.where.startswith(where)]
    assert told and words in told[0].text


@pytest.mark.parametrize(
    ("box", "where", "words"),
    [
        ({"name": "Bag", "length_m": 1, "width_m": 0.5}, "trip.boxes[0].height_m", "is missing"),
        ({"name": "Bag", "length_m": 9, "width_m": 0.5, "height_m": 1}, "trip.boxes[0].length_m", "a number"),
        (
            {"name": "Bag", "length_m": 1, "width_m": 1, "height_m": 1, "count": 0},
            "trip.boxes[0].count",
            "a whole number",
        ),
    ],
)
def test_a_wrong_box_is_told_with_its_place(box, where, words):
    values = plain(ENQUIRY)
    values["trip"]["boxes"] = [box]
    with pytest.raises(EnquiryProblems) as caught:
        check_enquiry(values)
    told = [p for p in caught.value.problems if p.where == where]
    assert told and words in told[0].text
