"""Two stores of heat by the hour against scipy's integrator."""

from math import pi, sin

import pytest

from engine.physics.room_heat import RoomHour, after, room_hours, room_of
from engine.physics.warm_up import warm_up_h

pytestmark = pytest.mark.reference

VAN = room_of(43.2, 7.0, 60, 15, 40, 250, 80)


def _integrate(room, hour, start, power_w, time_h):
    from scipy.integrate import solve_ivp

    def change(_, t):
        link = room.coupling_w_k * (t[1] - t[0])
        air = link + room.air_loss_w_k * (hour.outside_degc - t[0]) + power_w + hour.air_gain_w
        mass = -link + room.mass_loss_w_k * (hour.skin_degc - t[1]) + hour.mass_gain_w
        lost = room.air_loss_w_k * (t[0] - hour.outside_degc) + room.mass_loss_w_k * (t[1] - hour.skin_degc)
        return [air / room.air_wh_k, mass / room.mass_wh_k, t[0], lost]

    return solve_ivp(change, (0, time_h), [*start, 0, 0], rtol=1e-10, atol=1e-10, method="LSODA").y[:, -1]


def test_a_cold_day_and_night_with_sun_people_and_a_heater():
    hours = tuple(
        RoomHour(
            outside_degc=-6 + 6 * sin((h - 9) / 24 * 2 * pi),
            skin_degc=-6 + 9 * sin((h - 9) / 24 * 2 * pi),
            air_gain_w=140 if h % 24 > 17 or h % 24 < 8 else 20,
            mass_gain_w=max(0.0, 300 * sin((h % 24 - 6) / 12 * pi)) if 6 < h % 24 < 18 else 0.0,
            heat_to_degc=19 if 6 < h % 24 < 22 else 12,
            heating_w=2000,
        )
        for h in range(48)
    )
    air, mass = 3.0, 1.0
    for h, s in zip(hours, room_hours(VAN, hours, air, mass), strict=True):
        end = _integrate(VAN, h, (air, mass), s.heat_w - s.cooling_w, 1.0)
        assert (s.air_degc, s.mass_degc, s.mean_air_degc, s.lost_w) == pytest.approx(tuple(end), abs=1e-5)
        air, mass = s.air_degc, s.mass_degc


@pytest.mark.parametrize("time_h", [0.01, 0.3, 2, 12, 60])
def test_any_time_is_exact(time_h):
    hour = RoomHour(-12, -10, air_gain_w=60, mass_gain_w=30)
    end = _integrate(VAN, hour, (21, 17), 800, time_h)
    assert after(VAN, hour, 21, 17, 800, time_h) == pytest.approx(tuple(end[:2]), abs=1e-6)


def test_warm_up_is_when_the_integrator_gets_there():
    takes = warm_up_h(VAN, -5, -10, 18, 4000)
    end = _integrate(VAN, RoomHour(-10, -10), (-5, -5), 4000, takes)
    assert end[0] == pytest.approx(18, abs=0.01)
