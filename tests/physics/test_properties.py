"""What must hold whatever the numbers: balance, superposition, order, bounds."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.physics.axle import PointLoad, axle_loads
from engine.physics.direct_current import alternator_spare_a, battery_current_a, charger_input_a
from engine.physics.heat import Layer, balance_degc, u_value
from tests.reference.daily_sum import daily_yield_wh

MASS_KG = st.floats(0, 3000)
X_M = st.floats(-2.5, 12)
WHEELBASE_M = st.floats(2, 8)
LOADS = st.lists(st.builds(PointLoad, MASS_KG, X_M), max_size=30)
THICKNESS_M = st.floats(3e-4, 0.3)
CONDUCTIVITY_W_MK = st.floats(0.01, 250)
PLAIN = st.tuples(THICKNESS_M, CONDUCTIVITY_W_MK).map(lambda x: Layer(*x))
FRAMED = st.tuples(THICKNESS_M, CONDUCTIVITY_W_MK, st.floats(0, 0.5), st.floats(0.01, 0.5)).map(lambda x: Layer(*x))
LAYERS = st.lists(PLAIN | FRAMED, max_size=6).map(tuple)
FILM_M2K_W = st.sampled_from((0.10, 0.13, 0.17))
SLACK = 1e-9
"""Relative room for rounding."""


@given(LOADS, WHEELBASE_M)
def test_the_axles_together_carry_everything(loads, wheelbase_m):
    axles = axle_loads(loads, wheelbase_m)
    assert axles.total_kg == pytest.approx(sum(x.mass_kg for x in loads), rel=1e-12, abs=1e-6)


@given(LOADS, WHEELBASE_M)
def test_moments_about_the_rear_axle_balance_too(loads, wheelbase_m):
    axles = axle_loads(loads, wheelbase_m)
    about_rear_kgm = sum(x.mass_kg * (wheelbase_m - x.x_m) for x in loads)
    assert axles.front_kg * wheelbase_m == pytest.approx(about_rear_kgm, rel=1e-9, abs=1e-6)


@given(LOADS, MASS_KG, X_M, st.floats(-3, 3), WHEELBASE_M)
def test_moving_a_load_rearward_shifts_its_moment(loads, mass_kg, x_m, by_m, wheelbase_m):
    before = axle_loads([*loads, PointLoad(mass_kg, x_m)], wheelbase_m)
    after = axle_loads([*loads, PointLoad(mass_kg, x_m + by_m)], wheelbase_m)
    shift_kg = mass_kg * by_m / wheelbase_m
    assert after.rear_kg - before.rear_kg == pytest.approx(shift_kg, rel=1e-6, abs=1e-6)
    assert before.front_kg - after.front_kg == pytest.approx(shift_kg, rel=1e-6, abs=1e-6)


@given(MASS_KG, st.floats(-2, 2), WHEELBASE_M)
def test_mirror_loads_about_mid_wheelbase_weigh_alike_on_both_axles(mass_kg, off_m, wheelbase_m):
    mid = wheelbase_m / 2
    axles = axle_loads([PointLoad(mass_kg, mid - off_m), PointLoad(mass_kg, mid + off_m)], wheelbase_m)
    assert axles.front_kg == pytest.approx(mass_kg, abs=1e-6)
    assert axles.rear_kg == pytest.approx(mass_kg, abs=1e-6)


@given(LOADS, WHEELBASE_M, st.randoms(use_true_random=False))
def test_the_order_of_loads_does_not_matter(loads, wheelbase_m, random):
    shuffled = loads.copy()
    random.shuffle(shuffled)
    assert axle_loads(shuffled, wheelbase_m) == pytest.approx(axle_loads(loads, wheelbase_m), abs=1e-6)


@given(LAYERS, PLAIN | FRAMED, FILM_M2K_W, st.integers(0, 6))
def test_one_layer_more_never_loses_more_heat(layers, more, film, at):
    grown = (*layers[:at], more, *layers[at:])
    before, after = u_value(layers, film), u_value(grown, film)
    for b, a in zip(before, after, strict=True):
        assert a <= b * (1 + SLACK)


@given(LAYERS.filter(bool), st.floats(1, 4), FILM_M2K_W, st.data())
def test_a_thicker_layer_never_loses_more_heat(layers, times, film, data):
    i = data.draw(st.integers(0, len(layers) - 1))
    thicker = (*layers[:i], layers[i]._replace(thickness_m=layers[i].thickness_m * times), *layers[i + 1 :])
    assert u_value(thicker, film).u_w_m2k <= u_value(layers, film).u_w_m2k * (1 + SLACK)


@given(LAYERS, FRAMED, FILM_M2K_W)
def test_framing_lies_between_the_two_pure_materials(layers, layer, film):
    clear = u_value((*layers, layer._replace(framing_frac=0)), film).u_w_m2k
    timber = layer._replace(conductivity_w_mk=layer.framing_conductivity_w_mk, framing_frac=0)
    solid = u_value((*layers, timber), film).u_w_m2k
    mixed = u_value((*layers, layer), film).u_w_m2k
    assert min(clear, solid) * (1 - SLACK) <= mixed <= max(clear, solid) * (1 + SLACK)


@given(LAYERS, FILM_M2K_W)
def test_the_value_lies_between_its_two_limits(layers, film):
    u = u_value(layers, film)
    assert u.low_w_m2k * (1 - SLACK) <= u.u_w_m2k <= u.high_w_m2k * (1 + SLACK)


@given(LAYERS, st.floats(1, 500), FILM_M2K_W)
def test_a_heater_at_its_balance_gives_what_the_shell_loses(layers, area_m2, film):
    loss_w_k = u_value(layers, film).u_w_m2k * area_m2
    if not 1e-6 <= loss_w_k <= 5000:
        return
    outside = balance_degc(20, 2000, loss_w_k)
    assert loss_w_k * (20 - outside) == pytest.approx(2000, rel=1e-6)


SUN = {"sun_kwh_m2_d": st.floats(0, 12), "air_degc": st.floats(-40, 45), "rise_k": st.floats(0, 60)}


@given(st.floats(0, 2000), st.floats(0, 900), *SUN.values())
def test_another_panel_never_takes_energy_away(power_w, more_w, sun_kwh_m2_d, air_degc, rise_k):
    one = daily_yield_wh(power_w, sun_kwh_m2_d, air_degc, -0.0035, rise_k)
    two = daily_yield_wh(power_w + more_w, sun_kwh_m2_d, air_degc, -0.0035, rise_k)
    assert 0 <= one <= two


@given(st.floats(100, 900), *SUN.values(), st.floats(0, 20))
def test_warmer_cells_never_give_more(power_w, sun_kwh_m2_d, air_degc, rise_k, warmer_k):
    cool = daily_yield_wh(power_w, sun_kwh_m2_d, air_degc, -0.0035, rise_k)
    assert daily_yield_wh(power_w, sun_kwh_m2_d, air_degc, -0.0035, rise_k + warmer_k) <= cool * (1 + SLACK)


@given(st.floats(0, 10_000), st.floats(0.5, 1), st.floats(0, 2000), st.floats(10, 60))
@settings(max_examples=50)
def test_power_at_the_battery_is_power_at_the_loads_and_the_loss(ac_w, efficiency_frac, dc_w, battery_v):
    current_a = battery_current_a(ac_w, efficiency_frac, dc_w, battery_v)
    lost_w = ac_w * (1 / efficiency_frac - 1)
    assert current_a * battery_v == pytest.approx(ac_w + dc_w + lost_w, rel=1e-9, abs=1e-9)
    assert current_a * battery_v >= (ac_w + dc_w) * (1 - SLACK)


@given(st.floats(1, 250), st.floats(10, 60), st.floats(0.5, 1), st.floats(10, 30))
@settings(max_examples=50)
def test_a_charger_never_gives_more_power_than_it_takes(output_a, output_v, efficiency_frac, input_v):
    taken_w = charger_input_a(output_a, output_v, efficiency_frac, input_v) * input_v
    assert taken_w * (1 + SLACK) >= output_a * output_v


@given(st.floats(0, 500), st.floats(0.2, 1), st.floats(0, 150))
@settings(max_examples=50)
def test_spare_current_is_never_negative_and_never_above_the_rating(rating_a, hot_frac, own_use_a):
    assert 0 <= alternator_spare_a(rating_a, hot_frac, own_use_a) <= rating_a
