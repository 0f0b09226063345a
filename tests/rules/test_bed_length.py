"""Who lies where decides how long a bed has to be, and what cuts it short is named."""

import pytest

from engine.build import work_out
from engine.rules import judge
from tests.shops import catalogue, enquiry, resolver

LONGWAYS = "Fixed bed lengthwise, 75 in by 54 in"
BUNK = "Fold-up bunk, 72 in by 27 in"


def told(options=None, ready="two-up-van", vehicle=None, shop="quillback", **trip):
    """The check's findings on a build's beds, by the bed's name."""
    build = resolver(shop).resolve(enquiry(shop, vehicle, options, ready, **trip))
    found = [f for f in judge(build, work_out(build)) if f.rule == "bed-length"]
    return {f.cause.partition(" gives")[0]: f for f in found}


def test_a_childs_bunk_is_not_held_to_the_tallest():
    beds = told({"bunk-fold": 1}, children=1, tallest_m=1.85)
    assert (beds[LONGWAYS].verdict, beds[BUNK].verdict) == ("ok", "ok")
    assert beds[BUNK].cause.endswith("enough for a child.")


def test_a_bed_too_short_for_the_grown_ups_does_not_make_the_bunk_theirs():
    beds = told({"bunk-fold": 1}, children=1, tallest_m=1.88)
    assert (beds[LONGWAYS].verdict, beds[BUNK].verdict) == ("fails", "ok")


@pytest.mark.parametrize(("adults", "verdict"), [(2, "ok"), (3, "fails"), (4, "fails")])
def test_a_bunk_that_a_grown_up_needs_is(adults, verdict):
    assert told({"bunk-fold": 2, "bench-side": 0}, adults=adults, children=0, tallest_m=1.85)[BUNK].verdict == verdict


def test_what_makes_it_short_is_named_and_the_way_out_follows():
    mattress = told(tallest_m=1.88)[LONGWAYS]
    assert "74 in, and 2 in to spare. The mattress itself is too short." in mattress.cause
    assert mattress.remedy == "Choose a longer bed."
    across = told({"bed-along-full": 0, "bed-across-van": 1, "bunk-fold": 2}, tallest_m=1.85)
    assert across[BUNK].verdict == "ok"  # longer than the bed across, but nobody gives the main bed to a child
    across = across["Fixed bed across, 72 in by 54 in"]
    assert "walls take" in across.cause and "mattress" not in across.cause
    assert across.remedy.startswith("Choose a bed that lies the other way, thinner insulation")


@pytest.mark.parametrize("shop", ["quillback", "hallamoor"])
def test_the_finished_vehicles_beds_are_long_enough_for_their_people(shop):
    for ready in catalogue(shop).ready:
        assert {f.verdict for f in told(ready=ready.id, shop=shop).values()} <= {"ok"}, ready.id


def test_half_a_millimetre_is_nothing():
    # 75 in are 1.905 m: 5 mm short for 1.86 m with 50 mm to spare, 10 mm for 1.865 m.
    assert told(tallest_m=1.8555)[LONGWAYS].verdict == "ok"
    assert told(tallest_m=1.859)[LONGWAYS].verdict == "ok"
    assert told(tallest_m=1.862)[LONGWAYS].verdict == "fails"


def test_a_bed_made_up_from_seats_is_asked_about_where_the_tallest_has_no_other():
    dinette = "Belted dinette, makes a bed 74 in by 48 in"
    box = {"ready": "long-winter-box", "tallest_m": 1.90}
    assert dinette not in told(**box)
    # A third grown-up may be shorter than the tallest, who has the long bed.
    assert dinette not in told(adults=3, children=0, **box)
    alone = told({"bed-across-queen": 0}, children=0, **box)
    assert alone[dinette].verdict == "fails"
    assert told({"bed-across-queen": 0}, children=0, ready="long-winter-box", tallest_m=1.80)[dinette].verdict == "ok"
