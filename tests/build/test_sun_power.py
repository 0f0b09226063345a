"""What the sun's yield loses: to shade, to one voltage for unlike panels, to switching controllers, to their limits."""

from dataclasses import replace
from math import radians, tan

import pytest

from engine.build import work_out
from engine.build.roof import roof_figures
from engine.build.roof_things import beside, shared_m2
from engine.build.sun_power import beyond_usual, charging_v, held_back_wh, mean_sun_wh_d, shade_off_frac, sun_system
from engine.build.trip_energy import trip_energy
from engine.physics.cell import KEPT_FRAC, LOSSES_FRAC
from engine.physics.month_sun import mean_sun_wh
from engine.physics.panel import Panel
from engine.physics.panel_curve import Strings, fall_in_heat, shared_frac
from engine.physics.panel_day import SHADE_AT_DEG, PanelGroup
from engine.physics.roof_packing import Rect
from engine.physics.roof_shade import shade_reach_m
from engine.physics.weather_years import Climate
from engine.rules import judge


def test_shade_beyond_the_usual_loss_is_taken_off_by_the_height_of_the_sun(yard):
    build = yard(options={"panel-37": 2, "controller": 1, "lfp-200": 1}, months=(6,))
    figures = work_out(build)
    bare = sun_system(build, figures.roof, figures.power.strings, 13.5)
    assert bare.panels[0].shaded_frac == () and bare.panels[0].kept_frac == KEPT_FRAC
    # What is no more than the usual loss is not counted a second time.
    assert beyond_usual((0.03,) * 9) == () and LOSSES_FRAC["shading"] == 0.03
    # A tenth all day takes (1 − 0.9/0.97) of each hour.
    shaded = figures.roof._replace(shaded_by_height_frac=(0.1,) * 9)
    assert shade_off_frac(build, shaded, 6) == pytest.approx(1 - 0.9 / 0.97)
    dim = sun_system(build, shaded, figures.power.strings, 13.5)
    light, dull = (mean_sun_wh_d(build, s, 6) for s in (bare, dim))
    assert dull / light == pytest.approx(0.9 / 0.97, rel=0.005)


def test_winter_s_low_sun_is_shaded_more_than_summer_s(yard):
    kit = {"panel-300": 2, "mast": 1, "controller": 1, "lfp-200": 1}
    build = yard(options=kit, months=(6,))
    roof = work_out(build).roof
    assert list(roof.shaded_by_height_frac) == sorted(roof.shaded_by_height_frac, reverse=True)
    assert roof.shaded_by_height_frac[0] > 0 and roof.shaded_by_height_frac[-1] == 0
    # Twice as much, so that the usual loss is well behind: June is told with June's sun, and December with its own.
    tall = roof._replace(shaded_by_height_frac=tuple(min(1.0, 10 * x) for x in roof.shaded_by_height_frac))
    off = [shade_off_frac(build, tall, m) for m in (12, 3, 6)]
    assert off == sorted(off, reverse=True) and off[0] > 2 * off[2] >= 0


def test_shade_by_height_is_the_area_of_shadows(yard):
    # A mast of 0.1 m by 0.1 m, 0.315 m above the panels' glass.
    build = yard(options={"panel-300": 2, "mast": 1}, months=(1,))
    figures = roof_figures(build)
    [mast] = [o.body for o in figures.obstacles if o.height_m == pytest.approx(0.4)]
    area = sum(p.length_m * p.width_m for p in figures.packing.placed)
    for degrees, share in zip(SHADE_AT_DEG, figures.shaded_by_height_frac, strict=True):
        reach = shade_reach_m(0.4 - 0.085, degrees) if degrees >= 10 else (0.4 - 0.085) / tan(radians(degrees))
        strips = [beside(mast, side, reach) for side in ("front", "rear", "left", "right")]
        shaded = sum(
            shared_m2(Rect(p.x_m, p.y_m, p.length_m, p.width_m), s) for p in figures.packing.placed for s in strips
        )
        assert share == pytest.approx(shaded / 4 / area, abs=1e-9)


MIXED = {"panel-37": 2, "panel-13a-in-1": 1, "lfp-200": 1, "lamp-12": 1}


def sun(build):
    figures = work_out(build)
    return figures.power, sun_system(build, figures.roof, figures.power.strings, charging_v(figures.power.bank))


def test_unlike_panels_on_one_controller_bring_less_than_on_two(yard):
    one, together = sun(yard("long-bus", MIXED | {"controller-100": 1}, place="boston"))
    two, apart = sun(yard("long-bus", MIXED | {"controller": 1, "controller-100": 1}, place="boston"))
    [c] = together.controllers
    curves = tuple(Strings(g.panel, g.layout.series, g.layout.parallel) for g in c.strings)
    assert c.tracked_frac == shared_frac(curves) < 0.95
    assert [x.tracked_frac for x in apart.controllers] == [1.0, 1.0]
    assert one.sun_wh_d == pytest.approx(two.sun_wh_d * c.tracked_frac, rel=0.01)
    # What is lost is what the others bring more.
    assert one.sun_wh_d + held_back_wh(one.controllers, 0, one.sun_wh_d) == pytest.approx(two.sun_wh_d, rel=0.01)


def test_panels_of_one_kind_lose_nothing_to_each_other(yard):
    power, system = sun(yard("long-bus", {"panel-37": 3, "controller": 1, "lfp-200": 1}))
    assert [c.tracked_frac for c in system.controllers] == [1.0]
    assert sum(g.power_w * g.kept_frac for g in system.panels) == pytest.approx(power.panel_w * KEPT_FRAC)


def changed(build, option_id, **update):
    """The same build with other data of one option's only facet."""
    parts = tuple(
        replace(p, option=p.option.model_copy(update={"facets": (p.option.facets[0].model_copy(update=update),)}))
        if p.option.id == option_id
        else p
        for p in build.parts
    )
    return replace(build, parts=parts)


def test_a_switching_controller_gives_the_panels_current_at_the_battery_s_voltage(yard):
    build = yard("long-bus", {"panel-37": 2, "controller": 1, "lfp-200": 1})
    power, system = sun(changed(build, "controller", technology="pwm"))
    [group] = power.strings
    volts = charging_v(power.bank)
    assert (group.layout.series, volts) == (1, pytest.approx(13.5, abs=0.01))
    # 31 V at greatest power: at 13.5 V it gives all but its short-circuit current, warm or cold.
    [c], [panels] = system.controllers, system.panels
    assert c.full_a == pytest.approx(2 * group.panel.short_circuit_a * 0.96, rel=1e-3)
    assert c.tracked_frac == pytest.approx(group.panel.short_circuit_a * 13.5 / group.panel.power_w, rel=2e-3)
    assert panels.power_coefficient_frac_k == 0
    [held] = [f for f in judge(build, work_out(build)._replace(power=power)) if f.rule == "string-mix"]
    assert held.verdict == "tight" and held.measured == pytest.approx(1 - c.tracked_frac)


def test_panels_below_the_battery_s_voltage_bring_nothing_and_are_named_once(yard):
    build = yard("long-bus", {"panel-37": 1, "controller": 1, "lfp-24v-200": 1})
    build = changed(build, "controller", technology="pwm")
    build = changed(build, "panel-37", max_power_v=20.0, open_circuit_v=24.0)
    figures = work_out(build)
    [c] = figures.power.controllers
    assert c.tracked_frac == 0 and figures.power.sun_wh_d == 0
    figures = figures._replace(energy=trip_energy(build, figures))
    said = [f for f in judge(build, figures) if f.rule.startswith("string-") and f.verdict != "ok"]
    assert [(f.rule, f.verdict) for f in said] == [("string-current-hot", "fails")]


def test_a_switching_controller_beside_a_tracking_one_stays_switching(yard):
    build = yard("long-bus", MIXED | {"controller": 1, "controller-100": 1})
    tracked, _ = sun(build)
    power, system = sun(changed(build, "controller", technology="pwm"))
    on = {c.strings[0].controller_id: c for c in system.controllers}
    assert on["controller-100"].tracked_frac == 1 and on["controller"].tracked_frac < 0.6
    assert power.sun_wh_d < 0.9 * tracked.sun_wh_d
    assert {g.unit: g.power_coefficient_frac_k for g in system.panels}[power.controllers.index(on["controller"])] == 0


@pytest.mark.parametrize(
    ("limit_a", "quick_says", "year_says"), [(24, "tight", "tight"), (40, "tight", "ok"), (43, "ok", "ok")]
)
def test_each_controller_clips_alone_and_a_hair_is_no_warning(yard, limit_a, quick_says, year_says):
    build = yard("long-bus", {"panel-37": 6, "controller-100": 1, "controller": 1, "lfp-200": 2, "lamp-12": 1})
    build = changed(build, "controller", max_output_a=limit_a)
    figures = work_out(build)
    # Three panels of 250 W on each: 53 A by their ratings, 43 A on a bright day; 60 A and 40 A pass all six together.
    large, small = figures.power.controllers
    assert (large.limit_a, small.limit_a) == (60, limit_a) and small.full_a == large.full_a
    assert small.full_a == pytest.approx(750 * 0.96 / 13.5, rel=1e-3) and small.bright_a == pytest.approx(42.6, abs=0.1)
    known = figures._replace(energy=trip_energy(build, figures))
    for stage, says in ((figures, quick_says), (known, year_says)):
        of_large, of_small = (f for f in judge(build, stage) if f.rule == "solar-controller")
        assert of_large.verdict == "ok" and of_small.verdict == says and of_small.limit == limit_a
    lost = known.energy.clipped
    assert lost.lost_wh[0] == 0 and (lost.share_frac[1] > 0.01) == (year_says == "tight")
    assert ("kWh" in of_small.cause) == (year_says == "tight")


ONE = Strings(Panel(425, 37.2, 31.2, 14.0), 1, 1)


def test_a_higher_voltage_is_missed_sooner_and_none_is_missed_before_the_best_one_lies_below_it() -> None:
    volts = (22.0, 25.0, 27.5, 29.4)
    falls = [fall_in_heat(ONE, v) for v in volts]
    for (from_degc, lost_frac_k), v in zip(falls, volts, strict=True):
        reached_degc = 25 + (1 - v / 31.2) / 0.004
        assert lost_frac_k == 0 or from_degc > reached_degc - 5
    left = [[max(0.0, 1 - k * max(0.0, degc - at)) for at, k in falls] for degc in range(20, 120, 10)]
    assert all(row == sorted(row, reverse=True) for row in left) and left[-1][-1] < 0.3


def test_two_in_series_stay_above_any_battery_and_a_small_panel_below_a_large_one() -> None:
    assert fall_in_heat(ONE._replace(series=2), 29.4) == (0.0, 0.0)
    small = Strings(Panel(100, 22.0, 18.2, 5.9), 1, 1)
    from_degc, lost_frac_k = fall_in_heat(small, 27.5)
    assert 1 - lost_frac_k * (25 - from_degc) <= 0


def test_hot_cells_below_the_battery_s_voltage_bring_less_only_where_it_is_hot() -> None:
    whole = PanelGroup(425.0)
    held = whole._replace(falls_from_degc=50.0, falls_frac_k=0.03)
    desert = Climate(33.0, (7.0,) * 12, (34.0,) * 12, (26.0,) * 12, (46.0,) * 12)
    north = Climate(57.0, (0.8,) * 12, (4.0,) * 12, (-4.0,) * 12, (12.0,) * 12)
    assert mean_sun_wh(desert, 7, (held,)) < 0.95 * mean_sun_wh(desert, 7, (whole,))
    assert mean_sun_wh(north, 1, (held,)) == mean_sun_wh(north, 1, (whole,))
    # One that never reaches the voltage brings nothing.
    never = whole._replace(falls_from_degc=-60.0, falls_frac_k=0.05)
    assert mean_sun_wh(desert, 7, (never,)) == 0


def test_a_third_kind_hangs_where_it_adds_most(yard):
    # Three of 31 V and one of 23 V have a controller each; one of 38 V adds more beside 31 V, which is not the last.
    kit = {"panel-37": 3, "panel-13a-in-1": 1, "panel-300": 1, "controller": 1, "controller-100": 1, "lfp-200": 1}
    power, _ = sun(yard("long-bus", kit, place="boston"))
    units = {g.panel_id: g.unit for g in power.strings}
    assert units == {"panel-37": 0, "panel-300": 0, "panel-13a-in-1": 1}


def test_a_kind_left_unconnected_takes_nothing_from_the_others_and_is_named(yard):
    large, small = {"panel-37": 3, "controller": 1, "lfp-200": 1}, {"panel-13a-in-1": 1}
    build = changed(yard("long-bus", large | small, place="boston"), "panel-13a-in-1", power_w=60.0, max_power_v=11.0)
    build = changed(build, "panel-13a-in-1", open_circuit_v=14.0, short_circuit_a=6.0)
    power, system = sun(build)
    alone, _ = sun(yard("long-bus", large, place="boston"))
    assert [g.panel_id for g in power.strings if g.idle] == ["panel-13a-in-1"]
    assert power.sun_wh_d == pytest.approx(alone.sun_wh_d, rel=1e-6)
    assert system.controllers[0].tracked_frac == pytest.approx(750 / 810, rel=1e-3)
    found = {f.rule: f for f in judge(build, work_out(build)) if "panel-13a-in-1" in f.options}
    assert found["string-mix"].verdict == "tight" and "best left unconnected" in found["string-mix"].cause
    assert "string-voltage-cold" not in found and "string-fuse" not in found
