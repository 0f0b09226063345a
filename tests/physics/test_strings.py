"""Laws of panels in strings that hold whatever the numbers."""

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.physics.panel import Panel
from engine.physics.panel_curve import Strings, knee, shared_frac, string_w
from engine.physics.ranges import OutOfRangeError
from engine.physics.string_current import conductor_a, needs_fuse, reverse_a, source_a, string_fuse_a
from engine.physics.string_layout import Input, most_panels, split, splits
from engine.physics.string_voltage import COLD_FACTORS, cold_factor_frac, cold_open_v, reached_degc, voltage_v

BETA = st.floats(-0.006, -0.001)
PANELS = st.builds(
    Panel,
    power_w=st.floats(50, 500),
    open_circuit_v=st.floats(18, 60),
    max_power_v=st.floats(15, 50),
    short_circuit_a=st.floats(3, 15),
    open_coefficient_frac_k=st.none() | BETA,
    power_voltage_coefficient_frac_k=BETA,
    series_fuse_a=st.none() | st.sampled_from((10.0, 15.0, 20.0, 25.0)),
)
INPUTS = st.builds(
    Input,
    highest_v=st.floats(50, 250),
    charge_v=st.sampled_from((14.4, 28.4, 57.6)),
    headroom_v=st.floats(0, 5),
    highest_a=st.none() | st.floats(10, 60),
    output_a=st.none() | st.floats(10, 100),
    switching=st.booleans(),
)
COLD_DEGC, HOT_DEGC = st.floats(-40, 20), st.floats(30, 90)
quick = settings(max_examples=100, deadline=None)


@given(st.floats(10, 60), st.none() | BETA, st.floats(-40, 40), st.floats(-40, 40))
def test_colder_never_lowers_the_open_circuit_voltage(label_v, beta, one, other):
    cold, warm = sorted((one, other))
    assert cold_open_v(label_v, beta, cold) >= cold_open_v(label_v, beta, warm) >= label_v * (1 - 1e-12)


@given(st.floats(10, 200), BETA, st.floats(10, 300))
def test_at_the_temperature_that_reaches_a_limit_the_voltage_is_the_limit(string_v, beta, limit_v):
    degc = reached_degc(string_v, beta, limit_v)
    if -60 <= degc <= 100:
        assert voltage_v(string_v, beta, degc) == pytest.approx(limit_v)


def test_table_rows_change_where_the_code_says():
    for (least, factor), (_, colder) in itertools.pairwise(COLD_FACTORS):
        assert cold_factor_frac(least) == factor
        if least > -40:
            assert cold_factor_frac(least - 1) == colder
    with pytest.raises(OutOfRangeError):
        cold_factor_frac(-41)


@quick
@given(PANELS, INPUTS, st.integers(1, 24), COLD_DEGC, HOT_DEGC)
def test_every_split_is_there_once_and_the_best_is_first(panel, into, n, cold, hot):
    found = splits(panel, into, n, cold, hot)
    assert {(x.series, x.parallel) for x in found} == {(s, n // s) for s in range(1, n + 1) if n % s == 0}
    assert len(found) == len({x.series for x in found})
    assert all(x.panel_count == n for x in found)
    sound = [bool(x.objections) for x in found]
    assert sound == sorted(sound)


@quick
@given(PANELS, INPUTS, st.integers(1, 24), COLD_DEGC, HOT_DEGC)
def test_objections_are_what_the_numbers_say(panel, into, n, cold, hot):
    for x in splits(panel, into, n, cold, hot):
        assert ("cold-voltage" in x.objections) == (x.cold_open_v > into.highest_v * (1 + 1e-9))
        if into.switching:
            assert ("hot-voltage" in x.objections) == (x.held_frac < 0.5)
            assert x.held_frac == 1 or x.hot_power_v < x.needed_v
        else:
            assert ("hot-voltage" in x.objections) == (x.hot_power_v < x.needed_v * (1 - 1e-9))
        if "no-string-fuse" in x.objections:
            assert (x.parallel > 2 and panel.series_fuse_a is not None) or conductor_a(panel.short_circuit_a) > 800
        if x.string_fuse_a is not None:
            assert x.parallel > 2
            assert conductor_a(panel.short_circuit_a) <= x.string_fuse_a + 1e-9
            assert panel.series_fuse_a is None or x.string_fuse_a <= panel.series_fuse_a
        assert 0 <= x.used_frac <= 1
        assert x.used_frac > 0 or (into.switching and into.charge_v > x.series * panel.max_power_v)


@quick
@given(PANELS, INPUTS, st.integers(1, 12), COLD_DEGC, HOT_DEGC, st.floats(0, 20), st.floats(0, 10))
def test_a_wider_climate_never_makes_a_bad_split_good(panel, into, n, cold, hot, colder, hotter):
    wide_cold, wide_hot = max(-40, cold - colder), min(100, hot + hotter)
    mild = {x.series: set(x.objections) for x in splits(panel, into, n, cold, hot)}
    for x in splits(panel, into, n, wide_cold, wide_hot):
        assert mild[x.series] <= set(x.objections)


@quick
@given(PANELS, INPUTS, st.integers(1, 12), COLD_DEGC, HOT_DEGC)
def test_no_larger_number_of_panels_works_than_the_one_proposed(panel, into, n, cold, hot):
    best = most_panels(panel, into, n, cold, hot)
    proposed = best.panel_count if best else 0
    assert best is None or best.objections == ()
    for more in range(proposed + 1, n + 1):
        assert all(x.objections for x in splits(panel, into, more, cold, hot))


@given(st.floats(1, 20), st.integers(1, 20))
def test_currents_add_up(short_circuit_a, n):
    assert source_a(short_circuit_a, n) == pytest.approx(reverse_a(short_circuit_a, n) + source_a(short_circuit_a))
    assert conductor_a(short_circuit_a, n) == pytest.approx(1.5625 * short_circuit_a * n)


@given(st.floats(1, 20), st.integers(1, 20), st.none() | st.floats(1, 50))
def test_one_or_two_strings_never_need_fuses(short_circuit_a, n, rating):
    if needs_fuse(short_circuit_a, n, rating):
        assert n > 2
    elif n > 2:
        assert rating is not None and reverse_a(short_circuit_a, n) <= rating


def test_exactly_at_the_limits_is_allowed():
    panel = Panel(300, 40, 30, 9, 0.0, 0.0)
    at = split(panel, Input(80, 59, 1.0, highest_a=18), 2, 2, -10, 60)
    assert at.objections == ()
    over = split(panel, Input(79.9, 59.1, 1.0, highest_a=17.9), 2, 2, -10, 60)
    assert over.objections == ("cold-voltage", "hot-voltage", "input-current")


def test_a_switching_controller_wastes_what_is_above_the_battery():
    panel = Panel(100, 22, 18, 6)
    assert split(panel, Input(50, 14.4, switching=True), 1, 1, 0, 60).used_frac == pytest.approx(0.8)
    assert split(panel, Input(50, 14.4, switching=True), 2, 1, 0, 60).used_frac == pytest.approx(0.4)
    assert splits(panel, Input(50, 14.4, switching=True), 2, 0, 50)[0].series == 1


def test_a_small_controller_cuts_the_top_off():
    panel = Panel(300, 38, 31, 9.8)
    assert split(panel, Input(150, 14.0, output_a=30), 2, 1, 0, 60).used_frac == pytest.approx(0.7)


def test_no_fuse_between_current_and_panel_s_limit():
    assert string_fuse_a(13.5, 20) is None
    assert split(Panel(400, 37, 31, 13.5, series_fuse_a=20), Input(150, 14.4), 1, 3, 0, 60).objections == (
        "no-string-fuse",
    )


@quick
@given(PANELS, INPUTS, st.integers(1, 12), st.integers(1, 6), COLD_DEGC, HOT_DEGC)
def test_more_in_series_never_lowers_a_voltage(panel, into, series, parallel, cold, hot):
    short, long = (split(panel, into, n, parallel, cold, hot) for n in (series, series + 1))
    assert long.cold_open_v >= short.cold_open_v and long.hot_power_v >= short.hot_power_v
    assert long.input_a == short.input_a


@quick
@given(PANELS, INPUTS, st.integers(1, 24), COLD_DEGC, HOT_DEGC)
def test_no_sound_split_uses_more_than_the_one_proposed(panel, into, n, cold, hot):
    best, *others = splits(panel, into, n, cold, hot)
    for other in others:
        if not other.objections:
            assert best.objections == () and best.used_frac >= other.used_frac - 1e-6


# Labels as panels have them: 72 to 88 % of the open-circuit voltage and 90 to 97 % of the short-circuit current.
SOUND = st.builds(
    lambda open_v, short_a, v, a: Panel(open_v * v * short_a * a, open_v, open_v * v, short_a),
    st.floats(18, 60), st.floats(3, 15), st.floats(0.72, 0.88), st.floats(0.9, 0.97),
)  # fmt: skip
STRINGS = st.builds(Strings, SOUND, st.integers(1, 3), st.integers(1, 3))


@quick
@given(SOUND)
def test_a_panel_s_curve_goes_through_the_values_of_its_label(panel):
    one = Strings(panel, 1, 1)
    assert string_w(one, panel.max_power_v) == pytest.approx(panel.power_w, rel=0.03)
    assert string_w(one, 0.01 * panel.open_circuit_v) == pytest.approx(
        0.01 * panel.open_circuit_v * panel.short_circuit_a, rel=1e-3
    )
    assert abs(string_w(one, panel.open_circuit_v)) < 0.02 * panel.short_circuit_a * panel.open_circuit_v


@quick
@given(st.lists(STRINGS, min_size=1, max_size=3).map(tuple))
def test_strings_at_one_voltage_never_give_more_than_apart(strings):
    found = shared_frac(strings)
    assert 0 < found <= 1
    assert shared_frac(strings[:1] * 2) == pytest.approx(1.0, abs=1e-3)
    assert shared_frac(tuple(reversed(strings))) == pytest.approx(found, abs=1e-9)
    # At the lowest of their best voltages all of them give at least their current at that voltage.
    best_v = [s.panel.max_power_v * s.series for s in strings]
    assert found >= 0.95 * min(best_v) / max(best_v)


def test_a_label_sharper_than_any_panel_still_has_a_curve():
    # Current at greatest power as large as the short-circuit current, voltages next to each other.
    square = Panel(200.0, 20.0, 19.9, 10.0)
    assert string_w(Strings(square, 1, 1), 13.0) == pytest.approx(130.0, rel=0.01)
    for bad in (Panel(200.0, 0.0, 19.0, 10.0), Panel(0.0, 22.0, 19.0, 10.0), Panel(200.0, 22.0, 19.0, 0.0)):
        with pytest.raises(OutOfRangeError):
            knee(bad)
    with pytest.raises(OutOfRangeError):
        string_w(Strings(square, 1, 1), -1.0)
