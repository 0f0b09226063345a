"""Gas pressures and heats against CoolProp, pipes against a code's tables, boiling rates against published charts."""

import pytest

from engine.physics.gas_pipe import pipe_loss_kpa, pipe_w
from engine.physics.gas_rate import (
    Cylinder,
    lying_wetted_m2,
    vapour_kg_h,
    wetted_m2,
)
from engine.physics.gas_vapour import evaporation_wh_kg, left_propane_frac, mix_kpa, vapour_pressure_kpa

pytestmark = pytest.mark.reference

COOLPROP = {"propane": "Propane", "butane": "n-Butane", "isobutane": "IsoButane"}
GROSS_BTU_KG = 13_980 / 0.29307107
"""13.98 kWh/kg, gross, as the charts count."""


@pytest.mark.parametrize("gas", COOLPROP)
@pytest.mark.parametrize("degc", [-42, -30, -20, -10, 0, 10, 20, 40, 50])
def test_pressures_are_those_of_the_equation_of_state(gas, degc):
    from CoolProp.CoolProp import PropsSI

    expected = PropsSI("P", "T", degc + 273.15, "Q", 0, COOLPROP[gas]) / 1000
    assert vapour_pressure_kpa(gas, degc) == pytest.approx(expected, rel=7e-3 if gas == "isobutane" else 4e-3)


@pytest.mark.parametrize("propane_molecules", [0.2, 0.4, 0.6, 0.8])
@pytest.mark.parametrize("degc", [-20, 0, 20])
def test_a_mix_against_the_equation_of_state(propane_molecules, degc):
    from CoolProp.CoolProp import PropsSI

    mix = f"HEOS::Propane[{propane_molecules}]&n-Butane[{1 - propane_molecules}]"
    expected = PropsSI("P", "T", degc + 273.15, "Q", 0, mix) / 1000
    propane, butane = propane_molecules * 44.096, (1 - propane_molecules) * 58.122
    # Raoult is a little high: 2 % in the cold, 4 % at 20 °C.
    assert 0 < mix_kpa(propane / (propane + butane), degc) / expected - 1 < 0.04


@pytest.mark.parametrize("degc", [-40, -20, 0, 20, 40])
@pytest.mark.parametrize(("fluid", "propane_frac"), [("Propane", 1), ("n-Butane", 0)])
def test_heat_of_evaporation(degc, fluid, propane_frac):
    from CoolProp.CoolProp import PropsSI

    gas, liquid = (PropsSI("H", "T", degc + 273.15, "Q", q, fluid) for q in (1, 0))
    assert evaporation_wh_kg(propane_frac, degc) * 3600 == pytest.approx(gas - liquid, rel=0.012)


def test_what_is_left_of_a_mix_against_small_sips():
    # A thousandth at a time, each of the composition of the vapour over what is left.
    propane, butane = 0.6, 0.4
    p1, p2 = vapour_pressure_kpa("propane", -5), vapour_pressure_kpa("butane", -5)
    for _ in range(800):
        n1, n2 = propane / 44.096, butane / 58.122
        y = n1 * p1 / (n1 * p1 + n2 * p2)
        mass = y * 44.096 / (y * 44.096 + (1 - y) * 58.122)
        propane, butane = propane - 0.001 * mass, butane - 0.001 * (1 - mass)
    assert left_propane_frac(0.6, 0.8, -5) == pytest.approx(propane / (propane + butane), abs=2e-3)


# International Fuel Gas Code 2018, table 402.4(30), semi-rigid copper tube, and its table for schedule 40 pipe as
# printed in a water heater's manual of 2019: inside diameter in inches, thousands of BTU/h over 10, 20, 30 and 40 feet.
TABLE = {
    0.305: (45, 31, 25, 21), 0.402: (93, 64, 51, 44), 0.527: (188, 129, 104, 89), 0.652: (329, 226, 182, 155),
    0.745: (467, 321, 258, 220), 0.622: (291, 200, 160, 137), 0.824: (608, 418, 336, 287), 1.049: (1150, 787, 632, 541),
}  # fmt: skip


@pytest.mark.parametrize("inches", TABLE)
def test_pipes_carry_what_the_code_says(inches):
    for feet, thousands in zip((10, 20, 30, 40), TABLE[inches], strict=True):
        ours = pipe_w(inches * 0.0254, feet * 0.3048) / 293.07107
        # Two digits in the table's small numbers, and it rounds down.
        assert ours == pytest.approx(thousands, rel=0.01, abs=0.6)


@pytest.mark.parametrize("share", [0.3, 0.6, 1, 2])
@pytest.mark.parametrize("bore_m", [0.004, 0.006, 0.008, 0.010, 0.013, 0.016])
def test_pipes_against_darcy(bore_m, share):
    import fluids
    from CoolProp.CoolProp import PropsSI

    density, thick = (PropsSI(x, "T", 288.7, "P", 104_000, "Propane") for x in ("D", "V"))
    input_w = share * pipe_w(bore_m, 6)
    speed = input_w / 13.98e3 / 3600 / density / (3.141592653589793 * bore_m**2 / 4)
    re = fluids.Reynolds(V=speed, D=bore_m, rho=density, mu=thick)
    f = fluids.friction_factor(Re=re, eD=1.5e-6 / bore_m)
    smooth = fluids.dP_from_K(fluids.K_from_f(fd=f, L=6, D=bore_m), rho=density, V=speed) / 1000
    # From plain smooth pipe in thin tube to a quarter more, which is room for fittings, in wide.
    assert 0.93 < pipe_loss_kpa(bore_m, 6, input_w) / smooth < 1.3


CHART = {  # pounds left in a 100 lb cylinder: thousands of BTU/h at 0, 20, 40, 60, 70 °F, as generator makers print it
    100: (113, 167, 214, 277, 300), 90: (104, 152, 200, 247, 277), 80: (94, 137, 180, 214, 236),
    70: (83, 122, 160, 199, 214), 60: (75, 109, 140, 176, 192), 50: (64, 94, 125, 154, 167), 40: (55, 79, 105, 131,
    141), 30: (45, 66, 85, 107, 118), 20: (36, 51, 68, 83, 92), 10: (28, 38, 49, 60, 66),
}  # fmt: skip


@pytest.mark.parametrize("pounds", CHART)
def test_the_chart_of_hundred_pound_cylinders_lies_within_the_band(pounds):
    tall = Cylinder(45.36, 0.37)
    for fahrenheit, thousands in zip((0, 20, 40, 60, 70), CHART[pounds], strict=True):
        rate = vapour_kg_h(wetted_m2(tall, pounds / 100), (fahrenheit - 32) / 1.8)
        assert rate.low_kg_h < 1000 * thousands / GROSS_BTU_KG < rate.high_kg_h
        assert 1000 * thousands / GROSS_BTU_KG == pytest.approx(rate.kg_h, rel=0.55)


@pytest.mark.parametrize(("fill", "thousands"), [(1, 64), (0.625, 50.4), (0.25, 33)])
def test_a_motor_home_tank_at_zero_fahrenheit(fill, thousands):
    # 84 lb, at 80, 50 and 20 % of its volume.
    rate = vapour_kg_h(wetted_m2(Cylinder(38.1), fill), -17.8)
    assert 1000 * thousands / GROSS_BTU_KG == pytest.approx(rate.kg_h, rel=0.15)


@pytest.mark.parametrize(("full_kg", "kg_h"), [(5, 0.2), (11, 0.3), (33, 0.6)])
def test_a_trade_table_without_a_break_is_near_the_low_end(full_kg, kg_h):
    rate = vapour_kg_h(wetted_m2(Cylinder(full_kg), 0.2), -10)
    assert kg_h == pytest.approx(rate.low_kg_h, rel=0.25)


def test_a_general_rule_for_hundred_pound_cylinders_lies_within_the_band():
    # "About 50,000 BTU/h for continuous draws at 0 °F", a generator maker's guide of 2011; half full.
    rate = vapour_kg_h(wetted_m2(Cylinder(45.36, 0.37), 0.5), -17.8)
    assert rate.low_kg_h < 50_000 / GROSS_BTU_KG < rate.high_kg_h


@pytest.mark.parametrize("filled", [0.1, 0.5, 0.8])
def test_a_lying_tank_against_numbers(filled):
    import numpy as np
    from scipy.optimize import brentq

    d, length = 0.3, 0.9

    def below(h):
        y = np.linspace(-0.15, h, 40001)
        return np.trapezoid(2 * np.sqrt(np.maximum(0, 0.15**2 - y**2)), y)

    h = brentq(lambda h: below(h) - filled * np.pi * 0.15**2, -0.1499, 0.1499)
    arc = 0.15 * 2 * np.arccos(-h / 0.15)
    strips = 2 * 0.10 * length  # on both sides above the liquid
    assert lying_wetted_m2(d, length, filled) == pytest.approx(arc * length + 2 * below(h) + strips, rel=1e-4)


@pytest.mark.parametrize(("filled", "thousands"), [(0.8, 64), (0.5, 50.4), (0.2, 33)])
def test_a_motor_home_tank_that_lies_is_as_its_chart(filled, thousands):
    # 84 lb at 0 °F, three times as long as wide, by share of its whole volume.
    d = (4 * 38.1 / 0.42 / 1000 / (3 * 3.14159265)) ** (1 / 3)
    rate = vapour_kg_h(lying_wetted_m2(d, 3 * d, filled), -17.8)
    assert 1000 * thousands / GROSS_BTU_KG == pytest.approx(rate.kg_h, rel=0.15)
