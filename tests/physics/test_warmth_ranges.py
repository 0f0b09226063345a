"""Warmth, damp, air, water and gas: outside the range for which a formula holds, and for what is no number, it
raises."""

import inspect
import math
from importlib import import_module

import pytest

from engine.physics.air_change import Fan, fan_m3_h, fan_pair, opening_m3_h, stack_m3_h, together_m3_h, wind_m3_h
from engine.physics.condensation import (
    dry_up_to_frac,
    layer_faces_degc,
    least_factor_frac,
    least_foam_m,
    surface_degc,
    surface_factor_frac,
)
from engine.physics.cooling import Sunlit, capacity_frac, heat_gains, input_frac
from engine.physics.damp import (
    air_for_humidity_m3_h,
    burnt_water_kg_kg,
    settled_frac,
    source_kg_h,
)
from engine.physics.damp_hours import DampHour, damp_hours
from engine.physics.fixed_vents import fixed_vents, flame_opening_m2, locker_vent_us_m2
from engine.physics.freezing import after_night, frost, lasting_degc, pipe_l, pipe_loss_w_k, tank_loss_w_k
from engine.physics.gas_pipe import least_bore_m, pipe_loss_kpa, pipe_w
from engine.physics.gas_rate import Cylinder, lying_wetted_m2, vapour_kg_h, wetted_m2
from engine.physics.gas_supply import content_kg
from engine.physics.gas_vapour import (
    coldest_feed_degc,
    evaporation_wh_kg,
    left_propane_frac,
    mix_kpa,
    vapour_pressure_kpa,
)
from engine.physics.hot_water import (
    heat_up_h,
    heat_up_wh,
    instant_flow_l_min,
    mixed_l,
    recovery_l_h,
    shower_minutes,
    stands_degc,
)
from engine.physics.moist_air import (
    air_density_kg_m3,
    dew_point_degc,
    relative_humidity_frac,
    saturation_kpa,
    vapour_kpa,
    water_kg_m3,
)
from engine.physics.pipe_flow import Pipe, drop_curve, drop_kpa, friction_frac, viscosity_m2_s
from engine.physics.ranges import OutOfRangeError
from engine.physics.room_heat import Room, RoomHour, after, room_hours, room_of
from engine.physics.solar_gain import air_day_degc, shell_sun, sol_air_degc, sun_through_w
from engine.physics.taps import PumpCurve, Tap, between_starts_s, drawdown_l, tap_l_min, two_taps
from engine.physics.warm_up import cycle_h, duty_frac, heating_grade, warm_up_h, warm_up_w

VAN = room_of(43.2, 7.0, 60, 15, 40, 250, 80)


def _faces(resistance_m2k_w, inside_degc, outside_degc):
    return layer_faces_degc((0.13, resistance_m2k_w), inside_degc, outside_degc)


def _damp(volume_m3, surface_m2, start_frac, on_surface_kg, **hour):
    return damp_hours((DampHour(**hour),), volume_m3, surface_m2, start_frac, on_surface_kg)


def _room(outside_degc, skin_degc, air_gain_w, mass_gain_w, heating_w, cooling_w, start_degc):
    hour = RoomHour(outside_degc, skin_degc, air_gain_w, mass_gain_w, 18, heating_w, 26, cooling_w)
    return room_hours(VAN, (hour,), start_degc)


def _later(start_degc, power_w, time_h):
    return after(VAN, RoomHour(0, 0), start_degc, 10, power_w, time_h)


def _warm(start_degc, outside_degc, target_degc, output_w, gains_w):
    return warm_up_h(VAN, start_degc, outside_degc, target_degc, output_w, gains_w)


def _warm_w(target_degc, within_h):
    return warm_up_w(VAN, 0, 0, target_degc, within_h)


def _grade(output_w):
    return heating_grade(VAN, output_w)


def _cycle(air_wh_k, mass_wh_k, coupling_w_k, band_k, need_w, least_w, least_run_h):
    return cycle_h(Room(air_wh_k, mass_wh_k, 7, coupling_w_k, 43), band_k, need_w, least_w, least_run_h)


def _sunlit(area_m2, u_w_m2k, skin_degc, glass_sun_w, people_count, equipment_w, air_m3_h, outside_degc, inside_degc):
    shell = (Sunlit("roof", area_m2, u_w_m2k, skin_degc),)
    return heat_gains(shell, glass_sun_w, people_count, equipment_w, air_m3_h, outside_degc, inside_degc)


def _fan(free_m3_h, stall_kpa, opening_m2):
    return fan_m3_h(Fan(free_m3_h, stall_kpa), opening_m2)


def _fans(free_m3_h, stall_kpa, openings_m2):
    return fan_pair(Fan(300, 0.05), Fan(free_m3_h, stall_kpa), openings_m2)


def _drop(length_m, bore_m, fittings_count, roughness_m, flow_l_min, water_degc):
    pipe = Pipe(length_m, bore_m, fittings_count, roughness_m)
    lost_kpa = drop_kpa(pipe, flow_l_min, water_degc)
    assert drop_curve(pipe, water_degc)(flow_l_min) == lost_kpa
    return lost_kpa


def _tap(flow_l_min, at_kpa, rise_m, pressure_kpa):
    return tap_l_min(Tap(flow_l_min, at_kpa, rise_m), pressure_kpa)


def _taps(open_l_min, shut_kpa, water_degc):
    return two_taps(PumpCurve(open_l_min, shut_kpa), Pipe(2, 0.01), (Pipe(1, 0.01), Tap(6)), None, water_degc)


def _wetted(full_kg, diameter_m, fill_frac):
    return wetted_m2(Cylinder(full_kg, diameter_m), fill_frac)


# Function, and for each argument a sound value with one beyond each end of its range.
CASES = (
    (saturation_kpa, {"air_degc": (20, -61, 101)}),
    (vapour_kpa, {"air_degc": (20, -61, 101), "humidity_frac": (0.5, -0.1, 1.1)}),
    (dew_point_degc, {"vapour_pressure_kpa": (1.2, 0.001, 101)}),
    (water_kg_m3, {"air_degc": (20, -61, 101), "humidity_frac": (0.5, -0.1, 1.1)}),
    (relative_humidity_frac, {"air_degc": (20, -61, 101), "held_kg_m3": (0.01, -0.1, 0.7)}),
    (air_density_kg_m3, {"air_degc": (20, -61, 61), "humidity_frac": (0.5, -0.1, 1.1), "pressure_kpa": (100, 29,
    111)}), (surface_factor_frac, {"u_w_m2k": (1, -0.1, 10.1), "inside_m2k_w": (0.13, 0.03, 0.6)}),
    (surface_degc, {"inside_degc": (20, -61, 61), "outside_degc": (0, -61, 61), "factor_frac": (0.7, -0.1, 1.1)}),
    (dry_up_to_frac, {"inside_degc": (20, -61, 61), "outside_degc": (0, -61, 61), "factor_frac": (0.7, -0.1, 1.1)}),
    (least_factor_frac, {"inside_degc": (20, -31, 61), "humidity_frac": (0.5, 0.04, 1.1), "outside_degc": (0, -61, 20),
                         "surface_humidity_frac": (0.8, 0.4, 1.1)}),
    (least_foam_m, {"bare_m2k_w": (0.17, 0.04, 11), "conductivity_w_mk": (0.035, 0.01, 0.2), "inside_degc": (20, -31,
    61),                 "humidity_frac": (0.5, 0.04, 1.0), "outside_degc": (0, -61, 20), "inside_m2k_w": (0.13, 0.03,
    0.6)}), (_faces, {"resistance_m2k_w": (1, -0.1, 101), "inside_degc": (20, -61, 61), "outside_degc": (0, -61, 61)}),
    (burnt_water_kg_kg, {"propane_frac": (0.6, -0.1, 1.1)}),
    (source_kg_h, {"asleep_count": (2, -1, 31), "awake_count": (1, -1, 31), "open_gas_kg_h": (0.1, -0.1, 3.1),
                   "wet_gear_kg_h": (0.1, -0.1, 2.1)}),
    (air_for_humidity_m3_h, {"water_kg_h": (0.1, -0.1, 11), "inside_degc": (20, -41, 51), "humidity_frac": (0.6, -0.1,
    1.1),                          "outside_degc": (0, -61, 51), "outside_frac": (0.9, -0.1, 1.1)}),
    (settled_frac, {"water_kg_h": (0.1, -0.1, 11), "air_m3_h": (25, 0.9, 2001), "inside_degc": (20, -41, 51),
                    "outside_degc": (0, -61, 51), "outside_frac": (0.9, -0.1, 1.1)}),
    (_damp, {"source_kg_h": (0.1, -0.1, 101), "air_m3_h": (25, -1, 2001), "inside_degc": (18, -41, 51),
             "outside_degc": (0, -41, 51), "outside_frac": (0.9, -0.1, 1.1), "coldest_degc": (5, -41, 51),
             "volume_m3": (11, 0.9, 201), "surface_m2": (1, -1, 51), "start_frac": (0.5, -0.1, 1.1),
             "on_surface_kg": (0, -1, 10_001)}),
    (room_of, {"shell_w_k": (43, 0.4, 2001), "direct_w_k": (7, -1, 2001), "inside_m2": (60, 0.9, 501),
               "air_m3": (15, 0.4, 201), "light_kg": (40, -1, 501), "heavy_kg": (250, 0.05, 5001),
               "water_kg": (80, -1, 2001)}),
    (_room, {"outside_degc": (0, -61, 91), "skin_degc": (0, -61, 91), "air_gain_w": (70, -2e4, 6e4),
             "mass_gain_w": (70, -2e4, 6e4), "heating_w": (2000, -1, 2e5), "cooling_w": (0, -1, 2e5),
             "start_degc": (10, -61, 91)}),
    (_later, {"start_degc": (10, -61, 91), "power_w": (1000, -2e5, 2e5), "time_h": (2, -1, 2e4)}),
    (_warm, {"start_degc": (0, -61, 61), "outside_degc": (0, -61, 61), "target_degc": (18, -61, 61),
             "output_w": (3000, -1, 2e5), "gains_w": (0, -1, 2e4)}),
    (_warm_w, {"target_degc": (18, -61, 61), "within_h": (2, 0.04, 101)}),
    (_grade, {"output_w": (3000, -1, 2e5)}),
    (duty_frac, {"need_w": (500, -1, 2e5), "least_w": (1500, -1, 2e5)}),
    (_cycle, {"band_k": (2, 0.1, 11), "need_w": (500, -1, 2e5), "least_w": (1500, -1, 2e5), "least_run_h": (0.1, -1,
    2.1), "air_wh_k": (20, 0.05, 2e4), "mass_wh_k": (200, 0.005, 2e5), "coupling_w_k": (450, 0.05, 2e5)}),
    (sol_air_degc, {"outside_degc": (35, -51, 61), "sun_w_m2": (800, -1, 1501), "absorbed_frac": (0.5, -0.1,
    1.1),                 "outside_m2k_w": (0.04, 0.004, 0.3), "to_sky_w_m2": (0, -1, 151)}),
    (sun_through_w, {"glass_m2": (1, -1, 101), "gain_frac": (0.7, -0.1, 1.1), "sun_w_m2": (500, -1, 1501),
                     "shaded_frac": (0, -0.1, 1.1)}),
    (shell_sun, {"latitude_deg": (45, -91, 91), "day_of_year": (196, 0, 367), "altitude_m": (0, -101, 5001),
                 "turbidity_multiple": (3.5, 1.4, 8.1), "ground_frac": (0.2, -0.1, 1.1)}),
    (air_day_degc, {"lowest_degc": (15, -61, 31), "highest_degc": (30, -61, 61)}),
    (capacity_frac, {"outside_degc": (35, 17.9, 46.3), "wet_bulb_degc": (19.4, 12, 24.1)}),
    (input_frac, {"outside_degc": (35, 17.9, 46.3), "wet_bulb_degc": (19.4, 12, 24.1)}),
    (_sunlit, {"area_m2": (10, -1, 501), "u_w_m2k": (0.7, -0.1, 10.1), "skin_degc": (45, -51, 121),
               "glass_sun_w": (500, -1, 3e4), "people_count": (2, -1, 31), "equipment_w": (50, -1, 3e4),
               "air_m3_h": (20, -1, 2001), "outside_degc": (35, -51, 61), "inside_degc": (26, -51, 61)}),
    (opening_m3_h, {"area_m2": (0.04, -0.1, 5.1), "pressure_kpa": (0.01, -1.1, 1.1)}),
    (_fan, {"free_m3_h": (300, 0.9, 5001), "stall_kpa": (0.05, 0.004, 1.1), "opening_m2": (0.04, -0.1, 5.1)}),
    (_fans, {"free_m3_h": (300, 0.9, 5001), "stall_kpa": (0.05, 0.004, 1.1), "openings_m2": (0.04, 1e-4, 5.1)}),
    (stack_m3_h, {"low_m2": (0.01, -0.1, 5.1), "high_m2": (0.01, -0.1, 5.1), "height_m": (1.8, -0.1, 5.1),
                  "inside_degc": (18, -51, 61), "outside_degc": (0, -51, 61)}),
    (wind_m3_h, {"first_m2": (0.01, -0.1, 5.1), "second_m2": (0.01, -0.1, 5.1), "wind_m_s": (3, -1, 31),
                 "pressure_difference_frac": (0.9, -0.1, 2.1)}),
    (together_m3_h, {"first_m3_h": (10, -1, 2e4), "second_m3_h": (10, -1, 2e4)}),
    (flame_opening_m2, {"input_w": (2000, -1, 6e4)}),
    (mixed_l, {"stored_l": (20, -1, 501), "hot_degc": (60, -1, 100), "cold_degc": (10, -1, 38), "mixed_degc": (38, 10,
    100)}), (shower_minutes, {"stored_l": (20, -1, 501), "hot_degc": (60, -1, 100), "cold_degc": (10, -1, 38),
                      "flow_l_min": (6, 0.4, 31), "heat_w": (1700, -1, 6e4), "mixed_degc": (38, 10, 100)}),
    (instant_flow_l_min, {"heat_w": (1e4, -1, 6e4), "cold_degc": (10, -1, 38), "mixed_degc": (38, 10, 100)}),
    (heat_up_wh, {"volume_l": (20, -1, 2e5), "cold_degc": (10, -1, 61), "hot_degc": (60, 9, 100)}),
    (heat_up_h, {"volume_l": (20, -1, 2e5), "cold_degc": (10, -1, 61), "hot_degc": (60, 9, 100), "heat_w": (1700, 0.9,
    6e4),              "loss_w_k": (1, -1, 51), "around_degc": (20, -41, 61)}),
    (stands_degc, {"volume_l": (20, 0.05, 1001), "hot_degc": (60, -1, 100), "loss_w_k": (1, -1, 51),
                   "around_degc": (20, -41, 61), "time_h": (12, -1, 1001)}),
    (recovery_l_h, {"heat_w": (1700, -1, 6e4), "rise_k": (50, 0.9, 100)}),
    (tank_loss_w_k, {"surface_m2": (1.6, 0.005, 31), "insulation_m": (0.02, -0.1, 0.3), "conductivity_w_mk": (0.035,
    0.01, 0.2),                  "film_w_m2k": (8, 2, 61)}),
    (pipe_loss_w_k, {"length_m": (1, 0.005, 101), "outer_m": (0.015, 0.003, 0.2), "insulation_m": (0.01, -0.1, 0.2),
                     "conductivity_w_mk": (0.035, 0.01, 0.2), "film_w_m2k": (8, 2, 61)}),
    (pipe_l, {"length_m": (1, -1, 101), "bore_m": (0.012, 0.001, 0.2)}),
    (frost, {"water_kg": (100, 5e-4, 2001), "water_degc": (10, -1, 61), "loss_w_k": (12, 5e-5, 501),
             "around_degc": (-10, -61, 41)}),
    (lasting_degc, {"water_kg": (100, 5e-4, 2001), "water_degc": (10, 0.05, 61), "loss_w_k": (12, 5e-5, 501),
                    "time_h": (8, 0.005, 10001)}),
    (after_night, {"water_kg": (100, 5e-4, 2001), "water_degc": (10, -1, 61), "loss_w_k": (12, 5e-5, 501),
                   "around_degc": (-10, -61, 41), "time_h": (8, -1, 2e4)}),
    (viscosity_m2_s, {"water_degc": (20, -1, 100)}),
    (friction_frac, {"reynolds_count": (1e4, 0.9, 2e8), "roughness_frac": (1e-4, -1e-3, 0.06)}),
    (_drop, {"length_m": (5, -1, 201), "bore_m": (0.01, 0.002, 0.2), "fittings_count": (3, -1, 2e5),
             "roughness_m": (1e-6, -1e-6, 6e-4), "flow_l_min": (6, -1, 201), "water_degc": (15, -1, 100)}),
    (_tap, {"flow_l_min": (6, 0.4, 61), "at_kpa": (100, 4, 1001), "rise_m": (1, -2.1, 5.1), "pressure_kpa": (100, -1,
    2001)}), (_taps, {"open_l_min": (10, 0.4, 61), "shut_kpa": (280, 9, 1001), "water_degc": (15, -1, 100)}),
    (drawdown_l, {"volume_l": (2, -1, 201), "precharge_kpa": (140, -1, 151), "cut_in_kpa": (150, -1, 281),
                  "cut_out_kpa": (280, 149, 1001)}),
    (between_starts_s, {"gives_l": (0.5, -0.1, 201), "drawn_l_min": (3, 0, 6), "pump_l_min": (6, 3, 201)}),
    (mix_kpa, {"propane_frac": (0.6, -0.1, 1.1), "liquid_degc": (0, -61, 61)}),
    (left_propane_frac, {"propane_frac": (0.6, -0.1, 1.1), "used_frac": (0.5, -0.1, 1.0), "liquid_degc": (0, -61, 61)}),
    (coldest_feed_degc, {"propane_frac": (0.6, -0.1, 1.1), "need_kpa": (65, -1, 301), "outside_kpa": (100, 49, 111)}),
    (evaporation_wh_kg, {"propane_frac": (0.6, -0.1, 1.1), "liquid_degc": (0, -61, 61)}),
    (content_kg, {"whole_volume_l": (26, -1, 501), "filling_kg_l": (0.42, 0.37, 0.53)}),
    (_wetted, {"full_kg": (11, 0.1, 61), "diameter_m": (0.3, 0.07, 0.9), "fill_frac": (0.5, -0.1, 1.1)}),
    (lying_wetted_m2, {"diameter_m": (0.3, 0.05, 1.1), "length_m": (0.9, 0.1, 3.1), "filled_frac": (0.5, -0.1, 0.9)}),
    (vapour_kg_h, {"wall_m2": (0.4, -0.1, 11), "air_degc": (0, -61, 51), "propane_frac": (1, -0.1, 1.1),
                   "need_kpa": (65, -1, 301)}),
    (pipe_w, {"bore_m": (0.008, 0.003, 0.07), "length_m": (6, 0.9, 61), "loss_kpa": (0.1, 0.01, 1.1)}),
    (pipe_loss_kpa, {"bore_m": (0.008, 0.003, 0.07), "length_m": (6, 0.9, 61), "input_w": (1e4, -1, 6e5)}),
    (locker_vent_us_m2, {"gas_kg": (18, -0.1, 501)}),
    (least_bore_m, {"length_m": (6, 0.9, 61), "input_w": (1e4, 99, 6e5), "loss_kpa": (0.1, 0.01, 1.1)}),
)  # fmt: skip
EACH = [(f, {n: v[0] for n, v in args.items()}, name, args[name][1:]) for f, args in CASES for name in args]
IDS = [f"{f.__name__.strip('_')}-{name}" for f, _, name, _ in EACH]

# With arguments of a set of words; the numbers are tried here.
WORDED = (
    (lambda x: fixed_vents(x, True), (0, 10.1)),
    (lambda x: vapour_pressure_kpa("propane", x), (-61, 61)),
)


@pytest.mark.parametrize(("function", "sound", "name", "ends"), EACH, ids=IDS)
def test_beyond_either_end_raises(function, sound, name, ends):
    function(**sound)
    for value in (*ends, math.nan, math.inf, -math.inf):
        with pytest.raises(OutOfRangeError):
            function(**sound | {name: value})


@pytest.mark.parametrize(("function", "ends"), WORDED)
def test_numbers_beside_words_are_held_too(function, ends):
    for value in (*ends, math.nan, math.inf):
        with pytest.raises(OutOfRangeError):
            function(value)


MODULES = (
    "moist_air", "condensation", "damp", "solar_gain", "cooling", "air_change", "fixed_vents",
    "hot_water", "freezing", "pipe_flow", "gas_vapour", "gas_supply", "gas_pipe", "room_heat", "warm_up",
    "damp_hours", "gas_rate", "taps",
)  # fmt: skip


def test_every_number_of_every_formula_is_tried():
    tried = {f.__name__.strip("_"): set(args) for f, args in CASES}
    for module_name in MODULES:
        module = import_module(f"engine.physics.{module_name}")
        for name, wrapped in inspect.getmembers(module, callable):
            f = inspect.unwrap(wrapped)
            if not inspect.isfunction(f) or f.__module__ != module.__name__ or name.startswith("_"):
                continue
            numbers = {
                n for n, p in inspect.signature(f).parameters.items() if p.annotation in (float, "float", "int", int)
            }
            if name in tried:
                assert numbers <= tried[name], f"{module_name}.{name}"
            elif numbers:
                users = [g for g, _ in CASES if name in inspect.unwrap(g).__code__.co_names]
                worded = [g for g, _ in WORDED if name in inspect.unwrap(g).__code__.co_names]
                assert users or worded, f"{module_name}.{name}"
