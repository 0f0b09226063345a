"""Moist air against psychrolib (the same handbook, coded apart) and CoolProp (equations of state)."""

import pytest

from engine.physics.moist_air import (
    air_density_kg_m3,
    dew_point_degc,
    saturation_kpa,
    vapour_kpa,
    water_kg_m3,
)

pytestmark = pytest.mark.reference

STATES = [(t, rh) for t in (-30, -20, -10, -3, 0, 0.01, 5, 10, 18, 20, 25, 30, 45) for rh in (0.1, 0.4, 0.6, 0.8, 1.0)]


@pytest.fixture
def psychro():
    import psychrolib

    psychrolib.SetUnitSystem(psychrolib.SI)
    return psychrolib


def test_saturation_is_that_of_the_handbook(psychro):
    for t in (-60, -40, -20, -5, 0, 0.01, 0.02, 10, 20, 35, 60, 99):
        assert saturation_kpa(t) * 1000 == pytest.approx(psychro.GetSatVapPres(t), rel=1e-9)


def test_saturation_is_that_of_the_equation_of_state():
    from CoolProp.CoolProp import PropsSI

    # The correlation of 1983 and IAPWS-95 lie 0.02 % apart in this range.
    for t in (0.5, 5, 10, 20, 30, 40, 60):
        assert saturation_kpa(t) * 1000 == pytest.approx(PropsSI("P", "T", t + 273.15, "Q", 0, "Water"), rel=3e-4)


def test_dew_points(psychro):
    from CoolProp.HumidAirProp import HAPropsSI

    for t, rh in STATES:
        ours = dew_point_degc(vapour_kpa(t, rh))
        assert ours == pytest.approx(psychro.GetTDewPointFromRelHum(t, rh), abs=2e-3)
        if ours > 0:
            # Real moist air holds a little more than the ideal gas: 0.01 K at most.
            assert ours == pytest.approx(HAPropsSI("D", "T", t + 273.15, "P", 101325, "R", rh) - 273.15, abs=0.02)


@pytest.mark.parametrize("altitude_m", [0, 1600, 3000])
def test_density(psychro, altitude_m):
    p = psychro.GetStandardAtmPressure(altitude_m) / 1000
    for t, rh in STATES:
        ratio = psychro.GetHumRatioFromRelHum(t, rh, p * 1000)
        assert air_density_kg_m3(t, rh, p) == pytest.approx(psychro.GetMoistAirDensity(t, ratio, p * 1000), rel=1e-4)


def test_water_by_volume_against_real_moist_air():
    from CoolProp.HumidAirProp import HAPropsSI

    for t, rh in ((0, 0.9), (10, 0.9), (18, 0.6), (20, 1.0), (30, 0.6)):
        ratio, volume = (HAPropsSI(x, "T", t + 273.15, "P", 101325, "R", rh) for x in ("W", "Vda"))
        # Real gas and enhancement together: half a per cent.
        assert water_kg_m3(t, rh) == pytest.approx(ratio / volume, rel=6e-3)


def test_published_saturation_by_volume():
    # g/m³ at saturation, ASHRAE data by way of psychrolib, four figures.
    for t, g_m3 in ((-20, 0.884), (-10, 2.140), (0, 4.848), (10, 9.397), (18, 15.363), (20, 17.287), (30, 30.350)):
        assert water_kg_m3(t, 1) * 1000 == pytest.approx(g_m3, abs=6e-3)
