"""Labels of a drawing: none on another, each on its part or tied to it, and always the same."""

import re
from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from engine.sheets.drawings.labels import Area, Label, Wanted, place_labels, text_area
from engine.sheets.drawings.marks import leader

BOUNDS = Area(-1.0, -1.0, 9.0, 4.0)
EM_M = 0.25
coordinates = st.floats(0, 7.5), st.floats(0, 2.5), st.floats(0.02, 1.2), st.floats(0.02, 0.8)
parts = st.lists(st.tuples(*coordinates).map(lambda t: Area(t[0], t[1], t[0] + t[2], t[1] + t[3])), max_size=18)


def areas_of(labels):
    return [text_area(label.text, label.x_m, label.y_m, EM_M) for label in labels]


def test_a_label_with_room_stands_in_the_middle_of_its_part():
    (label,) = place_labels([Wanted("7", Area(1, 1, 2, 2))], [], BOUNDS, EM_M)
    assert label == ("7", 1.5, 1.5, None)


def test_a_part_too_small_for_its_label_gets_a_line_to_it():
    small = Area(1.0, 1.0, 1.1, 1.1)
    (label,) = place_labels([Wanted("12", small)], [], BOUNDS, EM_M)
    assert label.to is not None
    assert small.left_m <= label.to[0] <= small.right_m
    assert small.top_m <= label.to[1] <= small.bottom_m
    assert not text_area("12", label.x_m, label.y_m, EM_M).meets(small)


def test_a_label_keeps_off_a_small_part_that_lies_on_its_own():
    large, small = Area(1.0, 0.0, 3.0, 3.0), Area(1.5, 1.2, 2.5, 1.8)
    label, inner = place_labels([Wanted("9", large), Wanted("12", small)], [], BOUNDS, EM_M, [small])
    assert label.to is None
    assert not text_area("9", label.x_m, label.y_m, EM_M).meets(small)
    assert inner == ("12", 2.0, 1.5, None)


def test_words_that_stand_there_already_are_left_alone():
    part = Area(1.0, 1.0, 3.0, 1.6)
    words = text_area("188 in", 2.0, 1.3, EM_M)
    (label,) = place_labels([Wanted("3", part)], [words], BOUNDS, EM_M)
    assert not text_area("3", label.x_m, label.y_m, EM_M).meets(words)


@settings(max_examples=60, deadline=None)
@given(parts)
def test_no_label_meets_another_or_leaves_the_drawing(areas):
    wanted = [Wanted(str(n), area) for n, area in enumerate(areas, 1)]
    labels = place_labels(wanted, [], BOUNDS, EM_M, areas)
    assert [label.text for label in labels] == [w.text for w in wanted]
    for one, other in combinations(areas_of(labels), 2):
        assert not one.meets(other)
    assert all(BOUNDS.holds(a) for a in areas_of(labels))
    assert labels == place_labels(wanted, [], BOUNDS, EM_M, areas)


def test_a_leader_goes_from_the_edge_of_a_text_to_its_part_and_none_to_a_part_right_under_it() -> None:
    assert leader(Label("1", 2.0, 1.0, (2.0, 1.0)), 0.1) == ""
    assert leader(Label("1", 2.0, 1.0, None), 0.1) == ""
    edge = text_area("1", 2.0, 1.0, 0.1)
    for to in ((3.0, 1.0), (2.0, 2.0), (3.0, 2.0)):
        start = re.match(r'<path class="leader" d="M(\S+) (\S+)L', leader(Label("1", 2.0, 1.0, to), 0.1))
        assert start is not None
        x_m, y_m = (float(v) / 100 for v in start.groups())
        on_side, on_end = abs(x_m - edge.right_m) < 1e-3, abs(y_m - edge.bottom_m) < 1e-3
        assert (on_side or on_end) and x_m <= edge.right_m + 1e-3 and y_m <= edge.bottom_m + 1e-3
