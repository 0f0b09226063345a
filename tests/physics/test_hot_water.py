"""Hot water: sums worked by hand, and what must hold whatever the numbers."""

from math import exp, inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.physics.hot_water import (
    WATER_WH_LK,
    heat_up_h,
    heat_up_wh,
    instant_flow_l_min,
    mixed_l,
    recovery_l_h,
    shower_minutes,
    stands_degc,
)

GALLON_L = 3.785411784
STORED, HOT, COLD, FLOW = st.floats(1, 60), st.floats(45, 85), st.floats(2, 25), st.floats(2, 12)


def test_six_gallons_on_the_battery():
    # 6 US gallons from 50 to 130 °F: 1.17 kWh; behind an inverter of 88 % 1.33 kWh; 1.7 h with 700 W.
    need_wh = heat_up_wh(6 * GALLON_L, 10, (130 - 32) / 1.8)
    assert need_wh == pytest.approx(1170, rel=5e-3)
    assert need_wh / 0.88 == pytest.approx(1330, rel=5e-3)
    assert heat_up_h(6 * GALLON_L, 10, (130 - 32) / 1.8, 700) == pytest.approx(1.7, abs=0.05)


def test_recovery_in_american_figures():
    # 10 gal from 55 to 125 °F with 10,000 BTU/h at 80 %: 43.73 min; 9.604 gal/h at 100 °F. Worked with 8.33 lb/gal.
    heat_w = 10_000 * 0.8 * 0.29307107
    assert 60 * heat_up_h(10 * GALLON_L, 55 / 1.8 - 32 / 1.8, 125 / 1.8 - 32 / 1.8, heat_w) == pytest.approx(
        43.73, rel=3e-3
    )
    assert recovery_l_h(heat_w, 100 / 1.8) / GALLON_L == pytest.approx(9.604, rel=3e-3)


def test_twenty_litres_at_sixty_make_36_at_38():
    assert mixed_l(20, 60, 10).high_l == pytest.approx(35.714, abs=5e-4)


def test_an_instant_heater_is_a_store_of_nothing():
    flow = instant_flow_l_min(10_000, 10)
    assert shower_minutes(0, 60, 10, flow * 1.01, 10_000) == (0, 0)
    assert shower_minutes(0, 60, 10, flow * 0.99, 10_000) == (inf, inf)


@given(STORED, HOT, COLD, FLOW, st.floats(0, 3000), st.floats(0, 3000), st.floats(1, 3))
def test_a_bigger_store_or_heater_never_shortens_the_shower(stored, hot, cold, flow, heat, more, times):
    base = shower_minutes(stored, hot, cold, flow, heat)
    assert base.low_minutes <= base.high_minutes
    for other in (
        shower_minutes(stored * times, hot, cold, flow, heat),
        shower_minutes(stored, hot, cold, flow, heat + more),
        shower_minutes(stored, min(99, hot * times), cold, flow, heat),
        shower_minutes(stored, hot, cold, max(0.5, flow / times), heat),
    ):
        assert other.low_minutes >= base.low_minutes - 1e-9
        assert other.high_minutes >= base.high_minutes - 1e-9


@given(STORED, HOT, COLD, FLOW)
def test_the_heat_in_the_shower_was_in_the_store(stored, hot, cold, flow):
    low, high = mixed_l(stored, hot, cold)
    assert high * (38 - cold) == pytest.approx(stored * (hot - cold))
    assert low * (38 - cold) == pytest.approx(stored * (hot - 38))
    assert shower_minutes(stored, hot, cold, flow) == pytest.approx((low / flow, high / flow))


@given(STORED, HOT, COLD, st.floats(200, 3000), st.floats(0.01, 5), st.floats(-10, 30))
def test_heating_up_ends_where_it_should(stored, hot, cold, heat, loss, around):
    takes = heat_up_h(stored, cold, hot, heat, loss, around)
    if takes is None:
        assert around + heat / loss <= hot
        return
    ends = around + heat / loss
    assert ends + (cold - ends) * exp(-loss * takes / (WATER_WH_LK * stored)) == pytest.approx(hot, abs=1e-6)


@given(STORED, HOT, st.floats(0.01, 5), st.floats(-10, 30), st.floats(0, 48))
def test_a_store_left_alone_tends_to_its_surroundings(stored, hot, loss, around, time_h):
    now, later = (stands_degc(stored, hot, loss, around, t) for t in (time_h, time_h + 1))
    assert around - 1e-9 <= later <= now + 1e-9 <= hot + 2e-9


@given(STORED, HOT, COLD, st.floats(200, 3000), st.floats(0.01, 5))
def test_a_loss_to_colder_surroundings_never_speeds_heating(stored, hot, cold, heat, loss):
    takes = heat_up_h(stored, cold, hot, heat, loss, cold)
    assert takes is None or takes >= heat_up_h(stored, cold, hot, heat) - 1e-12
