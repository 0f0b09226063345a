"""Water in a wall through the year: a month worked by hand, balances, and what must hold whatever the numbers."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.physics.glaser import TIGHT_M, Climate, VapourLayer, damp_year
from engine.physics.moist_air import saturation_kpa
from engine.physics.ranges import OutOfRangeError

STEEL = VapourLayer("steel", 0.001, 50, TIGHT_M)
WOOL = VapourLayer("wool", 0.050, 0.037, 0.05)
FOAM = VapourLayer("foam", 0.050, 0.035, 5.0)
PLY = VapourLayer("plywood", 0.006, 0.13, 0.4)
MILD = (2, 3, 6, 9, 13, 16, 18, 18, 15, 11, 6, 3)
COLD = (-18, -15, -8, 1, 8, 13, 15, 14, 8, 1, -8, -15)


def climate(months, inside_degc=20.0, inside_frac=0.55, outside_frac=0.8):
    return tuple(Climate(inside_degc, inside_frac, t, outside_frac) for t in months)


def test_a_january_worked_by_hand():
    # 1 mm steel, 50 mm wool, 6 mm plywood; 20 °C and 55 % inside, 2 °C and 80 % outside. Resistances 0.04 + 0.00002 +
    # 1.35135 + 0.04615 + 0.13 = 1.56752 m²K/W, so the steel's inner face has 2 + 18·0.04002/1.56752 = 2.4596 °C and
    # saturates at 729.5 Pa. In: 2e-10·(1286.3 − 729.5)/0.45; out: 2e-10·(729.5 − 564.7)/1500, over 31 days.
    year = damp_year((STEEL, WOOL, PLY), climate(MILD))
    january = next(m for m in year.months if m.month == 0)
    face = 1000 * saturation_kpa(2.4596)
    assert face == pytest.approx(729.5, abs=0.5)
    gained = 2e-10 * ((1286.3 - face) / 0.45 - (face - 564.7) / 1500) * 31 * 86400
    assert gained == pytest.approx(0.6628, abs=1e-3)
    assert sum(january.gained_kg_m2) == pytest.approx(gained, rel=1e-3)
    assert year.place == "steel"


def test_a_shell_that_condenses_from_november_dries_by_august():
    year = damp_year((STEEL, WOOL, PLY), climate(MILD))
    assert [m.month for m in year.months] == [10, 11, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9]
    totals = [sum(m.held_kg_m2) for m in year.months]
    assert year.peak_kg_m2 == max(totals) == totals[5]
    assert totals[9] == totals[-1] == year.left_kg_m2 == 0


def test_closed_cell_foam_takes_in_a_tenth_of_what_wool_does():
    wool, foam = (damp_year((STEEL, x, PLY), climate(MILD)).peak_kg_m2 for x in (WOOL, FOAM))
    assert 0 < foam < wool / 8


def test_a_cold_year_behind_a_lining_leaves_water_for_the_next():
    year = damp_year((STEEL, WOOL, PLY), climate(COLD))
    assert year.left_kg_m2 > 0
    assert year.left_kg_m2 < year.peak_kg_m2


def test_a_wall_that_breathes_outwards_stays_dry():
    open_outside = (VapourLayer("cloth", 0.001, 0.2, 0.02), WOOL, PLY, VapourLayer("foil", 0.0002, 0.2, 50))
    year = damp_year(open_outside, climate(MILD))
    assert (year.peak_kg_m2, year.left_kg_m2, year.place) == (0, 0, "")
    assert all(m.from_room_kg_m2 == pytest.approx(m.to_outside_kg_m2) for m in year.months)


def test_a_month_in_which_it_dries_is_split_there():
    year = damp_year((STEEL, WOOL, PLY), climate(MILD))
    july, august = (next(m for m in year.months if m.month == n) for n in (6, 7))
    # August could take away more than was left: exactly what was left went, all to the room.
    assert sum(august.gained_kg_m2) == pytest.approx(-sum(july.held_kg_m2))
    assert august.from_room_kg_m2 == pytest.approx(-sum(july.held_kg_m2), rel=0.01)


LAYERS = st.lists(
    st.builds(VapourLayer, st.just("x"), st.floats(0.001, 0.1), st.floats(0.02, 2), st.floats(0.01, 100)),
    min_size=1,
    max_size=5,
).map(tuple)
CLIMATES = st.lists(
    st.builds(Climate, st.floats(10, 25), st.floats(0.3, 0.8), st.floats(-20, 25), st.floats(0.4, 0.95)),
    min_size=12,
    max_size=12,
).map(tuple)


@given(LAYERS, CLIMATES)
@settings(max_examples=60)
def test_no_water_comes_from_nowhere_and_none_is_lost(layers, year):
    found = damp_year(layers, year)
    before = 0.0
    for m in found.months:
        held = sum(m.held_kg_m2)
        scale = max(abs(m.from_room_kg_m2), abs(m.to_outside_kg_m2), held, 1e-9)
        assert held - before == pytest.approx(m.from_room_kg_m2 - m.to_outside_kg_m2, abs=1e-9 * scale + 1e-12)
        assert min(m.held_kg_m2) >= 0
        before = held
    assert found.peak_kg_m2 >= found.left_kg_m2 >= 0


@given(LAYERS, CLIMATES, st.floats(1, 10))
@settings(max_examples=60)
def test_a_tighter_layer_on_the_room_side_of_a_tight_skin_lets_no_more_in(layers, year, times):
    lining = VapourLayer("lining", 0.001, 0.2, 1.0)
    tighter = lining._replace(air_m=times)
    loose, tight = (damp_year((STEEL, FOAM, x), year) for x in (lining, tighter))
    first = lambda y: sum(y.months[0].gained_kg_m2)  # noqa: E731
    assert first(tight) <= first(loose) + 1e-12


def test_bad_climates_are_refused():
    with pytest.raises(OutOfRangeError, match="months"):
        damp_year((STEEL, WOOL), climate(MILD)[:11])
    with pytest.raises(OutOfRangeError, match="humidity"):
        damp_year((STEEL, WOOL), climate(MILD, inside_frac=1.2))
