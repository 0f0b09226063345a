"""Surfaces and dew points: cases worked by hand, and what must hold whatever the numbers."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from engine.physics.condensation import (
    dry_up_to_frac,
    layer_faces_degc,
    least_factor_frac,
    least_foam_m,
    surface_degc,
    surface_factor_frac,
)
from engine.physics.moist_air import dew_point_degc, vapour_kpa


def margin_k(factor_frac, inside, humidity, outside):
    """Surface less dew point of the room's air: below 0 it is wet."""
    return surface_degc(inside, outside, factor_frac) - dew_point_degc(vapour_kpa(inside, humidity))


INSIDE, HUMIDITY, OUTSIDE = st.floats(5, 30), st.floats(0.2, 0.95), st.floats(-30, 4)


@pytest.mark.parametrize(
    ("u_w_m2k", "factor_frac", "at_degc", "wet"),
    [(5.41, 0.2967, -1.099, True), (2.63, 0.6581, 9.743, False), (0.84, 0.8908, 16.724, False)],
)
def test_three_surfaces_at_minus_ten(u_w_m2k, factor_frac, at_degc, wet):
    # 20 °C and 50 % inside (dew point 9.272 °C by psychrolib), −10 °C outside; worked after ISO 13788.
    factor = surface_factor_frac(u_w_m2k)
    assert factor == pytest.approx(factor_frac, abs=5e-5)
    assert surface_degc(20, -10, factor) == pytest.approx(at_degc, abs=5e-4)
    assert margin_k(factor, 20, 0.5, -10) == pytest.approx(at_degc - 9.272, abs=1e-3)
    assert (margin_k(factor, 20, 0.5, -10) < 0) is wet


def test_a_bare_rib_is_wet_and_ten_millimetres_of_foam_are_dry():
    # 18 °C, 60 %, 0 °C outside, films 0.13 and 0.04: bare 4.2 °C against a dew point of 10.1; foam at 0.036 W/(m·K)
    # 12.8 °C, 2.7 K to spare; 4.6 mm are just enough. Worked by hand.
    bare = surface_factor_frac(1 / 0.17)
    foam = surface_factor_frac(1 / (0.17 + 0.010 / 0.036))
    assert surface_degc(18, 0, bare) == pytest.approx(4.2, abs=0.05)
    assert surface_degc(18, 0, foam) == pytest.approx(12.8, abs=0.05)
    assert margin_k(bare, 18, 0.6, 0) == pytest.approx(4.2 - 10.1, abs=0.1)
    assert margin_k(foam, 18, 0.6, 0) == pytest.approx(2.7, abs=0.06)  # 12.8 less 10.1, each rounded
    assert least_foam_m(0.17, 0.036, 18, 0.6, 0) == pytest.approx(0.0046, abs=5e-5)


def test_air_that_gets_behind_the_foam_meets_the_cold_skin():
    behind = layer_faces_degc((0.13, 0.010 / 0.036, 0.04), 18, 0)[1]
    assert behind == pytest.approx(18 * 0.04 / 0.448, abs=0.01)
    assert margin_k(behind / 18, 18, 0.6, 0) < 0
    assert dry_up_to_frac(18, 0, behind / 18) < 0.6


def test_published_least_factors():
    # 20 °C, 5 °C outside, humidity kept at 80 % at the surface: 0.606 at 55 %, 0.931 at 75 % (worked with the formulas
    # of ISO 13788 in another program, from rounded saturation pressures).
    assert least_factor_frac(20, 0.55, 5, 0.8) == pytest.approx(0.6057, abs=1e-3)
    assert least_factor_frac(20, 0.75, 5, 0.8) == pytest.approx(0.9308, abs=1e-3)


@given(INSIDE, HUMIDITY, OUTSIDE)
def test_the_least_factor_is_just_dry(inside, humidity, outside):
    factor = least_factor_frac(inside, humidity, outside)
    assume(0.001 < factor < 1)
    assert dry_up_to_frac(inside, outside, factor) == pytest.approx(humidity, rel=2e-3)
    assert margin_k(min(1, factor + 1e-3), inside, humidity, outside) > 0
    assert margin_k(factor - 1e-3, inside, humidity, outside) < 0


@given(INSIDE, HUMIDITY, OUTSIDE, st.floats(0.17, 1), st.floats(0.02, 0.05))
def test_the_least_foam_is_just_dry(inside, humidity, outside, bare_m2k_w, conductivity):
    foam = least_foam_m(bare_m2k_w, conductivity, inside, humidity, outside)
    assume(foam > 0)
    face = layer_faces_degc((0.13, foam / conductivity + bare_m2k_w - 0.13), inside, outside)[0]
    factor = surface_factor_frac(1 / (bare_m2k_w + foam / conductivity))
    assert margin_k(factor, inside, humidity, outside) == pytest.approx(0, abs=3e-3)
    assert face == pytest.approx(surface_degc(inside, outside, factor))


@given(INSIDE, HUMIDITY, HUMIDITY, OUTSIDE, st.floats(0, 20), st.floats(0, 1), st.floats(0, 1))
def test_damper_colder_or_worse_insulated_is_never_drier(inside, a, b, outside, colder_k, f, g):
    (dry, damp), (bad, good) = sorted((a, b)), sorted((f, g))
    at = lambda h, t, x: margin_k(x, inside, h, max(-30, t))  # noqa: E731
    assert at(damp, outside, good) <= at(dry, outside, good) + 1e-9
    assert at(dry, outside - colder_k, good) <= at(dry, outside, good) + 1e-9
    assert at(dry, outside, bad) <= at(dry, outside, good) + 1e-9


@given(INSIDE, OUTSIDE, st.lists(st.floats(0.01, 2), min_size=1, max_size=6).map(tuple))
def test_temperatures_fall_from_room_to_outside(inside, outside, resistances):
    faces = layer_faces_degc(resistances, inside, outside)
    assert list(faces) == sorted(faces, reverse=True)
    assert faces[-1] == pytest.approx(outside)
    assert faces[0] == pytest.approx(surface_degc(inside, outside, 1 - resistances[0] / sum(resistances)))
