"""Panels on a roof: layouts that keep every distance, and powers that behave as a greatest power must."""

import itertools
import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.physics.roof_packing import PanelKind, Placed, Rect, RoofSpace, blocked_by, blocked_together, pack_roof

INCH_M = 0.0254
TOLERANCE_M = 1e-7  # positions are whole steps of 1e-8 m

SIZES_M_W = [
    (1.48, 0.67, 200),
    (1.0, 0.55, 100),
    (1.76, 1.13, 410),
    (0.77, 0.67, 100),
    (1.65, 0.99, 300),
    (0.6, 0.6, 75),
]


def apart(a: Rect | Placed, b: Rect | Placed, gap_m: float) -> bool:
    """Whether two rectangles are at least a gap apart along or across."""
    return (
        max(a.x_m - b.x_m - b.length_m, b.x_m - a.x_m - a.length_m) >= gap_m - TOLERANCE_M
        or max(a.y_m - b.y_m - b.width_m, b.y_m - a.y_m - a.width_m) >= gap_m - TOLERANCE_M
    )


def assert_keeps_its_distances(space: RoofSpace, placed: tuple[Placed, ...]) -> None:
    for p in placed:
        assert p.x_m >= space.edge_m - TOLERANCE_M and p.y_m >= space.edge_m - TOLERANCE_M
        assert p.x_m + p.length_m <= space.length_m - space.edge_m + TOLERANCE_M
        assert p.y_m + p.width_m <= space.width_m - space.edge_m + TOLERANCE_M
        for rect in space.keep_clear:
            assert apart(p, rect, 0.0)
    for a, b in itertools.combinations(placed, 2):
        assert apart(a, b, space.gap_m)


def centimetres(low: int, high: int) -> st.SearchStrategy[float]:
    return st.integers(low, high).map(lambda n: n / 100)


@st.composite
def roofs(draw: st.DrawFn) -> RoofSpace:
    length_m, width_m = draw(centimetres(100, 500)), draw(centimetres(80, 220))
    rect = st.builds(Rect, centimetres(-20, 480), centimetres(-20, 200), centimetres(5, 90), centimetres(5, 70))
    return RoofSpace(
        length_m,
        width_m,
        draw(st.sampled_from([0.0, 0.03, 0.08])),
        draw(st.sampled_from([0.0, 0.01, 0.025])),
        tuple(draw(st.lists(rect, max_size=5))),
    )


@st.composite
def wishes(draw: st.DrawFn) -> tuple[PanelKind, ...]:
    sizes = draw(st.lists(st.sampled_from(SIZES_M_W), min_size=1, max_size=3, unique=True))
    return tuple(PanelKind(f"p{i}", *s, draw(st.integers(0, 5))) for i, s in enumerate(sizes))


quick = settings(max_examples=150, deadline=None)


@quick
@given(roofs(), wishes())
def test_every_layout_keeps_its_distances_and_adds_up(space, kinds):
    packing = pack_roof(space, kinds)
    assert_keeps_its_distances(space, packing.placed)
    by_key = {k.key: k for k in kinds}
    assert packing.power_w == pytest.approx(math.fsum(by_key[p.key].power_w for p in packing.placed))
    assert packing.power_w <= packing.bound_w <= packing.wanted_w
    assert packing.proven == (packing.power_w == packing.bound_w)
    for (key, count), kind in zip(packing.counts, kinds, strict=True):
        assert key == kind.key
        assert count == sum(p.key == key for p in packing.placed) <= kind.count
    for p in packing.placed:
        size = (by_key[p.key].length_m, by_key[p.key].width_m)
        assert (p.length_m, p.width_m) == (size[::-1] if p.turned else size)


@quick
@given(roofs(), wishes(), centimetres(0, 400), centimetres(0, 180))
def test_another_obstacle_never_raises_the_optimum(space, kinds, x_m, y_m):
    before = pack_roof(space, kinds)
    after = pack_roof(space._replace(keep_clear=(*space.keep_clear, Rect(x_m, y_m, 0.4, 0.4))), kinds)
    assert after.power_w <= before.bound_w
    if before.proven:
        assert after.power_w <= before.power_w


@quick
@given(roofs(), wishes(), centimetres(1, 100))
def test_a_longer_roof_never_lowers_the_optimum(space, kinds, more_m):
    before = pack_roof(space, kinds)
    # Nothing new stands on the added length: obstacles that reached past the old rear edge end there.
    cut = tuple(
        r._replace(length_m=min(r.length_m, space.length_m - r.x_m)) for r in space.keep_clear if r.x_m < space.length_m
    )
    after = pack_roof(space._replace(length_m=space.length_m + more_m, keep_clear=cut), kinds)
    assert before.power_w <= after.bound_w
    if after.proven:
        assert before.power_w <= after.power_w


@quick
@given(roofs(), wishes(), st.randoms(use_true_random=False))
def test_order_of_input_does_not_matter(space, kinds, shuffler):
    other_kinds, other_rects = list(kinds), list(space.keep_clear)
    shuffler.shuffle(other_kinds)
    shuffler.shuffle(other_rects)
    one = pack_roof(space, kinds)
    other = pack_roof(space._replace(keep_clear=tuple(other_rects)), tuple(other_kinds))
    assert (one.power_w, one.bound_w, one.placed) == (other.power_w, other.bound_w, other.placed)
    assert dict(one.counts) == dict(other.counts)


@quick
@given(roofs(), wishes())
def test_mirrored_and_transposed_roofs_hold_the_same_power(space, kinds):
    mirrored = space._replace(
        keep_clear=tuple(r._replace(x_m=space.length_m - r.x_m - r.length_m) for r in space.keep_clear)
    )
    transposed = space._replace(
        length_m=space.width_m,
        width_m=space.length_m,
        keep_clear=tuple(Rect(r.y_m, r.x_m, r.width_m, r.length_m) for r in space.keep_clear),
    )
    one = pack_roof(space, kinds)
    for other in (pack_roof(mirrored, kinds), pack_roof(transposed, kinds)):
        assert one.power_w <= other.bound_w and other.power_w <= one.bound_w
        if one.proven and other.proven:
            assert one.power_w == other.power_w


@quick
@given(roofs(), wishes())
def test_what_is_in_the_way_really_frees_power(space, kinds):
    now = pack_roof(space, kinds)
    found = blocked_by(space, kinds)
    assert not (now.complete and found)
    for b in found:
        fewer = space._replace(keep_clear=space.keep_clear[: b.index] + space.keep_clear[b.index + 1 :])
        assert space.keep_clear[b.index] == b.rect
        assert_keeps_its_distances(fewer, b.without.placed)
        assert b.gain_w == pytest.approx(b.without.power_w - now.power_w)
        assert b.gain_w > 0
        assert b.more_count == len(b.without.placed) - len(now.placed)


def bus(count: int) -> tuple[RoofSpace, tuple[PanelKind, ...]]:
    """A flat roof of 360 in x 72 in; two 24 in hatches with 3 in clearance each side make three bays of 100 in."""
    hatches = (Rect(100 * INCH_M, 0, 30 * INCH_M, 72 * INCH_M), Rect(230 * INCH_M, 0, 30 * INCH_M, 72 * INCH_M))
    space = RoofSpace(360 * INCH_M, 72 * INCH_M, 0.0, 1 * INCH_M, hatches)
    return space, (PanelKind("residential", 65 * INCH_M, 39 * INCH_M, 300, count),)


@pytest.mark.parametrize(("wanted", "placed"), [(5, 5), (6, 6), (7, 6)])
def test_two_panels_in_each_bay_between_the_hatches_of_a_bus(wanted, placed):
    # By hand: two panels and a gap are 79 in, three are 119 in, and a bay is 100 in long; 65 in across is within 72.
    space, kinds = bus(wanted)
    packing = pack_roof(space, kinds)
    assert packing.proven
    assert len(packing.placed) == placed
    assert packing.power_w == 300 * placed
    assert packing.complete == (wanted == placed)


def test_a_hatch_less_gives_the_bus_a_seventh_panel():
    # Without one hatch the bay is 230 in: five panels and four gaps are 199 in, six are 239. 5 + 2 = 7.
    space, kinds = bus(8)
    assert [(b.more_count, b.gain_w) for b in blocked_by(space, kinds)] == [(1, 300), (1, 300)]
    assert blocked_by(*bus(6)) == ()


def test_hatches_that_are_in_the_way_only_together_are_found():
    # A panel of 2.4 m across 3 m: a hatch in either third leaves it no place, so one of them gone is no help.
    hatches = (Rect(0.5, 0.4, 0.4, 0.4), Rect(2.1, 0.4, 0.4, 0.4), Rect(0.0, 0.0, 0.1, 0.1))
    space, kinds = RoofSpace(3.0, 1.2, 0.0, 0.0, hatches), (PanelKind("long", 2.4, 0.9, 400, 1),)
    assert blocked_by(space, kinds) == () and blocked_together(space, kinds) == (0, 1)
    bare = space._replace(keep_clear=hatches[2:])
    assert pack_roof(bare, kinds).complete and blocked_together(bare, kinds) == ()


def test_on_a_roof_that_is_too_small_nothing_is_in_the_way():
    space = RoofSpace(2.0, 1.2, 0.0, 0.0, (Rect(0.5, 0.4, 0.4, 0.4),))
    assert blocked_together(space, (PanelKind("long", 2.4, 0.9, 400, 1),)) == ()
    assert blocked_together(*bus(6)) == ()


def test_a_row_that_exactly_fits_does_fit():
    # 3 x 24 in + 2 x 1/2 in = 73 in, none of them a whole number of millimetres.
    kinds = (PanelKind("p", 40 * INCH_M, 24 * INCH_M, 150, 3),)
    assert pack_roof(RoofSpace(73 * INCH_M, 40 * INCH_M, 0.0, INCH_M / 2), kinds).complete
    short = pack_roof(RoofSpace(73 * INCH_M - 1e-6, 40 * INCH_M, 0.0, INCH_M / 2), kinds)
    assert (short.power_w, short.proven) == (300, True)


def test_a_panel_may_touch_what_is_kept_clear_and_two_panels_may_straddle_something_thin():
    kinds = (PanelKind("p", 1.0, 0.5, 100, 2),)
    thin = (Rect(1.0, 0.0, 0.01, 0.5),)  # thinner than the gap
    assert pack_roof(RoofSpace(2.025, 0.5, 0.0, 0.025, thin), kinds).complete
    assert pack_roof(RoofSpace(2.024, 0.5, 0.0, 0.025, thin), kinds).power_w == 100
    wide = (Rect(1.0, 0.0, 0.1, 0.5),)
    assert pack_roof(RoofSpace(2.1, 0.5, 0.0, 0.025, wide), kinds).complete


def test_a_pinwheel_around_a_hatch_is_found():
    # Four panels of 1.0 x 0.6 turn round a hatch of 0.4 x 0.4 and fill 1.6 x 1.6 completely.
    space = RoofSpace(1.6, 1.6, 0.0, 0.0, (Rect(0.6, 0.6, 0.4, 0.4),))
    packing = pack_roof(space, (PanelKind("p", 1.0, 0.6, 160, 4),))
    assert packing.complete
    assert_keeps_its_distances(space, packing.placed)
    assert sum(p.turned for p in packing.placed) == 2


def test_mixed_kinds_beat_the_largest_first():
    # On 2.0 x 1.2 the two largest alone give 400 W; four of the smaller give 520 W.
    kinds = (PanelKind("large", 1.2, 0.8, 200, 4), PanelKind("small", 1.0, 0.6, 130, 5))
    assert pack_roof(RoofSpace(2.0, 1.2, 0.0, 0.0), kinds).counts == (("large", 0), ("small", 4))


def test_nothing_fits_and_nothing_wanted():
    kinds = (PanelKind("p", 1.0, 0.6, 160, 2),)
    too_small = pack_roof(RoofSpace(0.9, 2.0, 0.3, 0.02), kinds)
    assert (too_small.placed, too_small.power_w, too_small.bound_w, too_small.proven) == ((), 0, 0, True)
    assert too_small.counts == (("p", 0),)
    assert not too_small.complete
    assert pack_roof(RoofSpace(0.5, 0.5, 0.3, 0.0), kinds).power_w == 0
    covered = RoofSpace(3.0, 2.0, 0.0, 0.0, (Rect(-0.1, -0.1, 4.0, 3.0),))
    assert (pack_roof(covered, kinds).power_w, pack_roof(covered, kinds).proven) == (0, True)
    assert pack_roof(RoofSpace(3.0, 2.0, 0.0, 0.0), (replace(kinds[0], count=0),)).complete


def test_a_slip_of_the_keyboard_in_the_count_changes_nothing_but_the_wish():
    space = RoofSpace(4.3, 1.75, 0.05, 0.025, (Rect(0.9, 0.6, 0.5, 0.5), Rect(3.2, 0.65, 0.45, 0.45)))
    few, many = (pack_roof(space, (PanelKind("p", 1.48, 0.67, 200, n),)) for n in (9, 9999))
    assert few.proven and many.proven
    assert few.placed == many.placed
    assert many.wanted_w == 9999 * 200


def test_an_unfinished_search_says_so():
    space = RoofSpace(5.6, 1.8, 0.0, 0.02, (Rect(2.5, 0.7, 0.4, 0.4),))
    kinds = (PanelKind("a", 1.76, 1.13, 410, 3), PanelKind("b", 1.48, 0.67, 200, 4), PanelKind("c", 1.0, 0.6, 120, 4))
    short, full = pack_roof(space, kinds, 10), pack_roof(space, kinds, 20_000)
    assert full.proven
    assert not short.proven
    assert short.power_w <= full.power_w <= short.bound_w


@pytest.mark.parametrize(
    ("space", "kinds", "says"),
    [
        (RoofSpace(-1.0, 2.0, 0.0, 0.0), (), "roof length_m"),
        (RoofSpace(3.0, math.nan, 0.0, 0.0), (), "roof width_m"),
        (RoofSpace(3.0, 2.0, -0.1, 0.0), (), "edge_m"),
        (RoofSpace(3.0, 2.0, 0.0, math.inf), (), "gap_m"),
        (RoofSpace(3.0, 2.0, 0.0, 0.0, (Rect(0, 0, -1, 1),)), (), r"keep_clear\[0\] length_m"),
        (RoofSpace(3.0, 2.0, 0.0, 0.0, (Rect(math.nan, 0, 1, 1),)), (), r"keep_clear\[0\]"),
        (RoofSpace(3.0, 2.0, 0.0, 0.0), (PanelKind("p", 1.0, 0.0, 100, 1),), "panel p width_m"),
        (RoofSpace(3.0, 2.0, 0.0, 0.0), (PanelKind("p", 1.0, 0.5, 100, -1),), "panel p count"),
        (RoofSpace(15.0, 2.4, 0.0, 0.0), (PanelKind("p", 0.6, 0.6, 75, 99),), "panels wanted"),
        (RoofSpace(3.0, 2.0, 0.0, 0.0), (PanelKind("p", 1.0, 0.5, 100, 1),) * 2, "used twice"),
    ],
)
def test_a_size_that_cannot_be_is_named(space, kinds, says):
    with pytest.raises(ValueError, match=says):
        pack_roof(space, kinds)
