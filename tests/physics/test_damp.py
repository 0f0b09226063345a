"""Water in the room's air: a night with and without an unvented flame, balances, and what must hold throughout."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.physics.damp import (
    air_for_humidity_m3_h,
    burnt_water_kg_kg,
    settled_frac,
    source_kg_h,
)
from engine.physics.damp_hours import DampHour, damp_hours
from engine.physics.fuel import PROPANE_GROSS_KWH_KG, gas_kg
from engine.physics.moist_air import water_kg_m3

BTU_WH = 0.29307107


def test_a_catalytic_heater_without_a_flue_drips():
    # 6,000 BTU/h of propane for two sleepers at 45 g/h, 18 °C inside, 0 °C and 90 % outside, 25 m³/h. By hand with
    # 21,500 BTU/lb: 127 g/h of gas, 207 g/h of water from it, 297 in all; 61 m³/h would hold 60 %; 106 % at 25 m³/h.
    gas_kg_h = gas_kg(6000 * BTU_WH, PROPANE_GROSS_KWH_KG)
    assert gas_kg_h == pytest.approx(0.127, rel=0.01)
    assert gas_kg_h * burnt_water_kg_kg(1) == pytest.approx(0.207, rel=0.01)
    water = source_kg_h(2, open_gas_kg_h=gas_kg_h)
    assert water == pytest.approx(0.297, rel=0.01)
    assert air_for_humidity_m3_h(water, 18, 0.6, 0, 0.9) == pytest.approx(61, rel=0.01)
    assert settled_frac(water, 25, 18, 0, 0.9) == pytest.approx(1.06, abs=0.01)
    assert 8 * water == pytest.approx(2.4, abs=0.05)


def test_two_sleepers_alone_stay_dry():
    water = source_kg_h(2)
    assert water == pytest.approx(0.090)
    assert air_for_humidity_m3_h(water, 18, 0.6, 0, 0.9) == pytest.approx(19, abs=0.5)
    assert settled_frac(water, 25, 18, 0, 0.9) == pytest.approx(0.52, abs=0.005)


@pytest.mark.parametrize(("outside_degc", "m3_h"), [(0, 16.479), (-10, 10.971)])
def test_air_for_two_at_forty_grams(outside_degc, m3_h):
    # Worked with psychrolib's saturation pressures and R = 461.5 J/(kg·K), to the last digit.
    assert air_for_humidity_m3_h(0.080, 18, 0.6, outside_degc, 0.9) == pytest.approx(m3_h, abs=6e-4)


def test_a_gallon_of_propane_makes_less_than_seven_pounds_of_water():
    # 4.24 lb a gallon times 1.634: 6.9 lb.
    assert 4.24 * burnt_water_kg_kg(1) == pytest.approx(6.93, abs=0.01)
    assert burnt_water_kg_kg(0) < burnt_water_kg_kg(0.5) < burnt_water_kg_kg(1)


def test_air_that_is_too_damp_dries_nothing():
    assert air_for_humidity_m3_h(0.1, 20, 0.5, 22, 0.9) is None


HOURS = st.lists(
    st.builds(DampHour, st.floats(0, 1), st.floats(0, 120), st.floats(5, 28), st.floats(-20, 25), st.floats(0.3, 1),
              st.floats(-15, 20)),
    min_size=1, max_size=12,
).map(tuple)  # fmt: skip


@given(HOURS, st.floats(4, 40), st.floats(0, 6), st.floats(0.2, 1), st.floats(0, 0.5))
@settings(max_examples=100)
def test_every_hour_closes_and_nothing_runs_below_zero(hours, volume_m3, surface_m2, start, wet_kg):
    found = damp_hours(hours, volume_m3, surface_m2, start, wet_kg)
    held, stock = water_kg_m3(hours[0].inside_degc, start), wet_kg
    for h, state in zip(hours, found, strict=True):
        more = (state.held_kg_m3 - held) * volume_m3
        assert h.source_kg_h == pytest.approx(state.vented_kg + state.condensed_kg + more, abs=1e-9)
        assert state.condensed_kg == pytest.approx(state.on_surface_kg - stock, abs=1e-9)
        assert state.on_surface_kg >= 0
        assert state.held_kg_m3 > 0 or h.source_kg_h == 0
        held, stock = state.held_kg_m3, state.on_surface_kg


@given(HOURS, st.floats(4, 40), st.floats(0.2, 1))
@settings(max_examples=60)
def test_without_a_cold_surface_it_tends_to_where_it_settles(hours, volume_m3, start):
    h = hours[0]._replace(air_m3_h=60.0)
    last = damp_hours((h,) * 200, volume_m3, 0, start)[-1]
    expected = settled_frac(h.source_kg_h, 60, h.inside_degc, h.outside_degc, h.outside_frac)
    assert last.humidity_frac == pytest.approx(expected)


@given(HOURS, st.floats(4, 40), st.floats(0.1, 6), st.floats(0.2, 1), st.floats(0, 0.3))
@settings(max_examples=60)
def test_another_source_never_dries_the_air(hours, volume_m3, surface_m2, start, more):
    damper = tuple(h._replace(source_kg_h=h.source_kg_h + more) for h in hours)
    for a, b in zip(
        damp_hours(hours, volume_m3, surface_m2, start), damp_hours(damper, volume_m3, surface_m2, start), strict=True
    ):
        assert b.held_kg_m3 >= a.held_kg_m3 - 1e-12
        assert b.on_surface_kg >= a.on_surface_kg - 1e-12


@given(st.floats(0, 0.5), st.floats(5, 25), st.floats(0.35, 0.9), st.floats(-25, 3), st.floats(0.01, 0.5))
def test_more_water_or_a_drier_wish_never_needs_less_air(water, inside, humidity, outside, more):
    def need(w, h):
        return air_for_humidity_m3_h(w, inside, h, outside, 0.9)

    low = max(0.3, humidity - 0.05)
    if need(water, humidity) is not None:
        assert need(water + more, humidity) > need(water, humidity)
        assert need(water, low) is None or need(water, low) >= need(water, humidity)
