"""Outside the range for which a formula holds, and for anything that is no number, physics raises."""

import inspect
import math
from importlib import import_module

import pytest

from engine.physics.axle import PointLoad, axle_loads, axles_under, wheel_loads
from engine.physics.direct_current import alternator_spare_a, battery_current_a, charger_input_a
from engine.physics.fuel import gas_gross_kwh_kg, gas_kg, gas_kwh_kg, generator_l, tank_content_kg, thin_air_frac
from engine.physics.heat import Layer, air_loss_w_k, balance_degc, u_value
from engine.physics.payload_law import (
    capacity_us_kg,
    least_capacity_us_kg,
    least_payload_eu_kg,
    payload_eu_kg,
    running_order_eu_kg,
)
from engine.physics.ranges import OutOfRangeError, within
from engine.physics.stability import static_stability_frac, tilt_deg
from engine.physics.tyre import tyre_kg
from tests.reference import daily_sum
from tests.reference.daily_sum import cell_rise_k, daily_yield_wh


def _one_load(mass_kg, x_m, wheelbase_m):
    return axle_loads([PointLoad(500, 2.0), PointLoad(mass_kg, x_m)], wheelbase_m)


def _one_wheel_load(mass_kg, y_m, wheelbase_m, front_track_m, rear_track_m):
    loads = [PointLoad(500, 2.0), PointLoad(mass_kg, 3.0, y_m)]
    return wheel_loads(loads, wheelbase_m, front_track_m, rear_track_m)


def _one_layer(thickness_m, conductivity_w_mk, framing_frac, framing_conductivity_w_mk, inside_m2k_w, outside_m2k_w):
    layer = Layer(thickness_m, conductivity_w_mk, framing_frac, framing_conductivity_w_mk)
    return u_value((Layer(0.001, 50), layer), inside_m2k_w, outside_m2k_w)


# Function, a sound value for each argument, and a value beyond each end of its range.
CASES = (
    (_one_load, {"mass_kg": 100, "x_m": 3.0, "wheelbase_m": 3.5},
     {"mass_kg": (-600, 3e7), "x_m": (-4e6, 4e6), "wheelbase_m": (0.0, 13)}),
    (axles_under, {"total_kg": 3500, "moment_kgm": 6000, "wheelbase_m": 3.5},
     {"total_kg": (-1, 3e7), "moment_kgm": (-4e8, 4e8), "wheelbase_m": (0.0, 13)}),
    (_one_wheel_load, {"mass_kg": 100, "y_m": 0.4, "wheelbase_m": 3.5, "front_track_m": 1.7, "rear_track_m": 1.7},
     {"mass_kg": (-600, 3e7), "y_m": (-5e7, 5e7), "wheelbase_m": (0.0, 13), "front_track_m": (0.9, 2.7),
      "rear_track_m": (0.9, 2.7)}),
    (static_stability_frac, {"track_m": 1.7, "height_m": 1.1}, {"track_m": (0.9, 2.7), "height_m": (0.1, 4.1)}),
    (tilt_deg, {"stability_frac": 0.8}, {"stability_frac": (0.0, 11)}),
    (tyre_kg, {"index_count": 121}, {"index_count": (74, 151)}),
    (_one_layer,
     {"thickness_m": 0.04, "conductivity_w_mk": 0.033, "framing_frac": 0.1, "framing_conductivity_w_mk": 0.13,
      "inside_m2k_w": 0.13, "outside_m2k_w": 0.04},
     {"thickness_m": (0.0, 11), "conductivity_w_mk": (0.0, 500), "framing_frac": (-0.1, 0.6),
      "framing_conductivity_w_mk": (0.0, 50), "inside_m2k_w": (0.0, 0.4), "outside_m2k_w": (0.0, 0.4)}),
    (air_loss_w_k, {"flow_m3_h": 20.9, "altitude_m": 1650},
     {"flow_m3_h": (-1, 2001), "altitude_m": (-501, 6001)}),
    (balance_degc, {"inside_degc": 18, "output_w": 2000, "loss_w_k": 50},
     {"inside_degc": (-60, 70), "output_w": (-1, 2e9), "loss_w_k": (0.0, 2e6)}),
    (gas_kwh_kg, {"propane_frac": 0.6}, {"propane_frac": (-0.01, 1.01)}),
    (gas_gross_kwh_kg, {"propane_frac": 0.6}, {"propane_frac": (-0.01, 1.01)}),
    (thin_air_frac, {"altitude_m": 1650}, {"altitude_m": (-501, 5001)}),
    (gas_kg, {"energy_wh": 5000, "kwh_kg": 12.8}, {"energy_wh": (-1, 2e12), "kwh_kg": (11.9, 14.1)}),
    (tank_content_kg, {"total_volume_l": 40, "fill_frac": 0.8}, {"total_volume_l": (-1, 1001),
     "fill_frac": (0.4, 0.9)}),
    (generator_l, {"full_l_h": 1.0, "load_frac": 0.5, "running_h": 4.0},
     {"full_l_h": (-1, 21), "load_frac": (-0.01, 1.01), "running_h": (-1, 1001)}),
    (daily_yield_wh,
     {"power_w": 400, "sun_kwh_m2_d": 4.2, "air_degc": 18, "power_coefficient_frac_k": -0.0035, "rise_k": 25},
     {"power_w": (-1, 2e5), "sun_kwh_m2_d": (-0.1, 12.1), "air_degc": (-61, 61),
      "power_coefficient_frac_k": (-0.011, 0.001), "rise_k": (-1, 81)}),
    (cell_rise_k, {"sun_kwh_m2_d": 4.2, "mount": "raised"}, {"sun_kwh_m2_d": (-0.1, 12.1)}),
    (battery_current_a, {"ac_w": 1800, "efficiency_frac": 0.88, "dc_w": 60, "battery_v": 12.8},
     {"ac_w": (-1, 2e8), "efficiency_frac": (0.49, 1.01), "dc_w": (-1, 2e8), "battery_v": (7.9, 71)}),
    (charger_input_a, {"output_a": 30, "output_v": 14.2, "efficiency_frac": 0.92, "input_v": 13.5},
     {"output_a": (-1, 1001), "output_v": (7.9, 71), "efficiency_frac": (0.49, 1.01), "input_v": (7.9, 71)}),
    (alternator_spare_a, {"rating_a": 120, "hot_frac": 0.75, "own_use_a": 45},
     {"rating_a": (-1, 1001), "hot_frac": (0.19, 1.01), "own_use_a": (-1, 1001)}),
    (capacity_us_kg, {"gross_kg": 4500, "unloaded_kg": 3900}, {"gross_kg": (499, 3e7), "unloaded_kg": (499, 3e7)}),
    (least_capacity_us_kg, {"belted_count": 4}, {"belted_count": (-1, 2e6)}),
    (running_order_eu_kg, {"built_kg": 2700, "fuel_kg": 80, "gas_kg": 11, "water_kg": 100},
     {"built_kg": (499, 3e7), "fuel_kg": (-1, 1001), "gas_kg": (-1, 3e7), "water_kg": (-1, 3e7)}),
    (payload_eu_kg, {"gross_kg": 3500, "running_order_kg": 2900, "passengers_count": 3},
     {"gross_kg": (499, 3e7), "running_order_kg": (499, 3e7), "passengers_count": (-1, 2e6)}),
    (least_payload_eu_kg, {"people_count": 4, "length_m": 7.45}, {"people_count": (0, 2e6), "length_m": (1, 21)}),
)  # fmt: skip
EACH = [(f, sound, name, ends) for f, sound, beyond in CASES for name, ends in beyond.items()]
IDS = [f"{f.__name__.strip('_')}-{name}" for f, _, name, _ in EACH]


@pytest.mark.parametrize(("function", "sound", "name", "ends"), EACH, ids=IDS)
def test_beyond_either_end_raises(function, sound, name, ends):
    function(**sound)
    for value in ends:
        with pytest.raises(OutOfRangeError):
            function(**sound | {name: value})


@pytest.mark.parametrize(("function", "sound", "name", "ends"), EACH, ids=IDS)
@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_no_number_raises(function, sound, name, ends, value):
    with pytest.raises(OutOfRangeError):
        function(**sound | {name: value})


def test_every_formula_and_argument_is_tried():
    tried = {f.__name__: set(beyond) for f, _, beyond in CASES}
    tried["axle_loads"], tried["u_value"] = tried["_one_load"] | {"loads"}, tried["_one_layer"] | {"layers"}
    tried["wheel_loads"] = tried["_one_wheel_load"] | {"loads"}
    names = ("stability", "axle", "heat", "fuel", "direct_current", "payload_law")
    for module in (*(import_module(f"engine.physics.{name}") for name in names), daily_sum):
        for fname, f in inspect.getmembers(module, inspect.isfunction):
            if f.__module__ == module.__name__ and not fname.startswith("_"):
                numbers = {n for n, p in inspect.signature(f).parameters.items() if p.annotation is not str}
                missing = numbers - tried.get(fname, set())
                assert missing == set(), f"{module.__name__}.{fname}"


def test_the_ends_of_a_range_belong_to_it():
    assert within("fill_frac", 0.5, 0.5, 0.85) == 0.5
    assert within("fill_frac", 0.85, 0.5, 0.85) == 0.85


def test_the_error_says_what_and_which_range():
    with pytest.raises(OutOfRangeError, match=r"^battery_v: 7 is outside 8 to 70$") as caught:
        battery_current_a(1800, 0.88, 0, 7)
    assert (caught.value.name, caught.value.value, caught.value.low, caught.value.high) == ("battery_v", 7, 8, 70)
