"""A summer's day: sums worked by hand, and what must hold whatever the numbers."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.physics.cooling import Sunlit, capacity_frac, heat_gains, input_frac
from engine.physics.room_heat import RoomHour, room_hours, room_of
from engine.physics.solar_gain import air_day_degc, shell_sun, sol_air_degc, sun_through_w


def test_gains_worked_by_hand():
    # 35 °C outside, 26 inside: roof 10.45 m² of U 0.7 under 44.6 °C sol-air 136.06 W (dark: 63.8 °C, 276.51), window
    # 525, two people 140, walls 24 W/K 216, air 20.9 m³/h 63.95 with 0.34 Wh/(m³K) or 63.07 with 0.3353.
    def gains(absorbed):
        roof = Sunlit("roof", 10.45, 0.7, sol_air_degc(35, 800, absorbed))
        return {g.name: g.gain_w for g in heat_gains((roof, Sunlit("walls", 24, 1, 35)), 525, 2, 0, 20.9, 35, 26)}

    white, dark = gains(0.3), gains(0.9)
    assert white["roof"] == pytest.approx(136.06, abs=0.01)
    assert dark["roof"] == pytest.approx(276.51, abs=0.01)
    assert (white["sun through glass"], white["people"], white["walls"]) == pytest.approx((525, 140, 216))
    assert white["air"] == pytest.approx(63.07, abs=0.01)
    assert sum(white.values()) == pytest.approx(1081.01 - 63.95 + 63.07, abs=0.02)


def test_a_cooler_is_rated_at_35():
    assert capacity_frac(35) == pytest.approx(1, abs=1e-3)
    assert input_frac(35) == pytest.approx(1, abs=1e-3)


@given(st.floats(18, 46.1), st.floats(18, 46.1), st.floats(13, 23.8))
def test_hotter_outside_gives_less_and_takes_more(a, b, wet_bulb):
    cool, hot = sorted((a, b))
    assert capacity_frac(hot, wet_bulb) <= capacity_frac(cool, wet_bulb)
    assert capacity_frac(hot, wet_bulb) / input_frac(hot, wet_bulb) <= (
        capacity_frac(cool, wet_bulb) / input_frac(cool, wet_bulb) * (1 + 1e-9)
    )


@given(st.floats(-50, 60), st.floats(0, 1200), st.floats(0, 1), st.floats(0, 1))
def test_darker_paint_is_never_cooler(outside, sun, a, b):
    light, dark = sorted((a, b))
    assert outside <= sol_air_degc(outside, sun, light) <= sol_air_degc(outside, sun, dark)


@given(st.floats(-66, 66), st.integers(1, 365))
@settings(max_examples=40)
def test_sun_comes_by_day_and_a_wall_to_the_sun_gets_most(latitude, day):
    hours = shell_sun(latitude, day, 0, 3.5)
    assert len(hours) == 24
    for morning, evening in zip(hours[:12], reversed(hours[12:]), strict=True):
        assert morning == pytest.approx(evening, abs=1e-6)  # by the sundial both halves are alike
    for h in hours:
        assert 0 <= h.wall_w_m2 <= h.worst_wall_w_m2 < 1300
        assert 0 <= h.roof_w_m2 < 1300


def test_shade_takes_its_share_of_the_sun():
    assert sun_through_w(1.5, 0.7, 500, 0.6) == pytest.approx(210)


def test_a_day_of_air_has_both_ends():
    day = air_day_degc(15, 32)
    assert (min(day), max(day)) == (15, 32)
    assert (day.index(15), day.index(32)) == (4, 14)


def test_an_afternoon_in_the_sun_by_the_hour():
    # A van at 45° N in July: without a cooler it gets hotter than outside, with 1,700 W it stays at 26 °C.
    room = room_of(40, 10, 60, 15, 40, 250, 80)
    air, sun = air_day_degc(18, 33), shell_sun(45, 196, 300, 3.5)

    def day(cooling_w):
        return room_hours(
            room,
            tuple(
                RoomHour(t, sol_air_degc(t, 0.35 * s.roof_w_m2 + 0.65 * s.wall_w_m2, 0.5), 60,
                         sun_through_w(1.5, 0.5, s.wall_w_m2), cool_to_degc=26,
                         cooling_w=cooling_w * capacity_frac(t) * 0.75)
                for t, s in zip(air, sun, strict=True)
            ),
            22,
        )  # fmt: skip

    without, cooled = day(0), day(1700)
    assert max(s.air_degc for s in without) > max(air)
    assert max(s.air_degc for s in cooled) == pytest.approx(26, abs=1e-6)
    assert 0 < max(s.cooling_w for s in cooled) < 1700 * 0.75
