"""Laws of batteries that hold whatever the numbers."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.physics.battery_bank import bank, battery_ohm, cells_in_series, cells_only_ohm, together_ohm
from engine.physics.battery_chemistry import AGM, CHEMISTRIES, LFP, NMC
from engine.physics.battery_life import cycles_count, life_d
from engine.physics.battery_sag import loaded_v, prospective_a
from engine.physics.battery_temperature import capacity_left_frac, charge_limit_a, warming_wh
from engine.physics.curve import Curve
from engine.physics.peukert import delivered_ah, discharge_h, excess_frac
from engine.physics.ranges import OutOfRangeError

KINDS = st.sampled_from(tuple(CHEMISTRIES.values()))
EACH = pytest.mark.parametrize("kind", CHEMISTRIES.values(), ids=CHEMISTRIES)


@EACH
def test_values_of_a_chemistry_are_plausible(kind):
    assert kind.cell_empty_v < kind.cell_v < kind.cell_full_v
    assert 0.4 <= kind.usable_frac <= 0.95
    assert 0 <= kind.peukert_excess_frac <= 0.6
    assert kind.round_trip_frac < kind.coulombic_frac <= 1
    assert 0 < kind.tail_frac < 0.2 and 0.5 < kind.taper_from_frac < 1
    assert "memory" in kind.source or "practice" in kind.source
    for curve in (kind.capacity_curve_frac, kind.charge_steps_frac, kind.resistance_multiple, kind.cycles):
        assert [x for x, _ in curve] == sorted({x for x, _ in curve})
    assert all(0 < y <= 1 for _, y in kind.capacity_curve_frac)
    assert dict(kind.capacity_curve_frac)[25.0] == 1 == dict(kind.resistance_multiple)[25.0]
    assert [y for _, y in kind.resistance_multiple] == sorted((y for _, y in kind.resistance_multiple), reverse=True)
    assert [n for _, n in kind.cycles] == sorted((n for _, n in kind.cycles), reverse=True)
    assert kind.cycles[-1][0] == 1


@given(KINDS, st.floats(-18, 50), st.floats(-18, 50))
def test_colder_cells_never_hold_more_and_never_resist_less(kind, one, other):
    cold, warm = sorted((one, other))
    assert capacity_left_frac(kind, cold) <= capacity_left_frac(kind, warm)
    volts = 6 * kind.cell_v
    assert battery_ohm(kind, volts, 100, cold) >= battery_ohm(kind, volts, 100, warm)


@given(st.sampled_from((LFP, NMC)), st.floats(1, 1000), st.floats(-60, 0))
def test_lithium_is_never_charged_at_or_below_freezing(kind, capacity_ah, degc):
    assert charge_limit_a(kind, capacity_ah, degc) == 0


@given(KINDS, st.floats(-60, 25), st.floats(-60, 25))
def test_below_room_temperature_warmer_cells_never_take_less(kind, one, other):
    cold, warm = sorted((one, other))
    assert charge_limit_a(kind, 100, cold) <= charge_limit_a(kind, 100, warm)


def test_beyond_a_curve_physics_raises():
    with pytest.raises(OutOfRangeError, match="cell_degc"):
        capacity_left_frac(LFP, -21)
    with pytest.raises(OutOfRangeError, match="cell_degc"):
        battery_ohm(LFP, 12.8, 100, 61)
    with pytest.raises(OutOfRangeError):
        Curve(((0.0, 1.0), (1.0, 2.0))).between("x", math.nan)


@given(st.lists(st.tuples(st.floats(0.1, 100), st.floats(0.1, 100)), min_size=2, max_size=6, unique_by=lambda p: p[0]))
def test_a_curve_goes_through_its_points(points):
    curve = Curve(sorted(points))
    for x, y in curve:
        assert curve.between("x", x) == pytest.approx(y)
        assert curve.between_logs("x", x) == pytest.approx(y)


@given(st.floats(1, 500), st.floats(5, 100), st.floats(0.1, 500), st.floats(0.1, 500), st.floats(0, 0.6))
def test_more_current_never_lasts_longer_nor_delivers_more(capacity_ah, rated_h, one, other, excess):
    small, large = sorted((one, other))
    assert discharge_h(capacity_ah, rated_h, large, excess) <= discharge_h(capacity_ah, rated_h, small, excess)
    few, many = (delivered_ah(capacity_ah, rated_h, a, excess) for a in (large, small))
    assert few <= many * (1 + 1e-9) and many <= capacity_ah * (1 + 1e-9)


@given(st.floats(1, 500), st.floats(5, 100), st.floats(0.001, 0.6), st.floats(1.1, 30))
def test_the_exponent_comes_back_from_two_capacities(capacity_ah, rated_h, excess, times):
    current_a = capacity_ah / rated_h * times
    hours = discharge_h(capacity_ah, rated_h, current_a, excess)
    if hours >= 0.1 and hours * current_a >= 0.1:
        found = excess_frac(capacity_ah, rated_h, hours * current_a, hours)
        assert found == pytest.approx(excess, abs=1e-6)


@given(st.floats(11, 58), st.floats(0, 0.05), st.floats(0, 5000), st.floats(0, 5000))
def test_the_voltage_under_load_balances_power_and_falls_with_it(open_v, ohm, one, other):
    small, large = sorted((one, other))
    volts = loaded_v(open_v, ohm, large)
    if volts is None:
        assert large > open_v**2 / (4 * ohm) * (1 - 1e-9)
        return
    assert volts * (open_v - volts) == pytest.approx(large * ohm, rel=1e-6, abs=1e-6)
    assert open_v / 2 <= volts <= loaded_v(open_v, ohm, small) + 1e-9


@given(st.floats(2, 60), st.floats(1e-4, 1), st.floats(0, 1), st.integers(1, 8))
def test_a_short_circuit_behind_a_cable_is_smaller_and_parallel_batteries_add(open_v, one_ohm, cable_ohm, n):
    assert prospective_a(open_v, one_ohm, cable_ohm) <= prospective_a(open_v, one_ohm)
    assert prospective_a(open_v, together_ohm(one_ohm, 1, n)) == pytest.approx(n * prospective_a(open_v, one_ohm))
    series = prospective_a(n * open_v, together_ohm(one_ohm, n, 1)) if n * open_v <= 100 else None
    assert series is None or series == pytest.approx(prospective_a(open_v, one_ohm))


@EACH
def test_cells_alone_resist_less_than_a_battery(kind):
    volts = 6 * kind.cell_v
    assert cells_only_ohm(kind, volts, 100) < battery_ohm(kind, volts, 100)
    assert cells_only_ohm(kind, volts, 200) == pytest.approx(cells_only_ohm(kind, volts, 100) / 2)


@given(st.integers(1, 8), st.integers(1, 6))
def test_a_bank_keeps_its_energy(series, parallel):
    whole = bank(series * parallel, 3.2, 100, 3.2 * series) if series > 1 else bank(parallel, 12.8, 100, 12)
    assert (whole.series, whole.parallel) == (series, parallel)
    assert whole.energy_wh == pytest.approx(series * parallel * (320 if series > 1 else 1280))


@pytest.mark.parametrize(("n", "battery_v", "system_v"), [(3, 12.8, 24), (2, 25.6, 12), (2, 12.8, 48), (1, 36, 24)])
def test_batteries_that_make_no_such_bank_are_refused(n, battery_v, system_v):
    with pytest.raises(ValueError):
        bank(n, battery_v, 100, system_v)


def test_four_lithium_cells_are_sold_as_twelve_volts_too():
    assert cells_in_series(LFP, 12) == 4
    assert cells_in_series(LFP, 24) == 8


@pytest.mark.parametrize(("kind", "volts"), [(LFP, 14), (AGM, 3), (NMC, 12.8)])
def test_voltages_that_no_whole_cells_make(kind, volts):
    with pytest.raises(ValueError, match="whole number"):
        cells_in_series(kind, volts)


@given(KINDS, st.floats(0.01, 1), st.floats(0.01, 1))
def test_deeper_cycles_are_never_more_and_never_wear_less(kind, one, other):
    shallow, deep = sorted((one, other))
    assert cycles_count(kind, deep) <= cycles_count(kind, shallow) * (1 + 1e-9)
    assert life_d(kind, deep, 1) <= life_d(kind, shallow, 1) * (1 + 1e-9)


@given(KINDS, st.floats(0.01, 1), st.floats(0, 10), st.floats(0, 10))
def test_use_and_age_both_end_a_battery(kind, depth, one, other):
    rare, often = sorted((one, other))
    assert life_d(kind, depth, often) <= life_d(kind, depth, rare) <= kind.calendar_d


@given(st.floats(0, 100), st.floats(-60, 60), st.floats(-60, 60), st.floats(-60, 60))
def test_warming_in_two_steps_takes_as_much_as_in_one(mass_kg, a, b, c):
    low, middle, high = sorted((a, b, c))
    both = warming_wh(mass_kg, low, middle) + warming_wh(mass_kg, middle, high)
    assert warming_wh(mass_kg, low, high) == pytest.approx(both, abs=1e-6)
    assert warming_wh(mass_kg, high, low) == 0
