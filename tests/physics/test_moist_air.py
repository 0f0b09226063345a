"""What must hold of moist air whatever the numbers."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.physics.moist_air import (
    air_density_kg_m3,
    dew_point_degc,
    relative_humidity_frac,
    saturation_kpa,
    vapour_kpa,
    water_kg_m3,
)

DEGC, HUMIDITY = st.floats(-30, 45), st.floats(0.05, 1)


@given(st.floats(-58, 98))
def test_dew_point_takes_saturation_back(degc):
    assert dew_point_degc(saturation_kpa(degc)) == pytest.approx(degc, abs=2e-3 if abs(degc) < 0.02 else 1e-6)


@given(DEGC, HUMIDITY)
def test_dew_point_is_never_above_the_air(degc, humidity):
    assert dew_point_degc(vapour_kpa(degc, humidity)) <= degc + 2e-3


@given(DEGC, HUMIDITY)
def test_humidity_takes_its_water_back(degc, humidity):
    assert relative_humidity_frac(degc, water_kg_m3(degc, humidity)) == pytest.approx(humidity)


@given(DEGC, HUMIDITY, st.floats(0.01, 15), HUMIDITY)
def test_warmer_or_damper_air_holds_more(degc, humidity, warmer_k, more):
    assert water_kg_m3(degc, humidity) < water_kg_m3(degc + warmer_k, humidity)
    low, high = sorted((humidity, more))
    assert water_kg_m3(degc, low) <= water_kg_m3(degc, high)


@given(DEGC, HUMIDITY, st.floats(50, 100), st.floats(0.1, 10))
def test_air_thins_with_height_and_damp(degc, humidity, high_kpa, more_kpa):
    assert air_density_kg_m3(degc, humidity, high_kpa) < air_density_kg_m3(degc, humidity, high_kpa + more_kpa)
    assert air_density_kg_m3(degc, humidity) <= air_density_kg_m3(degc, 0)
