"""The browser's door: a pick is answered at once, the rest of the answer comes in slices, a newer pick drops it."""

from __future__ import annotations

import json

import pytest

from engine import desk
from engine.build import Resolver
from engine.build import trip_energy as slow
from engine.desk import Desk, set_scene, start_enquiry
from engine.document import figures_document
from engine.enquiry import Enquiry
from engine.enquiry.climate import load_places
from engine.enquiry.door import to_link, write_enquiry
from engine.enquiry.model import Move
from engine.sheets.cargo_form import OWN, UNTYPED
from engine.sheets.day_form import KIND, MONTH
from engine.sheets.form import FormError
from engine.sheets.page import configurator_html, fragments
from tests.sheets.reading import entries, read_html
from tests.shops import catalogue, enquiry, quick_scene, resolver


@pytest.fixture
def at_desk() -> Desk:
    slow.cache_clear()
    return Desk(resolver("hallamoor"))


def asked(month: int) -> dict[str, object]:
    """A link as the page sends it."""
    return {"kind": "link", "fragment": to_link(enquiry("hallamoor", ready="dry-stone", months=(month,)))}


def followed(at: Desk) -> list[dict[str, object]]:
    """Everything that comes later, message by message."""
    told = []
    while True:
        told.append(at.later())
        assert len(told) < 1000
        if not told[-1]["later"]:
            return told


def test_the_rest_of_an_answer_comes_in_slices_and_ends_with_the_whole_truth(at_desk):
    ask = enquiry("hallamoor", ready="dry-stone", months=(12,))
    first = at_desk.reply(asked(12))
    assert first["later"] is True
    assert first["figures"] == figures_document(quick_scene(at_desk.resolver, ask).figures)
    drawings, *told = followed(at_desk)
    assert {"draw-day", "parts-list", "wiring-plan"} <= set(drawings["fragments"]) and drawings["later"] is True
    assert not set(drawings["fragments"]) & set(first["fragments"])
    with_fragments = [t for t in told if "fragments" in t]
    assert len(told) > 20 and 3 <= len(with_fragments) <= 6
    assert "energy-course" in with_fragments[0]["fragments"] and "energy-hours" in with_fragments[1]["fragments"]
    assert "energy-months" in with_fragments[2]["fragments"]
    assert set(with_fragments[2]["fragments"]) <= {"energy-months", "energy-words"}
    whole = set_scene(at_desk.resolver, ask)
    assert with_fragments[-1]["figures"] == figures_document(whole.figures)
    assert with_fragments[-1]["verdicts"] == [[f.rule, f.verdict] for f in whole.findings]
    assert at_desk.shown == fragments(whole)


def test_a_newer_pick_drops_what_is_still_to_come(at_desk):
    at_desk.reply(asked(12))
    at_desk.later()
    for _ in range(3):
        assert at_desk.later() == {"later": True}
    second = at_desk.reply(asked(6))
    assert second["later"] is True
    last = [t for t in followed(at_desk) if "fragments" in t][-1]
    june = set_scene(at_desk.resolver, enquiry("hallamoor", ready="dry-stone", months=(6,)))
    assert last["figures"] == figures_document(june.figures)


def test_what_is_remembered_is_answered_whole(at_desk):
    at_desk.reply(asked(12))
    followed(at_desk)
    assert at_desk.scene is not None
    again = at_desk.reply(picked(at_desk, at_desk.scene.enquiry, "pick"))
    assert again["fragments"] == {} and followed(at_desk) == [{"fragments": {}, "later": False}]
    bare = {"kind": "link", "fragment": to_link(enquiry("hallamoor", options={}))}
    at_desk.reply(bare)
    assert len(followed(at_desk)) == 1


def test_a_build_that_is_opened_brings_the_whole_page_with_it(at_desk):
    """Fields may hold what nobody could read, and the engine knows nothing of them."""
    at_desk.reply(asked(12))
    followed(at_desk)
    told = [at_desk.reply(asked(12)), *followed(at_desk)]
    sent = {name: html for reply in told for name, html in reply.get("fragments", {}).items()}
    assert sent == at_desk.shown
    assert sent == fragments(set_scene(at_desk.resolver, enquiry("hallamoor", ready="dry-stone", months=(12,))))


def test_a_pick_that_cannot_be_read_is_told_beside_the_form_until_one_can(at_desk, monkeypatch):
    monkeypatch.setattr(desk, "_desk", at_desk)
    at_desk.reply(asked(12))
    assert at_desk.scene is not None
    good = picked(at_desk, at_desk.scene.enquiry, "pick")
    form = [pair for pair in good["form"] if pair[0] != "trip.adults"]
    refused = json.loads(desk.answer(json.dumps({"kind": "pick", "form": [*form, ["trip.adults", "?"]]})))
    assert refused["error"]["where"] == "trip.adults"
    assert list(refused["fragments"]) == ["form-error"]
    assert "Grown-ups: please enter a number" in refused["fragments"]["form-error"]
    then = json.loads(desk.answer(json.dumps(good)))
    assert "hidden" in then["fragments"]["form-error"]
    # Nobody has made a choice that is only looked at, and a file or link is no entry of the form.
    for other in ({"kind": "ahead", "form": form}, {"kind": "link", "fragment": "1x"}):
        assert "fragments" not in json.loads(desk.answer(json.dumps(other)))


@pytest.mark.parametrize("begin", ["start", "link"])
def test_what_comes_later_leaves_a_refused_entry_told(at_desk, monkeypatch, begin):
    """Slow figures of the build before an entry that could not be read say nothing about the entry."""
    monkeypatch.setattr(desk, "_desk", at_desk)
    good = picked(at_desk, start_enquiry(at_desk.resolver.catalogue), "pick")
    assert at_desk.reply({"kind": "start"} if begin == "start" else asked(12))["later"]
    at_desk.later()
    bad = [*(pair for pair in good["form"] if pair[0] != "trip.adults"), ["trip.adults", "?"]]
    refused = json.loads(desk.answer(json.dumps({"kind": "pick", "form": bad})))["fragments"]["form-error"]
    told = followed(at_desk)
    assert len(told) > 20 and not any("form-error" in t.get("fragments", {}) for t in told)
    assert at_desk.shown["form-error"] == refused
    then = json.loads(desk.answer(json.dumps(good)))
    assert "hidden" in then["fragments"]["form-error"]


def test_who_moves_a_module_is_answered_with_the_drawing(at_desk):
    ask = enquiry("hallamoor", ready="dry-stone")
    first = at_desk.reply({"kind": "link", "fragment": to_link(ask)})
    assert "draw-day" not in first["fragments"]
    followed(at_desk)
    moved = ask.model_copy(update={"moves": {at_desk.scene.figures.plan.day[0].option_id: Move(x_m=1.5, side="left")}})
    assert "draw-day" in at_desk.reply({"kind": "link", "fragment": to_link(moved)})["fragments"]


@pytest.mark.parametrize("shop", ["hallamoor", "quillback"])
def test_a_page_that_opens_untouched_already_shows_what_is_worked_out(shop):
    at = Desk(resolver(shop))
    assert at.reply({"kind": "start"}) == {"fragments": {}, "link": "", "later": True}
    told = followed(at)
    assert [set(t["fragments"]) for t in told if t.get("fragments")] == [{"draw-day"}]
    whole = set_scene(at.resolver, start_enquiry(at.resolver.catalogue))
    assert told[-1]["figures"] == figures_document(whole.figures)
    page = configurator_html(whole)
    assert at.shown == fragments(whole)
    assert [name for name, html in at.shown.items() if html not in page] == ["draw-day"]


def test_a_pick_on_a_page_that_has_just_opened_is_answered_with_all_it_takes(at_desk):
    at_desk.reply({"kind": "start"})
    at_desk.later()
    first = at_desk.reply(asked(12))
    followed(at_desk)
    whole = set_scene(at_desk.resolver, enquiry("hallamoor", ready="dry-stone", months=(12,)))
    assert first["fragments"].keys() | {"draw-day", "parts-list"} <= fragments(whole).keys()
    assert "bar" in first["fragments"] and at_desk.shown == fragments(whole)


def test_nothing_follows_nothing(at_desk, monkeypatch):
    assert at_desk.later() == {"later": False}
    monkeypatch.setattr(desk, "_desk", at_desk)
    assert json.loads(desk.answer(json.dumps({"kind": "later"}))) == {"later": False}
    # A message that cannot be read leaves the work on the last one as it is.
    at_desk.reply(asked(12))
    assert "error" in json.loads(desk.answer(json.dumps({"kind": "nonsense"})))
    assert json.loads(desk.answer(json.dumps({"kind": "later"})))["later"] is True


def picked(at: Desk, ask: Enquiry, kind: str) -> dict[str, object]:
    """A message with the form of this enquiry, as the page sends it."""
    form = entries(read_html(configurator_html(quick_scene(at.resolver, ask))).by_id("configurator"))
    return {"kind": kind, "form": [list(pair) for pair in form]}


@pytest.mark.parametrize("shop", ["hallamoor", "quillback"])
def test_a_choice_looked_at_ahead_is_answered_as_if_it_had_not_been(shop, monkeypatch):
    slow.cache_clear()
    at, plain = Desk(resolver(shop)), Desk(resolver(shop))
    first = start_enquiry(at.resolver.catalogue)
    fewer = first.model_copy(update={"options": dict(list(first.options.items())[:-1])})
    for one in (at, plain):
        one.reply(picked(one, first, "pick"))
    # In the middle of the slow work, which goes on as if nothing had been asked.
    at.later(), at.later()
    before = (at.scene, at.work, at.undrawn, at.look, dict(at.shown))
    told = at.reply(picked(at, fewer, "ahead"))
    assert (at.scene, at.work, at.undrawn, at.look, at.shown) == before
    assert "bar" in told["fragments"] and set(told) == {"fragments"}
    at.later(), plain.later()
    pick = picked(at, fewer, "pick")
    with monkeypatch.context() as watched:
        watched.setattr(desk, "scene_with", lambda *_: pytest.fail("worked out twice"))
        answer = at.reply(pick)
    assert answer == plain.reply(pick)
    assert {n: answer["fragments"][n] for n in told["fragments"]} == told["fragments"]
    followed(at), followed(plain)
    assert at.shown == plain.shown == fragments(set_scene(at.resolver, fewer))


def test_another_choice_than_the_one_looked_at_is_worked_out_by_itself(at_desk):
    first = start_enquiry(at_desk.resolver.catalogue)
    some = list(first.options.items())
    at_desk.reply(picked(at_desk, first, "pick"))
    at_desk.reply(picked(at_desk, first.model_copy(update={"options": dict(some[:-1])}), "ahead"))
    other = first.model_copy(update={"options": dict(some[1:])})
    told = at_desk.reply(picked(at_desk, other, "pick"))
    assert told["figures"] == figures_document(quick_scene(at_desk.resolver, other).figures)
    followed(at_desk)
    assert at_desk.shown == fragments(set_scene(at_desk.resolver, other))


def test_what_cannot_be_read_ahead_changes_nothing(at_desk, monkeypatch):
    monkeypatch.setattr(desk, "_desk", at_desk)
    first = start_enquiry(at_desk.resolver.catalogue)
    at_desk.reply(picked(at_desk, first, "pick"))
    before = at_desk.scene
    wrong = {"kind": "ahead", "form": [["trip.adults", "many"]]}
    assert "error" in json.loads(desk.answer(json.dumps(wrong)))
    assert at_desk.scene is before and at_desk.ahead is None
    day = picked(at_desk, first, "ahead")
    day["form"] = [[name, {MONTH: "6", KIND: "dull"}.get(name, value)] for name, value in day["form"]]
    assert at_desk.reply(day) == {} and at_desk.ahead is None


def typing(at, **own):
    """The form as the desk shows it, with these entries of the own box."""
    form = entries(read_html(configurator_html(at.scene)).by_id("configurator"))
    new = {OWN + key: value for key, value in own.items()}
    return [*((k, v) for k, v in form if k not in new), *new.items()]


def test_a_box_of_ones_own_stays_typed_through_other_picks_until_it_is_added(at_desk):
    first = start_enquiry(at_desk.resolver.catalogue)
    at_desk.reply(picked(at_desk, first, "pick"))
    typed = {"name": "Easel", "length": "80", "width": "20", "height": "1"}
    told = at_desk.reply({"kind": "pick", "form": typing(at_desk, **typed)})
    assert told["enquiry"] == first.model_dump(mode="json", exclude_defaults=True)
    for value in typed.values():
        assert f'value="{value}"' in told["fragments"]["trip-form"]
    # Another pick, another day, a look ahead: all of them find it typed.
    form = [(k, "5" if k == "trip.adults" else v) for k, v in typing(at_desk)]
    ahead = at_desk.reply({"kind": "ahead", "form": form})
    assert 'value="Easel"' in ahead["fragments"]["trip-form"]
    assert 'value="Easel"' in at_desk.reply({"kind": "pick", "form": form})["fragments"]["trip-form"]
    followed(at_desk)
    shown_day(at_desk, "6", "dull")
    assert 'value="Easel"' in at_desk.shown["trip-form"]
    # Ahead of the button it is shown as added, and nothing is added by that.
    add = typing(at_desk, height="12", turn="yes", add="1")
    assert 'value="Easel"' not in at_desk.reply({"kind": "ahead", "form": add})["fragments"]["trip-form"]
    assert at_desk.own.name == "Easel" and not at_desk.scene.enquiry.trip.boxes
    told = at_desk.reply({"kind": "pick", "form": add})
    [box] = at_desk.scene.enquiry.trip.boxes
    assert (box.name, box.height_m, box.any_way_up) == ("Easel", 0.12, True)
    assert 'value="Easel"' not in told["fragments"]["trip-form"] and at_desk.own == UNTYPED


def test_a_box_that_cannot_be_added_is_told_where_it_is_typed_and_the_rest_of_the_pick_counts(at_desk):
    first = start_enquiry(at_desk.resolver.catalogue)
    at_desk.reply(picked(at_desk, first, "pick"))
    form = [
        (k, "5" if k == "trip.adults" else v)
        for k, v in typing(at_desk, name="Easel", length="80", width="20", add="1")
    ]
    told = at_desk.reply({"kind": "pick", "form": form})
    assert "error" not in told and told["enquiry"]["trip"]["adults"] == 5 and "boxes" not in told["enquiry"]["trip"]
    assert "Own box, height: please enter a number" in told["fragments"]["trip-form"]
    assert (at_desk.own.name, at_desk.own.length, at_desk.own.height) == ("Easel", "80", "")
    # What is typed next is judged when it is added.
    told = at_desk.reply({"kind": "pick", "form": typing(at_desk, height="9999")})
    assert "please enter" not in told["fragments"]["trip-form"] and "can be packed" not in at_desk.shown["trip-form"]
    with pytest.raises(FormError) as other:
        at_desk.reply(
            {"kind": "pick", "form": [(k, "" if k == "trip.adults" else v) for k, v in typing(at_desk, add="1")]}
        )
    assert other.value.field == "trip.adults"


@pytest.mark.parametrize("kind", ["reset", "link", "file"])
def test_another_build_comes_with_no_box_half_typed(at_desk, kind):
    first = start_enquiry(at_desk.resolver.catalogue)
    at_desk.reply(picked(at_desk, first, "pick"))
    at_desk.reply({"kind": "pick", "form": typing(at_desk, name="Easel")})
    told = at_desk.reply({"kind": kind, "fragment": to_link(first), "text": write_enquiry(first)})
    assert 'value="Easel"' not in told["fragments"]["trip-form"]


@pytest.mark.parametrize("kind", ["link", "file"])
def test_a_build_of_another_workshop_says_whose_it_is(at_desk, monkeypatch, kind):
    monkeypatch.setattr(desk, "_desk", at_desk)
    own, other = start_enquiry(at_desk.resolver.catalogue), start_enquiry(catalogue("quillback"))

    def told(ask):
        return json.loads(desk.answer(json.dumps({"kind": kind, "fragment": to_link(ask), "text": write_enquiry(ask)})))

    for ask in (other, own.model_copy(update={"workshop": "quillback"})):
        error = told(ask)["error"]
        assert error["where"] == "workshop"
        assert "made for 'quillback', and this is the shop of 'hallamoor'. Open it in the shop of" in error["text"]
        assert at_desk.scene is None
    # What names no workshop is held against this one.
    assert "bar" in told(own.model_copy(update={"workshop": None}))["fragments"]
    assert told(other.model_copy(update={"workshop": None}))["error"]["where"] == "vehicle"


def shown_day(desk_, month, kind):
    """Ask for a day by the hour as the page does, and follow it to its end."""
    scene = desk_.scene
    html = configurator_html(scene)
    form = [p for p in entries(read_html(html).by_id("configurator")) if p[0] not in (MONTH, KIND)]
    first = desk_.reply({"kind": "pick", "form": [*form, (MONTH, month), (KIND, kind)]})
    return first, followed(desk_)


def test_another_day_is_shown_without_working_the_rest_out_anew(at_desk):
    at_desk.reply(asked(12))
    followed(at_desk)
    before = at_desk.scene
    slow.cache_clear()
    first, told = shown_day(at_desk, "6", "dull")
    assert first["link"] == before.link and first["later"] is True and len(told) <= 4
    assert set(first["fragments"]) == {"energy-hours"} and "dull day in June" in told[-1]["fragments"]["energy-hours"]
    after = at_desk.scene
    assert after.figures._replace(energy=None) == before.figures._replace(energy=None)
    assert after.figures.energy._replace(day=None) == before.figures.energy._replace(day=None)
    sun = {}
    for kind in ("dull", "usual", "bright"):
        shown_day(at_desk, "6", kind)
        sun[kind] = sum(h.sun_wh + h.spilled_wh for h in at_desk.scene.figures.energy.day.hours)
        for h in at_desk.scene.figures.energy.day.hours:
            taken = h.sun_wh + h.alternator_wh + h.shore_wh
            assert taken == pytest.approx(h.load_wh + h.loss_wh + h.change_wh, abs=1e-9)
    assert sun["dull"] < 0.7 * sun["usual"] and sun["usual"] < sun["bright"]
    # A pick keeps the day that is looked at.
    at_desk.reply(asked(11))
    followed(at_desk)
    assert at_desk.scene.figures.energy.day[:2] == (6, "bright")


def test_a_day_nobody_knows_is_refused(at_desk):
    at_desk.reply(asked(12))
    for field, value in ((MONTH, "13"), (KIND, "rainy")):
        with pytest.raises(FormError) as told:
            shown_day(at_desk, *((value, "usual") if field == MONTH else ("0", value)))
        assert told.value.field == field


def test_a_shop_without_finished_vehicles_opens_with_its_first_vehicle_bare():
    """A new workshop has none to open with, and one that has some need not."""
    shop = catalogue("hallamoor")
    bare = shop.model_copy(
        update={"ready": (), "weighed_ready": (), "workshop": shop.workshop.model_copy(update={"start": None})}
    )
    first = start_enquiry(bare)
    assert (first.vehicle, dict(first.options)) == (shop.vehicles[0].id, {})
    assert first.trip == shop.workshop.trip
    html = configurator_html(set_scene(Resolver(bare, load_places()), first))
    assert shop.vehicles[0].name in html
