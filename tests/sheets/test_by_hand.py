"""What the page's form says about moved modules becomes moves of the enquiry, and nothing else does."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.enquiry.model import Move
from engine.sheets.by_hand import GRIDS, MoveError, moves_from_form

WIDTH_M = 2.2
STANDS = {"galley": "1.25 left 0.02 3.1"}
CHOSEN = {"galley": 1, "fridge": 1}


def moves(moved=(), stands=STANDS, shift=(), drop=(), units="metric", chosen=CHOSEN):
    return moves_from_form(dict(moved), dict(stands), dict(shift), dict(drop), chosen, WIDTH_M, units)


@pytest.mark.parametrize(
    ("units", "steps", "x_m"),
    [
        ("metric", "1", 1.3),
        ("metric", "-3", 1.1),
        # 2 in from 1.25 m is 1.3008 m; the nearest half inch is 51 in.
        ("us", "1", 1.2954),
        ("metric", "-99", 0.02),  # at the front wall
        ("metric", "99", 3.1),  # at the rear
    ],
)
def test_steps_stay_on_the_grid_and_between_the_walls(units, steps, x_m):
    assert moves(shift={"galley": steps}, units=units) == {"galley": {"x_m": pytest.approx(x_m), "side": "left"}}


def test_the_other_side_keeps_the_distance_from_the_front():
    assert moves(shift={"galley": "other"}) == {"galley": {"x_m": 1.25, "side": "right"}}


def test_back_to_automatic_takes_the_move_away():
    assert moves(moved={"galley": "1.3 right"}, shift={"galley": "auto"}) == {}


def test_moves_stay_exactly_as_they_are_when_nothing_is_moved():
    kept = {"galley": "1.2345678901 right", "fridge": "0.1 left"}
    assert moves(moved=kept) == {
        "galley": {"x_m": 1.2345678901, "side": "right"},
        "fridge": {"x_m": 0.1, "side": "left"},
    }


def test_a_module_that_is_not_chosen_any_more_has_no_move():
    assert moves(moved={"galley": "1.3 left"}, chosen={"fridge": 1}) == {}


@pytest.mark.parametrize(("middle_m", "side"), [(0.3, "left"), (1.09, "left"), (1.1, "right"), (2.0, "right")])
def test_a_dropped_module_goes_to_the_nearer_wall(middle_m, side):
    assert moves(drop={"galley": f"1.7369 {middle_m}"}) == {"galley": {"x_m": pytest.approx(1.74), "side": side}}


@pytest.mark.parametrize(
    "entries",
    [
        {"shift": {"galley": "sideways"}},
        {"shift": {"galley": "0.5"}},
        {"shift": {"galley": "9999"}},
        {"shift": {"fridge": "1"}},  # the form does not say where it stands
        {"drop": {"galley": "nan 1"}},
        {"drop": {"galley": "1"}},
        {"drop": {"fridge": "1 1"}},
        {"moved": {"galley": "1.3"}},
        {"moved": {"galley": "1.3 up"}},
        {"moved": {"galley": "inf left"}},
        {"stands": {"galley": "1 left"}},
    ],
)
def test_what_no_page_sends_is_refused_with_the_fields_name(entries):
    with pytest.raises(MoveError) as caught:
        moves(**entries)
    assert caught.value.field.split(".")[0] in entries


@given(
    x_m=st.floats(0, 3), steps=st.lists(st.integers(-5, 5), max_size=6), units=st.sampled_from(sorted(GRIDS)),
)  # fmt: skip
def test_every_chain_of_steps_ends_in_a_move_the_enquiry_takes(x_m, steps, units):
    grid = GRIDS[units]
    for n in steps:
        moved = moves(stands={"galley": f"{x_m} left 0.02 3.1"}, shift={"galley": str(n)}, units=units)["galley"]
        x_m = Move(**moved).x_m
        on_grid = abs(x_m / grid.snap_m - round(x_m / grid.snap_m)) < 1e-3
        assert on_grid or x_m in (0.02, 3.1)
        assert 0.02 <= x_m <= 3.1
