"""Unlike panels on one controller: the best of all arrangements, found again by trying every one of them."""

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.physics.panel import Panel
from engine.physics.panel_curve import Strings, fall_in_heat, held_frac, string_w, warm_panel
from engine.physics.string_current import conductor_a
from engine.physics.string_joint import Kind, given_w, joint_splits
from engine.physics.string_layout import Input, split, splits

LABELS = st.builds(
    lambda open_v, short_a, v, a, rating: Panel(
        open_v * v * short_a * a, open_v, open_v * v, short_a, -0.003, -0.004, rating
    ),
    st.floats(20, 55), st.floats(3, 12), st.floats(0.78, 0.86), st.floats(0.9, 0.97),
    st.sampled_from((None, 10.0, 15.0, 20.0, 30.0)),
)  # fmt: skip
KINDS = st.lists(st.builds(Kind, LABELS, st.integers(1, 4), st.just(65.0), st.none()), min_size=2, max_size=3).map(
    tuple
)
INPUTS = st.builds(
    Input,
    highest_v=st.sampled_from((50.0, 75.0, 100.0, 150.0)),
    charge_v=st.sampled_from((14.4, 28.4)),
    headroom_v=st.sampled_from((0.0, 1.0, 5.0)),
    highest_a=st.none() | st.floats(15, 60),
    output_a=st.none(),
    switching=st.booleans(),
)
quick = settings(max_examples=60, deadline=None)


def sound(kinds, into, ways):
    """Whether nothing speaks against an arrangement of (in series, in parallel), from the limits themselves."""
    all_a = sum(k.panel.short_circuit_a * p for k, (_, p) in zip(kinds, ways, strict=True))
    strings_count = sum(p for _, p in ways)
    if into.highest_a is not None and all_a > into.highest_a:
        return False
    for k, (s, _) in zip(kinds, ways, strict=True):
        p = k.panel
        if s * p.open_circuit_v * (1 + 0.003 * (25 + 10)) > into.highest_v:
            return False
        if into.switching:
            if held_frac(p, s, into.charge_v, 65) < 0.5:
                return False
        elif s * p.max_power_v * (1 - 0.004 * 40) < into.charge_v + into.headroom_v:
            return False
        back_a = 1.25 * (all_a - p.short_circuit_a)
        needs = strings_count > 2 if p.series_fuse_a is None else back_a > p.series_fuse_a
        if needs and p.series_fuse_a is not None and conductor_a(p.short_circuit_a) > p.series_fuse_a:
            return False
    return True


def gives_w(kinds, into, ways):
    """Greatest power at one voltage, of a fine row of them; of a switching controller at the battery's."""
    if into.switching:
        return sum(
            k.panel.power_w * k.panel_count * min(1, held_frac(k.panel, s, v, 25) * v / s / k.panel.max_power_v)
            for v in (into.charge_v,)
            for k, (s, _) in zip(kinds, ways, strict=True)
        )
    strings = [Strings(warm_panel(k.panel, 45), *way) for k, way in zip(kinds, ways, strict=True) if way]
    most_v = max((s.series * s.panel.open_circuit_v for s in strings), default=0.0)
    rows = (most_v * i / 600 for i in range(1, 601))
    least_v = into.charge_v + into.headroom_v
    return max((sum(string_w(s, v) for s in strings) for v in rows if v >= least_v), default=0.0)


def arrangements(kinds):
    return itertools.product(*([(s, k.panel_count // s) for s in range(1, 5) if k.panel_count % s == 0] for k in kinds))


@quick
@given(KINDS, INPUTS)
def test_no_sound_arrangement_gives_more_than_the_one_chosen(kinds, into):
    found = joint_splits(kinds, into, -10)
    assert all(x is None or x.panel_count == k.panel_count for x, k in zip(found, kinds, strict=True))
    gives = {ways: gives_w(kinds, into, ways) for ways in arrangements(kinds) if sound(kinds, into, ways)}
    if any(x and x.objections for x in found):
        # The rows of fuses end before the numbers do.
        assert not gives or any(x and "no-string-fuse" in x.objections for x in found)
        return
    rated_w = sum(k.panel.power_w * k.panel_count for k in kinds)
    chosen_w = gives_w(kinds, into, tuple(x and (x.series, x.parallel) for x in found))
    assert given_w(kinds, into, found) == pytest.approx(chosen_w, abs=0.003 * rated_w)
    assert chosen_w >= max(gives.values(), default=0.0) - 0.004 * rated_w


@quick
@given(KINDS, INPUTS)
def test_one_kind_more_never_lowers_what_all_give(kinds, into):
    into = into._replace(highest_a=None)
    kinds = tuple(k._replace(panel=k.panel._replace(series_fuse_a=None)) for k in kinds)
    fewer, more = (joint_splits(k, into, -10) for k in (kinds[:-1], kinds))
    if not any(x and "cold-voltage" in x.objections for x in (*fewer, *more)):
        assert given_w(kinds, into, more) >= given_w(kinds[:-1], into, fewer) / 1.006


@quick
@given(st.data())
def test_one_panel_more_of_about_the_same_voltage_never_lowers_what_all_give(data):
    volts = data.draw(st.floats(19.5, 42))
    label = st.builds(
        lambda off, watts: Panel(watts, volts * off * 1.2, volts * off, watts / volts / off * 1.06),
        st.floats(0.95, 1.05), st.floats(50, 450),
    )  # fmt: skip
    kinds = tuple(
        Kind(data.draw(label), data.draw(st.integers(1, 4)), 65.0) for _ in range(data.draw(st.integers(1, 3)))
    )
    into = Input(data.draw(st.sampled_from((75.0, 100.0, 150.0))), 14.4)
    more = (
        (*kinds[:-1], kinds[-1]._replace(panel_count=kinds[-1].panel_count + 1))
        if data.draw(st.booleans())
        else (*kinds, Kind(data.draw(label), 1, 65.0))
    )
    before, after = (joint_splits(k, into, -10) for k in (kinds, more))
    assert not any(x.objections for x in (*before, *after))
    assert given_w(more, into, after) > given_w(kinds, into, before)


def test_two_kinds_made_for_12_volts_go_in_parallel():
    large, small = Panel(200, 24.4, 20.5, 10.4, series_fuse_a=20), Panel(115, 24.2, 20.3, 6.1, series_fuse_a=15)
    kinds = Kind(large, 2, 81), Kind(small, 1, 81)
    into = Input(100, 14.2, highest_a=40)
    found = joint_splits(kinds, into, -8)
    assert [(x.series, x.parallel) for x in found] == [(1, 2), (1, 1)]
    # Cells at 45 °C give 8 % less than those of the labels.
    assert given_w(kinds, into, found) == pytest.approx(0.92 * 515, rel=0.002)
    # Two of 10.4 A drive 26 A into the small one, and 20.6 A go into each large one.
    assert [x.string_fuse_a for x in found] == [20, 10]
    # Two strings of 41 V and of 20.3 V at one voltage would lose a third.
    apart = tuple(split(k.panel, into, s, 1, -8, 81) for k, s in zip(kinds, (2, 1), strict=True))
    assert given_w(kinds, into, apart) == pytest.approx(0.65 * 0.92 * 515, rel=0.01)
    # Where so much current is not allowed, the large ones bring more in series and alone.
    tight = joint_splits(kinds, into._replace(highest_a=20), -8)
    assert (tight[0].series, tight[1]) == (2, None)


def test_currents_of_all_kinds_together_count():
    panel = Panel(200, 24.4, 20.5, 10.4)
    kinds = Kind(panel, 1, 60), Kind(panel._replace(power_w=190), 1, 60)
    assert {x.objections for x in joint_splits(kinds, Input(50, 14.4, highest_a=20.8), 0)} == {()}
    assert {x.objections for x in joint_splits(kinds, Input(50, 14.4, highest_a=20.7), 0)} == {("input-current",)}


def test_what_the_workshop_puts_in_series_stays():
    panel = Panel(200, 24.4, 20.5, 10.4)
    kinds = Kind(panel, 3, 60, series=2), Kind(panel._replace(power_w=150), 2, 60)
    assert [(x.series, x.parallel) for x in joint_splits(kinds, Input(100, 14.4), 0)] == [(2, 1), (2, 1)]


@pytest.mark.parametrize(("at_v", "held"), [(14.2, 1.0), (14.21, 1.0), (14.22, 1.0), (16, 0.85), (18.5, 0.0)])
def test_a_hair_over_the_best_voltage_costs_a_switching_controller_nothing(at_v, held):
    # 18.8 V at 25 °C, 14.2 V with cells at 86 °C.
    panel = Panel(100, 22.6, 18.8, 5.7, -0.003, (14.2 / 18.8 - 1) / 61)
    assert held_frac(panel, 1, at_v, 86) == pytest.approx(held, abs=0.01)


def test_a_switching_controller_takes_one_by_one_what_a_tracking_one_must_put_in_series():
    # 31 V falls to 26 V: at 28.4 V it still has three quarters of its current, and two in series lose half their power.
    panel = Panel(300, 38, 31, 9.8)
    assert splits(panel, Input(100, 28.4, switching=True), 2, -15, 65)[0].series == 1
    assert splits(panel, Input(100, 28.4), 2, -15, 65)[0].series == 2


def test_a_switching_controller_s_heat_loss_is_counted_once():
    low = Strings(Panel(100, 19.6, 16.4, 6.3), 1, 1)
    from_degc, lost_frac_k = fall_in_heat(low, 13.5, switching=True)
    assert from_degc > 40 and lost_frac_k > 0
    # One that at 25 °C gives little still gives all of that little there.
    from_degc, _ = fall_in_heat(low, 18.5, switching=True)
    assert from_degc >= 25


def test_a_kind_that_would_cost_the_others_more_than_it_brings_is_left_out():
    house, small = Panel(430, 39, 32, 13.9), Panel(100, 22.4, 18.8, 5.8)
    kinds = Kind(house, 3, 70), Kind(small, 1, 70)
    found = joint_splits(kinds, Input(60, 14.2), -10)
    assert (found[0].series, found[0].parallel, found[1]) == (1, 3, None)
    # Two of 18.8 V beside two of 32 V at 24 V: only in series are both high enough, and then too far apart.
    found = joint_splits((Kind(small, 2, 60), Kind(house, 2, 60)), Input(100, 28.4), -10)
    assert (found[0], found[1].series) == (None, 2)
    # Too much current is told, and nobody is left out for it.
    assert None not in joint_splits(kinds, Input(60, 14.2, highest_a=30), -10)
