"""Where the combined method may be used, still air, outside films, and the sum over a shell."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.physics.bridged_layers import Face, bridged_u, losses, outside_film_m2k_w, still_air_m2k_w
from engine.physics.heat import Layer, u_value
from engine.physics.ranges import OutOfRangeError

TIMBER = (Layer(0.006, 0.13), Layer(0.040, 0.033, 0.10, 0.13), Layer(0.001, 160))


def test_timber_framing_with_its_greatest_error():
    # Worked by hand after ISO 6946:2017, 6.7.2: R' 1.21799, R'' 1.15293, R 1.18546, error 2.74 %.
    u, error_frac = bridged_u(TIMBER, 0.13)
    assert u == u_value(TIMBER, 0.13)
    assert error_frac == pytest.approx((1.21799 - 1.15293) / (2 * 1.18546), abs=1e-5)


def test_a_layer_without_framing_has_no_error():
    assert bridged_u((Layer(0.05, 0.035),), 0.13)[1] == pytest.approx(0, abs=1e-12)


def test_limits_too_far_apart_are_refused():
    # Half of a thick, good layer bridged by something thirty times as conductive.
    with pytest.raises(OutOfRangeError, match="ratio"):
        bridged_u((Layer(0.2, 0.02, 0.3, 0.6), Layer(0.1, 0.02)), 0.13)


@pytest.mark.parametrize(
    ("thickness_m", "flow", "m2k_w"),
    [
        (0.005, "up", 0.11),
        (0.025, "sideways", 0.18),
        (0.3, "sideways", 0.18),
        (0.1, "down", 0.22),
        (0.075, "down", 0.215),
    ],
)
def test_still_air_by_the_table(thickness_m, flow, m2k_w):
    assert still_air_m2k_w(thickness_m, flow) == pytest.approx(m2k_w)


@given(st.floats(0.005, 0.3), st.floats(0.005, 0.3), st.sampled_from(("sideways", "up", "down")))
def test_thicker_air_never_holds_less_and_up_is_the_worst_way(a, b, flow):
    low, high = sorted((a, b))
    assert still_air_m2k_w(low, flow) <= still_air_m2k_w(high, flow) + 1e-12
    assert still_air_m2k_w(a, "up") <= still_air_m2k_w(a, "sideways") + 1e-12 <= still_air_m2k_w(a, "down") + 2e-12


@pytest.mark.parametrize(("wind_m_s", "m2k_w"), [(1, 0.08), (2, 0.06), (3, 0.05), (4, 0.04), (7, 0.03), (10, 0.02)])
def test_outside_films_by_the_table_of_the_standard(wind_m_s, m2k_w):
    # ISO 6946:2017, annex C, rounded to hundredths there (from memory).
    assert outside_film_m2k_w(wind_m_s) == pytest.approx(m2k_w, abs=0.0051)


@given(st.floats(0, 40), st.floats(0, 40), st.floats(-50, 50))
def test_more_wind_never_insulates_better(a, b, degc):
    low, high = sorted((a, b))
    assert outside_film_m2k_w(high, degc) <= outside_film_m2k_w(low, degc)


FACES = st.lists(
    st.builds(Face, st.just("part"), st.floats(0, 50), st.floats(0, 6), st.floats(0, 30), st.floats(0, 1)), max_size=8
).map(tuple)


@given(FACES, st.floats(0, 500))
def test_the_parts_are_the_whole_and_the_largest_comes_first(faces, air_m3_h):
    found = losses(faces, air_m3_h)
    whole = sum(f.area_m2 * f.u_w_m2k + f.bridge_m * f.bridge_w_mk for f in faces) + 1.2 * 1006 / 3600 * air_m3_h
    assert sum(x.loss_w_k for x in found) == pytest.approx(whole, abs=1e-9)
    assert [x.loss_w_k for x in found] == sorted((x.loss_w_k for x in found), reverse=True)
    assert sum(x.share_frac for x in found) == pytest.approx(1 if whole else 0)


def test_a_cabin_worked_by_hand():
    # 5.5 × 1.9 × 2.0 m: walls 29.6 m² with 1.5 m² of window, one air change an hour; 43.224 + 7.009 = 50.233 W/K.
    cabin = (
        Face("walls", 28.1, 0.84),
        Face("window", 1.5, 2.63),
        Face("roof", 10.45, 0.70),
        Face("floor", 10.45, 0.80),
    )
    assert sum(x.loss_w_k for x in losses(cabin, 20.9)) == pytest.approx(50.2325, abs=2e-3)
