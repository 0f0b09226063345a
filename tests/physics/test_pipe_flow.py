"""Pipes, pumps and taps: what must hold whatever the numbers."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.physics.pipe_flow import Pipe, drop_kpa, friction_frac
from engine.physics.ranges import OutOfRangeError
from engine.physics.taps import PumpCurve, Tap, drawdown_l, tap_l_min, two_taps

PIPES = st.builds(Pipe, st.floats(0.1, 12), st.floats(0.006, 0.02), st.floats(0, 20), st.just(1.5e-6))
PUMPS = st.builds(PumpCurve, st.floats(4, 25), st.floats(60, 400))
TAPS = st.builds(Tap, st.floats(2, 15), st.floats(50, 300), st.floats(-0.5, 1.5))
WAYS = st.tuples(PIPES, TAPS)


@given(PIPES, st.floats(0, 30), st.floats(0, 10), st.floats(1, 60))
def test_more_flow_more_length_and_colder_water_never_lose_less(pipe, flow, more, degc):
    base = drop_kpa(pipe, flow, degc)
    assert drop_kpa(pipe, flow + more, degc) >= base - 1e-12
    assert drop_kpa(pipe._replace(length_m=pipe.length_m * 2), flow, degc) >= base
    assert drop_kpa(pipe._replace(bore_m=pipe.bore_m * 1.5), flow, degc) <= base + 1e-12


@given(st.floats(1, 1e7), st.floats(0, 0.05))
def test_friction_has_no_jump(re, rough):
    assert friction_frac(re * (1 + 1e-9), rough) == pytest.approx(friction_frac(re, rough), rel=1e-6)


@given(PUMPS, PIPES, WAYS, WAYS)
@settings(max_examples=80)
def test_pump_and_taps_agree(pump, trunk, first, second):
    a, b = two_taps(pump, trunk, first, second)
    at_tee = pump.shut_kpa * (1 - (a + b) / pump.open_l_min) - drop_kpa(trunk, a + b)
    for (pipe, tap), flow in ((first, a), (second, b)):
        assert flow >= 0
        at_tap = at_tee - drop_kpa(pipe, flow)
        # A tap below the pump draws by its own fall too, with less than no pressure at the pump's height.
        if flow > 0.01 and at_tap >= 0:
            assert tap_l_min(tap, at_tap) == pytest.approx(flow, rel=1e-3, abs=2e-3)


@given(PUMPS, PIPES, WAYS, WAYS, st.floats(1, 3))
@settings(max_examples=80)
def test_a_second_tap_never_helps_the_first_and_a_bigger_pump_never_harms(pump, trunk, first, second, times):
    alone, none = two_taps(pump, trunk, first)
    both = two_taps(pump, trunk, first, second)
    assert none == 0
    assert both[0] <= alone + 1e-4
    assert sum(both) >= alone - 1e-4
    bigger = PumpCurve(pump.open_l_min * times, pump.shut_kpa * times)
    if bigger.open_l_min <= 60 and bigger.shut_kpa <= 1000:
        assert two_taps(bigger, trunk, first)[0] >= alone - 1e-4
    for flow, (_, tap) in zip(both, (first, second), strict=True):
        assert flow <= tap.flow_l_min
    longer = trunk._replace(length_m=trunk.length_m * times)
    assert two_taps(pump, longer, first)[0] <= alone + 1e-4


@given(TAPS, st.floats(0, 500), st.floats(0, 500))
def test_more_pressure_never_gives_less_and_none_gives_more_than_is_stated(tap, kpa, more):
    assert tap_l_min(tap, kpa) <= tap_l_min(tap, kpa + more) <= tap.flow_l_min


def test_a_tap_at_its_rated_pressure_and_above_lets_through_what_it_states():
    assert tap_l_min(Tap(4, 100, 1), 109.8) == 4 and tap_l_min(Tap(4, 100, 1), 108) < 4
    # 400 kPa drive 3.03 L/min through a mist head that states so much at 100, not 6.06.
    assert two_taps(PumpCurve(12, 400), Pipe(1, 0.010), (Pipe(1, 0.010), Tap(3.03)))[0] == 3.03


def test_like_taps_on_like_pipes_share_alike():
    way = (Pipe(2, 0.010, 3), Tap(6))
    a, b = two_taps(PumpCurve(12, 300), Pipe(4, 0.010, 4), way, way)
    assert a == pytest.approx(b)


def test_a_tap_above_the_pumps_reach_stays_dry():
    assert two_taps(PumpCurve(10, 12), Pipe(1, 0.01), (Pipe(1, 0.01), Tap(6, 100, 2))) == (0, 0)


@given(st.floats(0, 20), st.floats(0, 200), st.floats(0, 200), st.floats(0, 200))
def test_a_vessel_gives_no_more_than_it_holds(volume, precharge, more_in, more_out):
    cut_in = precharge + more_in
    given_l = drawdown_l(volume, precharge, cut_in, cut_in + more_out)
    assert 0 <= given_l <= volume
    assert given_l <= drawdown_l(volume, precharge, cut_in, cut_in + more_out + 10) + 1e-12


def test_a_vessel_charged_above_the_pumps_start_is_refused():
    with pytest.raises(OutOfRangeError, match="precharge"):
        drawdown_l(2, 200, 150, 280)
