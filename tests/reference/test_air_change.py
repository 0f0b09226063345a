"""Flows through openings against pressures found with scipy."""

import pytest

from engine.physics.air_change import AIR_KG_M3, DISCHARGE_FRAC, Fan, fan_pair, stack_m3_h, together_m3_h, wind_m3_h
from engine.physics.moist_air import air_density_kg_m3

pytestmark = pytest.mark.reference


def _flow(area, pressure_pa, rho=AIR_KG_M3):
    sign = 1 if pressure_pa >= 0 else -1
    return sign * 3600 * DISCHARGE_FRAC * area * (2 * abs(pressure_pa) / rho) ** 0.5


@pytest.mark.parametrize(("low", "high"), [(0.0015, 0.010), (0.02, 0.02), (0.03, 0.005)])
def test_stack_by_its_neutral_level(low, high):
    from scipy.optimize import brentq

    inside, outside = air_density_kg_m3(18, 0), air_density_kg_m3(-5, 0)
    per_m = 9.80665 * (outside - inside)
    mean = (inside + outside) / 2
    neutral = brentq(lambda z: _flow(low, per_m * z, mean) - _flow(high, per_m * (1.8 - z), mean), 0, 1.8, xtol=1e-12)
    assert stack_m3_h(low, high, 1.8, 18, -5) == pytest.approx(_flow(low, per_m * neutral, mean), rel=1e-6)


def test_stack_and_wind_together_by_pressures():
    from scipy.optimize import brentq

    # Wind helps: low opening windward, high one leeward, ΔC_p 0.9, 2 m/s; two openings, so squares add exactly but for
    # the density of wind (1.2) against that of the stream.
    inside, outside = air_density_kg_m3(18, 0), air_density_kg_m3(-5, 0)
    mean = (inside + outside) / 2
    stack, wind = 9.80665 * (outside - inside) * 1.8, 0.9 * mean / 2 * 2**2
    share = brentq(lambda p: _flow(0.004, p, mean) - _flow(0.010, stack + wind - p, mean), 0, stack + wind, xtol=1e-12)
    ours = together_m3_h(stack_m3_h(0.004, 0.010, 1.8, 18, -5), wind_m3_h(0.004, 0.010, 2, 0.9))
    assert ours == pytest.approx(_flow(0.004, share, mean), rel=1e-6)


@pytest.mark.parametrize("opening", [0.002, 0.02, 0.1])
def test_a_pair_of_unlike_fans(opening):
    from scipy.optimize import brentq

    blow, draw = Fan(300, 0.03), Fan(900, 0.06)
    p = brentq(lambda p: 300 * (1 - p / 30) - 900 * (1 + p / 60) + _flow(opening, -p), -60, 30, xtol=1e-12)
    found = fan_pair(blow, draw, opening)
    assert found.inside_kpa * 1000 == pytest.approx(p, abs=1e-6)
    assert found.out_fan_m3_h == pytest.approx(900 * (1 + p / 60))
