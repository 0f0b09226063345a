"""The page is made of fragments that stand still, change alone and are complete."""

from dataclasses import replace

import pytest

from engine.build import work_out
from engine.enquiry import Enquiry
from engine.sheets.form import FormError
from engine.sheets.page import configurator_html, form_error, fragments, report_html
from tests.sheets.reading import read_html


def one_more(stage, skip: int = 0):
    """An option of the start build's vehicle that is not chosen yet, in a chapter where any number may be."""
    vehicle = stage.start.vehicle
    free = [
        o.id
        for s in stage.catalogue.sections
        for o in s.options
        if s.pick == "any" and o.id not in stage.start.options and (not o.fits or vehicle in o.fits)
    ]
    return free[skip]


def test_every_fragment_is_one_element_with_its_id(stage):
    for id_, html in fragments(stage.scene()).items():
        root = read_html(html)
        assert [e.get("id") for e in root.children] == [id_]


def test_ids_are_unique_on_the_page(stage):
    ids = [e.get("id") for e in read_html(configurator_html(stage.scene())).all() if e.get("id")]
    assert len(ids) == len(set(ids))


def test_ids_of_fragments_are_the_same_for_every_enquiry(stage):
    ids = set(fragments(stage.scene()))
    for vehicle in stage.catalogue.vehicles:
        bare = Enquiry(vehicle=vehicle.id, trip=stage.start.trip)
        assert set(fragments(stage.scene(bare))) == ids
    everything = {o.id: o.most for s in stage.catalogue.sections for o in s.options} | {"long-gone": 2}
    assert set(fragments(stage.scene(stage.start.model_copy(update={"options": everything})))) == ids


def test_page_contains_every_fragment_as_it_is(stage):
    scene = stage.scene()
    page = configurator_html(scene)
    for id_, html in fragments(scene).items():
        assert html in page or id_ == "draw-day", id_


def test_the_page_as_it_is_served_has_a_plan_that_nothing_pretends_to_move(stage):
    scene = stage.scene()
    served = read_html(configurator_html(scene)).by_id("draw-day")
    answered = read_html(fragments(scene)["draw-day"])
    assert not [e for e in served.all() if e.has("tabindex") or e.has("data-move")]
    assert served.all("svg")[0].get("role") == "img"
    assert [e for e in answered.all() if e.has("data-move")]

    def plain(drawing):
        return [[r.get(a) for a in ("x", "y", "width", "height")] for r in drawing.all("svg")[0].all("rect")]

    assert plain(served) == plain(answered)


def test_the_same_scene_gives_the_same_fragments(stage):
    assert fragments(stage.scene()) == fragments(stage.scene())


def test_a_pick_changes_its_row_and_leaves_other_rows_alone(stage):
    picked = one_more(stage)
    before, after = fragments(stage.scene()), fragments(stage.with_options(**{picked: 1}))
    changed = {i for i in after if after[i] != before[i]}
    assert f"opt-{picked}" in changed
    assert {"price", "parts", "bar"} <= changed
    rows = {i for i in changed if i.startswith("opt-")}
    spoken = {i for f in stage.with_options(**{picked: 1}).findings for i in f.options}
    assert rows <= {f"opt-{i}" for i in spoken | {picked}}
    assert not {i for i in changed if i.startswith(("veh-", "trip-form", "identity"))}


def test_taking_a_pick_back_gives_the_first_page_again(stage):
    before = fragments(stage.scene())
    fragments(stage.with_options(**{one_more(stage): 1}))
    assert fragments(stage.scene()) == before


def test_every_finding_that_is_not_ok_stands_in_the_margin(stage):
    scene = stage.with_trip(adults=7, children=6, days_off_grid_d=60.0, days_between_fills_d=40.0, baggage_kg=1200.0)
    page = read_html(configurator_html(scene))
    notes = [n.whole_text for n in page.of_class("note")]
    loud = [f for f in scene.findings if f.verdict != "ok"]
    assert loud
    assert len(notes) == len(loud)
    for f in loud:
        note = next(n for n in notes if f.cause in n)
        assert {"fails": "fails", "tight": "tight", "unknown": "not known", "note": "note"}[f.verdict] in note
        assert f.title in note
        for source in f.sources:
            assert source in note


def test_a_note_stands_beside_the_first_option_that_causes_it(stage):
    scene = stage.with_trip(adults=7, days_between_fills_d=40.0, baggage_kg=1200.0)
    page = read_html(configurator_html(scene))
    for f in scene.findings:
        known = [i for i in f.options if i in scene.catalogue.options_by_id]
        if f.verdict == "ok" or not known:
            continue
        row = page.by_id(f"opt-{known[0]}")
        assert any(f.cause in n.whole_text for n in row.of_class("note"))


def test_fine_checks_are_counted_and_listed(stage):
    scene = stage.scene()
    page = read_html(configurator_html(scene))
    listed = [li.whole_text for d in page.of_class("fine") for li in d.all("li")]
    fine = [f for f in scene.findings if f.verdict == "ok"]
    assert len(listed) == len(fine)
    assert all(any(f.cause in line for line in listed) for f in fine)


def test_options_for_other_vehicles_cannot_be_picked_and_say_why(stage):
    scene = stage.scene()
    page = read_html(configurator_html(scene))
    others = [o for s in stage.catalogue.sections for o in s.options if o.fits and stage.start.vehicle not in o.fits]
    assert others
    for option in others:
        row = page.by_id(f"opt-{option.id}")
        assert all(e.has("disabled") for e in row.all("input"))
        assert scene.build.vehicle.name in row.of_class("unfit")[0].text


def test_a_chosen_option_that_does_not_fit_can_be_taken_back(stage):
    other = next(o for s in stage.catalogue.sections for o in s.options if o.fits and stage.start.vehicle not in o.fits)
    row = read_html(configurator_html(stage.with_options(**{other.id: 1}))).by_id(f"opt-{other.id}")
    assert not any(e.has("disabled") for e in row.all("input"))
    assert any("Left out of the sums" in p.text for p in row.of_class("unfit"))


def test_every_entry_has_a_label(stage):
    page = read_html(configurator_html(stage.scene()))
    labelled = {e.get("for") for e in page.all("label")}
    for e in (*page.all("input"), *page.all("select")):
        if e.get("type") == "hidden":
            continue
        inside = e.parent is not None and e.parent.tag == "label"
        assert inside or e.get("id") in labelled or e.get("aria-label"), e.attributes


def test_links_within_the_page_lead_somewhere(stage):
    scene = stage.with_trip(adults=7, days_between_fills_d=40.0, baggage_kg=1200.0)
    page = read_html(configurator_html(scene))
    ids = {e.get("id") for e in page.all()}
    targets = [a.get("href") for a in page.all("a") if (a.get("href") or "").startswith("#")]
    assert len(targets) > 10
    assert [t for t in targets if t[1:] not in ids] == ["#abc"]


def test_no_inline_style_script_or_handler(stage):
    # A strict content policy forbids them all.
    for e in read_html(configurator_html(stage.scene())).all():
        assert e.tag not in ("script", "style", "link")
        assert not [a for a in e.attributes if a == "style" or a.startswith("on")]


def test_no_blank_line_breaks_the_page_in_markdown(stage):
    assert "\n\n" not in configurator_html(stage.scene())


def test_report_stands_alone_and_shows_what_is_chosen(stage):
    scene = stage.scene()
    text = report_html(scene, ".sheet { color: black }")
    assert text.startswith("<!DOCTYPE html>")
    assert ".sheet { color: black }" in text
    page = read_html(text.removeprefix("<!DOCTYPE html>"))
    rows = {e.get("id") for e in page.of_class("row")}
    assert {f"opt-{i}" for i in stage.start.options} <= rows
    assert not {f"opt-{one_more(stage)}"} & rows
    for e in page.all():
        assert e.tag not in ("script", "link", "img")
        assert not (e.get("href") or "#").startswith(("http", "..", "/")), e.attributes


def test_report_css_cannot_close_its_element(stage):
    page = report_html(stage.scene(), "a{content:'</style><script>x</script>'}")
    assert "</style><script>" not in page


def test_form_error_names_field_and_text():
    shown = read_html(form_error(FormError("trip.adults", "Grown-ups: <b>"))).by_id("form-error")
    assert shown.get("data-field") == "trip.adults"
    assert "Grown-ups: <b>" in shown.whole_text
    assert read_html(form_error(None)).by_id("form-error").has("hidden")


@pytest.mark.parametrize(
    "evil", ["<script>alert(1)</script>", '"><img src=x onerror=alert(1)>', "{{ 7*7 }}", "]]>--><b>"]
)
def test_hostile_titles_and_ids_stay_text(stage, evil):
    scene = stage.scene(stage.start.model_copy(update={"title": evil, "options": {**stage.start.options, evil: 1}}))
    scene = scene._replace(link=evil)
    page = read_html(configurator_html(scene))
    assert page.by_id("in-title").get("value") == evil
    assert page.by_id("left-out").of_class("name")[0].text == evil
    assert (
        not page.all("script")
        and not page.all("img")
        and len(page.all("b"))
        == len(
            read_html(
                configurator_html(stage.scene(scene.enquiry.model_copy(update={"title": "plain"}))._replace(link="x"))
            ).all("b")
        )
    )
    assert evil in read_html(report_html(scene, "").removeprefix("<!DOCTYPE html>")).all("title")[0].text


def test_hostile_catalogue_texts_stay_text(stage):
    evil = "<script>alert('shop')</script>"
    section = stage.catalogue.sections[0]
    option = section.options[0].model_copy(update={"name": evil, "summary": evil})
    section = section.model_copy(update={"title": evil, "intro": evil, "options": (option, *section.options[1:])})
    shop = stage.catalogue.workshop.model_copy(update={"name": evil, "tagline": evil})
    catalogue = stage.catalogue.model_copy(
        update={"sections": (section, *stage.catalogue.sections[1:]), "workshop": shop}
    )
    scene = stage.scene()._replace(catalogue=catalogue)
    for text in (configurator_html(scene), report_html(scene, "")):
        assert "<script" not in text
        assert "&lt;script&gt;alert(&#39;shop&#39;)" in text


def test_a_sum_with_a_mass_that_is_not_stated_is_the_least_it_can_be(stage):
    scene = stage.scene()
    first = scene.build.parts[0]
    parts = (replace(first, mass_kg=None), *scene.build.parts[1:])
    build = replace(scene.build, parts=parts)
    known, told = fragments(scene), fragments(scene._replace(build=build, figures=work_out(build)))
    for html, count in ((known, 0), (told, 1)):
        assert read_html(html["parts"]).all("tfoot")[0].whole_text.count("at least ") == count
        assert read_html(html[f"fold-{first.section_id}"]).whole_text.count("chosen, at least ") == count


def test_a_bare_vehicle_has_no_empty_list_of_parts(stage):
    bare = Enquiry(vehicle=stage.catalogue.vehicles[0].id, trip=stage.start.trip)
    assert not read_html(fragments(stage.scene(bare))["parts-list"]).all("table")
    assert read_html(fragments(stage.scene())["parts-list"]).all("table")
