"""Fans, warmth and wind through openings, and openings for flames: what must hold, and figures by hand."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.physics.air_change import (
    Fan,
    fan_m3_h,
    fan_pair,
    opening_m3_h,
    stack_m3_h,
    together_m3_h,
    wind_m3_h,
)
from engine.physics.fixed_vents import fixed_vents, flame_opening_m2
from engine.physics.ranges import OutOfRangeError

FANS = st.builds(Fan, st.floats(20, 1500), st.floats(0.01, 0.2))
OPENING = st.floats(0.0005, 0.3)
BTU_H = 0.29307107


@given(FANS, OPENING)
def test_fan_and_opening_agree_on_the_pressure(fan, opening):
    flow = fan_m3_h(fan, opening)
    assert 0 < flow < fan.free_m3_h
    assert opening_m3_h(opening, fan.stall_kpa * (1 - flow / fan.free_m3_h)) == pytest.approx(flow, rel=1e-6)


@given(FANS, OPENING, st.floats(1, 3))
def test_a_wider_opening_never_lets_less_through(fan, opening, times):
    assert fan_m3_h(fan, opening * times) >= fan_m3_h(fan, opening) * (1 - 1e-12)


@given(st.none() | FANS, st.none() | FANS, OPENING)
@settings(max_examples=80)
def test_as_much_comes_in_as_goes_out(in_fan, out_fan, opening):
    x = fan_pair(in_fan, out_fan, opening)
    assert x.in_fan_m3_h + x.leak_in_m3_h == pytest.approx(x.out_fan_m3_h, abs=1e-3)
    assert x.air_m3_h == pytest.approx(max(x.in_fan_m3_h, x.out_fan_m3_h), abs=1e-3)
    one = [fan_m3_h(f, opening) if f else 0.0 for f in (in_fan, out_fan)]
    assert x.air_m3_h >= max(one) * (1 - 1e-6) - 1e-3  # a second fan never makes it worse
    if in_fan is None or out_fan is None:
        assert x.air_m3_h == pytest.approx(max(one), abs=1e-3)


def test_a_pair_in_a_shut_van_does_what_one_alone_cannot():
    # One roof fan in a van with 20 cm² of leaks starves; with its twin blowing in it moves its free flow.
    fan = Fan(1000, 0.05)
    assert fan_pair(None, fan, 0.002).air_m3_h < 50
    assert fan_pair(fan, fan, 0.002).air_m3_h == pytest.approx(1000)


@given(OPENING, OPENING, st.floats(0.1, 3), st.floats(-20, 30), st.floats(-20, 30), st.floats(0, 15))
def test_stack_and_wind_grow_with_their_cause_and_know_no_order(a, b, height, inside, outside, wind):
    assert stack_m3_h(a, b, height, inside, outside) == pytest.approx(stack_m3_h(b, a, height, inside, outside))
    assert stack_m3_h(a, b, height, inside, inside) == 0
    colder = min(inside, outside) - 5
    warm = max(inside, outside)
    assert stack_m3_h(a, b, height, warm, colder) >= stack_m3_h(a, b, height, warm, min(inside, outside))
    assert wind_m3_h(a, b, 2 * wind) == pytest.approx(2 * wind_m3_h(a, b, wind))
    both = together_m3_h(10, wind)
    assert max(10, wind) <= both <= 10 + wind


def test_a_closed_opening_lets_nothing_through():
    assert stack_m3_h(0, 0.01, 2, 20, 0) == 0
    assert wind_m3_h(0.01, 0, 5) == 0


def test_an_inch_for_a_thousand():
    # 6,000 BTU/h want 6 square inches; an opening of 3 × 3 in has 9.
    need = flame_opening_m2(6000 * BTU_H)
    assert need / 0.0254**2 == pytest.approx(6, rel=1e-6)
    assert need < 9 * 0.0254**2


@pytest.mark.parametrize(
    ("floor_m2", "breathes", "cm2"),
    [(5, True, (75, None, 10)), (5.01, True, (100, None, 15)), (10, True, (100, None, 15)), (4, False, (15, 30, 5)),
     (10, False, (15, 30, 5))],
)  # fmt: skip
def test_openings_as_told_in_the_leaflet(floor_m2, breathes, cm2):
    found = fixed_vents(floor_m2, breathes)
    assert [None if x is None else round(x * 1e4, 6) for x in found] == list(cm2)


def test_larger_floors_are_not_guessed():
    with pytest.raises(OutOfRangeError, match="floor_m2"):
        fixed_vents(10.5, True)
