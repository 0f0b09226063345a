"""Floor plans and the rear view: every piece to scale in its place, sizes in the workshop's units, words for all."""

import pytest

from engine.build.plan_cargo import cargo_of
from engine.catalogue.trip import CargoBox
from engine.enquiry.model import Move
from engine.sheets.page import fragments, report_html
from engine.units import show
from tests.sheets.reading import read_html

DRAWINGS = ("draw-day", "draw-side", "draw-night", "draw-roof", "draw-rear")


def rect(element):
    return tuple(float(element.get(k)) for k in ("x", "y", "width", "height"))


def drawing(scene, name):
    return read_html(fragments(scene)[name])


def pieces(drawn):
    """Rectangles of the pieces, with the option they belong to."""
    groups = [g for g in drawn.of_class("piece") if g.tag == "g"]
    return sorted((g.get("data-part"), rect(g.all("rect")[0])) for g in groups)


def everywhere(stage):
    """Scenes of every finished vehicle."""
    for r in stage.catalogue.ready:
        yield stage.scene(stage.start.model_copy(update={"vehicle": r.vehicle, "options": dict(r.options)}))


@pytest.mark.parametrize("state", ["day", "night"])
def test_every_piece_is_drawn_to_scale_where_the_plan_has_it(stage, state):
    for scene in everywhere(stage):
        plan, width_m = scene.figures.plan, scene.build.vehicle.cabin.width_m
        placed = plan.day if state == "day" else plan.night
        expected = sorted(
            (p.option_id, tuple(100 * m for m in (p.x_m, width_m - p.y_m - p.depth_m, p.length_m, p.depth_m)))
            for p in placed
        )
        drawn = pieces(drawing(scene, f"draw-{state}"))
        assert [i for i, _ in drawn] == [i for i, _ in expected]
        for (_, got), (_, want) in zip(drawn, expected, strict=True):
            assert got == pytest.approx(want, abs=0.011)


def test_dimension_lines_say_what_they_span(stage):
    for scene in everywhere(stage):
        v, units = scene.build.vehicle, scene.build.workshop.units
        inside = scene.figures.plan.inside
        spans = {
            "draw-day": (inside.length_m, inside.width_m),
            "draw-night": (inside.length_m, inside.width_m),
            "draw-side": (v.wheelbase_m, v.height_m),
            "draw-rear": (v.width_m, v.height_m),
            "draw-roof": (v.roof.length_m, v.roof.width_m),
        }
        for name, metres in spans.items():
            dims = drawing(scene, name).of_class("dim")
            words = [d.all("text")[0].text for d in dims]
            assert words[:2] == [show(m, "m", units) for m in metres], name
            for dim, span_m in zip(dims, metres, strict=False):
                first = dim.all("path")[0].get("d").split("M")[1]
                start, end = first.replace("H", " ").replace("V", " ").split()[0::2]
                if "V" in first:
                    start = first.split("V")[0].split()[1]
                    end = first.split("V")[1]
                assert float(end) - float(start) == pytest.approx(span_m * 100, abs=0.02), (name, first)


def test_all_drawings_say_what_they_show_on_paper_too(stage):
    paper = read_html(report_html(stage.scene(), ""))
    for name in DRAWINGS:
        svg = paper.by_id(name).all("svg")[0]
        assert svg.get("role") == "img"
        for part in svg.get("aria-labelledby").split():
            assert len(svg.by_id(part).text) > 10
    assert paper.by_id("parts-list").all("tr")


def test_the_description_names_every_piece_of_the_plan(stage):
    scene = stage.scene()
    said = drawing(scene, "draw-day").all("desc")[0].text
    for p in scene.figures.plan.day:
        assert p.name in said


def test_a_move_moves_the_piece_its_handle_and_its_words(stage):
    plan = stage.scene().figures.plan
    low = next(p for p in plan.day if p.movable and p.piece == 0 and p.side in ("left", "right") and p.z_m < 1)
    other = "right" if low.side == "left" else "left"
    scene = stage.scene(stage.start.model_copy(update={"moves": {low.option_id: Move(x_m=1.0, side=other)}}))
    placed = next(p for p in scene.figures.plan.day if p.option_id == low.option_id and p.piece == 0)
    drawn = drawing(scene, "draw-day")
    handle = drawn.by_id(f"move-{low.option_id}")
    assert rect(handle)[0] == pytest.approx(placed.x_m * 100, abs=0.011)
    assert float(handle.get("data-move").split()[0]) == pytest.approx(placed.x_m, abs=1e-4)
    assert f"{other} wall" in handle.get("aria-label")
    tool = next(t for t in drawn.all("div") if t.get("data-tool") == low.option_id)
    automatic = tool.by_id(f"auto-{low.option_id}")
    assert not automatic.has("disabled")
    untouched = next(t for t in drawn.all("div") if t.get("data-tool") not in (None, low.option_id))
    assert next(b for b in untouched.all("button") if b.get("value") == "auto").has("disabled")


def test_pieces_without_a_place_are_said_to_have_none(stage):
    berths = [
        o.id
        for s in stage.catalogue.sections
        for o in s.options
        if any(f.kind == "furniture" and f.length_m * f.depth_m > 1 for f in o.facets)
    ]
    scene = stage.with_options(**dict.fromkeys(berths, 1))
    lost = [p for p in scene.figures.plan.day if not p.fits]
    assert lost
    drawn = drawing(scene, "draw-day")
    key = " ".join(k.whole_text for k in drawn.of_class("key"))
    for p in lost:
        assert f"{p.name}: no free place" in key
        assert any(g.get("data-part") == p.option_id for g in drawn.of_class("trouble"))


def test_the_garage_its_doors_and_bulky_things_are_drawn_from_behind(stage):
    boxes = (CargoBox(name="folding chair", length_m=0.5, width_m=0.3, height_m=0.2, count=2),)
    trip = stage.start.trip.model_copy(update={"boxes": boxes})
    seen = 0
    for r in stage.catalogue.ready:
        update = {"vehicle": r.vehicle, "options": dict(r.options), "trip": trip}
        scene = stage.scene(stage.start.model_copy(update=update))
        cargo = cargo_of(scene.build)
        if cargo.garage is None or cargo.fit is None or not cargo.fit.stowed:
            continue
        seen += 1
        drawn, units = drawing(scene, "draw-rear"), scene.build.workshop.units
        garage = next(e for e in drawn.all("rect") if e.get("class") == "garage")
        space = cargo.garage.space
        assert rect(garage)[2:] == pytest.approx((space.width_m * 100, space.height_m * 100), abs=0.011)
        key = drawn.of_class("key")[0].whole_text
        assert f"{show(space.width_m, 'm', units)} wide, {show(space.height_m, 'm', units)} high inside" in key
        for door in cargo.garage.doors:
            assert door.name in key
        chairs = [rect(g.all("rect")[0]) for g in drawn.of_class("cargo")]
        assert len(chairs) == 2
        left, top, width, height = rect(garage)
        for x, y, w, h in chairs:
            assert left - 0.02 <= x
            assert x + w <= left + width + 0.02
            assert top - 0.02 <= y
            assert y + h <= top + height + 0.02
        assert "a folding chair" in key
    assert seen


def test_the_centre_of_gravity_is_drawn_where_it_is_or_said_to_be_unknown(stage):
    for scene in everywhere(stage):
        x_m, _, z_m = scene.figures.mass.heaviest.cg
        drawn = drawing(scene, "draw-side")
        said = drawn.of_class("key")[0].whole_text
        if z_m is None:
            line = next(e for e in drawn.all("path") if e.get("class") == "cg-line")
            assert float(line.get("d")[1:].split()[0]) == pytest.approx(x_m * 100, abs=0.011)
            assert "height not known" in said
        else:
            disc = next(g for g in drawn.of_class("cg")).all("circle")[0]
            centre = (float(disc.get("cx")), scene.build.vehicle.height_m * 100 - float(disc.get("cy")))
            assert centre == pytest.approx((x_m * 100, z_m * 100), abs=0.02)
            assert show(z_m, "m", scene.build.workshop.units) in said


@pytest.mark.parametrize("state", ["day", "night"])
def test_the_plan_gives_no_aisle_while_something_has_no_place(stages, state):
    stage = stages("quillback")
    options = {"dinette-bed": 1, "galley-48": 1}
    for more, said in (({}, "at its narrowest"), ({"bed-across-queen": 1}, "Aisle not known until everything has a")):
        asked = stage.start.model_copy(update={"vehicle": "van", "options": options | more})
        words = drawing(stage.scene(asked), f"draw-{state}").whole_text
        assert said in words and ("narrowest" in words) == (not more)
