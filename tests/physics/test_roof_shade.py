"""Noon sun and shade on the roof."""

from math import radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.physics.ranges import OutOfRangeError
from engine.physics.roof_shade import LOWEST_DEG, noon_altitude_deg, shade_reach_m, tilted_depth_m

altitudes = st.floats(LOWEST_DEG, 90)


def test_the_noon_sun_of_solstice_and_equinox():
    # Handbook: 90° less latitude, plus or minus 23.45° at the solstices.
    assert noon_altitude_deg(51.5, 12) == pytest.approx(90 - 51.5 - 23.0, abs=0.2)
    assert noon_altitude_deg(51.5, 6) == pytest.approx(90 - 51.5 + 23.1, abs=0.2)
    # A week before the September equinox the sun stands some three degrees north of the equator.
    assert noon_altitude_deg(0, 9) == pytest.approx(87, abs=0.5)
    assert noon_altitude_deg(70, 12) < 0


@given(st.floats(-66, 66), st.integers(1, 12))
def test_the_other_hemisphere_has_the_same_sun_half_a_year_later(latitude_deg, month):
    there = noon_altitude_deg(-latitude_deg, (month + 5) % 12 + 1)
    assert noon_altitude_deg(latitude_deg, month) == pytest.approx(there, abs=1.5)


@given(st.floats(0, 1), altitudes, altitudes)
def test_a_lower_sun_throws_longer_shade(height_m, one, other):
    low, high = sorted((one, other))
    assert shade_reach_m(height_m, low) >= shade_reach_m(height_m, high) >= 0


@given(st.floats(0.2, 1.5), st.floats(0, 60), altitudes)
def test_the_ray_over_a_tilted_panel_meets_the_end_of_its_strip(width_m, tilt_deg, altitude_deg):
    depth = tilted_depth_m(width_m, tilt_deg, altitude_deg)
    flat = tilted_depth_m(width_m, 0, altitude_deg)
    assert flat == pytest.approx(width_m)
    # A panel square to the ray takes w / sin(altitude); no tilt takes more.
    assert depth <= width_m / sin(radians(altitude_deg)) + 1e-9


def test_out_of_range():
    for call in (
        lambda: noon_altitude_deg(91, 1),
        lambda: noon_altitude_deg(50, 13),
        lambda: shade_reach_m(0.3, LOWEST_DEG - 0.1),
        lambda: tilted_depth_m(0.7, 61, 40),
    ):
        with pytest.raises(OutOfRangeError):
            call()
