"""Charts say what the figures say: scales, words that keep apart, and marks that stand where the numbers are."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.sheets.charts.kit import BOTTOM, HEIGHT, LEFT, RIGHT, TOP, WIDTH, path
from engine.sheets.charts.scale import Scale, energy_unit, round_step, spaced, text_width
from engine.sheets.charts.share import Part, limit, share
from engine.sheets.page import configurator_html, fragments, report_html
from engine.units import show
from tests.sheets.reading import read_html

IDS = ("energy-words", "energy-course", "energy-hours", "energy-months", "energy-share", "energy-limit")


@given(st.floats(1e-3, 1e7), st.integers(1, 20))
def test_steps_are_round_and_few(span, most):
    step = round_step(span, most)
    assert span / step <= most + 1e-6
    assert re.fullmatch(r"[125]0*", f"{step / 10.0**-6:.0f}")


@given(st.floats(-1e4, 0), st.floats(1, 1e6), st.integers(2, 14))
def test_ticks_lie_on_the_scale(low, high, most):
    scale = Scale(low, high, 0, 100)
    ticks = scale.ticks(most)
    assert 1 <= len(ticks) <= most + 1
    assert all(-1e-6 <= scale.at(t) <= 100 + 1e-6 for t in ticks)


@given(st.lists(st.text("0123456789", min_size=1, max_size=8), min_size=1, max_size=40))
def test_words_along_an_axis_never_touch(words):
    kept = spaced([(i * 9.0, w) for i, w in enumerate(words)])
    ends = [(x - text_width(w) / 2, x + text_width(w) / 2) for x, w in kept]
    assert all(b[0] > a[1] for a, b in pairwise(ends)) and kept[0][1] == words[0]


def test_axes_change_to_thousands():
    assert energy_unit(1900).text(500) == "500" and energy_unit(9000).text(2500) == "2.5"
    assert energy_unit(9000, "W").unit == "kW" and energy_unit(100).text(-50) == "−50"


def test_level_stretches_need_no_points():
    points = [(float(x), 5.0) for x in range(50)] + [(50.0, 9.0)]
    assert path(points, "line").count("L") == 2


@pytest.fixture(scope="module")
def full():
    from tests.sheets.conftest import stage_of

    return {name: stage_of(name).scene(slow=True) for name in ("quillback", "hallamoor")}


@pytest.mark.parametrize("name", ["quillback", "hallamoor"])
def test_every_chart_is_described_with_the_figures(full, name):
    scene = full[name]
    e, units, power = scene.figures.energy, scene.build.workshop.units, scene.figures.power
    parts = fragments(scene)
    said = {i: read_html(parts[i]).by_id(f"{i}-d").text for i in IDS[1:]}
    assert show(e.trip.usable_wh, "wh", units) in said["energy-course"]
    assert f"{e.days_count} days" in said["energy-course"] and f"{e.years_count} weather years" in said["energy-course"]
    assert show(sum(h.load_wh for h in e.day.hours), "wh", units) in said["energy-hours"]
    for m in e.year:
        assert show(m.load_wh_d, "wh_d", units) in said["energy-months"]
    assert show(e.sun_alone_frac, "frac", units) in said["energy-months"]
    assert show(power.use_wh_d, "wh", units) in said["energy-share"]
    for x in power.loads:
        assert x.name in said["energy-share"]
    assert show(power.inverter_w, "w", units) in said["energy-limit"]
    assert show(power.demand.ac_w, "w", units) in said["energy-limit"]


@pytest.mark.parametrize("name", ["quillback", "hallamoor"])
def test_the_lines_end_where_the_battery_ends(full, name):
    scene = full[name]
    e = scene.figures.energy
    svg = fragments(scene)["energy-course"]
    y = Scale(0, e.trip.usable_wh, HEIGHT - BOTTOM, TOP)
    for css, hours in (("line", e.trip.median_stored_wh), ("line-poor", e.trip.poor_stored_wh)):
        drawn = re.search(rf'<path class="{css}" d="M([^"]+)"', svg).group(1).split("L")
        x_end, y_end = map(float, drawn[-1].split())
        assert x_end == pytest.approx(WIDTH - RIGHT, abs=0.06) and y_end == pytest.approx(y.at(hours[-1]), abs=0.06)
        lowest = max(float(p.split()[1]) for p in drawn)
        assert lowest == pytest.approx(y.at(min(hours)), abs=0.06)


def test_bars_are_as_long_as_their_loads():
    parts = tuple(Part(f"load {i}", w) for i, w in enumerate((400.0, 200.0, 100.0)))
    widths = [float(w) for w in re.findall(r'class="load"[^>]*width="([\d.]+)"', share(parts, "metric"))]
    assert widths == pytest.approx([WIDTH - RIGHT, (WIDTH - RIGHT) / 2, (WIDTH - RIGHT) / 4], abs=0.06)
    many = share(tuple(Part(f"load {i}", 100.0 - i) for i in range(20)), "metric")
    assert many.count('class="load"') == 7 and "14 others" in many and "load 19" in many  # told to screen readers
    fits, exceeds = limit(parts, 1000.0, "metric"), limit(parts, 500.0, "metric")
    assert 'class="wanted"' in fits and 'class="over"' in exceeds
    assert "<script" not in share((Part("<script>", 1.0),), "metric")


def test_months_with_numbers_keep_inside_the_frame(full):
    for scene in full.values():
        svg = fragments(scene)["energy-months"]
        for x, y, w, h in re.findall(
            r'<rect class="[a-z]+" x="([\d.]+)" y="([\d.]+)" width="([\d.]+)" height="([\d.]+)"', svg
        ):
            assert float(x) >= LEFT and float(x) + float(w) <= WIDTH - RIGHT + 0.1
            assert float(y) >= TOP - 0.1 and float(y) + float(h) <= HEIGHT
        assert svg.count('class="sun"') >= 10


def test_ids_are_the_same_before_and_after_the_slow_figures(stage, full):
    quick = fragments(stage.scene())
    slow = fragments(full[stage.catalogue.workshop.id])
    assert quick.keys() == slow.keys()
    for i in ("energy-course", "energy-hours", "energy-months"):
        assert "working it out …" in quick[i] and "working it out …" not in slow[i]
    for i in IDS:
        assert read_html(quick[i]).by_id(i) and read_html(slow[i]).by_id(i)
    # Same size, so that nothing jumps.
    boxes = [re.search(r'viewBox="([^"]+)"', html).group(1) for html in (quick["energy-course"], slow["energy-course"])]
    assert boxes[0] == boxes[1]
    bare = fragments(stage.scene(stage.start.model_copy(update={"options": {}})))
    assert "working it out" not in bare["energy-course"] and "Nothing takes power." in bare["energy-course"]


def test_page_and_paper_have_the_same_charts(full):
    for scene in full.values():
        page, paper = configurator_html(scene), report_html(scene, "")
        for i in IDS:
            assert page.count(f'id="{i}"') == paper.count(f'id="{i}"') == 1
        assert fragments(scene)["energy-course"] in page and fragments(scene)["energy-course"] in paper
