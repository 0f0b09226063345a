"""Outlines that are no rectangle: covered wholly, never by much; and layouts that behave on them."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.physics.ranges import OutOfRangeError
from engine.physics.roof_outline import Widths, outside, width_at_m
from engine.physics.roof_packing import PanelKind, Placed, Rect, RoofSpace, pack_roof

quick = settings(max_examples=60, deadline=None)
KINDS = (PanelKind("long", 1.48, 0.67, 200, 4, True), PanelKind("short", 1.0, 0.55, 100, 3, True))


@st.composite
def shapes(draw: st.DrawFn) -> tuple[float, float, float, float, Widths]:
    """Length, width, setback, corner radius and narrowing."""
    length_m, width_m = draw(st.integers(15, 40)) / 10, draw(st.integers(100, 200)) / 100
    nose_m = draw(st.sampled_from([0.0, 0.2, 0.45, 0.7]))
    narrowing = ((0.0, round(width_m - draw(st.sampled_from([0.1, 0.3])), 2)), (nose_m, width_m)) if nose_m else ()
    return length_m, width_m, draw(st.sampled_from([0.0, 0.05])), draw(st.sampled_from([0.0, 0.1, 0.25])), narrowing


def space_of(shape: tuple[float, float, float, float, Widths], ribs: bool, *things: Rect) -> RoofSpace:
    length_m, width_m, edge_m, _, _ = shape
    ribs_m = tuple(n * 0.45 for n in range(1, 9)) if ribs else ()
    return RoofSpace(length_m, width_m, edge_m, 0.02, things, outside(*shape), ribs_m)


def is_inside(x_m: float, y_m: float, shape: tuple[float, float, float, float, Widths]) -> bool:
    """Whether a point keeps the setback from the true outline, looked at along and across (square to flat sides)."""
    length_m, width_m, edge_m, radius_m, narrowing = shape
    eps = 1e-6
    from_side = min(y_m, width_m - y_m) - (width_m - width_at_m(x_m, width_m, narrowing)) / 2
    from_end = min(x_m, length_m - x_m)
    if min(from_side, from_end) < edge_m - eps:
        return False
    at_end_m = width_at_m(0.0 if x_m < length_m / 2 else length_m, width_m, narrowing)
    dx = max(0.0, radius_m - from_end)
    dy = max(0.0, radius_m - (min(y_m, width_m - y_m) - (width_m - at_end_m) / 2))
    return not (dx and dy) or math.hypot(dx, dy) <= max(radius_m - edge_m, 0) + eps or radius_m <= edge_m


def corners(p: Placed) -> list[tuple[float, float]]:
    return [(x, y) for x in (p.x_m, p.x_m + p.length_m) for y in (p.y_m, p.y_m + p.width_m)]


@quick
@given(shapes(), st.booleans())
def test_panels_keep_within_the_true_outline_and_lie_on_two_ribs(shape, ribs):
    space = space_of(shape, ribs)
    for p in pack_roof(space, KINDS).placed:
        assert all(is_inside(x, y, shape) for x, y in corners(p))
        if ribs:
            assert sum(p.x_m - 1e-7 <= r <= p.x_m + p.length_m + 1e-7 for r in space.ribs_m) >= 2


@quick
@given(shapes(), st.booleans(), st.sampled_from([0.1, 0.4, 0.9]))
def test_a_longer_or_wider_or_less_rounded_roof_never_holds_less(shape, ribs, more_m):
    length_m, width_m, edge_m, radius_m, narrowing = shape
    before = pack_roof(space_of(shape, ribs), KINDS, 4000)
    wider = tuple((x, w + more_m) for x, w in narrowing)
    for other in (
        (length_m + more_m, width_m, edge_m, radius_m, narrowing),
        (length_m, width_m + more_m, edge_m, radius_m, wider),
        (length_m, width_m, edge_m, radius_m / 2, narrowing),
        (length_m, width_m, edge_m, radius_m, ()),
    ):
        after = pack_roof(space_of(other, ribs), KINDS, 4000)
        assert before.power_w <= after.bound_w
        if after.proven:
            assert before.power_w <= after.power_w


@quick
@given(shapes(), st.booleans(), st.integers(0, 20), st.integers(0, 10), st.sampled_from([0.02, 0.1, 0.3]))
def test_more_to_keep_clear_never_raises_the_power(shape, ribs, x, y, more_m):
    one = Rect(x / 10, y / 10, 0.4, 0.4)
    grown = Rect(one.x_m - more_m, one.y_m - more_m, 0.4 + 2 * more_m, 0.4 + 2 * more_m)
    before, after = (pack_roof(space_of(shape, ribs, r), KINDS, 4000) for r in (one, grown))
    assert after.power_w <= before.bound_w
    if before.proven:
        assert after.power_w <= before.power_w


@quick
@given(shapes(), st.booleans(), st.integers(0, 20), st.integers(0, 10))
def test_a_mirrored_roof_holds_as_much(shape, ribs, x, y):
    length_m, width_m, edge_m, radius_m, narrowing = shape
    rect = Rect(x / 10, y / 10, 0.4, 0.3)
    one = space_of(shape, ribs, rect)
    turned = tuple((round(length_m - a, 3), w) for a, w in reversed(narrowing))
    ends = one._replace(
        keep_clear=(rect._replace(x_m=length_m - rect.x_m - rect.length_m),),
        outside=tuple(r._replace(x_m=length_m - r.x_m - r.length_m) for r in one.outside),
        ribs_m=tuple(length_m - r for r in one.ribs_m),
    )
    sides = one._replace(keep_clear=(rect._replace(y_m=width_m - rect.y_m - rect.width_m),))
    first = pack_roof(one, KINDS, 4000)
    for other in (ends, sides):
        second = pack_roof(other, KINDS, 4000)
        assert first.power_w <= second.bound_w and second.power_w <= first.bound_w
        if first.proven and second.proven:
            assert first.power_w == second.power_w
    # The outline itself turns with the roof where its slants end on the grid of cells.
    if narrowing and narrowing[-1][0] in (0.2, 0.7):
        there = {tuple(round(v, 6) for v in r) for r in ends.outside}
        assert {tuple(round(v, 6) for v in r) for r in outside(length_m, width_m, edge_m, radius_m, turned)} == there


def test_a_quarter_circle_is_covered_with_little_waste():
    radius_m, n = 0.3, 300
    rects = outside(4.0, 2.0, 0.0, radius_m)
    points = [((i + 0.5) * radius_m / n, (j + 0.5) * radius_m / n) for i in range(n) for j in range(n)]
    covered = {
        p for p in points if any(r.x_m < p[0] < r.x_m + r.length_m and r.y_m < p[1] < r.y_m + r.width_m for r in rects)
    }
    beyond = {p for p in points if math.hypot(radius_m - p[0], radius_m - p[1]) > radius_m}
    assert beyond <= covered
    # Three steps of 30 degrees take 0.40 r² where the true corner takes 0.21 r².
    assert len(covered) / n**2 == pytest.approx(0.4, abs=0.05)


def test_ribs_decide_where_a_panel_may_lie():
    # Ribs at 0.5 and 1.1 m: a panel of 0.6 m spans both in one place only, one of 0.55 m in none.
    roof = RoofSpace(2.0, 1.0, 0.0, 0.0, (), (), (0.5, 1.1))
    (only,) = pack_roof(roof, (PanelKind("p", 1.0, 0.6, 100, 3, True),)).placed[:1]
    assert pack_roof(roof, (PanelKind("p", 1.0, 0.6, 100, 3, True),)).counts == (("p", 1),)
    assert only.x_m in (pytest.approx(0.5), pytest.approx(0.1), pytest.approx(0.0))
    assert pack_roof(roof, (PanelKind("p", 0.55, 0.5, 100, 3, True),)).power_w == 0
    assert pack_roof(roof, (PanelKind("p", 0.55, 0.5, 100, 3, False),)).power_w == 300
    # Two rails along the roof hold it anywhere along them.
    rails = roof._replace(rails_m=(0.2, 0.7))
    assert pack_roof(rails, (PanelKind("p", 0.55, 0.5, 100, 3, True),)).power_w == 300


def test_width_between_the_points_stated_is_a_straight_line():
    narrowing = ((0.5, 1.2), (1.5, 1.6), (3.0, 1.4))
    assert [width_at_m(x, 1.6, narrowing) for x in (0, 0.5, 1.0, 1.5, 2.25, 3.0, 4.0)] == pytest.approx(
        [1.2, 1.2, 1.4, 1.6, 1.5, 1.4, 1.4]
    )
    assert width_at_m(1.0, 1.6, ()) == 1.6


def test_what_cannot_be_an_outline_is_named():
    for bad in (
        {"corner_radius_m": 0.9},
        {"narrowing_m": ((0.0, 1.8),)},
        {"narrowing_m": ((9.0, 1.0),)},
        {"length_m": math.nan},
    ):
        with pytest.raises(OutOfRangeError):
            outside(**({"length_m": 4.0, "width_m": 1.6, "edge_m": 0.0, "corner_radius_m": 0.0} | bad))
