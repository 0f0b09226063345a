"""One numbering for all drawings and the parts list."""

from engine.sheets.page import fragments
from engine.units import show
from tests.sheets.reading import read_html


def numbers_in(fragment):
    """Number drawn for each option, from the labels of a drawing."""
    found = {}
    for tag in read_html(fragment).of_class("tag"):
        if tag.get("data-part"):
            found.setdefault(tag.get("data-part"), set()).add(tag.all("text")[0].text)
    return found


def lines_of(scene):
    rows = read_html(fragments(scene)["parts-list"]).all("tbody")[0].all("tr")
    return {r.get("data-part"): [c.whole_text for c in r.children] for r in rows}


def test_every_drawing_has_the_numbers_of_the_parts_list(stage):
    scene = stage.scene()
    lines = lines_of(scene)
    drawn = {}
    for name, html in fragments(scene).items():
        if name.startswith("draw-"):
            for option_id, texts in numbers_in(html).items():
                drawn.setdefault(option_id, set()).update(texts)
    assert len(drawn) > 5
    for option_id, texts in drawn.items():
        assert texts == {lines[option_id][0]}, option_id
    assert drawn.keys() == lines.keys()


def test_numbers_run_in_catalogue_order_whatever_was_chosen_first(stage):
    scene = stage.scene()
    order = list(stage.catalogue.options_by_id)
    ids = list(lines_of(scene))
    assert ids == sorted(ids, key=order.index)
    assert [line[0] for line in lines_of(scene).values()] == [str(n) for n in range(1, len(ids) + 1)]
    backwards = dict(reversed(stage.start.options.items()))
    assert lines_of(stage.scene(stage.start.model_copy(update={"options": backwards}))) == lines_of(scene)


def test_count_and_mass_are_the_builds_own(stage):
    scene = stage.scene()
    parts = {p.option.id: p for p in scene.build.parts}
    for option_id, (_, name, mass) in lines_of(scene).items():
        part = parts[option_id]
        # The count stands before the name: before the mass it would read as if the mass were of one.
        assert name.startswith(f"{part.count} × {part.option.name}" if part.count > 1 else part.option.name)
        assert mass == show(part.mass_kg, "kg", scene.build.workshop.units)


def test_each_number_leads_to_its_row_among_the_choices(stage):
    scene = stage.scene()
    listed = read_html(fragments(scene)["parts-list"])
    for link in listed.all("tbody")[0].all("a"):
        assert link.get("href").removeprefix("#") in fragments(scene)


def test_what_has_no_place_is_listed_without_one(stages):
    stage = stages("quillback")
    van = next(r for r in stage.catalogue.ready if r.vehicle == "van")
    every = {**van.options, "bed-along-full": 0, "bed-across-van": 1}
    asked = stage.start.model_copy(update={"vehicle": "van", "options": {i: n for i, n in every.items() if n}})
    scene = stage.scene(asked)
    standing = {}
    for p in scene.figures.plan.day:
        standing.setdefault(p.option_id, []).append(p.fits)
    assert [True] in standing.values() and [False] in standing.values()
    for option_id, fits in standing.items():
        name = lines_of(scene)[option_id][1]
        assert ("no free place" in name) == (not all(fits)), name
        assert ("from the front" in name or "built in" in name) == any(fits), name
