"""Each electric formula shows a worked number and its source, raises outside its range, and can be memoised."""

import doctest
import inspect
import math
from importlib import import_module

import pytest

from engine.physics import battery_chemistry
from engine.physics.ampacity import BOATS_US, ambient_frac, ampacity_a, bundled_frac, fuse_cap_a
from engine.physics.battery_bank import bank, battery_ohm, cells_in_series, cells_only_ohm, together_ohm
from engine.physics.battery_chemistry import LFP
from engine.physics.battery_life import cycles_count, life_d
from engine.physics.battery_sag import loaded_v, prospective_a
from engine.physics.battery_temperature import capacity_left_frac, charge_limit_a, warming_wh
from engine.physics.charging import Source, charge
from engine.physics.circuit_schedule import Circuit, scheduled
from engine.physics.conductor import AWG, awg, awg_diameter_m, resistance_ohm
from engine.physics.conductor_choice import Practice, Run, thinnest
from engine.physics.converter import Converter, converted
from engine.physics.curve import Curve
from engine.physics.inverter import continuous_w, largest_ac_w, surge_va
from engine.physics.load_set import Load, worst
from engine.physics.overcurrent import (
    FUSE_KINDS,
    RATINGS_US,
    breaks_a,
    fuse_for,
    kinds_that_break,
    least_fuse_a,
    through_fuse_w,
)
from engine.physics.peukert import delivered_ah, discharge_h, excess_frac
from engine.physics.ranges import OutOfRangeError
from engine.physics.shore import Drawn, charger_left_a, charger_w, shed
from engine.physics.string_current import conductor_a, needs_fuse, reverse_a, source_a, string_fuse_a
from engine.physics.string_layout import Input, Panel, most_panels, split, splits
from engine.physics.string_voltage import cold_factor_frac, cold_open_v, reached_degc, voltage_v
from engine.physics.voltage_drop import drop_v

MODULES = (
    "ampacity", "battery_bank", "battery_life", "battery_sag", "battery_temperature", "charging", "circuit_schedule",
    "conductor", "conductor_choice", "converter", "inverter", "load_set", "overcurrent", "peukert",
    "shore", "string_current", "string_layout", "string_voltage", "voltage_drop",
)  # fmt: skip
US = Practice(AWG, BOATS_US, 105, RATINGS_US)
WIRE = awg(8)
PANEL, INPUT = Panel(300, 38, 31, 9.8, -0.003), Input(150, 14.4)

# Function, sound arguments, and for some of them a value beyond each end of its range.
CASES = (
    (awg_diameter_m, {"gauge": 8}, {"gauge": (-4, 41)}),
    (resistance_ohm, {"conductor": WIRE, "length_m": 3.0, "conductor_degc": 20.0},
     {"length_m": (-1, 1001), "conductor_degc": (-51, 201)}),
    (drop_v, {"conductor": WIRE, "current_a": 10.0, "one_way_m": 3.0, "conductor_degc": 20.0, "parallel": 1},
     {"current_a": (-1, 5001), "one_way_m": (-1, 101), "conductor_degc": (-51, 201), "parallel": (0, 9)}),
    (ambient_frac, {"insulation_degc": 105.0, "ambient_degc": 40.0},
     {"insulation_degc": (59, 201), "ambient_degc": (-51, 101)}),
    (bundled_frac, {"table": BOATS_US, "bundled_count": 3}, {"bundled_count": (0, 1001)}),
    (ampacity_a,
     {"table": BOATS_US, "label": "8 AWG", "insulation_degc": 105, "bundled_count": 1, "ambient_degc": 30.0},
     {"bundled_count": (0, 1001), "ambient_degc": (-51, 101)}),
    (least_fuse_a, {"load_a": 20.0, "ratings_a": RATINGS_US}, {"load_a": (-1, 5001)}),
    (fuse_for, {"load_a": 20.0, "ampacity_a": 80.0, "ratings_a": RATINGS_US},
     {"load_a": (-1, 5001), "ampacity_a": (0, 5001)}),
    (breaks_a, {"kind": FUSE_KINDS[0], "system_v": 12.0}, {"system_v": (4, 601)}),
    (kinds_that_break, {"prospective_a": 3000.0, "system_v": 12.0, "rating_a": 100.0},
     {"prospective_a": (-1, 2e6), "system_v": (4, 601), "rating_a": (0.4, 5001)}),
    (through_fuse_w, {"fuse_a": 20.0, "battery_v": 12.0, "efficiency_frac": 0.88},
     {"fuse_a": (-1, 5001), "battery_v": (7, 71), "efficiency_frac": (0.4, 1.1)}),
    (lambda current_a, system_v, drop_frac: thinnest(Run(current_a, 2, system_v, drop_frac), US),
     {"current_a": 10.0, "system_v": 12.0, "drop_frac": 0.03},
     {"current_a": (-1, 5001), "system_v": (4, 601), "drop_frac": (0, 0.6)}),
    (voltage_v, {"label_v": 37.0, "coefficient_frac_k": -0.003, "cell_degc": 0.0},
     {"label_v": (0, 201), "coefficient_frac_k": (-0.02, 0.001), "cell_degc": (-61, 121)}),
    (cold_factor_frac, {"coldest_degc": 0.0}, {"coldest_degc": (-41, 61)}),
    (cold_open_v, {"open_circuit_v": 37.0, "coefficient_frac_k": -0.003, "coldest_degc": -5.0},
     {"open_circuit_v": (0, 201), "coefficient_frac_k": (-0.02, 0.001)}),
    (reached_degc, {"string_v": 148.0, "coefficient_frac_k": -0.003, "limit_v": 150.0},
     {"string_v": (0, 2001), "coefficient_frac_k": (-0.02, 0.0), "limit_v": (0, 2001)}),
    (source_a, {"short_circuit_a": 9.0, "parallel": 1}, {"short_circuit_a": (-1, 41), "parallel": (0, 101)}),
    (conductor_a, {"short_circuit_a": 9.0, "parallel": 1}, {"short_circuit_a": (-1, 41), "parallel": (0, 101)}),
    (reverse_a, {"short_circuit_a": 9.0, "parallel": 2}, {"short_circuit_a": (-1, 41), "parallel": (0, 102)}),
    (needs_fuse, {"short_circuit_a": 9.0, "parallel": 3, "series_fuse_a": 15.0},
     {"short_circuit_a": (-1, 41), "series_fuse_a": (0, 101)}),
    (string_fuse_a, {"short_circuit_a": 9.0, "series_fuse_a": 15.0},
     {"short_circuit_a": (-1, 41), "series_fuse_a": (0, 101)}),
    (split,
     {"panel": PANEL, "into": INPUT, "series": 1, "parallel": 1, "coldest_degc": -10.0, "hottest_cell_degc": 60.0},
     {"series": (0, 101), "parallel": (0, 101), "coldest_degc": (-61, 61), "hottest_cell_degc": (24, 121)}),
    (lambda highest_v, charge_v, headroom_v: split(PANEL, Input(highest_v, charge_v, headroom_v), 1, 1, 0, 60),
     {"highest_v": 100.0, "charge_v": 14.4, "headroom_v": 1.0},
     {"highest_v": (4, 1501), "charge_v": (7, 101), "headroom_v": (-1, 21)}),
    (splits, {"panel": PANEL, "into": INPUT, "panel_count": 2, "coldest_degc": 0.0, "hottest_cell_degc": 60.0},
     {"panel_count": (0, 101)}),
    (most_panels, {"panel": PANEL, "into": INPUT, "panel_count": 2, "coldest_degc": 0.0, "hottest_cell_degc": 60.0},
     {"panel_count": (0, 101)}),
    (discharge_h, {"capacity_ah": 100.0, "rated_h": 20.0, "current_a": 10.0, "excess_frac": 0.1},
     {"capacity_ah": (0, 5001), "rated_h": (0.5, 121), "current_a": (0, 5001), "excess_frac": (-0.1, 0.7)}),
    (delivered_ah, {"capacity_ah": 100.0, "rated_h": 20.0, "current_a": 10.0, "excess_frac": 0.1},
     {"capacity_ah": (0, 5001), "rated_h": (0.5, 121), "current_a": (0, 5001), "excess_frac": (-0.1, 1.25)}),
    (excess_frac, {"slow_ah": 100.0, "slow_h": 20.0, "fast_ah": 80.0, "fast_h": 5.0},
     {"slow_ah": (0, 5001), "slow_h": (0.5, 121), "fast_ah": (0, 101), "fast_h": (0, 20)}),
    (capacity_left_frac, {"chemistry": LFP, "cell_degc": 0.0}, {"cell_degc": (-21, 61)}),
    (charge_limit_a, {"chemistry": LFP, "capacity_ah": 100.0, "cell_degc": 0.0},
     {"capacity_ah": (-1, 100_001), "cell_degc": (-61, 101)}),
    (warming_wh, {"mass_kg": 25.0, "from_degc": -15.0, "to_degc": 5.0},
     {"mass_kg": (-1, 2001), "from_degc": (-61, 61), "to_degc": (-61, 61)}),
    (cells_in_series, {"chemistry": LFP, "nominal_v": 12.8}, {"nominal_v": (1, 101)}),
    (bank, {"battery_count": 2, "battery_v": 12.8, "battery_ah": 100.0, "system_v": 12.0},
     {"battery_count": (0, 65), "battery_v": (1, 101), "battery_ah": (0, 5001), "system_v": (4, 101)}),
    (battery_ohm, {"chemistry": LFP, "battery_v": 12.8, "battery_ah": 100.0, "cell_degc": 25.0},
     {"battery_v": (1, 101), "battery_ah": (0, 5001), "cell_degc": (-21, 61)}),
    (cells_only_ohm, {"chemistry": LFP, "battery_v": 12.8, "battery_ah": 100.0},
     {"battery_v": (1, 101), "battery_ah": (0, 5001)}),
    (together_ohm, {"one_ohm": 0.003, "series": 1, "parallel": 1},
     {"one_ohm": (-1, 11), "series": (0, 65), "parallel": (0, 65)}),
    (loaded_v, {"open_v": 13.0, "source_ohm": 0.005, "load_w": 2000.0},
     {"open_v": (1, 101), "source_ohm": (-1, 11), "load_w": (-1, 2e6)}),
    (prospective_a, {"open_v": 13.0, "bank_ohm": 0.002, "cable_ohm": 0.001},
     {"open_v": (1, 101), "bank_ohm": (0, 11), "cable_ohm": (-1, 11)}),
    (cycles_count, {"chemistry": LFP, "depth_frac": 0.5}, {"depth_frac": (0, 1.1)}),
    (life_d, {"chemistry": LFP, "depth_frac": 0.5, "per_day": 1.0}, {"depth_frac": (0, 1.1), "per_day": (-1, 11)}),
    (continuous_w, {"rated_w": 2000.0, "ambient_degc": 30.0, "rated_degc": 25.0},
     {"rated_w": (-1, 2e5), "ambient_degc": (-21, 66), "rated_degc": (-21, 66)}),
    (surge_va, {"continuous_va": 2000.0, "surges": Curve(((5.0, 4000.0),)), "start_s": 1.0},
     {"continuous_va": (-1, 2e5), "start_s": (-1, 3601)}),
    (largest_ac_w, {"battery_a": 100.0, "battery_v": 12.8, "efficiency_frac": 0.9, "dc_w": 0.0},
     {"battery_a": (-1, 100_001), "battery_v": (7, 71), "efficiency_frac": (0.4, 1.1), "dc_w": (-1, 2e6)}),
    (lambda running_w, power_factor_frac, start_multiple: worst(
        (Load("a", running_w, power_factor_frac, start_multiple),)),
     {"running_w": 100.0, "power_factor_frac": 0.8, "start_multiple": 3.0},
     {"running_w": (-1, 2e7), "power_factor_frac": (0.2, 1.1), "start_multiple": (0.9, 2e9)}),
    (lambda load_w, output_v, output_a, efficiency_frac, idle_w, battery_v: converted(
        load_w, Converter(output_v, output_a, efficiency_frac, idle_w), battery_v),
     {"load_w": 100.0, "output_v": 12.5, "output_a": 30.0, "efficiency_frac": 0.9, "idle_w": 1.0, "battery_v": 25.6},
     {"load_w": (-1, 1_000_001), "output_v": (4, 71), "output_a": (0, 10_001), "efficiency_frac": (0.4, 1.1),
      "idle_w": (-1, 101), "battery_v": (4, 71)}),
    (charger_w, {"output_a": 40.0, "output_v": 14.4, "efficiency_frac": 0.9},
     {"output_a": (-1, 100_001), "output_v": (7, 101), "efficiency_frac": (0.4, 1.1)}),
    (charger_left_a, {"limit_w": 1380.0, "loads_w": 900.0, "output_a": 40.0, "output_v": 14.4, "efficiency_frac": 0.9},
     {"limit_w": (-1, 2e6), "loads_w": (-1, 2e8), "output_a": (-1, 100_001)}),
    (lambda power_w, limit_w: shed((Drawn("a", power_w),), limit_w), {"power_w": 100.0, "limit_w": 1380.0},
     {"power_w": (-1, 2e6), "limit_w": (0, 2e6)}),
    (lambda capacity_ah, charged_frac, charge_a: charge(LFP, capacity_ah, charged_frac, Source("a", charge_a)),
     {"capacity_ah": 100.0, "charged_frac": 0.2, "charge_a": 30.0},
     {"capacity_ah": (0, 100_001), "charged_frac": (-0.1, 1.1), "charge_a": (-1, 10_001)}),
)  # fmt: skip
EACH = [(f, sound, name, ends) for f, sound, beyond in CASES for name, ends in beyond.items()]
IDS = [f"{f.__name__}-{name}" for f, _, name, _ in EACH]


def _functions(name):
    module = import_module(f"engine.physics.{name}")
    return {
        n: getattr(f, "__wrapped__", f)
        for n, f in vars(module).items()
        if not n.startswith("_")
        and inspect.isfunction(getattr(f, "__wrapped__", f))
        and f.__module__ == module.__name__
    }


@pytest.mark.parametrize("name", MODULES)
def test_every_formula_has_a_worked_example_and_a_source(name):
    functions = _functions(name)
    assert functions
    assert [n for n, f in functions.items() if not doctest.DocTestFinder().find(f)[0].examples] == []
    assert [n for n, f in functions.items() if "Source" not in (f.__doc__ or "")] == []


@pytest.mark.parametrize("name", MODULES)
def test_worked_examples_of_memoised_formulas_hold_too(name):
    # doctest.testmod overlooks functions behind lru_cache.
    module = import_module(f"engine.physics.{name}")
    runner = doctest.DocTestRunner(verbose=False)
    for n, f in _functions(name).items():
        for test in doctest.DocTestFinder().find(f, n, globs=dict(vars(module))):
            runner.run(test)
    assert runner.summarize(verbose=False).failed == 0


@pytest.mark.parametrize(("function", "sound", "name", "ends"), EACH, ids=IDS)
def test_beyond_either_end_raises(function, sound, name, ends):
    function(**sound)
    for value in ends:
        with pytest.raises(OutOfRangeError):
            function(**sound | {name: value})


@pytest.mark.parametrize(
    ("function", "sound", "name"),
    [(f, sound, name) for f, sound, name, _ in EACH if isinstance(sound[name], float)],
    ids=[i for i, (_, sound, name, _) in zip(IDS, EACH, strict=True) if isinstance(sound[name], float)],
)
@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_no_number_raises(function, sound, name, value):
    with pytest.raises(OutOfRangeError):
        function(**sound | {name: value})


def test_every_formula_is_tried():
    tried = {f.__name__ for f, _, _ in CASES}
    # Lists and comparisons that only pass on what the ones above check, and lambdas above that call them.
    passing_on = {
        "awg", "sized", "fuse_cap_a", "cable", "drop_allows", "thinnest", "scheduled", "schedule", "worst", "converted",
        "shed", "charge", "charges",
    }  # fmt: skip
    every = {n for name in MODULES for n in _functions(name)}
    assert every - tried - passing_on == set()


def test_inputs_and_results_can_be_memoised():
    for chemistry in battery_chemistry.CHEMISTRIES.values():
        hash(chemistry)
    circuit = Circuit("Fridge", 8, 3, 12, 0.03)
    for thing in (US, circuit, scheduled(circuit, US), splits(PANEL, INPUT, 4, -20, 60), worst((Load("a", 1.0),)),
                  shed((Drawn("a", 1.0),), 100), charge(LFP, 100, 0.2, Source("a", 30))):  # fmt: skip
        hash(thing)
    assert fuse_cap_a(BOATS_US, "8 AWG") == math.inf
