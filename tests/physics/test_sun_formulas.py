"""Formulas of sun, sky, cells and weather raise outside their ranges, and each shows a worked number and a source."""

import doctest
import inspect
import math
from importlib import import_module

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.physics.air import WAVE_FRAC
from engine.physics.cell import cell_degc, kept_frac, panel_w, rise_m2k_w
from engine.physics.clear_sky import TURBIDITY_MULTIPLE, air_mass_multiple, clear_sky
from engine.physics.clearness import clearness_frac, clearness_spread, cloudless_frac, month_clearness_frac
from engine.physics.panel_day import PanelGroup, panel_path
from engine.physics.ranges import OutOfRangeError
from engine.physics.sky import (
    direct_frac,
    glass_frac,
    ground_glass_frac,
    panel_light,
    panel_ways,
    sky_glass_frac,
    toward_sun_frac,
)
from engine.physics.solar_position import (
    extraterrestrial_w_m2,
    refraction_deg,
    sun_on,
    sun_position,
    sunset_deg,
)
from engine.physics.sun_day import light_hours, sun_day

MODULES = (
    "solar_position", "clear_sky", "sky", "cell", "sun_day", "clearness", "air", "weather_years", "panel_day",
    "warmth_loads", "energy_system", "energy_day", "energy_trip", "energy_trace", "energy_year", "store_hours",
)  # fmt: skip

DEG, FRAC = (-90.1, 90.1), (-0.01, 1.01)
# Function, a sound value for each argument, and a value beyond each end of its range.
CASES = (
    (sun_on, {"day_of_year": 172, "utc_h": 12.0, "year": 2025},
     {"day_of_year": (0, 367), "utc_h": (-25.0, 49.0), "year": (1949, 2051)}),
    (sun_position, {"latitude_deg": 52.0, "declination_deg": 10.0, "solar_h": 9.0},
     {"latitude_deg": DEG, "declination_deg": (-24.0, 24.0), "solar_h": (-13.0, 37.0)}),
    (refraction_deg, {"elevation_deg": 10.0}, {"elevation_deg": (-1.1, 90.1)}),
    (extraterrestrial_w_m2, {"distance_multiple": 1.0}, {"distance_multiple": (0.97, 1.03)}),
    (sunset_deg, {"latitude_deg": 52.0, "declination_deg": 10.0},
     {"latitude_deg": DEG, "declination_deg": (-24.0, 24.0)}),
    (air_mass_multiple, {"elevation_deg": 10.0}, {"elevation_deg": (-0.1, 90.1)}),
    (clear_sky,
     {"elevation_deg": 30.0, "extraterrestrial_w_m2": 1366.0, "altitude_m": 100.0, "turbidity_multiple": 3.0},
     {"elevation_deg": (-0.1, 90.1), "extraterrestrial_w_m2": (1299.0, 1431.0), "altitude_m": (-101.0, 5001.0),
      "turbidity_multiple": (1.4, 8.1)}),
    (direct_frac, {"clearness_frac": 0.5, "air_multiple": 2.0},
     {"clearness_frac": FRAC, "air_multiple": (0.9, 41.0)}),
    (toward_sun_frac, {"elevation_deg": 30.0, "sun_azimuth_deg": 180.0, "tilt_deg": 20.0, "facing_deg": 180.0},
     {"elevation_deg": DEG, "sun_azimuth_deg": (-1.0, 361.0), "tilt_deg": (-1.0, 91.0), "facing_deg": (-1.0, 361.0)}),
    (glass_frac, {"toward_frac": 0.5}, {"toward_frac": FRAC}),
    (sky_glass_frac, {"tilt_deg": 20.0}, {"tilt_deg": (-1.0, 91.0)}),
    (ground_glass_frac, {"tilt_deg": 20.0}, {"tilt_deg": (0.0, 91.0)}),
    (panel_ways, {"up_frac": 0.5, "toward_frac": 0.5, "tilt_deg": 20.0, "ground_frac": 0.2},
     {"up_frac": FRAC, "toward_frac": FRAC, "tilt_deg": (-1.0, 91.0), "ground_frac": FRAC}),
    (lambda global_w_m2, diffuse_w_m2, level_w_m2: panel_light(
        global_w_m2, diffuse_w_m2, level_w_m2, panel_ways(0.5, 0.5, 20.0)),
     {"global_w_m2": 500.0, "diffuse_w_m2": 200.0, "level_w_m2": 700.0},
     {"global_w_m2": (199.0, 1701.0), "diffuse_w_m2": (-1.0, 501.0), "level_w_m2": (-1.0, 1431.0)}),
    (lambda light_w_m2, air_degc, wind_m_s: cell_degc(light_w_m2, air_degc, "raised", wind_m_s),
     {"light_w_m2": 500.0, "air_degc": 20.0, "wind_m_s": 3.0},
     {"light_w_m2": (-1.0, 1701.0), "air_degc": (-61.0, 61.0), "wind_m_s": (-1.0, 31.0)}),
    (lambda wind_m_s: rise_m2k_w("open", wind_m_s), {"wind_m_s": 3.0}, {"wind_m_s": (-1.0, 31.0)}),
    (lambda loss_frac: kept_frac({"soiling": loss_frac}), {"loss_frac": 0.02}, {"loss_frac": FRAC}),
    (panel_w,
     {"power_w": 400.0, "through_w_m2": 500.0, "cell_degc": 40.0, "power_coefficient_frac_k": -0.004, "kept_frac": 0.9},
     {"power_w": (-1.0, 1.1e5), "through_w_m2": (-1.0, 1701.0), "cell_degc": (-61.0, 151.0),
      "power_coefficient_frac_k": (-0.011, 0.001), "kept_frac": FRAC}),
    (sun_day, {"latitude_deg": 52.0, "day_of_year": 80}, {"latitude_deg": DEG, "day_of_year": (0, 366)}),
    (lambda clear_frac: light_hours(sun_day(52.0, 80), clear_frac), {"clear_frac": 0.5}, {"clear_frac": FRAC}),
    (cloudless_frac, {"latitude_deg": 52.0, "altitude_m": 100.0, "month": 6},
     {"latitude_deg": DEG, "altitude_m": (-101.0, 5001.0), "month": (0, 13)}),
    (clearness_spread, {"mean_frac": 0.5, "cloudless_frac": 0.75},
     {"mean_frac": (0.14, 0.79), "cloudless_frac": (0.09, 1.01)}),
    (lambda below_frac: clearness_frac(clearness_spread(0.5), below_frac), {"below_frac": 0.1}, {"below_frac": FRAC}),
    (month_clearness_frac, {"latitude_deg": 52.0, "ghi_kwh_m2_d": 5.0, "month": 6},
     {"latitude_deg": DEG, "ghi_kwh_m2_d": (-0.1, 12.1), "month": (0, 13)}),
)  # fmt: skip
EACH = [(f, sound, name, ends) for f, sound, beyond in CASES for name, ends in beyond.items()]


@pytest.mark.parametrize(("function", "sound", "name", "ends"), EACH, ids=[f"{i}-{e[2]}" for i, e in enumerate(EACH)])
def test_beyond_either_end_raises(function, sound, name, ends):
    function(**sound)
    for value in (*ends, math.nan, math.inf, -math.inf):
        with pytest.raises((OutOfRangeError, ValueError)):
            function(**sound | {name: value})


@pytest.mark.parametrize("name", MODULES)
def test_every_formula_has_a_worked_example_and_a_source(name):
    module = import_module(f"engine.physics.{name}")
    assert doctest.testmod(module).failed == 0
    formulas = [
        f
        for n, f in vars(module).items()
        if callable(f) and not inspect.isclass(f) and getattr(f, "__module__", "") == module.__name__ and n[0] != "_"
    ]
    for f in formulas:
        assert ">>>" in f.__doc__, f
        assert name in ("warmth_loads", "energy_system") or "Source" in f.__doc__, f


def test_an_unknown_mount_is_no_mount():
    with pytest.raises(KeyError):
        rise_m2k_w("velcro")
    with pytest.raises(KeyError):
        panel_path(52.0, 80, (PanelGroup(100.0, mount="velcro"),))


@given(st.floats(0, 1), st.floats(0, 1), st.floats(0, 90))
def test_glass_takes_and_never_gives(diffuse_share, toward, tilt):
    ways = panel_ways(0.6, toward, tilt)
    light, through = panel_light(700.0, 700.0 * diffuse_share, 820.0, ways)
    assert 0 <= through <= light * (1 + 1e-9)


@given(st.floats(-90, 90), st.floats(-23.4, 23.4), st.floats(0, 24))
def test_the_sun_is_as_high_before_noon_as_after(latitude, declination, hour):
    before, after = sun_position(latitude, declination, hour), sun_position(latitude, declination, 24 - hour)
    assert before.elevation_deg == pytest.approx(after.elevation_deg, abs=1e-6)
    noon = sun_position(latitude, declination, 12.0)
    assert before.elevation_deg <= noon.elevation_deg + 1e-6


def test_the_wave_adds_up_to_nothing_and_swings_by_one():
    assert sum(WAVE_FRAC) == pytest.approx(0, abs=1e-12)
    assert max(WAVE_FRAC) - min(WAVE_FRAC) == pytest.approx(1, abs=0.03)
    assert WAVE_FRAC.index(max(WAVE_FRAC)) in (14, 15)
    assert WAVE_FRAC.index(min(WAVE_FRAC)) in (4, 5)


def test_a_months_haze_is_plausible():
    assert len(TURBIDITY_MULTIPLE) == 12
    assert all(2 <= t <= 4 for t in TURBIDITY_MULTIPLE)
