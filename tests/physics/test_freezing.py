"""Frost in tanks and pipes: nights worked by hand, and what must hold whatever the numbers."""

from math import inf, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.physics.freezing import (
    FUSION_WH_KG,
    WINDY_TANK_W_M2K,
    after_night,
    frost,
    lasting_degc,
    pipe_l,
    pipe_loss_w_k,
    tank_loss_w_k,
)
from engine.physics.hot_water import WATER_WH_LK

WATER, DEGC, LOSS, AROUND = st.floats(0.05, 400), st.floats(0, 30), st.floats(0.01, 60), st.floats(-40, 10)


def test_a_bare_tank_through_a_mild_night_and_a_hard_spell():
    # 113 kg at 10 °C, 1.6 m² at 8 W/(m²·K). At −4 °C for 8 h: 2.4 °C. In wind, 20 W/(m²·K): 0 °C, under 5 % ice.
    # At −15 °C: 0 °C after 5.2 h, 192 W hold it, solid some 55 h later.
    still, windy = tank_loss_w_k(1.6), tank_loss_w_k(1.6, film_w_m2k=WINDY_TANK_W_M2K)
    night = after_night(113, 10, still, -4, 8)
    assert (night.water_degc, night.ice_frac) == (pytest.approx(2.4, abs=0.05), 0)
    blown = after_night(113, 10, windy, -4, 8)
    assert blown.water_degc == 0
    assert 0 < blown.ice_frac < 0.05
    hard = frost(113, 10, still, -15)
    assert hard.freezes_h == pytest.approx(5.2, abs=0.05)
    assert hard.hold_w == pytest.approx(192)
    assert hard.solid_h - hard.freezes_h == pytest.approx(55, abs=0.5)
    # 4.7 MJ to 0 °C and 37.7 MJ to ice.
    assert pytest.approx(4.7, abs=0.05) == 113 * 10 * WATER_WH_LK * 3.6e-3
    assert pytest.approx(37.7, abs=0.05) == 113 * FUSION_WH_KG * 3.6e-3


def test_eighty_litres_hold_eight_kilowatt_hours():
    assert pytest.approx(7880, rel=2e-3) == 80 * (5 * WATER_WH_LK + FUSION_WH_KG)


def test_a_pipe_freezes_long_before_the_tank():
    tank = frost(113, 10, tank_loss_w_k(1.6), -15)
    pipe = frost(pipe_l(2, 0.012), 10, pipe_loss_w_k(2, 0.015), -15)
    lagged = frost(pipe_l(2, 0.012), 10, pipe_loss_w_k(2, 0.015, 0.013), -15)
    assert pipe.freezes_h < lagged.freezes_h < 1 < tank.freezes_h


def test_above_freezing_nothing_freezes():
    assert frost(50, 5, 5, 0) == (inf, inf, 0)
    assert after_night(50, 5, 5, 2, 1000).water_degc == pytest.approx(2, abs=0.01)


@given(WATER, DEGC, LOSS, AROUND, st.floats(0, 500))
def test_heat_given_up_is_what_the_water_lost(water, degc, loss, around, time_h):
    found = after_night(water, degc, loss, around, time_h)
    assert 0 <= found.ice_frac <= 1
    assert (found.ice_frac == 0) or found.water_degc == 0
    assert found.water_degc <= max(degc, around) + 1e-9
    cold = frost(water, degc, loss, around)
    if 0 < found.ice_frac < 1:
        assert found.ice_frac * water * FUSION_WH_KG == pytest.approx((time_h - cold.freezes_h) * cold.hold_w, rel=1e-6)


@given(WATER, DEGC, LOSS, AROUND, st.floats(1, 3), st.floats(0, 15))
def test_colder_leakier_or_less_water_never_lasts_longer(water, degc, loss, around, times, colder):
    base = frost(water, degc, loss, around)
    for other in (
        frost(water, degc, loss * times, around),
        frost(water, degc, loss, around - colder),
        frost(water / times, degc, loss, around),
    ):
        assert other.freezes_h <= base.freezes_h * (1 + 1e-9)
        assert other.solid_h <= base.solid_h * (1 + 1e-9)
    assert frost(water, degc, loss, around - colder).hold_w >= base.hold_w


@given(st.floats(0.01, 10), st.floats(0, 0.2), st.floats(0, 0.1))
def test_more_insulation_on_a_tank_never_loses_more(surface, insulation, more):
    assert tank_loss_w_k(surface, min(0.2, insulation + more)) <= tank_loss_w_k(surface, insulation)


@given(st.floats(0.006, 0.1), st.floats(0, 0.1))
def test_a_bare_pipe_is_its_surface_and_lagging_helps_beyond_the_critical_radius(outer, insulation):
    assert pipe_loss_w_k(1, outer) == pytest.approx(pi * outer * 8)
    # Critical radius λ/h = 4.4 mm: every pipe of 9 mm and more gains from lagging.
    if outer >= 0.0088:
        assert pipe_loss_w_k(1, outer, insulation) <= pipe_loss_w_k(1, outer) * (1 + 1e-12)


def test_the_frost_that_just_lasts_freezes_at_the_end_of_it():
    for kg, loss, hours in ((113.0, 12.8, 8.0), (2.5, 0.5, 8.0), (20.0, 2.0, 72.0)):
        degc = lasting_degc(kg, 10, loss, hours)
        assert degc < 0
        assert frost(kg, 10, loss, degc).freezes_h == pytest.approx(hours)
