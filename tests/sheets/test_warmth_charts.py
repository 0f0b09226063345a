"""Charts of warmth and damp say what the figures say, and stand in their chapters on page and paper."""

import re

import pytest

from engine.build import work_out
from engine.build.winter_hours import DampDay, Night, through
from engine.sheets.charts.kit import RIGHT, WIDTH
from engine.sheets.charts.share import Part
from engine.sheets.charts.warmth import damp, heat, night, wall
from engine.sheets.page import answer_fragments, configurator_html, fragments, report_html
from engine.sheets.warmth import _water
from tests.build.test_winter_hours import FOAM, LINING, STEEL, WOOL
from tests.sheets.reading import read_html
from tests.shops import enquiry, resolver

NAMES = ("warmth-wall", "warmth-heat", "warmth-night", "warmth-damp")


def _points(svg: str, css: str) -> list[tuple[float, float]]:
    found = re.search(rf'<path class="{css}" d="M([^"Z]+)', svg)
    assert found
    return [(float(x), float(y)) for x, y in (p.split() for p in found[1].split("L"))]


def test_layers_stand_to_scale_and_the_wet_zone_where_both_lines_cross() -> None:
    svg = wall(through("walls", (LINING, WOOL, STEEL), 18, 0.6, 0), "metric")
    widths = [float(w) for w in re.findall(r'class="ply [^"]+" x="[\d.]+" y="[\d.]+" width="([\d.]+)"', svg)]
    assert widths[1] / widths[0] == pytest.approx(10, rel=0.02) and widths[2] < widths[0]
    wet, line, dew = (_points(svg, css) for css in ("wet", "line", "line-poor"))
    assert min(x for x, _ in wet) > line[2][0] and max(x for x, _ in wet) <= WIDTH - RIGHT
    assert dew[0][0] == line[0][0] and dew[0][1] > line[0][1]
    text = read_html(svg).by_id("warmth-wall-d").text
    assert "18 °C inside, 0 °C outside" in text and "ply (4 mm); wool (40 mm); steel (0.8 mm)" in text
    assert "From 10 °C on, in wool, it is colder." in text


def test_the_wall_says_how_cold_it_is_over_ribs_and_how_much_water_gathers() -> None:
    svg = wall(through("walls", (LINING, WOOL, STEEL), 18, 0.6, 0), "metric", ("steel ribs", 9.6), ("It is little.",))
    assert "over steel ribs" in svg and svg.count("10 °C over steel ribs") == 2
    assert '<p class="quiet">It is little.</p>' in svg
    assert "over" not in wall(through("walls", (LINING, WOOL, STEEL), 18, 0.6, 0), "metric").split("<ul")[1]


@pytest.mark.parametrize(
    ("peak_kg_m2", "left_kg_m2", "wet", "said"),
    [
        (0.012, 0.0, True, "at most 12 g/m², 0.2 L on all 20 m², gather in it; all of it dries within a year."),
        (1.5, 0.25, True, "at most 1,500 g/m², 30 L on all 20 m², gather in it; 250 g/m², 5 L on all 20 m², are left"),
        (0.0004, 0.0, True, "one such night is too short for that"),
        (0.0004, 0.0, False, None),
    ],
)
def test_water_in_the_wall_is_told_with_its_amount(
    peak_kg_m2: float, left_kg_m2: float, wet: bool, said: str | None
) -> None:
    build = resolver("hallamoor").resolve(enquiry("hallamoor", ready="dry-stone", place="helsinki", months=[1]))
    f = work_out(build)
    assert f.damp is not None
    [(name, year)] = [x for x in f.damp.years if x[0] == "walls"]
    damp = f.damp._replace(years=((name, year._replace(peak_kg_m2=peak_kg_m2, left_kg_m2=left_kg_m2)),))
    told = _water(damp, f.warmth.surfaces[0]._replace(area_m2=20.0), wet, "metric")
    assert (told == ()) if said is None else said in told[0]
    assert _water(damp._replace(years=()), f.warmth.surfaces[0], wet, "metric") == ()


def test_a_dry_wall_has_no_wet_zone_and_an_unknown_layer_is_named() -> None:
    assert "wet" not in wall(through("walls", (FOAM, STEEL), 18, 0.3, 10), "metric")
    svg = wall(through("walls", (WOOL._replace(vapour_multiple=None), STEEL), 18, 0.6, 0), "us")
    assert "wool states no vapor figure" in svg and 'class="wet"' not in svg and "(0.03 in)" in svg


def test_bars_are_as_long_as_their_heat() -> None:
    svg = heat((Part("walls", 600.0), Part("fresh air", 300.0), Part("roof", 150.0)), 18, -10, "metric")
    assert [
        float(w) for w in re.findall(r'<rect class="load" x="0" y="[\d.]+" width="([\d.]+)"', svg)
    ] == pytest.approx([350, 175, 87.5])
    assert "1.05 kW in all. walls 600 W; fresh air 300 W; roof 150 W." in read_html(svg).by_id("warmth-heat-d").text


def test_the_night_tells_its_coldest_hours() -> None:
    n = Night((18, 19, 20), (0.0, -2.0, -4.0), (18.0, 17.0, 16.0), (18.0, 9.0, 4.0))
    text = read_html(night(n, 18, (), "metric")).by_id("warmth-night-d").text
    assert "outside −4 °C at the coldest" in text and "never below 16 °C" in text and "4 °C by morning" in text
    without = night(n._replace(heated_degc=()), 18, ("So much.",), "metric")
    assert 'class="line"' not in without and "No main heater" in without and "So much." in without


def test_the_damp_day_counts_hours_above_each_limit() -> None:
    humid = (0.5,) * 20 + (0.7,) * 4
    d = DampDay(humid, (0.1,) * 24, "glass", (0.6,) * 24, "ribs", (0.8,) * 24, 0.0, 1.0, 2.0)
    svg = damp(d, "January", (), "metric")
    text = read_html(svg).by_id("warmth-damp-d").text
    assert "Inside 50 % to 70 %, highest at 21:00." in text
    assert "glass stays dry up to 60 %; above its line in 4 of 24 hours." in text and "in 0 of 24 hours" in text
    assert _points(svg, "line")[0][1] == pytest.approx(_points(svg, "line")[-1][1])


def test_charts_come_after_the_answer_and_stand_on_page_and_paper(stage) -> None:
    trip = stage.start.trip.model_copy(update={"months": (1,)})
    scene = stage.scene(stage.start.model_copy(update={"trip": trip}))
    parts = fragments(scene)
    assert set(NAMES) <= parts.keys() and not set(NAMES) & answer_fragments(scene).keys()
    for html in (configurator_html(scene), report_html(scene, "")):
        assert all(html.count(f'id="{name}"') == 1 for name in NAMES)
    f = scene.figures
    assert "Where the heat goes" in parts["warmth-heat"] and "such nights" in parts["warmth-night"]
    assert f.warm_up is not None and "fresh air" in parts["warmth-heat"]


def test_trips_without_cold_say_so(stage) -> None:
    trip = stage.start.trip.model_copy(update={"months": (7,), "place": "tucson", "inside_degc": 15.0})
    parts = fragments(stage.scene(stage.start.model_copy(update={"trip": trip})))
    for name in NAMES:
        assert "No month of this trip needs heating." in parts[name]
