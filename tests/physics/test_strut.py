"""Gas struts under a hinged bed, against an arc worked by hand and against statics in another form."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.physics.ranges import OutOfRangeError
from engine.physics.strut import (
    COUNTS,
    HAND_N,
    SERIES_N,
    WEAKEST_FRAC,
    Hinge,
    Struts,
    hand_n,
    lifting_arc,
    recommended,
)
from engine.physics.strut import strut_length_m as length_m

# 40 kg with the centre 0.95 m from the hinge, the hand at 1.90 m; eyes at (0.6, 0) on the bed, (0.3, −0.4) on the body.
BED = Hinge(40, 0.95, 0.0, 1.9, 0.6, 0.0, 0.3, -0.4, 60)

# Worked by hand for two struts of 300 N without rise. Weight at the hand: 40 · 9.80665 · 0.5 = 196.133 N times cos θ.
# Eye on the bed (0.6 cos θ, 0.6 sin θ); length² = 0.25 + 0.36 − 2(0.18 cos θ − 0.24 sin θ);
# A × B = 0.18 sin θ + 0.24 cos θ; struts at the hand: 600/1.9 · (A × B)/length.
BY_HAND = [
    # θ, length, A × B, weight, struts, hand
    (0, 0.5000, 0.24000, 196.133, 151.579, 44.554),
    (15, 0.62169, 0.27841, 189.450, 141.419, 48.031),
    (30, 0.73364, 0.29785, 169.856, 128.205, 41.651),
    (45, 0.83358, 0.29698, 138.687, 112.509, 26.178),
    (60, 0.91962, 0.27588, 98.067, 94.737, 3.330),
]


@pytest.mark.parametrize(("angle_deg", "long_m", "cross_m2", "weight_n", "struts_n", "hand"), BY_HAND)
def test_the_arc_worked_by_hand(angle_deg, long_m, cross_m2, weight_n, struts_n, hand):
    assert length_m(BED, angle_deg) == pytest.approx(long_m, abs=6e-5)
    assert 600 / 1.9 * cross_m2 / long_m == pytest.approx(struts_n, abs=0.02)  # the sum on paper adds up
    assert weight_n - struts_n == pytest.approx(hand, abs=2e-3)
    assert hand_n(BED, Struts(2, 300, 0.0), angle_deg) == pytest.approx(hand, abs=0.02)


def test_the_extremes_of_the_arc_worked_by_hand():
    arc = lifting_arc(BED, Struts(2, 300, 0.0))
    fine = [hand_n(BED, Struts(2, 300, 0.0), a / 100) for a in range(6001)]
    assert arc.push_n == pytest.approx(max(fine), abs=1e-4)
    assert arc.push_deg == pytest.approx(fine.index(max(fine)) / 100, abs=0.02)
    assert arc.pull_n == 0  # 3.3 N are missing to hold it open, so nobody has to pull it down
    assert arc.open_n == pytest.approx(3.330, abs=0.02)
    assert (arc.shortest_m, arc.longest_m) == pytest.approx((0.5, 0.91962), abs=1e-5)


def test_a_strut_pressed_in_gives_more():
    # By a quarter with the whole stroke in: 1.25 · 151.579 N at the hand when shut, 94.737 N when open.
    assert hand_n(BED, Struts(2, 300, 0.25), 0) == pytest.approx(196.133 - 1.25 * 151.579, abs=0.01)
    assert hand_n(BED, Struts(2, 300, 0.25), 60) == pytest.approx(3.330, abs=0.01)
    # A strut of 1.00 m with 0.50 m of stroke is never quite drawn out here: 1 + 0.25 · (1.00 − 0.91962)/0.50.
    longer = Struts(2, 300, 0.25, 1.0, 0.5)
    assert hand_n(BED, longer, 60) == pytest.approx(98.067 - 94.737 * (1 + 0.25 * 0.08038 / 0.5), abs=0.01)


hinges = st.builds(
    Hinge,
    moved_kg=st.floats(10, 120),
    centre_along_m=st.floats(0.3, 1.0),
    centre_up_m=st.floats(-0.1, 0.2),
    hand_along_m=st.floats(1.0, 2.0),
    on_bed_along_m=st.floats(0.3, 1.2),
    on_bed_up_m=st.floats(-0.2, 0.1),
    on_body_along_m=st.floats(-0.2, 0.3),
    on_body_up_m=st.floats(-0.6, -0.3),
    open_deg=st.floats(20, 90),
)
struts_of = st.tuples(st.integers(1, 4), st.floats(50, 1500), st.floats(0, 0.4)).map(lambda s: Struts(*s))
quick = settings(max_examples=150, deadline=None)


@quick
@given(hinges, struts_of)
def test_the_hand_does_the_work_that_the_struts_leave(hinge, struts):
    # Another way round: the work of the hand over the arc is the bed's rise less what the struts give out. Simpson's
    # rule over 400 slices integrates the hand's force; both sides then agree to a millionth of the work that is done.
    arc = lifting_arc(hinge, struts)
    slices, angle = 400, math.radians(hinge.open_deg)
    forces = [hand_n(hinge, struts, hinge.open_deg * i / slices) for i in range(slices + 1)]
    summed = forces[0] + forces[-1] + 4 * sum(forces[1:-1:2]) + 2 * sum(forces[2:-1:2])
    work = summed * hinge.hand_along_m * angle / slices / 3
    rise_m = hinge.centre_along_m * math.sin(angle) + hinge.centre_up_m * (math.cos(angle) - 1)
    ends = length_m(hinge, 0), length_m(hinge, hinge.open_deg)
    stroke_m = max(1e-6, arc.travel_m)

    def given_out(x_m):
        return struts.force_n * (x_m + struts.rise_frac * (arc.longest_m * x_m - x_m * x_m / 2) / stroke_m)

    springs = struts.number * (given_out(ends[1]) - given_out(ends[0]))
    whole = hinge.moved_kg * 9.80665 * rise_m - springs
    scale = abs(springs) + hinge.moved_kg * 9.80665 * abs(rise_m) + struts.number * struts.force_n * arc.travel_m
    assert work == pytest.approx(whole, abs=1e-6 * scale)


@quick
@given(hinges, struts_of, st.floats(0, 1))
def test_no_force_on_the_way_exceeds_the_extremes(hinge, struts, share):
    arc = lifting_arc(hinge, struts)
    force = hand_n(hinge, struts, hinge.open_deg * share)
    slack = 1e-3 * (1 + abs(force))
    assert -arc.pull_n - slack <= force <= arc.push_n + slack
    assert arc.shortest_m - 1e-9 <= length_m(hinge, hinge.open_deg * share) <= arc.longest_m + 1e-9


@quick
@given(hinges, struts_of, st.floats(1, 40))
def test_a_heavier_bed_is_never_easier_to_lift(hinge, struts, more_kg):
    heavier = hinge._replace(moved_kg=hinge.moved_kg + more_kg)
    if hinge.centre_up_m <= 0:
        assert lifting_arc(heavier, struts).push_n >= lifting_arc(hinge, struts).push_n - 1e-6
    assert lifting_arc(heavier, struts).shut_n > lifting_arc(hinge, struts).shut_n


@quick
@given(hinges, st.floats(0, 0.4))
def test_what_is_recommended_works_and_nothing_in_the_series_works_with_fewer_or_better(hinge, rise_frac):
    def works(struts):
        arc = lifting_arc(hinge, struts)
        held = WEAKEST_FRAC * arc.open_struts_n >= arc.open_weight_n
        return arc.shut_n >= 0 and held and max(arc.push_n, arc.pull_n) <= HAND_N

    def hand(struts):
        arc = lifting_arc(hinge, struts)
        return max(arc.push_n, arc.pull_n)

    found = recommended(hinge, rise_frac)
    every = [Struts(n, f, rise_frac) for n in COUNTS for f in SERIES_N]
    good = [s for s in every if works(s)]
    if found is None:
        assert all(hand(s) > HAND_N - 0.5 for s in good)
        return
    assert found.number == min(s.number for s in good if hand(s) < HAND_N - 0.5 or s.number == found.number)
    assert hand(found) <= min(hand(s) for s in good if s.number == found.number) + 0.5


def test_a_catch_allows_struts_that_lift_the_shut_bed():
    # Steep struts have most of their lever when the bed is shut: what holds it open lifts it there.
    steep = Hinge(32, 0.69, 0.06, 1.34, 0.5, -0.03, 0.12, -0.3, 40)
    assert recommended(steep, 0.3) is None
    held = recommended(steep, 0.3, catch=True)
    arc = lifting_arc(steep, held)
    assert arc.shut_n < 0 and WEAKEST_FRAC * arc.open_struts_n >= arc.open_weight_n
    assert max(arc.push_n, arc.pull_n) <= HAND_N


def test_a_bed_no_strut_can_lift_gets_no_recommendation():
    # The strut's line runs through the hinge: it has no lever at all.
    assert recommended(BED._replace(on_body_along_m=-0.3, on_body_up_m=0.0, open_deg=12)) is None


@pytest.mark.parametrize(
    ("field", "values"),
    [
        ("moved_kg", (0.5, 2e6, math.nan)),
        ("centre_along_m", (0.0, 3.1)),
        ("hand_along_m", (0.0, 3.1)),
        ("open_deg", (5, 151)),
        ("on_bed_along_m", (-1.1, 3.1)),
        ("on_body_up_m", (-2.1, 2.1)),
    ],
)
def test_beyond_any_bed_raises(field, values):
    for value in values:
        with pytest.raises(OutOfRangeError):
            lifting_arc(BED._replace(**{field: value}), Struts(2, 300))


@pytest.mark.parametrize("struts", [Struts(0, 300), Struts(2, 5), Struts(2, 300, 0.7), Struts(2, 300, 0.2, 0.9, 0.0)])
def test_struts_beyond_the_trade_raise(struts):
    with pytest.raises(OutOfRangeError):
        hand_n(BED, struts, 10)


def test_eyes_that_meet_raise():
    with pytest.raises(OutOfRangeError):
        lifting_arc(BED._replace(on_body_along_m=0.6, on_body_up_m=0.0), Struts(2, 300))


def test_struts_alone_lift_all_the_way():
    # A bed that weighs next to nothing has to be pulled down at every angle.
    light = BED._replace(moved_kg=1.0, centre_along_m=0.05)
    arc = lifting_arc(light, Struts(2, 300, 0.0))
    assert all(hand_n(light, Struts(2, 300, 0.0), angle) < 0 for angle in range(0, 61, 10))
    assert arc.push_n == 0 and arc.shut_n < 0 and arc.open_n < 0
    assert arc.pull_n == pytest.approx(151.579 - 9.80665 * 0.05 / 1.9, abs=0.05)  # greatest when shut
