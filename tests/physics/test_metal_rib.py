"""What must hold of ribs whatever the numbers."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.physics.heat import Layer, u_value
from engine.physics.metal_rib import Rib, ribbed_u
from engine.physics.ranges import OutOfRangeError

STEEL, PLY = Layer(0.0008, 50), Layer(0.004, 0.13)
WALLS = st.tuples(
    st.sampled_from(((), (PLY,), (PLY, Layer(0.010, 0.035)))),
    st.floats(0.018, 0.05),
    st.sampled_from((STEEL, Layer(0.0015, 160), Layer(0.003, 0.4))),
    st.builds(
        Rib,
        st.floats(0.015, 0.1),
        st.floats(0.02, 0.08),
        st.floats(0.0006, 0.003),
        st.sampled_from((1, 2)),
        st.floats(0.25, 1.2),
        st.sampled_from((17.0, 50.0, 160.0)),
    ),
    st.floats(0.10, 0.17),
)


@given(WALLS)
def test_a_ribbed_wall_loses_more_than_the_same_without(wall):
    inner, k, skin, rib, inside = wall
    found = ribbed_u(*wall)
    layers = (*inner, Layer(rib.depth_m, k), skin)
    assert found.clear_w_m2k == pytest.approx(u_value(layers, inside).u_w_m2k, rel=1e-12)
    assert found.clear_w_m2k < found.u_w_m2k
    assert found.clear_w_m2k <= found.low_w_m2k <= found.u_w_m2k <= found.high_w_m2k
    assert found.u_w_m2k == pytest.approx(found.clear_w_m2k + found.rib_w_mk / rib.spacing_m, rel=1e-12)


@given(WALLS)
def test_the_spot_over_a_rib_is_colder_than_the_wall_between(wall):
    found = ribbed_u(*wall)
    assert 0 < found.coldest_frac < 1 - found.clear_w_m2k * wall[-1]


@given(WALLS, st.floats(1, 2))
@settings(max_examples=60)
def test_ribs_farther_apart_never_lose_more(wall, times):
    inner, k, skin, rib, inside = wall
    wide = rib._replace(spacing_m=min(1.2, rib.spacing_m * times))
    assert ribbed_u(inner, k, skin, wide, inside).u_w_m2k <= ribbed_u(*wall).u_w_m2k * (1 + 1e-9)


@given(WALLS, st.floats(0.001, 0.05))
@settings(max_examples=60)
def test_more_cover_over_the_ribs_never_loses_more_and_never_makes_the_spot_colder(wall, cover_m):
    inner, k, skin, rib, inside = wall
    before, after = ribbed_u(*wall), ribbed_u((*inner, Layer(cover_m, k)), k, skin, rib, inside)
    assert after.u_w_m2k <= before.u_w_m2k * (1 + 1e-9)
    assert after.coldest_frac >= before.coldest_frac - 1e-9


@given(WALLS, st.floats(1, 1.5))
@settings(max_examples=60)
def test_better_insulation_between_ribs_never_loses_more(wall, times):
    inner, k, skin, rib, inside = wall
    worse = ribbed_u(inner, min(0.06, k * times), skin, rib, inside)
    assert ribbed_u(*wall).u_w_m2k <= worse.u_w_m2k * (1 + 1e-9)


@given(WALLS)
@settings(max_examples=60)
def test_steel_never_bridges_more_than_aluminium_and_one_web_never_more_than_two(wall):
    inner, k, skin, rib, inside = wall
    steel = ribbed_u(inner, k, skin, rib._replace(conductivity_w_mk=50), inside).u_w_m2k
    assert steel <= ribbed_u(inner, k, skin, rib._replace(conductivity_w_mk=160), inside).u_w_m2k
    one, two = (ribbed_u(inner, k, skin, rib._replace(webs=n), inside).u_w_m2k for n in (1, 2))
    assert one <= two * (1 + 1e-9)


@pytest.mark.parametrize(
    "field", [{"depth_m": 0.2}, {"flange_m": 0.01}, {"sheet_m": 0.01}, {"webs": 3}, {"spacing_m": 0.1},
              {"spacing_m": 0.2, "flange_m": 0.09}, {"conductivity_w_mk": 0.13}],
)  # fmt: skip
def test_a_rib_beyond_the_ranges_is_refused(field):
    with pytest.raises(OutOfRangeError):
        ribbed_u((PLY,), 0.035, STEEL, Rib(0.04, 0.04, 0.0012, 1, 0.5)._replace(**field), 0.13)


def test_what_is_no_metal_rib_is_left_to_the_combined_method():
    with pytest.raises(OutOfRangeError, match="conductivity_w_mk"):
        ribbed_u((PLY,), 0.035, STEEL, Rib(0.04, 0.04, 0.003, 1, 0.5, 0.13), 0.13)
