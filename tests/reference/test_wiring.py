"""Cables and fuses against published tables, published worked examples and cases from the trade worked by hand."""

from itertools import pairwise

import pytest

from engine.physics.ampacity import BOATS_US, BUILDINGS_US, ambient_frac, ampacity_a
from engine.physics.circuit_schedule import Circuit, scheduled
from engine.physics.conductor import AWG, CLASS_5, WORKSHOP_METRIC, awg, awg_diameter_m, resistance_ohm, sized
from engine.physics.conductor_choice import Practice, Run, cable, thinnest
from engine.physics.direct_current import battery_current_a
from engine.physics.overcurrent import RATINGS_US, fuse_for, least_fuse_a, through_fuse_w
from engine.physics.voltage_drop import drop_v

pytestmark = pytest.mark.reference

FOOT = 0.3048
US = Practice(AWG, BOATS_US, 105, RATINGS_US)


@pytest.mark.parametrize(
    ("gauge", "diameter_mm", "area_mm2", "ohm_km"),
    [(18, 1.0237, 0.8230, 20.948), (16, 1.2908, 1.3087, 13.174), (14, 1.6277, 2.0809, 8.2855),
     (12, 2.0525, 3.3088, 5.2108), (10, 2.5882, 5.2612, 3.2771), (8, 3.2636, 8.3656, 2.0610),
     (6, 4.1154, 13.302, 1.2962), (4, 5.1894, 21.151, 0.8152), (2, 6.5437, 33.631, 0.5127),
     (0, 8.2515, 53.475, 0.3224), (-3, 11.684, 107.219, 0.1608)],
)  # fmt: skip
def test_gauges_as_tables_print_them(gauge, diameter_mm, area_mm2, ohm_km):
    wire = awg(gauge)
    assert awg_diameter_m(gauge) * 1000 == pytest.approx(diameter_mm, abs=6e-5)
    assert wire.area_m2 * 1e6 == pytest.approx(area_mm2, rel=2e-4)
    assert wire.metre_ohm * 1000 == pytest.approx(ohm_km, rel=2e-4)


@pytest.mark.parametrize(("gauge", "inches"), [(36, 0.0050), (-3, 0.4600)])
def test_the_two_gauges_that_define_the_rest(gauge, inches):
    assert awg_diameter_m(gauge) / 0.0254 == pytest.approx(inches, rel=1e-4)


@pytest.mark.parametrize(("gauge", "ohm_kft"), [(14, 3.07), (12, 1.93), (10, 1.21), (8, 0.764)])
def test_solid_wire_at_75_degrees_as_the_nec_lists_it(gauge, ohm_kft):
    # NFPA 70, chapter 9, table 8, solid uncoated copper at 75 °C; printed with three figures.
    assert resistance_ohm(awg(gauge), 1000 * FOOT, 75) == pytest.approx(ohm_kft, rel=5e-3)


@pytest.mark.parametrize(
    ("gauge", "ohm_kft"), [(14, 3.14), (10, 1.24), (6, 0.491), (2, 0.194), (-1, 0.0967), (-3, 0.0608)]
)
def test_stranding_adds_about_two_percent(gauge, ohm_kft):
    # Same table, stranded uncoated copper: 1.5 to 2.5 % above solid wire.
    assert 1.015 < ohm_kft / resistance_ohm(awg(gauge), 1000 * FOOT, 75) < 1.025


@pytest.mark.parametrize(("degc", "kt"), [(5, 1.064), (40, 0.926), (60, 0.862), (75, 0.820), (90, 0.781)])
def test_temperature_as_iec_60228_corrects_it(degc, kt):
    # A cable maker's copy of the standard's table, which takes 0.004 per kelvin: within 0.5 %.
    cold, warm = (resistance_ohm(awg(10), 1, t) for t in (20, degc))
    assert cold / warm == pytest.approx(kt, rel=5e-3)


@pytest.mark.parametrize(
    ("ambient_degc", "at_60", "at_75", "at_90"),
    [(10, 1.29, 1.20, 1.15), (20, 1.15, 1.11, 1.08), (25, 1.08, 1.05, 1.04), (35, 0.91, 0.94, 0.96),
     (40, 0.82, 0.88, 0.91), (45, 0.71, 0.82, 0.87), (50, 0.58, 0.75, 0.82), (55, 0.41, 0.67, 0.76)],
)  # fmt: skip
def test_ambient_factors_as_the_nec_lists_them(ambient_degc, at_60, at_75, at_90):
    # Table 310.15(B)(1) as a residential code reprints it (E3705.2, 2021), printed with two decimals.
    for insulation, printed in ((60, at_60), (75, at_75), (90, at_90)):
        assert ambient_frac(insulation, ambient_degc) == pytest.approx(printed, abs=6e-3)


def test_four_conductors_in_a_raceway():
    # A trade magazine's answer: 10 AWG THHN, four current-carrying conductors, 40 A · 0.80 = 32 A.
    assert ampacity_a(BUILDINGS_US, "10 AWG", 90, bundled_count=4) == pytest.approx(32)


def test_twelve_gauge_at_forty_degrees():
    # A guide's example: 12 AWG copper at 75 °C, 25 A, in 40 °C: 25 · 0.88 = 22 A.
    assert ampacity_a(BUILDINGS_US, "12 AWG", 75, ambient_degc=40) == pytest.approx(22, abs=0.15)


@pytest.mark.parametrize(
    ("gauge", "outside_a", "inside_a"),
    [("18", 20, 17), ("16", 25, 21), ("14", 35, 30), ("12", 45, 38), ("10", 60, 51), ("8", 80, 68), ("6", 120, 102),
     ("4", 160, 136), ("2", 210, 178), ("1", 245, 208), ("1/0", 285, 242), ("2/0", 330, 280), ("4/0", 445, 378)],
)  # fmt: skip
def test_marine_cable_in_and_out_of_engine_spaces(gauge, outside_a, inside_a):
    # A marine cable catalogue's appendix for 105 °C, whole amperes (rounded either way).
    assert ampacity_a(BOATS_US, f"{gauge} AWG", 105) == outside_a
    assert ampacity_a(BOATS_US, f"{gauge} AWG", 105, engine_space=True) == pytest.approx(inside_a, abs=0.76)


def test_a_bilge_pump_by_circular_mils():
    # Marine suppliers print: 10 A over 11 ft out and 10 ft back, CM = 10.75·10·21/0.36 = 6,271; 12 AWG has 6,530 and
    # will do. Their constant is copper near 29 °C.
    loop_m = 21 * FOOT
    lost_v = drop_v(awg(12), 10, loop_m / 2, conductor_degc=29)
    assert lost_v <= 0.36
    assert lost_v == pytest.approx(10.75 * 10 * 21 / 6530, rel=3e-3)
    assert drop_v(awg(14), 10, loop_m / 2, conductor_degc=29) > 0.36
    run = Run(10, loop_m / 2, 12, 0.03)
    assert thinnest(run, US._replace(conductor_degc=29)).conductor.label == "12 AWG"


# Marine table for 3 % of 12 V: current, loop in feet, gauge (a supplier's catalogue, after ABYC E-11). It goes to the
# nearer gauge of an even number, so some of its wires lose up to 3.5 %.
THREE_PERCENT = (
    (5, 10, 18), (5, 20, 14), (10, 10, 14), (10, 20, 12), (10, 60, 6), (15, 30, 8), (15, 60, 6), (20, 20, 10),
    (20, 50, 6), (20, 90, 2), (25, 40, 6), (25, 80, 2), (30, 30, 6), (30, 70, 2),
)  # fmt: skip


@pytest.mark.parametrize(("current_a", "loop_ft", "gauge"), THREE_PERCENT)
def test_the_marine_table_s_wire_is_within_one_size_of_what_the_formula_needs(current_a, loop_ft, gauge):
    lost_v = drop_v(awg(gauge), current_a, loop_ft * FOOT / 2, conductor_degc=29)
    assert lost_v <= 0.36 * 1.16
    if gauge <= 14:
        assert drop_v(awg(gauge + 4), current_a, loop_ft * FOOT / 2, conductor_degc=29) > 0.36


def test_standard_drop_of_flexible_cable():
    # 10 A, 6 m one way: 4 mm² 0.594 V, 4.95 % of 12 V; 6 mm² 0.396 V, 3.3 %; a conductor of 60 °C 1.1572 times as much.
    assert drop_v(sized("4 mm²", CLASS_5), 10, 6) == pytest.approx(0.594)
    assert drop_v(sized("6 mm²", CLASS_5), 10, 6) == pytest.approx(0.396)
    assert drop_v(sized("4 mm²", CLASS_5), 10, 6, 60) / 0.594 == pytest.approx(1.1572)


def test_an_inverter_lead():
    # 3 kW, 90 %, 12.0 V, 95 mm², 1.5 m: 277.778 A, 0.17167 V, 350 A fuse.
    current_a = battery_current_a(3000, 0.9, 0, 12.0)
    assert drop_v(sized("95 mm²", CLASS_5), current_a, 1.5) == pytest.approx(0.17167, abs=5e-6)
    assert 1.25 * current_a == pytest.approx(347.2, abs=0.05)
    assert least_fuse_a(current_a, RATINGS_US) == 350


def test_thin_wire_to_a_compressor_fridge():
    # 8 A over 25 ft (7.6 m), battery at 12.4 V, the fridge gives up below 11.1 V.
    lost = {g: drop_v(awg(g), 8, 7.62) for g in (16, 12, 10, 8)}
    assert lost[16] == pytest.approx(1.61, abs=0.005)
    assert 12.4 - lost[16] == pytest.approx(10.8, abs=0.05) and 12.4 - lost[16] < 11.1
    assert lost[12] == pytest.approx(0.64, abs=0.005)
    assert lost[10] == pytest.approx(0.40, abs=0.005) and lost[10] / 12 == pytest.approx(0.033, abs=5e-4)
    assert lost[8] / 12 < 0.03
    assert thinnest(Run(8, 7.62, 12, 0.03), US).conductor.label == "8 AWG"
    assert scheduled(Circuit("Fridge", 8, 7.62, 12, 0.03, chosen="16 AWG"), US).faults == ("drop-too-large",)
    # By 0.0175 Ω·mm²/m: 1.5 mm² 1.42 V, 6 mm² 2.96 % of 12 V.
    assert drop_v(sized("1.5 mm²", WORKSHOP_METRIC), 8, 7.6) == pytest.approx(1.42, abs=0.005)
    assert drop_v(sized("6 mm²", WORKSHOP_METRIC), 8, 7.6) / 12 == pytest.approx(0.0296, abs=5e-5)


def test_a_short_fat_inverter_cable_is_sound():
    # 2 AWG, 6 ft one way: 0.19 V at 100 A (1.6 %), 0.38 V at 200 A (3.1 %); 100 A of 210 A is 48 %.
    found = cable(Run(100, 6 * FOOT, 12, 0.03), US, awg(2))
    assert found.drop_v == pytest.approx(0.19, abs=0.005)
    assert found.drop_v / 12 == pytest.approx(0.016, abs=5e-4)
    assert drop_v(awg(2), 200, 6 * FOOT) == pytest.approx(0.38, abs=0.006)
    assert 100 / found.ampacity_a == pytest.approx(0.48, abs=0.005)
    assert scheduled(Circuit("Inverter", 100, 6 * FOOT, 12, 0.03, chosen="2 AWG"), US).faults == ()


def test_an_inverter_s_fuse_is_worked_out_on_the_battery_side():
    current_a = battery_current_a(2000, 0.88, 0, 11)
    assert current_a == pytest.approx(207, abs=0.5)
    assert battery_current_a(2000, 0.88, 0, 12) == pytest.approx(189, abs=0.5)
    # The 20 A that the mains side would suggest passes 211 W, 11 % of the inverter.
    assert through_fuse_w(20, 12, 0.88) == pytest.approx(211, abs=0.5)
    inverter = Circuit("Inverter", current_a, 1.0, 12, 0.03)
    assert "fuse-below-load" in scheduled(inverter._replace(chosen="2/0 AWG", chosen_fuse_a=20), US).faults
    # 2/0 AWG carries 330 A: 250 A (for 189 A) or 300 A (for 207 A) protects it.
    assert fuse_for(current_a, 330, RATINGS_US).rating_a == 300
    assert fuse_for(189.4, 330, RATINGS_US).rating_a == 250
    assert scheduled(inverter._replace(chosen="2/0 AWG", chosen_fuse_a=300), US).faults == ()
    # 4 AWG behind 250 A: the cable carries 160 A.
    assert "fuse-above-cable" in scheduled(inverter._replace(chosen="4 AWG", chosen_fuse_a=250), US).faults
    # Two cables of 4 AWG with 150 A each: 103 A in each.
    both = scheduled(inverter._replace(chosen="4 AWG", parallel=2, chosen_fuse_a=150), US)
    assert both.faults == ()
    assert both.current_a / 2 == pytest.approx(103, abs=0.5)


def test_a_source_circuit_of_panels():
    # A calculator's example: 9.5 A short-circuit, 1.5625 times is 14.84 A, next standard fuse 15 A.
    assert least_fuse_a(9.5 * 1.25, RATINGS_US) == 15


def test_the_voltage_table_s_two_axes_agree():
    # Twice the current over half the length loses the same.
    for thin, thick in pairwise(AWG):
        assert drop_v(thin, 10, 6) == pytest.approx(drop_v(thin, 20, 3))
        assert drop_v(thick, 10, 6) < drop_v(thin, 10, 6)
