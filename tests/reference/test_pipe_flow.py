"""Pressure lost in pipes against fluids, viscosity against the equation of state, a network against scipy."""

import pytest

from engine.physics.pipe_flow import Pipe, drop_kpa, friction_frac, viscosity_m2_s
from engine.physics.taps import PumpCurve, Tap, two_taps

pytestmark = pytest.mark.reference


@pytest.mark.parametrize("re", [100, 1500, 4000, 12684, 1e5, 1e7])
@pytest.mark.parametrize("rough", [0, 1.5e-4, 0.01, 0.05])
def test_friction_is_that_of_colebrook(re, rough):
    import fluids

    expected = 64 / re if re < 2000 else fluids.friction.Colebrook(re, rough)
    assert friction_frac(re, rough) == pytest.approx(expected, rel=1e-6)


def test_five_metres_of_ten_millimetres():
    # 6 L/min: v 1.273 m/s, Re 12,684, f 0.0293, 11.85 kPa by fluids 1.3.1.
    import fluids

    d, flow = 0.010, 6 / 60_000
    speed = flow / (3.141592653589793 * d * d / 4)
    re = fluids.Reynolds(V=speed, D=d, rho=998.2, mu=1.002e-3)
    k = fluids.K_from_f(fd=fluids.friction_factor(Re=re, eD=1.5e-4), L=5, D=d)
    assert re == pytest.approx(12684, rel=1e-3)
    assert drop_kpa(Pipe(5, d), 6, 20) * 1000 == pytest.approx(fluids.dP_from_K(k, rho=998.2, V=speed), rel=2e-3)
    assert drop_kpa(Pipe(5, d), 6, 20) == pytest.approx(11.85, abs=0.01)


@pytest.mark.parametrize("degc", [1, 5, 10, 20, 40, 60, 80])
def test_viscosity_against_the_equation_of_state(degc):
    from CoolProp.CoolProp import PropsSI

    expected, density = (PropsSI(x, "T", degc + 273.15, "P", 101325, "Water") for x in ("V", "D"))
    # The density of 20 °C is 3 % too much at 80.
    assert viscosity_m2_s(degc) == pytest.approx(expected / density, rel=0.04)


def test_two_taps_against_a_solver():
    import fluids
    from scipy.optimize import fsolve

    thick = viscosity_m2_s(15)

    def lost(pipe, l_min):
        speed = l_min / 60_000 / (3.141592653589793 * pipe.bore_m**2 / 4)
        f = fluids.friction.Colebrook(speed * pipe.bore_m / thick, pipe.roughness_m / pipe.bore_m)
        return (f * pipe.length_m / pipe.bore_m + pipe.fittings_count) * 998.2 * speed**2 / 2000

    pump, trunk = PumpCurve(12, 280), Pipe(3, 0.010, 5)
    ways = ((Pipe(1, 0.010, 3), Tap(7, 100, 1.2)), (Pipe(3, 0.010, 4), Tap(5, 80, 0.2)))

    def off(x):
        tee = pump.shut_kpa * (1 - (x[0] + x[1]) / pump.open_l_min) - lost(trunk, x[0] + x[1])
        return [
            tee - lost(p, q) - 998.2 * 9.80665 * t.rise_m / 1000 - t.at_kpa * (q / t.flow_l_min) ** 2
            for (p, t), q in zip(ways, x, strict=True)
        ]

    expected = fsolve(off, [4.0, 4.0], xtol=1e-12)
    assert two_taps(pump, trunk, *ways) == pytest.approx(tuple(expected), rel=1e-5)
