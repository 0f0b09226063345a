"""What a form sends is the enquiry it was made from; what a buyer types is read in the workshop's units."""

from decimal import Decimal

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from engine.enquiry import Enquiry
from engine.enquiry.climate import load_places
from engine.sheets.form import FormError, enquiry_from_form
from engine.sheets.page import configurator_html
from engine.sheets.trip_fields import feet_and_inches
from tests.sheets.conftest import WORKSHOPS, stage_of
from tests.sheets.reading import entries, read_html


def sent(stage, enquiry=None):
    return entries(read_html(configurator_html(stage.scene(enquiry))).by_id("configurator"))


def read_back(stage, pairs):
    return Enquiry.model_validate(enquiry_from_form(stage.catalogue, pairs))


def changed(pairs, **new):
    """The pairs with other values; dots are written as double underscores, None leaves an entry out."""
    new = {k.replace("__", "."): v for k, v in new.items()}
    kept = [(k, v) for k, v in pairs if k not in new]
    return kept + [(k, v) for k, v in new.items() if v is not None]


def test_an_untouched_form_gives_the_same_enquiry(stage):
    assert read_back(stage, sent(stage)) == stage.start


def test_every_ready_build_comes_back(stage):
    for ready in stage.catalogue.ready:
        enquiry = stage.start.model_copy(update={"vehicle": ready.vehicle, "options": dict(ready.options)})
        assert read_back(stage, sent(stage, enquiry)) == enquiry


def test_a_bare_vehicle_comes_back(stage):
    for vehicle in stage.catalogue.vehicles:
        enquiry = Enquiry(vehicle=vehicle.id, trip=stage.start.trip)
        assert read_back(stage, sent(stage, enquiry)) == enquiry


def test_everything_at_once_comes_back(stage):
    """Even what no form could have chosen: two of a pick-one chapter, more than may be, options long gone."""
    options = {o.id: min(20, o.most + 1) for s in stage.catalogue.sections for o in s.options} | {"long-gone": 3}
    enquiry = stage.start.model_copy(update={"options": options, "title": 'Ours, "the" <one> & only'})
    assert read_back(stage, sent(stage, enquiry)) == enquiry


_PLACES = list(load_places())


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(data=st.data(), name=st.sampled_from(WORKSHOPS))
def test_any_enquiry_comes_back(data, name):
    stage = stage_of(name)
    ids = [o.id for s in stage.catalogue.sections for o in s.options]

    def number(low, high):
        return data.draw(st.floats(low, high, allow_nan=False))

    trip = stage.start.trip.model_validate(
        {
            "adults": data.draw(st.integers(1, 8)),
            "children": data.draw(st.integers(0, 8)),
            "pets": data.draw(st.integers(0, 6)),
            "tallest_m": number(1.2, 2.2),
            "place": data.draw(st.sampled_from(_PLACES)),
            "months": tuple(data.draw(st.lists(st.integers(1, 12), min_size=1, max_size=12, unique=True))),
            "days_between_fills_d": number(0.5, 60),
            "days_off_grid_d": number(0.5, 90),
            "driving_h": number(0, 14),
            "showers_per_day": number(0, 3),
            "shower_minutes": number(0.5, 20),
            "hot_meals_per_day": number(0, 5),
            "computer_h": number(0, 48),
            "cooling": data.draw(st.booleans()),
            "inside_degc": number(5, 26),
            "baggage_kg": number(0, 1500),
            "cupboards_kg": number(0, 800),
            "nose_kg": number(0, 500),
            "budget": data.draw(st.none() | st.decimals("0.01", "9999999.99", places=2)),
            "height_limit_m": data.draw(st.none() | st.floats(1.5, 6)),
            "hookup_a": data.draw(st.none() | st.floats(3, 63)),
            "adult_kg": data.draw(st.none() | st.floats(40, 200)),
        }
    )
    options = data.draw(st.dictionaries(st.sampled_from(ids), st.integers(1, 20), max_size=12))
    vehicle = data.draw(st.sampled_from([v.id for v in stage.catalogue.vehicles]))
    enquiry = Enquiry(vehicle=vehicle, options=options, trip=trip)
    assert read_back(stage, sent(stage, enquiry)) == enquiry


def test_feet_inches_pounds_and_fahrenheit_are_read(stages):
    stage = stages("quillback")
    pairs = changed(
        sent(stage), trip__tallest_m__ft="6", trip__tallest_m__in="2", trip__baggage_kg="200", trip__inside_degc="68"
    )
    trip = read_back(stage, [(k.replace("tallest_m..", "tallest_m."), v) for k, v in pairs]).trip
    assert trip.tallest_m == pytest.approx(1.8796)  # 74 in of 25.4 mm
    assert trip.baggage_kg == pytest.approx(90.718474)
    assert trip.inside_degc == pytest.approx(20)


def test_metres_kilograms_and_celsius_are_read(stages):
    stage = stages("hallamoor")
    pairs = changed(sent(stage), trip__tallest_m="1.91", trip__baggage_kg="120.5", trip__inside_degc="20.5")
    trip = read_back(stage, pairs).trip
    assert (trip.tallest_m, trip.baggage_kg, trip.inside_degc) == (1.91, 120.5, 20.5)


def test_a_changed_number_wins_over_the_exact_one_behind_it(stages):
    stage = stages("quillback")
    trip = stage.start.trip.model_copy(update={"baggage_kg": 100.0})
    pairs = sent(stage, stage.start.model_copy(update={"trip": trip}))
    assert "exact.baggage_kg" in dict(pairs)
    assert read_back(stage, changed(pairs, trip__baggage_kg="50")).trip.baggage_kg == pytest.approx(22.6796185)


def test_limits_typed_in_the_workshops_units_are_inside(stages):
    pairs = changed(sent(stages("quillback")), trip__inside_degc="41")  # 5 °C
    assert read_back(stages("quillback"), pairs).trip.inside_degc == pytest.approx(5)


def test_a_height_limit_is_read_in_feet_or_metres_and_may_stay_empty(stages):
    us, metric = stages("quillback"), stages("hallamoor")
    assert read_back(us, sent(us)).trip.height_limit_m is None
    typed = {"trip.height_limit_m.ft": "10", "trip.height_limit_m.in": "6"}
    pairs = [(name, typed.get(name, value)) for name, value in sent(us)]
    assert read_back(us, pairs).trip.height_limit_m == pytest.approx(3.2004)  # 126 in of 25.4 mm
    assert read_back(metric, changed(sent(metric), trip__height_limit_m="2.85")).trip.height_limit_m == 2.85
    with pytest.raises(FormError, match=r"from 1\.5 to 6 m"):
        read_back(metric, changed(sent(metric), trip__height_limit_m="7"))


def test_what_is_towed_and_stowed_is_read_in_the_workshops_units(stages):
    us, metric = stages("quillback"), stages("hallamoor")
    typed = {"trip__nose_kg": "100", "trip__cupboards_kg": "40"}
    assert read_back(us, changed(sent(us), **typed)).trip.nose_kg == pytest.approx(45.359237)  # 100 lb
    trip = read_back(metric, changed(sent(metric), **typed)).trip
    assert (trip.nose_kg, trip.cupboards_kg) == (100, 40)
    with pytest.raises(FormError, match=r"Nose load of a trailer: from 0 to 500 kg"):
        read_back(metric, changed(sent(metric), trip__nose_kg="501"))


def test_the_mass_of_grown_ups_is_read_in_the_workshops_units_and_may_stay_empty(stages):
    us, metric = stages("quillback"), stages("hallamoor")
    assert read_back(us, sent(us)).trip.adult_kg is None
    assert read_back(us, changed(sent(us), trip__adult_kg="185")).trip.adult_kg == pytest.approx(83.914588)
    assert read_back(metric, changed(sent(metric), trip__adult_kg="90")).trip.adult_kg == 90
    with pytest.raises(FormError, match="Mass of each grown-up: from 40 to 200 kg"):
        read_back(metric, changed(sent(metric), trip__adult_kg="20"))


def test_budget_is_exact_money(stage):
    assert read_back(stage, changed(sent(stage), trip__budget="45000.10")).trip.budget == Decimal("45000.10")
    assert read_back(stage, changed(sent(stage), trip__budget="")).trip.budget is None


def test_months_nobody_changed_keep_their_order(stage):
    trip = stage.start.trip.model_copy(update={"months": (12, 1, 2)})
    pairs = sent(stage, stage.start.model_copy(update={"trip": trip}))
    assert read_back(stage, pairs).trip.months == (12, 1, 2)
    assert read_back(stage, [*pairs, ("trip.months", "3")]).trip.months == (1, 2, 3, 12)


def a_counted_option(stage):
    return next(
        (s, o)
        for s in stage.catalogue.sections
        for o in s.options
        if s.pick == "any" and o.most > 1 and o.id not in stage.start.options and not o.fits
    )


def test_a_button_adds_one_and_takes_one_away(stage):
    _, option = a_counted_option(stage)
    pairs = sent(stage)
    one = read_back(stage, [*pairs, (f"step.{option.id}", "1")])
    assert one.options[option.id] == 1
    assert option.id not in read_back(stage, [*sent(stage, one), (f"step.{option.id}", "-1")]).options
    most = stage.start.model_copy(update={"options": {**stage.start.options, option.id: option.most}})
    assert read_back(stage, [*sent(stage, most), (f"step.{option.id}", "1")]).options[option.id] == option.most


def test_a_button_picks_in_place_of_another_where_one_is_picked(stage):
    section, chosen, other = next(
        (s, c, o)
        for s in stage.catalogue.sections
        for c in s.options
        for o in s.options
        if s.pick == "one" and c.id in stage.start.options and o.most > 1 and o.id != c.id and not o.fits
    )
    back = read_back(stage, [*sent(stage), (f"step.{other.id}", "1")])
    assert back.options[other.id] == 1
    assert chosen.id not in back.options
    assert len([i for i in back.options if i in {o.id for o in section.options}]) == 1


@pytest.mark.parametrize(
    ("change", "field", "words"),
    [
        ({"vehicle": None}, "vehicle", "base vehicle"),
        ({"trip__adults": ""}, "trip.adults", "enter a number"),
        ({"trip__adults": "two"}, "trip.adults", "enter a number"),
        ({"trip__adults": "1.5"}, "trip.adults", "whole number"),
        ({"trip__adults": "0"}, "trip.adults", "from 1 to 8"),
        ({"trip__adults": "9"}, "trip.adults", "from 1 to 8"),
        ({"trip__pets": "-1"}, "trip.pets", "from 0 to 6"),
        ({"trip__baggage_kg": "nan"}, "trip.baggage_kg", "enter a number"),
        ({"trip__baggage_kg": "inf"}, "trip.baggage_kg", "enter a number"),
        ({"trip__baggage_kg": "1e9"}, "trip.baggage_kg", "can be worked out"),
        ({"trip__baggage_kg": "1_000"}, "trip.baggage_kg", "enter a number"),
        ({"trip__driving_h": "25"}, "trip.driving_h", "from 0 to 14 hours"),
        ({"trip__budget": "0"}, "trip.budget", "more than 0"),
        ({"trip__budget": "99999999999"}, "trip.budget", "can be worked out"),
        ({"trip__place": None}, "trip.place", "choose a place"),
        ({"trip__months": None}, "trip.months", "at least one"),
        ({"trip__months": "13"}, "trip.months", "from 1 to 12"),
        ({"trip__months": "١"}, "trip.months", "from 1 to 12"),
        ({"title": "x" * 161}, "title", "160"),
        ({"count__some-thing": "21"}, "count.some-thing", "from 0 to 20"),
        ({"count__some-thing": "-1"}, "count.some-thing", "from 0 to 20"),
        ({"count__some-thing": "1.5"}, "count.some-thing", "whole number"),
        ({"step__some-thing": "0"}, "step.some-thing", "adds one"),
        ({"step__some-thing": "1.5"}, "step.some-thing", "adds one"),
        ({"step__some-thing": "9999"}, "step.some-thing", "adds one"),
        ({"nobody": "1"}, "nobody", "does not know"),
    ],
)
def test_entries_that_cannot_be_read_are_named(stage, change, field, words):
    with pytest.raises(FormError) as caught:
        enquiry_from_form(stage.catalogue, changed(sent(stage), **change))
    assert caught.value.field == field
    assert words in caught.value.text


def test_an_entry_sent_twice_with_two_values_is_refused(stage):
    with pytest.raises(FormError, match="twice"):
        enquiry_from_form(stage.catalogue, [*sent(stage), ("trip.adults", "7")])


def test_too_tall_is_said_in_feet_where_feet_are_typed(stages):
    stage = stages("quillback")
    pairs = [(k, "8" if k == "trip.tallest_m.ft" else v) for k, v in sent(stage)]
    with pytest.raises(FormError, match=r"from 3 ft 11\.2 in to 7 ft 2\.6 in"):
        enquiry_from_form(stage.catalogue, pairs)


@pytest.mark.parametrize(("metres", "said"), [(1.8288, ("6", "0")), (1.8287, ("6", "0")), (1.75, ("5", "8.9"))])
def test_inches_never_reach_twelve(metres, said):
    assert feet_and_inches(metres) == said
