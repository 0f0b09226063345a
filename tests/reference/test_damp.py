"""The damp of a night against scipy's integrator, which knows nothing of exponentials."""

import pytest

from engine.physics.damp_hours import SURFACE_EXCHANGE_M_H, DampHour, damp_hours
from engine.physics.moist_air import water_kg_m3

pytestmark = pytest.mark.reference

EVENING = DampHour(0.6, 30, 20, 2, 0.9, 6)
NIGHT = DampHour(0.09, 20, 14, -4, 0.9, 0)
MORNING = DampHour(0.02, 90, 20, 2, 0.7, 12)
CASES = {
    "wets and stays wet": (EVENING,) * 2 + (NIGHT,) * 8,
    "wets and runs dry": (EVENING,) * 2 + (NIGHT,) * 8 + (MORNING,) * 8,
    "gets wet within an hour": (DampHour(0.25, 10, 16, 0, 0.8, 5),) * 3,
    "shut": (DampHour(0.1, 0, 18, 0, 0.9, 4),) * 3,
}


@pytest.mark.parametrize("case", CASES)
def test_hours_against_the_integrator(case):
    from scipy.integrate import solve_ivp

    hours, volume_m3, surface_m2 = CASES[case], 11.0, 1.6
    held, stock = water_kg_m3(hours[0].inside_degc, 0.5), 0.0
    found = damp_hours(hours, volume_m3, surface_m2, 0.5)
    exchange = SURFACE_EXCHANGE_M_H * surface_m2
    for h, state in zip(hours, found, strict=True):
        fresh, full = water_kg_m3(h.outside_degc, h.outside_frac), water_kg_m3(h.coldest_degc, 1)

        def change(_, y, h=h, fresh=fresh, full=full):
            on = exchange * (y[0] - full) if y[1] > 0 or y[0] > full else 0.0
            return [(h.source_kg_h + h.air_m3_h * (fresh - y[0]) - on) / volume_m3, on, h.air_m3_h * (y[0] - fresh)]

        y = solve_ivp(change, (0, 1), [held, stock, 0.0], max_step=2e-3, rtol=1e-9, atol=1e-13).y[:, -1]
        # The integrator steps over the moments of wetting and drying: so far it is off by them.
        assert state.held_kg_m3 == pytest.approx(y[0], rel=3e-3)
        assert state.on_surface_kg == pytest.approx(y[1], abs=2e-4)
        assert state.vented_kg == pytest.approx(y[2], abs=2e-4)
        held, stock = state.held_kg_m3, state.on_surface_kg
    if case == "wets and runs dry":
        assert max(s.on_surface_kg for s in found) > 0.2
        assert found[-1].on_surface_kg == 0
