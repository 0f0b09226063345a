"""Room and heater by the hour: balances, limits and order, whatever the numbers."""

from math import inf

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from engine.physics.heat import balance_degc
from engine.physics.ranges import OutOfRangeError
from engine.physics.room_heat import Room, RoomHour, after, room_hours, room_of
from engine.physics.warm_up import cycle_h, duty_frac, heating_grade, warm_up_h, warm_up_w

VAN = room_of(43.2, 7.0, 60, 15, 40, 250, 80)
ROOMS = st.builds(
    Room, st.floats(2, 100), st.floats(5, 1000), st.floats(0, 100), st.floats(50, 2000), st.floats(5, 300)
)
HOURS = st.lists(
    st.builds(RoomHour, st.floats(-30, 40), st.floats(-30, 60), st.floats(0, 500), st.floats(0, 500), st.floats(5, 22),
              st.floats(0, 6000), st.floats(23, 30), st.floats(0, 3000)),
    min_size=1, max_size=24,
).map(tuple)  # fmt: skip


@given(ROOMS, HOURS, st.floats(-20, 40))
def test_every_hour_closes(room, hours, start):
    air = mass = start
    for h, s in zip(hours, room_hours(room, hours, start), strict=True):
        scale = abs(s.heat_w) + abs(s.cooling_w) + abs(s.gains_w) + abs(s.lost_w) + 1
        assert s.heat_w - s.cooling_w + s.gains_w == pytest.approx(s.lost_w + s.stored_w, abs=1e-8 * scale)
        assert s.stored_w == pytest.approx(
            room.air_wh_k * (s.air_degc - air) + room.mass_wh_k * (s.mass_degc - mass), abs=1e-8 * scale
        )
        assert 0 <= s.heat_w <= h.heating_w
        assert 0 <= s.cooling_w <= h.cooling_w
        air, mass = s.air_degc, s.mass_degc


@given(ROOMS, HOURS, st.floats(-20, 40))
def test_a_heater_with_something_left_reaches_what_is_wanted_and_never_more(room, hours, start):
    for h, s in zip(hours, room_hours(room, hours, start), strict=True):
        if 0 < s.heat_w < h.heating_w:
            assert s.air_degc == pytest.approx(h.heat_to_degc, abs=1e-6)
        if s.heat_w > 0:
            assert s.air_degc <= h.heat_to_degc + 1e-6
        if 0 < s.cooling_w < h.cooling_w:
            assert s.air_degc == pytest.approx(h.cool_to_degc, abs=1e-6)


@given(ROOMS, st.floats(-30, 10), st.floats(100, 5000))
@settings(max_examples=60)
def test_in_the_end_it_is_the_steady_balance(room, outside, power_w):
    assume(power_w / room.steady_w_k < 49)
    air, _ = after(room, RoomHour(outside, outside), 5, 5, power_w, 10_000)
    assert air == pytest.approx(outside + power_w / room.steady_w_k, abs=1e-3)
    assert balance_degc(air, power_w, room.steady_w_k) == pytest.approx(outside, abs=1e-3)


@given(ROOMS, st.floats(-30, 10), st.floats(-5, 10), st.floats(0, 5000), st.floats(0, 5), st.floats(0, 5))
@settings(max_examples=60)
def test_two_short_times_are_one_long(room, outside, start, power_w, first_h, second_h):
    hour = RoomHour(outside, outside)
    halfway = after(room, hour, start, start, power_w, first_h)
    assume(max(halfway) < 90)
    twice = after(room, hour, *halfway, power_w, second_h)
    assert twice == pytest.approx(after(room, hour, start, start, power_w, first_h + second_h), abs=1e-6)


@given(ROOMS, st.floats(-30, 5), st.floats(0, 20), st.floats(500, 5000), st.floats(0, 3000))
@settings(max_examples=60)
def test_colder_takes_longer_and_a_bigger_heater_never_does(room, outside, colder_k, output_w, more_w):
    assume(outside - colder_k >= -50)
    base = warm_up_h(room, outside, outside, 18, output_w)
    bigger = warm_up_h(room, outside, outside, 18, output_w + more_w)
    colder = warm_up_h(room, outside - colder_k, outside - colder_k, 18, output_w)
    slack_h = 2 / 3600
    assert (inf if bigger is None else bigger) <= (inf if base is None else base) + slack_h
    assert (inf if colder is None else colder) >= (inf if base is None else base) - slack_h


@given(ROOMS, st.floats(-30, 5), st.floats(0.5, 12), st.floats(0, 20))
@settings(max_examples=60)
def test_output_for_a_time_takes_that_time_and_colder_never_less(room, outside, within_h, colder_k):
    output_w = warm_up_w(room, outside, outside, 18, within_h)
    assume(output_w <= 1e5)
    # A room that is all but as warm as it gets hardly tells one hour from the next.
    assume(outside + output_w / room.steady_w_k > 18 + 1e-3)
    assert warm_up_h(room, outside, outside, 18, output_w) == pytest.approx(within_h, abs=2 / 3600)
    assert warm_up_w(room, outside - colder_k, outside - colder_k, 18, within_h) >= output_w - 1e-6


@given(st.floats(5, 100), st.floats(0, 30), st.floats(1, 2), HOURS, st.floats(5, 25))
@settings(max_examples=60)
def test_a_leakier_shell_never_needs_less_heat_in_the_cold(shell_w_k, direct_w_k, times, hours, start):
    tight = room_of(shell_w_k, direct_w_k, 60, 15, 40, 250, 80)
    leaky = room_of(shell_w_k * times, direct_w_k, 60, 15, 40, 250, 80)
    cold = tuple(
        RoomHour(min(0.0, h.outside_degc), min(0.0, h.outside_degc), heat_to_degc=18, heating_w=1e5) for h in hours
    )
    for a, b in zip(room_hours(tight, cold, start), room_hours(leaky, cold, start), strict=True):
        assert b.air_degc <= a.air_degc + 1e-9
    total = lambda room: sum(s.heat_w for s in room_hours(room, cold, start))  # noqa: E731
    assert total(leaky) >= total(tight) - 1e-6


def test_a_room_keeps_the_loss_it_is_made_from():
    assert VAN.steady_w_k == pytest.approx(50.2)
    with pytest.raises(OutOfRangeError, match="coupling"):
        room_of(500, 0, 60, 15, 40, 250, 80)


def test_a_night_without_heat_worked_as_one_store():
    # All stores as one: 227 Wh/K over 50.2 W/K is 4.5 h; from 20 at −10 °C outside, after 8 h −10 + 30·exp(−8/4.52) =
    # −4.9 °C. The two stores are a little colder: the air's own losses do not wait for the lining.
    air, mass = after(VAN, RoomHour(-10, -10), 20, 20, 0, 8)
    assert air == pytest.approx(-4.9, abs=0.8)
    assert mass == pytest.approx(-4.9, abs=0.8)


def test_a_heater_too_big_for_mild_weather_cycles():
    # 330 ft² at R-5, 30 ft² at R-1, 15 cfm: 1,683 BTU/h at 15 °F difference is 493 W, a third of a lowest 1,500 W.
    loss_w_k = (330 / 5 + 30 + 1.08 * 15) * 0.29307107 * 1.8
    need_w = loss_w_k * 15 / 1.8
    assert need_w == pytest.approx(493, abs=1)
    assert duty_frac(need_w, 1500) == pytest.approx(0.33, abs=0.005)
    # The same need in the cold is just what the lowest output gives: no cycling.
    assert duty_frac(1500, 1500) == 1
    assert cycle_h(VAN, 2, 1500, 1500) == cycle_h(VAN, 2, 0, 1500) == inf
    # Air and light things alone, 23 Wh/K over 2 K: 46 Wh, gained in 2.74 min at 1,007 W net, lost in 5.6 min at 493 W.
    tent = Room(23, 0.01, 7, 450, 43)
    alone_h = 46 / 1007 + 46 / 493
    assert cycle_h(tent, 2, need_w, 1500) == pytest.approx(alone_h, rel=3e-3)
    # A lining that takes up every change at once is one store with the air.
    assert cycle_h(Room(23, 207, 7, 1e5, 43), 2, need_w, 1500) == pytest.approx(10 * alone_h, rel=0.02)
    # 6 min to light and to run on, a third of the time: a start every 18 min.
    assert cycle_h(tent, 2, need_w, 1500, 0.1) == pytest.approx(0.1 * 1500 / 493, rel=1e-3)


@pytest.mark.parametrize(("need_w", "least_w"), [(493, 1500), (1400, 3500), (380, 800), (750, 800), (100, 4500)])
def test_air_swings_by_the_thermostats_band_in_a_cycle(need_w, least_w):
    every_h, share = cycle_h(VAN, 2, need_w, least_w), need_w / least_w
    assert every_h > VAN.air_wh_k * 2 / (least_w * share * (1 - share))
    hour, air, mass = RoomHour(18 - need_w / VAN.steady_w_k, 18 - need_w / VAN.steady_w_k), 18.0, 18.0
    for _ in range(round(60 / every_h)):  # days of it, until one cycle is like the other
        warmest, warm_mass = after(VAN, hour, air, mass, least_w, share * every_h)
        air, mass = after(VAN, hour, warmest, warm_mass, 0, (1 - share) * every_h)
    assert warmest - air == pytest.approx(2, rel=0.03)


@given(ROOMS, st.floats(50, 3000), st.floats(300, 8000), st.floats(0, 0.3))
def test_no_heater_starts_oftener_than_it_can(room, need_w, least_w, least_run_h):
    every_h = cycle_h(room, 2, need_w, least_w, least_run_h)
    assert every_h * duty_frac(need_w, least_w) >= least_run_h * (1 - 1e-9)
    assert cycle_h(room, 2, need_w, least_w) <= every_h


def test_grades_of_heating():
    steady_15_w = 35 * VAN.steady_w_k
    four_hours_w = warm_up_w(VAN, -15, -15, 20, 4)
    assert steady_15_w < four_hours_w
    assert heating_grade(VAN, four_hours_w + 2) == 3
    assert heating_grade(VAN, four_hours_w - 10) == 2
    assert heating_grade(VAN, 20 * VAN.steady_w_k) == 2
    assert heating_grade(VAN, 20 * VAN.steady_w_k - 1) == 1
