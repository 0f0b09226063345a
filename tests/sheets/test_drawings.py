"""Drawings are to scale: one unit is one centimetre of the vehicle, measured against the figures."""

import re

import pytest

from engine.sheets.drawings.scale import cm, length_class
from engine.sheets.page import fragments
from tests.sheets.reading import read_html


def rect(element):
    return tuple(float(element.get(k)) for k in ("x", "y", "width", "height"))


def roof_of(scene):
    return read_html(fragments(scene)["draw-roof"])


def test_roof_and_edge_are_to_scale(stage):
    scene = stage.scene()
    roof, drawing = scene.build.vehicle.roof, roof_of(scene)
    # Corners are arcs and ends may be narrower: the furthest points of both outlines are to scale.
    for css, edge_m in (("roof", 0.0), ("edge", roof.edge_m)):
        path = next(p for p in drawing.all("path") if p.get("class") == css).get("d")
        ends = [tuple(map(float, re.split(" ", step)[-2:])) for step in re.findall(r"[MLA]([^MLAZ]+)", path)]
        sides = (min(x for x, _ in ends), min(y for _, y in ends), max(x for x, _ in ends), max(y for _, y in ends))
        far = (edge_m, edge_m, roof.length_m - edge_m, roof.width_m - edge_m)
        assert sides == pytest.approx([v * 100 for v in far], abs=0.006)
    ribs = [p.get("d") for p in drawing.all("path") if p.get("class") == "rib"]
    assert "".join(ribs).count("M") == len(scene.figures.roof.space.ribs_m) + len(scene.figures.roof.space.rails_m)


def test_panels_and_obstacles_are_where_the_figures_say(stage):
    scene = stage.scene()
    figures, width_m = scene.figures.roof, scene.build.vehicle.roof.width_m
    drawing = roof_of(scene)

    def expected(r):
        # The left side of the vehicle is at the bottom of the drawing.
        return (r.x_m * 100, (width_m - r.y_m - r.width_m) * 100, r.length_m * 100, r.width_m * 100)

    panels = [rect(g.all("rect")[0]) for g in drawing.of_class("panel") if g.tag == "g"]
    assert len(panels) == figures.panels_placed > 0
    for drawn, placed in zip(panels, figures.packing.placed, strict=True):
        assert drawn == pytest.approx(expected(placed), abs=0.006)
    bodies = [rect(g.all("rect")[0]) for g in drawing.of_class("thing") if g.tag == "g"]
    clear = [rect(r) for r in drawing.of_class("clear")]
    assert len(bodies) == len(clear) == len(figures.obstacles) > 0
    for body, kept, o in zip(bodies, clear, figures.obstacles, strict=True):
        assert body == pytest.approx(expected(o.body), abs=0.006)
        assert kept == pytest.approx(expected(o.keep_clear), abs=0.006)


def test_panels_without_room_are_listed(stage):
    panel = next(i for i in stage.start.options if i in {p.key for p in stage.scene().figures.roof.packing.placed})
    option = stage.catalogue.options_by_id[panel][1]
    scene = stage.with_options(**{panel: 20})
    missing = scene.figures.roof.panels_wanted - scene.figures.roof.panels_placed
    assert missing > 0
    drawing = roof_of(scene)
    assert f"no room for {missing} of {option.name}" in drawing.of_class("key")[0].whole_text
    assert f"No room for {missing} of {option.name}." in drawing.all("desc")[0].text


def test_side_view_is_to_scale(stage):
    for vehicle in stage.catalogue.vehicles:
        scene = stage.scene(stage.start.model_copy(update={"vehicle": vehicle.id}))
        drawing = read_html(fragments(scene)["draw-side"])
        wheels = [c for c in drawing.all("circle") if c.get("class") == "wheel"]
        assert [float(w.get("cx")) for w in wheels] == pytest.approx([0, vehicle.wheelbase_m * 100], abs=0.006)
        corners = [
            tuple(map(float, point.split()))
            for p in drawing.of_class("body")
            for point in p.get("d").removeprefix("M").removesuffix("Z").split("L")
        ]
        assert min(x for x, _ in corners) == pytest.approx(-vehicle.front_overhang_m * 100, abs=0.006)
        assert min(y for _, y in corners) == 0
        ground = float(wheels[0].get("cy")) + float(wheels[0].get("r"))
        assert ground == pytest.approx(vehicle.height_m * 100, abs=0.02)


def test_axle_bars_show_the_share_of_the_rating(stage):
    scene = stage.scene()
    mass, plate = scene.figures.mass, scene.build.vehicle.masses
    shares = (
        mass.front_worst.axles.front_kg / plate.front_axle_rating_kg,
        mass.rear_worst.axles.rear_kg / plate.rear_axle_rating_kg,
    )
    axles = read_html(fragments(scene)["draw-side"]).of_class("axle")
    for axle, share, x_m in zip(axles, shares, (0, scene.build.vehicle.wheelbase_m), strict=True):
        limit, load = (rect(r) for r in axle.all("rect"))
        assert load[2] / limit[2] == pytest.approx(share, abs=0.001)
        assert limit[0] + limit[2] / 2 == pytest.approx(x_m * 100, abs=0.02)


def test_drawings_say_what_they_show(stage):
    for id_ in ("draw-roof", "draw-side"):
        svg = read_html(fragments(stage.scene())[id_]).all("svg")[0]
        assert svg.get("role") == "img"
        for part in svg.get("aria-labelledby").split():
            assert len(svg.by_id(part).text) > 10


@pytest.mark.parametrize(
    ("metres", "text"), [(0, "0"), (-0.00001, "0"), (1.234567, "123.46"), (0.1, "10"), (-2.5, "-250")]
)
def test_centimetres_have_no_needless_zeros(metres, text):
    assert cm(metres) == text


@pytest.mark.parametrize(("metres", "size"), [(2.0, 4), (5.4, 5), (9.6, 10), (40.0, 14)])
def test_length_class_stays_in_its_range(metres, size):
    assert length_class(metres) == size
