"""Heat in water against its equation of state, stores against scipy's integrator, a pipe's lagging against ht."""

import pytest

from engine.physics.freezing import after_night, frost, pipe_loss_w_k
from engine.physics.hot_water import heat_up_h, heat_up_wh, shower_minutes

pytestmark = pytest.mark.reference


@pytest.mark.parametrize(("cold", "hot"), [(10, 60), (15, 60), (15, 70), (10, 40), (5, 55)])
def test_heat_in_water_against_its_equation_of_state(cold, hot):
    from CoolProp.CoolProp import PropsSI

    low, high = (PropsSI("H", "T", t + 273.15, "P", 101325, "Water") for t in (cold, hot))
    kg = 20e-3 * PropsSI("D", "T", cold + 273.15, "P", 101325, "Water")
    # A litre counts as a kilogram of 4.187 kJ/K: up to a quarter of a per cent too much.
    assert heat_up_wh(20, cold, hot) == pytest.approx(kg * (high - low) / 3600, rel=2.5e-3)


def test_twenty_litres_with_1700_watts():
    # 4,181.35 kJ, 40.99 min by CoolProp 8.
    assert 60 * heat_up_h(20, 10, 60, 1700) == pytest.approx(40.99, rel=2e-3)


@pytest.mark.parametrize("heat_w", [0, 1700])
def test_a_mixing_store_at_the_shower_against_the_integrator(heat_w):
    from scipy.integrate import solve_ivp

    stored, cold, wanted, flow = 20.0, 10.0, 38.0, 6.0

    def change(_, t):
        hot_flow = flow * (wanted - cold) / (t[0] - cold)  # L/min through the store
        return [hot_flow / stored * (cold - t[0]) + heat_w / 60 / (1.163 * stored)]

    lukewarm = lambda _, t: t[0] - wanted  # noqa: E731
    lukewarm.terminal = True
    end = solve_ivp(change, (0, 60), [60.0], events=lukewarm, rtol=1e-9, atol=1e-9).t_events[0][0]
    assert shower_minutes(stored, 60, cold, flow, heat_w).low_minutes == pytest.approx(end, rel=1e-6)


def test_freezing_against_the_integrator():
    from scipy.integrate import solve_ivp

    # Heat content from 0 °C water: above it warms, below it is ice.
    water, loss, around = 113.0, 12.8, -15.0
    capacity, fusion = water * 1.163, water * 334 / 3.6

    def change(_, h):
        return [-loss * (max(h[0], 0.0) / capacity - around)]

    for time_h in (2, 5, 8, 30, 55):
        left = solve_ivp(change, (0, time_h), [10 * capacity], rtol=1e-9, atol=1e-6, max_step=0.05).y[0, -1]
        found = after_night(water, 10, loss, around, time_h)
        assert found.water_degc == pytest.approx(max(left, 0) / capacity, abs=2e-3)
        assert found.ice_frac == pytest.approx(max(-left, 0) / fusion, abs=1e-3)
    assert frost(water, 10, loss, around).freezes_h == pytest.approx(capacity / loss * 0.5108256, rel=1e-6)  # ln(25/15)


def test_lagging_against_ht():
    import ht

    pipe, wide, k, film = 0.015, 0.033, 0.035, 8.0
    expected = 1 / (1 / (film * 3.141592653589793 * wide) + ht.R_cylinder(pipe, wide, k, 1.0))
    assert pipe_loss_w_k(1, pipe, 0.009, k, film) == pytest.approx(expected, rel=1e-9)
