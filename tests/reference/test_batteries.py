"""Batteries against published tables and examples, and cases from the trade worked by hand."""

import pytest

from engine.physics.battery_bank import bank, battery_ohm, cells_in_series, cells_only_ohm, together_ohm
from engine.physics.battery_chemistry import AGM, FLOODED, LFP
from engine.physics.battery_life import cycles_count
from engine.physics.battery_sag import loaded_v, prospective_a
from engine.physics.battery_temperature import capacity_left_frac, charge_limit_a, warming_wh
from engine.physics.direct_current import battery_current_a
from engine.physics.peukert import delivered_ah, discharge_h

pytestmark = pytest.mark.reference


def test_lead_acid_at_its_rate_and_five_times_it():
    # 100 Ah over 20 h, exponent 1.25: 25 A last 2.67496 h and give 66.874 Ah; 5 A last 20 h.
    # With 1.1: 3.4054 h and 85.134 Ah.
    assert discharge_h(100, 20, 25, 0.25) == pytest.approx(2.67496, abs=5e-6)
    assert delivered_ah(100, 20, 25, 0.25) == pytest.approx(66.874, abs=5e-4)
    assert discharge_h(100, 20, 5, 0.25) == pytest.approx(20.0)
    assert discharge_h(100, 20, 25, 0.10) == pytest.approx(3.4054, abs=5e-5)
    assert delivered_ah(100, 20, 25, 0.10) == pytest.approx(85.134, abs=5e-4)


def test_a_printed_mistake_is_not_repeated():
    # A page reckons C/I^k and gets 14.5 h for 100 Ah at 5 A; at its own 20-hour rate it lasts 20 h.
    assert discharge_h(100, 20, 5, 0.2) == pytest.approx(20)


@pytest.mark.parametrize("current_a", [7, 12, 30])
def test_the_form_of_another_author(current_a):
    # A battery monitor's maker writes T = C·(C/R)^(n−1)/I^n.
    printed_h = 100 * (100 / 20) ** 0.25 / current_a**1.25
    assert discharge_h(100, 20, current_a, 0.25) == pytest.approx(printed_h)


@pytest.mark.parametrize(("degc", "percent"), [(0, -16), (5, -12), (10, -10), (15, -6), (20, -1), (25, 0)])
def test_capacity_of_lead_acid_in_the_cold(degc, percent):
    # A battery maker's page, discharges of more than an hour.
    assert capacity_left_frac(AGM, degc) == pytest.approx(1 + percent / 100)


@pytest.mark.parametrize(("degc", "low", "high"), [(0, 0.79, 0.90), (-10, 0.60, 0.80), (-20, 0.44, 0.70)])
def test_capacity_of_lithium_lies_among_published_tests(degc, low, high):
    # Three published cells: 80.2 % at 0 °C; 66.4 % at −10 °C; 44, 55 and 70 % at −20 °C. Sellers promise 90 % at 0 °C.
    assert low <= capacity_left_frac(LFP, degc) <= high


@pytest.mark.parametrize(
    ("degc", "standard", "fast"),
    [(-5, 0, 0), (3, 0.1, 0.1), (8, 0.1, 0.2), (20, 0.2, 1.0), (30, 0.5, 0.75), (55, 0.1, 0.1), (65, 0, 0)],
)
def test_charge_of_lithium_by_temperature(degc, standard, fast):
    # A telecom module's manual, table 4.3: standard and fast continuous charge.
    assert 100 * standard <= charge_limit_a(LFP, 100, degc) <= 100 * fast


def test_a_battery_in_an_outside_locker_in_frost():
    # 25 kg at −15 °C: no charge at all; 500 kJ = 139 Wh to +5 °C, 2.3 h at 60 W. Indoors at 15 °C it charges.
    assert charge_limit_a(LFP, 100, -15) == 0
    assert charge_limit_a(LFP, 100, 15) > 0
    needed_wh = warming_wh(25, -15, 5)
    assert needed_wh == pytest.approx(139, abs=0.5)
    assert needed_wh * 3.6 == pytest.approx(500)
    assert needed_wh / 60 == pytest.approx(2.3, abs=0.05)


def test_cells_of_common_batteries():
    # 4, 8 and 16 cells make 12.8, 25.6 and 51.2 V, and stop at 14.6, 29.2 and 58.4 V.
    for volts, cells, full_v in ((12.8, 4, 14.6), (25.6, 8, 29.2), (51.2, 16, 58.4)):
        assert cells_in_series(LFP, volts) == cells
        assert cells * LFP.cell_full_v == pytest.approx(full_v)


def test_six_batteries_of_six_volts():
    # ABYC E-11 as a supplier reproduces it: six of 6 V as a 12 V bank, 2,400 A each, make 7,200 A.
    six = bank(6, 6, 200, 12)
    assert (six.series, six.parallel) == (2, 3)
    one_ohm = 6 / 2400
    assert prospective_a(12, together_ohm(one_ohm, six.series, six.parallel)) == pytest.approx(7200)


def test_short_circuit_of_a_block():
    # A calculator's example: 12 V behind 5 mΩ, 2,400 A.
    assert prospective_a(12, 0.005) == pytest.approx(2400)


def test_short_circuit_of_a_power_station_s_battery():
    # 240 cells of 0.049 mΩ (2,500 Ah); resistance of the circuit 21 mΩ. By hand: 240·0.049 mΩ + 21 mΩ = 32.76 mΩ.
    # Here for 40 cells of 2.0 V, a sixth of all three.
    assert prospective_a(80, 40 * 0.049e-3, 0.021 / 6) == pytest.approx(480 / 0.03276)


def test_typical_short_circuits_of_a_hundred_ampere_hours():
    # A supplier: a 12 V lead-acid battery of 100 Ah gives 1,000 to 2,000 A, possibly 4,000 A.
    assert 1000 <= prospective_a(12.7, cells_only_ohm(FLOODED, 12, 100)) <= 4000
    assert 1000 <= prospective_a(12.8, cells_only_ohm(AGM, 12, 100)) <= 4000
    # Lithium: more than any of them; two of them pass 10 kA, for which ABYC E-11 asks 20 kA.
    one_a = prospective_a(13.3, cells_only_ohm(LFP, 12.8, 100))
    assert one_a > 4000
    assert 2 * one_a > 10_000


def test_an_inverter_s_cut_off_under_a_motor_start():
    # 2,000 W behind 88 %, cut-off 11.0 V: a lithium battery of 200 Ah holds, one of 100 Ah lead-acid at half charge,
    # cold and with the same cable (2 mΩ), does not.
    dc_w = 2000 / 0.88
    lithium = battery_ohm(LFP, 12.8, 200) + 0.002
    lead = battery_ohm(AGM, 12, 100, 0) + 0.002
    assert loaded_v(13.1, lithium, dc_w) > 11.0
    assert loaded_v(12.2, lead, dc_w) < 11.0
    # The current at the cut-off is what the fuse is reckoned with.
    assert battery_current_a(2000, 0.88, 0, 11.0) == pytest.approx(dc_w / 11.0)


@pytest.mark.parametrize(("kind", "depth", "low", "high"), [(AGM, 0.5, 370, 1200), (AGM, 0.8, 200, 800),
                         (FLOODED, 0.5, 700, 800), (FLOODED, 0.8, 200, 250), (LFP, 0.8, 2000, 8000)])  # fmt: skip
def test_cycles_lie_among_published_ones(kind, depth, low, high):
    # A boat handbook's table and sellers' pages for glass mat; golf-cart batteries 225 and 750; cell
    # makers for lithium.
    assert low <= cycles_count(kind, depth) <= high
