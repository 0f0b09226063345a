"""Worked examples' figures follow from the inputs that stand beside them, by the formula of their page."""

import re
from math import cos, hypot, log, pi, radians, sin
from typing import Any

import pytest

from engine.physics.gas_pipe import pipe_loss_kpa, pipe_w
from engine.physics.panel import Panel
from engine.physics.panel_curve import Strings, string_w
from engine.physics.room_heat import room_of
from engine.physics.warm_up import warm_up_h
from engine.rule import Example
from engine.rules import all_rules
from engine.saying import say

RULES = {r.code: r for r in all_rules()}
WATER_WH_KGK = 1.163
FUSION_WH_KG = 334 / 3.6


def each(*codes: str) -> Any:
    """Examples of these rules, as validated inputs."""
    examples: list[tuple[str, Example]] = [(code, e) for code in codes for e in RULES[code].examples()]
    inputs = [(RULES[c].inputs.model_validate(dict(e.inputs)), f"{c}: {e.note}") for c, e in examples]
    return pytest.mark.parametrize("x", [pytest.param(x, id=name) for x, name in inputs])


def is_near(value: float) -> Any:
    return pytest.approx(value, rel=0.005, abs=1e-9)


def is_near_each(*values: float) -> Any:
    return pytest.approx(values, rel=0.005, abs=1e-9)


def first_ice_h(water_kg: float, loss_w_k: float, out_degc: float) -> float:
    return water_kg * WATER_WH_KGK / loss_w_k * log((10 - out_degc) / (0 - out_degc))


@each("pipe-freezes")
def test_pipes_freeze_by_their_own_size_and_lagging(x: Any) -> None:
    outer, lagged = x.outer_thick_m, x.outer_thick_m + 2 * x.lagging_thick_m
    loss = x.length_run_m / (log(lagged / outer) / (2 * pi * 0.035) + 1 / (pi * lagged * 8))
    kg = x.length_run_m * pi / 4 * x.bore_thick_m**2 * 1000
    assert x.freezes_h == is_near(first_ice_h(kg, loss, x.night_degc))
    assert x.hold_w == is_near(loss * -x.night_degc)
    assert x.solid_h == is_near(x.freezes_h + kg * FUSION_WH_KG / x.hold_w)


@each("tank-freezes")
def test_tanks_freeze_by_their_own_size(x: Any) -> None:
    assert x.tank_l == x.volume_l  # of a full one the whole surface counts
    surface = 6.8 * (x.volume_l / 1000) ** (2 / 3)
    low, usual, high = (
        surface / (1 / film + x.insulation_thick_m / 0.035) for film in ((5, 8, 20) if x.outside else (4, 5, 8))
    )
    assert x.freezes_h == is_near(first_ice_h(x.tank_l, usual, x.cold_degc))
    held = (x.hold_low_w, x.hold_w, x.hold_high_w)
    assert held == is_near_each(*(loss * -x.night_degc for loss in (low, usual, high)))
    assert x.day_wh == is_near(24 * x.hold_w)


@each("tank-heater")
def test_tanks_are_held_by_their_own_size_and_insulation(x: Any) -> None:
    surface = 6.8 * (x.volume_l / 1000) ** (2 / 3)
    losses = (surface / (1 / film + x.insulation_thick_m / 0.035) for film in (5, 8, 20))
    assert (x.hold_low_w, x.hold_w, x.hold_high_w) == is_near_each(*(loss * -x.night_degc for loss in losses))


def test_a_tank_of_thirty_gallons_shows_ice_after_thirteen_hours_at_25_f() -> None:
    mild = RULES["tank-freezes"].inputs.model_validate(dict(RULES["tank-freezes"].examples()[0].inputs))
    assert (mild.cold_degc, mild.tank_l) == (-4, 113.6)  # type: ignore[attr-defined]
    assert mild.freezes_h == pytest.approx(13.0, abs=0.05)  # type: ignore[attr-defined]


COPPER_OHM_MM2_M = {"AWG": 1 / 58, "mm²": 0.0175}


def area_mm2(label: str) -> float:
    """Copper of a gauge (thin to thick, 1/0 and on counted below zero) or of a metric size."""
    number = label.split()[0]
    if label.endswith("mm²"):
        return float(number)
    gauge = 1 - int(number.removesuffix("/0")) if number.endswith("/0") else int(number)
    return float(pi / 4 * (0.127 * 92 ** ((36 - gauge) / 39)) ** 2)


@each("wire-drop")
def test_a_cable_loses_by_its_size_current_and_length(x: Any) -> None:
    ohm = COPPER_OHM_MM2_M[x.cable.split()[-1]] * 2 * x.one_way_run_m / area_mm2(x.cable)
    assert x.drop_v == is_near(x.current_a * ohm)


def test_fourteen_gauge_to_a_fridge_loses_the_same_in_each_example() -> None:
    found = [RULES["wire-drop"].inputs.model_validate(dict(e.inputs)) for e in RULES["wire-drop"].examples()]
    lost = {(x.cable, x.current_a): x.lost for x in found}  # type: ignore[attr-defined]
    assert lost[("14 AWG", 8.0)] == "1.01 V, 8.4 %" and lost[("6 mm²", 8.0)] == "0.35 V, 2.9 %"


CARRIES_A = {
    ("4 AWG", 105): 160, ("2 AWG", 105): 210, ("2/0 AWG", 105): 330, ("4/0 AWG", 60): 300,
    ("35 mm²", 70): 160, ("50 mm²", 70): 210, ("95 mm²", 70): 310, ("120 mm²", 105): 450,
}  # fmt: skip
"""33 CFR 183.425 table 5 with ABYC E-11, and ISO 13297 annex A."""


@each("wire-size")
def test_each_cable_has_its_share_and_its_own_table_value(x: Any) -> None:
    label = x.cable.removeprefix("two of ")
    assert x.share_a == is_near(x.current_a / (1 if label == x.cable else 2))
    assert x.carries_a == CARRIES_A[label, 70 if label.endswith("mm²") else 105]


@each("fuse-size")
def test_fuses_protect_what_the_table_says(x: Any) -> None:
    label = x.cable.removeprefix("two of ")
    assert x.carries_a in {a for (size, _), a in CARRIES_A.items() if size == label}
    cables = 2 if x.cable.startswith("two of ") else 1
    watts = 2000 / 0.88
    assert (x.share_a, x.wanted_a) == is_near_each(watts / 11 / cables, 1.25 * watts / 12 / cables)


def test_figures_of_one_cable_are_said_of_one() -> None:
    for code in ("wire-size", "fuse-size"):
        rule = RULES[code]
        for e in rule.examples():
            cause = say(rule, rule.inputs.model_validate(dict(e.inputs)), "us", "USD").cause
            assert ("each of two " in cause) is e.inputs["cable"].startswith("two of ") and "two of" not in cause


@each("cable-found")
def test_circuits_without_a_cable_are_not_counted_as_having_one(x: Any) -> None:
    assert x.circuits.startswith(f"{24 if x.found else 23} of 24 circuits")
    assert (x.cable == "none") is not x.found


BREAKS_A = {
    ("class T fuse", 12.8): 20000, ("terminal fuse (MRBF)", 12.8): 10000, ("terminal fuse (MRBF)", 25.6): 5000,
    ("NH fuse", 12.8): 25000, ("bolted strip fuse", 51.2): 0, ("ANL fuse", 12.8): 6000,
}  # fmt: skip


@each("fuse-interrupts")
def test_no_fuse_breaks_more_than_its_kind_does_at_that_voltage(x: Any) -> None:
    [breaks] = {a for (title, volts), a in BREAKS_A.items() if title in x.fuse and volts == x.system_v}
    assert x.breaks_a == breaks


@each("battery-continuous")
def test_the_largest_load_follows_from_the_limit(x: Any) -> None:
    assert x.largest_w == is_near((x.limit_a * x.battery_v - x.dc_w) * x.efficiency_frac)


@each("gas-days")
def test_gas_of_a_day_is_the_sum_of_its_parts(x: Any) -> None:
    assert x.use_kg == is_near(x.cooking_kg + x.other_kg + x.heating_kg + x.hot_water_kg)


@each("energy-days")
def test_days_follow_from_use_sun_and_battery(x: Any) -> None:
    lasts = []
    for sun_frac in (1.0, 0.8):
        short = x.use_wh - sun_frac * x.sun_wh - x.driving_wh
        lasts.append(0.0 if not x.usable_wh else 14.0 if short <= 0 else min(14.0, x.usable_wh / short))
    assert (x.lasts_d, x.poor_d) == is_near_each(*lasts)
    said = [float(word) for word in x.lasts.replace(",", "").split() if word.replace(".", "").isdigit()]
    for days in said if "all 14" not in x.lasts else said[1:]:
        assert any(days == pytest.approx(d, abs=0.051) for d in (*lasts, x.usable_wh / x.use_wh))


@each("fan-pair")
def test_the_air_is_changed_by_as_much_as_moves(x: Any) -> None:
    moved_l_h = 1000 * x.moved_m3_h
    assert x.changes_count == round(moved_l_h / x.room_space_l)
    assert x.why.startswith("Two" if x.pair else "One")


@each("shower-hot")
def test_minutes_of_shower_follow_from_store_and_heat(x: Any) -> None:
    if x.why_not:
        assert not x.store_l and not x.low_minutes and x.name == "none"
        return
    drawn_w = WATER_WH_KGK * 60 * x.flow_l_min * (x.skin_degc - x.cold_degc)
    below, above = (
        x.store_l * (x.hot_degc - degc) * WATER_WH_KGK / (drawn_w - x.put_in_heat_w) * 60
        for degc in (x.skin_degc, x.cold_degc)
    )
    assert (x.low_minutes, x.high_minutes) == pytest.approx((below, above), abs=0.051)
    assert x.again_h == is_near(x.store_l * (x.hot_degc - x.cold_degc) * WATER_WH_KGK / x.put_in_heat_w)


@each("string-voltage-cold")
def test_cold_strings_are_as_many_panels_as_they_say(x: Any) -> None:
    count = int(x.name.split()[0])
    assert x.wired == f"all {count} in series"
    assert x.cold_v == is_near(x.label_v * (1 + 0.003 * (25 - x.coldest_degc)))
    assert bool(x.already) <= (x.cold_v > x.highest_v)


@each("string-mix")
def test_titles_and_voltages_of_mixed_strings_agree(x: Any) -> None:
    volts = [float(part.split(" V")[0]) for part in x.strings.split("by itself: ")[1:]]
    panels = [Panel(200, 1.19 * v, v, 1.06 * 200 / v) for v in volts]
    strings = [Strings(p, 1, 1) for p in panels]
    if x.allowed_frac == 0.35:
        kept = string_w(strings[0], 13.6) / 200
    else:
        most = max(sum(string_w(s, v / 10) for s in strings) for v in range(150, 350))
        kept = most / 400
    assert x.lost_frac == pytest.approx(1 - kept, abs=0.005)


def test_notes_of_mixed_strings_name_the_voltages_that_are_shown() -> None:
    for e in RULES["string-mix"].examples():
        for volts in re.findall(r"(\d+(?:\.\d)?) V and (\d+(?:\.\d)?) V", e.note):
            assert all(f"{float(v):.1f} V" in e.inputs["strings"] for v in volts)
    assert "31.0 V" in next(e for e in RULES["string-mix"].examples() if "house roofs" in e.note).inputs["strings"]


@each("condensation-surfaces")
def test_a_surface_is_wet_below_the_dew_point_and_foam_lifts_it_there(x: Any) -> None:
    factor = (x.surface_degc - x.outside_degc) / (x.inside_degc - x.outside_degc)
    if x.cold_room:
        assert x.foam_thick_m == 0
        return
    assert x.dew_point_degc == pytest.approx(10.1, abs=0.05)
    bare = 0.13 / (1 - factor)
    foam = 0.036 * (0.13 * (18 - x.outside_degc) / (18 - x.dew_point_degc) - bare)
    assert x.foam_thick_m == pytest.approx(max(0.0, foam), abs=1e-4)
    # None is wanted exactly where it is dry.
    assert (x.surface_degc < x.dew_point_degc - 1e-9) is (x.foam_thick_m > 1e-9)


@each("warm-up-time")
def test_warming_up_follows_from_the_heaters_output(x: Any) -> None:
    room = room_of(43.2, 7.0, 60, 15, 40, 250, 80)
    takes = warm_up_h(room, x.outside_degc, x.outside_degc, x.inside_degc, x.output_heat_w)
    assert takes == pytest.approx(x.takes_h, abs=0.01)
    assert (x.output_heat_w >= x.needed_heat_w * (1 - 1e-9)) is (x.takes_h <= 4)
    # Who takes longer than four hours to 18 °C from −10 °C does not get to 20 °C from −15 °C in four.
    assert x.grade_count < 3 or x.takes_h < 4
    assert x.grade_count == 3 or x.output_heat_w < 4000
    assert x.night_diesel_l == is_near(x.night_heat_wh / 0.85 / 9950)


def test_hardly_any_warmth_to_make_up_is_a_degree_or_so() -> None:
    at_once = [e.inputs for e in RULES["warm-up-time"].examples() if e.inputs["takes_h"] < 0.05]
    assert at_once and all(x["inside_degc"] - x["outside_degc"] <= 1 for x in at_once)


@each("heater-too-large")
def test_starts_follow_from_need_and_least_output(x: Any) -> None:
    share = x.need_heat_w / x.least_heat_w
    if share >= 1:
        assert x.starts_count == x.lighting_wh == 0
        return
    # 3 min to light and 3 min to run on, and 4 Wh more than running for each start.
    starts = x.lighting_wh / 24 / 4
    assert round(starts) == x.starts_count <= 10 * share
    # Never as often as the air alone would have it.
    assert starts < x.least_heat_w * share * (1 - share) / (23 * 2)


def test_a_heater_that_cycles_half_of_the_time_is_not_said_to_run_steadily() -> None:
    rule = RULES["heater-too-large"]
    said = {
        e.note: say(rule, rule.inputs.model_validate(dict(e.inputs)), "us", "USD").cause
        for e in rule.examples()
        if e.verdict == "ok"
    }
    assert "5,120 BTU/h, so it stops at times and runs at least half of the time" in said["exactly half"]
    assert "so it runs through" in said["in the cold it runs through"]


@each("shore-supply")
def test_hookups_hold_what_their_region_says(x: Any) -> None:
    us = x.breaker_a in (15, 30) and x.holds_a == x.breaker_a
    assert us or x.holds_a == is_near(1.13 * x.breaker_a)
    mains_v = 120 if us else 230
    if x.charger_a:
        output_a = x.charger_a * mains_v * 0.9 / 14.4
        for_hours_a = (0.8 if us else 1.0) * x.breaker_a
        left = max(0.0, for_hours_a - x.loads_a) / x.charger_a
        assert x.left_a == is_near(output_a * min(1.0, left))


@each("gas-pipe")
def test_pipes_carry_by_bore_length_and_the_loss_allowed(x: Any) -> None:
    assert x.allowed_gas_kpa in (pytest.approx(0.1245, rel=1e-3), 0.25)
    left = max(0.02, x.allowed_gas_kpa - x.hose_gas_kpa)
    assert pipe_w(x.bore_thick_m, x.length_run_m, left) == is_near(x.input_heat_w)
    lost = pipe_loss_kpa(x.usual_thick_m, x.length_run_m, x.input_heat_w)
    assert x.loss_gas_kpa == is_near(lost + x.hose_gas_kpa)


def test_the_same_gas_over_the_same_pipe_asks_for_one_bore() -> None:
    for region, bore in (("us", 0.0066), ("eu", 0.0057)):
        small = [
            e.inputs["bore_thick_m"]
            for e in RULES["gas-pipe"].examples()
            if e.shown_in(region) and e.inputs["input_heat_w"] == 6000
        ]
        assert small == [pytest.approx(bore, abs=5e-5)]


@each("gas-rate")
def test_charts_differ_threefold_and_more_boils_from_a_full_cylinder(x: Any) -> None:
    assert x.high_kg_h == is_near(x.low_kg_h * 20 / 7) and x.boils_kg_h == is_near(x.low_kg_h * 12 / 7)
    assert x.full_kg_h > x.boils_kg_h or not x.boils_kg_h
    if x.propane_frac:
        # In step with how much warmer the night is than the gas boils.
        assert x.boils_kg_h == pytest.approx(0.40, abs=0.01) and x.feeds_degc == pytest.approx(-41, abs=0.5)
    else:
        assert not x.high_kg_h and x.feeds_degc == pytest.approx(0.7, abs=0.1)


@each("fan-and-fire")
def test_a_fan_needs_openings_by_the_suction_its_fire_stands(x: Any) -> None:
    pascal = 8 if x.ducted else 4
    m3_s = 236 * (1 - pascal / 50) / 3600
    assert x.want_cm2 == is_near(1e4 * m3_s / (0.6 * (2 * pascal / 1.2) ** 0.5))


@each("hot-water-battery")
def test_a_filling_takes_the_same_heat_each_time(x: Any) -> None:
    heat_wh = 22.7 * WATER_WH_KGK * 44.4
    assert x.need_wh in (is_near(heat_wh), is_near(heat_wh / 0.88))


@each("string-current-hot")
def test_hot_panels_give_what_their_curve_has(x: Any) -> None:
    label_v = x.hot_v / (1 - 0.004 * (x.cell_degc - 25))
    panel = Panel(100, 1.19 * label_v, label_v, 1.06 * 100 / label_v)
    warm = Strings(panel._replace(power_w=84, max_power_v=x.hot_v, open_circuit_v=1.19 * label_v * 0.88), 1, 1)
    share = 1.0 if x.charge_v <= x.hot_v else string_w(warm, x.charge_v) / x.charge_v / (84 / x.hot_v)
    assert x.held_frac == pytest.approx(share, abs=1e-3)


def test_a_flame_is_asked_for_openings_by_its_own_region() -> None:
    found = {
        region: {
            e.note: RULES["fixed-vents"].inputs.model_validate(dict(e.inputs))
            for e in RULES["fixed-vents"].examples()
            if e.shown_in(region)
        }
        for region in ("us", "uk")
    }
    # One square inch for each 1,000 BTU/h; the table of EN 721 for 8 m² and, by area, for 12 m².
    us = found["us"]["exactly enough for a heater that burns the room's air"]
    uk = found["uk"]["a floor of 12 m², exactly enough"]
    assert us.want_cm2 == pytest.approx(6 * 2.54**2)  # type: ignore[attr-defined]
    assert (uk.want_cm2, uk.low_cm2) == (pytest.approx(120), pytest.approx(18))  # type: ignore[attr-defined]
    assert all("Counted too" not in x.cooking for x in found["us"].values())  # type: ignore[attr-defined]
    assert all("Not counted" not in x.cooking for x in found["uk"].values())  # type: ignore[attr-defined]


def strut_relief(count: float, rating_n: float, deg: float) -> float:
    """What two struts lift at the end of a bed of 1.9 m, by the balance of moments."""
    c, s = cos(radians(deg)), sin(radians(deg))
    shortest, longest = hypot(0.6 - 0.2, 0.3), hypot(0.6 * cos(radians(70)) - 0.2, 0.6 * sin(radians(70)) + 0.3)
    length = hypot(0.6 * c - 0.2, 0.6 * s + 0.3)
    force = rating_n * (1 + 0.25 * (longest - length) / (longest - shortest))
    return count * force * abs(0.2 * 0.6 * s + 0.3 * 0.6 * c) / length / 1.9


@each("strut-force", "strut-shut", "strut-hand-force")
def test_struts_carry_by_their_rating_and_beds_weigh_by_their_mass(x: Any) -> None:
    weight_n = x.moved_kg * 9.80665 / 2
    if hasattr(x, "held_n"):
        assert x.weight_n == is_near(weight_n * cos(radians(70)))
        assert x.held_n == is_near(strut_relief(x.struts_count, x.force_n, 70))
    elif hasattr(x, "lifted_n"):
        assert x.weight_n == is_near(weight_n)
        assert x.lifted_n == is_near(strut_relief(x.struts_count, x.force_n, 0))
    else:
        at = weight_n * cos(radians(x.at_deg)) - strut_relief(x.struts_count, x.rating_n, x.at_deg)
        assert x.force_n * x.hand_along_m / 1.9 == is_near(abs(at))
        assert (at > 0) is (x.way == "to lift it")


@each("pump-cycles")
def test_a_vessel_gives_what_its_air_lets_out(x: Any) -> None:
    air, starts, stops = (kpa + 101.325 for kpa in (x.precharge_kpa, x.cut_in_kpa, x.cut_out_kpa))
    gives_l = x.volume_l * air * (1 / starts - 1 / stops) if air <= starts else 0
    assert x.gives_l == is_near(gives_l)
    assert x.every_s == is_near(60 * (gives_l / x.drawn_l_min + gives_l / (x.pump_l_min - x.drawn_l_min)))


@each("heater-fuel-days")
def test_half_the_tank_lasts_by_what_a_day_burns(x: Any) -> None:
    assert x.available_d == is_near(min(365, x.half_tank_l / x.use_l))
