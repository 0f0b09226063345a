"""Bulky things in the form: they come back untouched, and a buyer's own box is read in the workshop's units."""

import pytest

from engine.catalogue.trip import CargoBox
from engine.enquiry.file import check_enquiry, plain
from engine.sheets.cargo_form import (
    COMMON,
    COMMON_IN,
    COUNT,
    IS,
    MOST_KINDS,
    OWN,
    BoxError,
    OwnBox,
    lines,
    own_from_form,
)
from engine.sheets.form import FormError, enquiry_from_form
from engine.sheets.page import configurator_html
from tests.sheets.reading import entries, read_html

ODD = CargoBox(name='Kayak, "the" <long> one', length_m=3.3333, width_m=0.6, height_m=0.35, count=2, mass_kg=17.5)


def sent(stage, boxes):
    """What the page sends for a trip with these boxes."""
    enquiry = stage.start.model_copy(update={"trip": stage.start.trip.model_copy(update={"boxes": boxes})})
    return entries(read_html(configurator_html(stage.scene(enquiry))).by_id("configurator"))


def read(stage, pairs):
    """The boxes of the enquiry that a form gives."""
    return check_enquiry(enquiry_from_form(stage.catalogue, pairs)).trip.boxes


def with_(pairs, **new):
    """The pairs with other values for the own box."""
    names = {OWN + k: v for k, v in new.items()}
    return [(k, names.pop(k, v)) for k, v in pairs] + list(names.items())


@pytest.mark.parametrize("boxes", [(), (ODD,), (COMMON[0].model_copy(update={"count": 3}), ODD, COMMON[2])])
def test_boxes_come_back_as_they_were(stage, boxes):
    assert read(stage, sent(stage, boxes)) == boxes


def test_a_count_adds_a_common_box_and_nought_takes_one_out(stage):
    pairs = [(k, "2" if k == COUNT + "1" else "0" if k == COUNT + "0" else v) for k, v in sent(stage, (ODD,))]
    bicycle = COMMON_IN[stage.catalogue.workshop.units][0]
    assert read(stage, pairs) == (bicycle.model_copy(update={"count": 2}),)


def test_an_own_box_is_read_in_the_units_of_the_workshop(stage):
    us = stage.catalogue.workshop.units == "us"
    typed = {"name": " Easel ", "length": "40", "width": "20", "height": "10.5", "turn": "yes", "add": "1"}
    metre = 0.0254 if us else 0.01
    [box] = read(stage, with_(sent(stage, ()), **typed))
    assert (box.name, box.any_way_up, box.count) == ("Easel", True, 1)
    assert (box.length_m, box.width_m, box.height_m) == pytest.approx((40 * metre, 20 * metre, 10.5 * metre))


def test_a_box_that_is_not_added_is_none_yet(stage):
    """Its sizes may be typed to the last digit or not, nobody knows; nor is anything wrong with them yet."""
    for typed in ({"length": "40", "width": "20", "height": "1"}, {"length": "40"}, {"length": "9999", "width": "-"}):
        assert read(stage, with_(sent(stage, ()), **typed)) == ()


def test_what_is_typed_of_it_stays_in_its_fields_until_it_is_added(stage):
    typed = OwnBox('Easel, <5"', "40", "20", "1", "yes")
    pairs = with_(sent(stage, ()), **typed._asdict())
    assert own_from_form(pairs) == typed
    again = entries(read_html(configurator_html(stage.scene(stage.start)._replace(own=typed))).by_id("configurator"))
    assert own_from_form(again) == typed
    assert read(stage, again) == ()


@pytest.mark.parametrize(
    ("field", "value", "words"),
    [
        ("length", "9999", "Own box, length: .* can be packed"),
        ("width", "0", "Own box, width: .* can be packed"),
        ("height", "tall", "Own box, height: please enter a number"),
        ("height", "", "Own box, height: please enter a number"),
    ],
)
def test_a_size_that_cannot_be_is_told(stage, field, value, words):
    sizes = {"length": "40", "width": "20", "height": "10", "add": "1"} | {field: value}
    with pytest.raises(FormError, match=words) as caught:
        enquiry_from_form(stage.catalogue, with_(sent(stage, ()), **sizes))
    assert caught.value.field == OWN + field


@pytest.mark.parametrize("count", ["-1", "9", "1.5", "x"])
def test_a_count_that_cannot_be_is_told(stage, count):
    pairs = [(k, count if k == COUNT + "0" else v) for k, v in sent(stage, ())]
    with pytest.raises(FormError):
        enquiry_from_form(stage.catalogue, pairs)


@pytest.mark.parametrize("text", ["", "[]", "{", "1", "x" * 2000, '{"a": ' * 600])
def test_a_line_that_is_no_box_is_refused(stage, text):
    pairs = [(k, text if k == IS + "0" else "1" if k == COUNT + "0" else v) for k, v in sent(stage, ())]
    with pytest.raises(FormError):
        enquiry_from_form(stage.catalogue, pairs)


def test_a_ninth_kind_is_told(stage):
    boxes = tuple(ODD.model_copy(update={"name": str(k)}) for k in range(MOST_KINDS))
    pairs = with_(sent(stage, boxes), length="40", width="20", height="10", add="1")
    with pytest.raises(FormError, match="at most 8 kinds"):
        enquiry_from_form(stage.catalogue, pairs)


def test_every_field_has_a_label_and_works_by_keyboard(stage):
    form = read_html(configurator_html(stage.scene(stage.start))).by_id("trip-form")
    fields = [
        f for f in form.all("input") if (f.get("name") or "").startswith((COUNT, OWN)) and f.get("type") != "hidden"
    ]
    assert len(fields) == len(COMMON) + 5
    labels = {e.get("for") for e in form.all("label")}
    assert {f.get("id") for f in fields} <= labels
    assert plain(stage.start)["trip"].get("boxes") is None


def test_lines_show_common_boxes_once():
    assert len(lines((COMMON[1],), "metric")) == len(COMMON)
    assert issubclass(BoxError, ValueError)


def test_common_things_have_round_sizes_in_either_system():
    assert [x.size for x in lines((), "us")] == [
        "71 in × 14 in × 41 in",
        "37 in × 16 in × 12 in",
        "31 in × 18 in × 16 in",
    ]
    assert lines((), "metric")[0].size == "1.8 m × 0.35 m × 1.05 m"
