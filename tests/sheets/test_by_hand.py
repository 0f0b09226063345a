"""What the page's form says about moved modules becomes moves of the enquiry, and nothing else does."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.enquiry.door import check_enquiry
from engine.enquiry.model import Move
from engine.sheets.by_hand import GRIDS, SHIFT, MoveError, moves_from_form
from engine.sheets.form import enquiry_from_form
from engine.sheets.page import configurator_html, fragments
from tests.sheets.reading import entries, read_html

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


def test_what_stands_across_the_rear_goes_to_a_side_wall_when_it_is_moved():
    stands = {"galley": "3.0 rear 0.02 3.1"}
    assert moves(stands=stands, shift={"galley": "-1"}) == {"galley": {"x_m": pytest.approx(2.95), "side": "left"}}
    assert moves(stands=stands, shift={"galley": "other"}) == {"galley": {"x_m": 3.0, "side": "left"}}


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


def answered(scene):
    """The form's entries once the engine has answered: the served page with the movable plan in it."""
    page = read_html(configurator_html(scene))
    tools = [e for e in entries(read_html(fragments(scene)["draw-day"])) if "." in e[0]]
    return [e for e in entries(page) if not e[0].startswith("moved.")] + tools


def test_the_page_keeps_and_changes_moves(stage):
    plan = stage.scene().figures.plan
    module = next(p.option_id for p in plan.day if p.movable and p.piece == 0)
    moved = stage.start.model_copy(update={"moves": {module: Move(x_m=1.23456789, side="right")}})
    scene = stage.scene(moved)
    assert check_enquiry(enquiry_from_form(stage.catalogue, answered(scene))) == moved
    back = [*answered(scene), (SHIFT + module, "auto")]
    assert check_enquiry(enquiry_from_form(stage.catalogue, back)) == stage.start
    step = [*answered(stage.scene()), (SHIFT + module, "-1")]
    after = check_enquiry(enquiry_from_form(stage.catalogue, step))
    assert after.moves.keys() == {module}
    place = next(p for p in stage.scene(after).figures.plan.day if p.option_id == module and p.piece == 0)
    assert place.fixed_by_buyer
    assert place.x_m == pytest.approx(after.moves[module].x_m, abs=0.0006)


def test_the_served_page_keeps_moves_too(stage):
    plan = stage.scene().figures.plan
    module = next(p.option_id for p in plan.day if p.movable and p.piece == 0)
    moved = stage.start.model_copy(update={"moves": {module: Move(x_m=0.75, side="left")}})
    sent = entries(read_html(configurator_html(stage.scene(moved))))
    assert check_enquiry(enquiry_from_form(stage.catalogue, sent)) == moved
