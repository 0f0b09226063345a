"""Panels in strings against published worked examples, a diode model, and cases from the trade worked by hand."""

import random
from functools import cache

import pytest

from engine.physics.panel import Panel
from engine.physics.panel_curve import Strings, fall_in_heat, held_frac, shared_frac, string_w
from engine.physics.string_current import conductor_a, needs_fuse, source_a, string_fuse_a
from engine.physics.string_layout import Input, most_panels, split, splits
from engine.physics.string_voltage import cold_open_v, reached_degc, voltage_v

pytestmark = pytest.mark.reference


def test_four_in_series_pass_150_volts_on_a_cold_morning():
    panel, into = Panel(250, 37, 31, 8.7, -0.0030), Input(150, 14.4)
    four = split(panel, into, 4, 1, -20, 70)
    assert four.cold_open_v == pytest.approx(168, abs=0.05)
    assert four.cold_open_v / 150 == pytest.approx(1.12, abs=0.001)
    assert four.objections == ("cold-voltage",)
    assert reached_degc(148, -0.0030, 150) == pytest.approx(20.5, abs=0.05)
    three = split(panel, into, 3, 1, -20, 70)
    assert three.cold_open_v == pytest.approx(126, abs=0.05)
    assert three.objections == ()
    best = splits(panel, into, 4, -20, 70)[0]
    assert (best.series, best.parallel) == (2, 2)
    assert most_panels(panel, into, 3, -20, 70)[:2] == (3, 1)


def test_one_residential_panel_cannot_finish_a_24_volt_bank():
    panel, into = Panel(300, 38, 31, 9.8, -0.0030, -0.0040), Input(100, 28.4, headroom_v=0)
    one = split(panel, into, 1, 1, -15, 65)
    assert one.hot_power_v == pytest.approx(26.0, abs=0.05)
    assert one.objections == ("hot-voltage",)
    two = split(panel, into, 2, 1, -15, 65)
    assert two.hot_power_v == pytest.approx(52, abs=0.1)
    assert two.objections == ()
    assert two.cold_open_v == pytest.approx(85.1, abs=0.05)
    assert two.cold_open_v / 100 == pytest.approx(0.85, abs=0.002)


def test_maker_s_coefficient_and_code_s_table():
    # 45.0 V, −0.28 %/K, −20 °C: factor 1.126, two 101.34 V, three 152.01 V; by the table 1.18: 106.2 and 159.3 V.
    assert cold_open_v(45, -0.0028, -20) / 45 == pytest.approx(1.126)
    assert 2 * cold_open_v(45, -0.0028, -20) == pytest.approx(101.34)
    assert 3 * cold_open_v(45, -0.0028, -20) == pytest.approx(152.01)
    assert 2 * cold_open_v(45, None, -20) == pytest.approx(106.2)
    assert 3 * cold_open_v(45, None, -20) == pytest.approx(159.3)
    # A 100 V input takes one, one of 150 V two.
    for coefficient in (-0.0028, None):
        panel = Panel(400, 45, 37, 11.4, coefficient)
        assert split(panel, Input(100, 14.4), 2, 1, -20, 60).objections == ("cold-voltage",)
        assert split(panel, Input(150, 14.4), 2, 1, -20, 60).objections == ()
        assert split(panel, Input(150, 14.4), 3, 1, -20, 60).objections == ("cold-voltage",)


@pytest.mark.parametrize(
    ("open_v", "beta", "coldest", "printed_v"),
    [(49.5, -0.0028, -5, 53.66), (49.5, -0.0027, -10, 54.2)],
    ids=["a course's example", "a formula site's example"],
)
def test_cold_voltage_of_published_examples(open_v, beta, coldest, printed_v):
    assert cold_open_v(open_v, beta, coldest) == pytest.approx(printed_v, abs=0.05)


def test_hot_voltage_and_string_length_of_a_published_example():
    # 440 W, 41.7 V at greatest power, −0.27 %/K, 45 °C: 39.4 V; inputs of 200 to 600 V take 6 to 11 in series.
    assert voltage_v(41.7, -0.0027, 45) == pytest.approx(39.4, abs=0.06)
    panel, into = Panel(440, 49.5, 41.7, 11, -0.0027, -0.0027), Input(600, 70, headroom_v=0)
    lengths = [n for n in range(1, 14) if not split(panel, into, n, 1, -10, 45).objections]
    assert max(lengths) == 11
    assert min(n for n in range(1, 14) if split(panel, into, n, 1, -10, 45).hot_power_v >= 200) == 6


def test_voltage_in_frost_against_a_diode_model():
    # pvlib 0.16.1, CEC parameters and single-diode solution of a 300 W module of monocrystalline cells: 39.700 V at
    # 25 °C, 45.352 V at −20 °C and 35.234 V at 60 °C. The linear rule with −0.305 %/K is within 0.5 % of both.
    import pvlib

    module = pvlib.pvsystem.retrieve_sam("CECMod")["Canadian_Solar_Inc__CS6K_300MS"]

    def open_v(cell_degc):
        five = pvlib.pvsystem.calcparams_cec(
            1000, cell_degc, module.alpha_sc, module.a_ref, module.I_L_ref, module.I_o_ref, module.R_sh_ref, module.R_s,
            module.Adjust,
        )  # fmt: skip
        return pvlib.pvsystem.singlediode(*five)["v_oc"]

    label_v, coefficient = open_v(25), module.beta_oc / module.V_oc_ref
    for cell_degc in (-20, 0, 40, 60):
        assert voltage_v(label_v, coefficient, cell_degc) == pytest.approx(open_v(cell_degc), rel=7e-3)


def test_currents_by_the_code():
    # 11.4 A: 14.25 A, and 17.8125 A for conductors and fuse.
    assert source_a(11.4) == pytest.approx(14.25)
    assert conductor_a(11.4) == pytest.approx(17.8125)
    # A calculator's example: 9.5 A needs 14.8 A, fuse 15 A, under the module's 20 A.
    assert conductor_a(9.5) == pytest.approx(14.8, abs=0.05)
    assert string_fuse_a(9.5, 20) == 15


def test_three_strings_of_a_well_rated_panel_need_no_fuse():
    # A solar forum's example: 5 A with a series fuse of 15 A; two strings push 12.5 A through the third.
    assert not needs_fuse(5, 3, 15)
    assert needs_fuse(5, 4, 15)


def _diode(name, light_w_m2=1000, cell_degc=25):
    import pvlib

    module = _modules()[name]
    return pvlib.pvsystem.calcparams_cec(
        light_w_m2, cell_degc, module.alpha_sc, module.a_ref, module.I_L_ref, module.I_o_ref, module.R_sh_ref,
        module.R_s, module.Adjust,
    )  # fmt: skip


@cache
def _modules():
    import pvlib

    return pvlib.pvsystem.retrieve_sam("CECMod")


@cache
def _panel(name):
    import pvlib

    at = pvlib.pvsystem.singlediode(*_diode(name))
    return Panel(at["p_mp"], at["v_oc"], at["v_mp"], at["i_sc"])


def _crystalline():
    modules = _modules()
    return [n for n in modules.columns if modules[n].Technology == "Mono-c-Si" and 50 < modules[n].STC < 450]


def test_current_below_the_best_voltage_against_a_diode_model():
    import pvlib

    for name in random.Random(2).sample(_crystalline(), 60):
        panel = _panel(name)
        for share in (0.4, 0.6, 0.75, 0.9, 1.0):
            volts = share * panel.max_power_v
            watts = volts * float(pvlib.pvsystem.i_from_v(volts, *_diode(name)))
            assert -0.015 < string_w(Strings(panel, 1, 1), volts) / watts - 1 < 0.06


@pytest.mark.parametrize(("light_w_m2", "cell_degc"), [(1000, 25), (400, 40), (800, 60)])
def test_unlike_strings_in_parallel_against_a_diode_model(light_w_m2, cell_degc):
    import numpy as np
    import pvlib

    chance, names, errors = random.Random(7), _crystalline(), []
    for _ in range(60):
        count = chance.choice((2, 3))
        picked = [(chance.choice(names), chance.randint(1, 2), chance.randint(1, 2)) for _ in range(count)]
        fives = [_diode(name, light_w_m2, cell_degc) for name, _, _ in picked]
        alone = sum(
            s * p * pvlib.pvsystem.singlediode(*five)["p_mp"] for five, (_, s, p) in zip(fives, picked, strict=True)
        )
        volts = np.linspace(5, max(s * _panel(n).open_circuit_v for n, s, _ in picked), 1200)
        together = sum(
            # Far beyond its open-circuit voltage a string draws more than the solver finds: no voltage to stand at.
            p * volts * np.nan_to_num(pvlib.pvsystem.i_from_v(volts / s, *five), nan=-1e3)
            for five, (_, s, p) in zip(fives, picked, strict=True)
        ).max()
        ours = shared_frac(tuple(Strings(_panel(n), s, p) for n, s, p in picked))
        errors.append(abs(ours - together / alone))
    assert max(errors) < 0.06
    assert sorted(errors)[30] < 0.015


def test_hot_strings_held_above_their_best_voltage_against_a_diode_model():
    import numpy as np
    import pvlib

    errors = []
    for name in random.Random(5).sample(_crystalline(), 30):
        panel = _panel(name)
        beta = (pvlib.pvsystem.singlediode(*_diode(name, cell_degc=60))["v_mp"] / panel.max_power_v - 1) / 35
        open_beta = (pvlib.pvsystem.singlediode(*_diode(name, cell_degc=60))["v_oc"] / panel.open_circuit_v - 1) / 35
        string = Strings(panel._replace(power_voltage_coefficient_frac_k=beta, open_coefficient_frac_k=open_beta), 1, 1)
        for held_v in (0.8 * panel.max_power_v, 0.9 * panel.max_power_v, panel.max_power_v):
            from_degc, lost_frac_k = fall_in_heat(string, held_v)
            for cell_degc in range(25, 100, 12):
                five = _diode(name, cell_degc=cell_degc)
                best_w = pvlib.pvsystem.singlediode(*five)["p_mp"]
                # The controller stands anywhere at or above the voltage held.
                volts = np.linspace(held_v, 1.3 * held_v, 200)
                kept = max(0.0, float(np.nanmax(volts * pvlib.pvsystem.i_from_v(volts, *five)))) / best_w
                line = max(0.0, 1 - lost_frac_k * max(0.0, cell_degc - from_degc))
                errors.append(abs(line - kept))
    assert max(errors) < 0.25
    assert sum(errors) / len(errors) < 0.04 and sorted(errors)[len(errors) // 2] < 0.005


def test_current_that_hot_panels_keep_at_a_battery_s_voltage_against_a_diode_model():
    import pvlib

    errors = []
    for name in random.Random(9).sample(_crystalline(), 30):
        panel = _panel(name)
        hot = pvlib.pvsystem.singlediode(*_diode(name, cell_degc=60))
        panel = panel._replace(
            power_voltage_coefficient_frac_k=(hot["v_mp"] / panel.max_power_v - 1) / 35,
            open_coefficient_frac_k=(hot["v_oc"] / panel.open_circuit_v - 1) / 35,
        )
        for cell_degc in (45, 65, 85):
            five = _diode(name, cell_degc=cell_degc)
            at = pvlib.pvsystem.singlediode(*five)
            for volts in (0.9 * at["v_mp"], 1.0005 * at["v_mp"], 1.05 * at["v_mp"], 1.12 * at["v_mp"], at["v_oc"]):
                kept = min(1.0, max(0.0, float(pvlib.pvsystem.i_from_v(volts, *five)) / at["i_mp"]))
                errors.append(abs(held_frac(panel, 1, volts, cell_degc) - kept))
    assert max(errors) < 0.15 and sorted(errors)[len(errors) // 2] < 0.02
