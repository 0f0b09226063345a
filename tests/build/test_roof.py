"""Where things stand on the roof, what they keep free, and where panels go."""

import pytest

from engine.build.roof import lowest_useful_noon, rib_lines_m, roof_figures
from engine.build.roof_heat import distance_m, near_chimneys
from engine.build.roof_things import overlap
from engine.physics.roof_packing import Rect
from engine.physics.roof_shade import shade_reach_m, tilted_depth_m


def rects(packing):
    return [Rect(p.x_m, p.y_m, p.length_m, p.width_m) for p in packing.placed]


def test_an_opened_lid_keeps_its_place_free(yard):
    roof = roof_figures(yard(options={"lid": 1, "panel-300": 2}))
    (hatch,) = roof.obstacles
    # Frame of 0.4 m round the middle of 4 m by 1.7 m; the lid reaches 0.3 m further to the rear.
    assert hatch.body == pytest.approx(Rect(1.8, 0.65, 0.4, 0.4))
    assert hatch.lid == pytest.approx(Rect(2.2, 0.65, 0.3, 0.4))
    assert hatch.keep_clear == pytest.approx(Rect(1.78, 0.63, 0.72, 0.44))
    assert not any(overlap(r, hatch.keep_clear) for r in rects(roof.packing))


def test_panels_keep_off_a_chimney_and_the_chimney_off_openings(yard):
    roof = roof_figures(yard(options={"lid": 1, "flue": 1, "panel-300": 2}))
    flue = next(o for o in roof.obstacles if o.what == "chimney")
    assert flue.heat == pytest.approx(Rect(2.15, 0.2, 1.3, 1.3))
    assert not any(overlap(r, flue.heat) for r in rects(roof.packing))
    (near,) = near_chimneys(roof.obstacles)
    assert (near.distance_m, near.clear_m) == (pytest.approx(0.55), pytest.approx(0.6))
    assert near_chimneys(roof_figures(yard(options={"flue": 1})).obstacles) == ()


def test_distances_between_rectangles():
    assert distance_m(Rect(0, 0, 1, 1), Rect(4, 5, 1, 1)) == 5
    assert distance_m(Rect(0, 0, 1, 1), Rect(0.5, 0.5, 1, 1)) == 0


def test_a_walkway_stays_free(yard):
    free, walked = (roof_figures(yard(options={"panel-300": 4} | o)) for o in ({}, {"walkway": 1}))
    assert free.panels_placed == 2
    # 1.7 m less 0.3 m of walkway leaves two strips of 0.65 m within the setback, too narrow for 0.99 m.
    assert walked.panels_placed == 0
    assert walked.blocking_ids == ("walkway",)


def test_a_rack_that_bears_panels_takes_them_on_itself(yard):
    beside = roof_figures(yard(options={"rack": 1, "panel-300": 2}))
    on_top = roof_figures(yard(options={"light-rack": 1, "panel-300": 2}))
    assert beside.panels_placed == 0
    assert on_top.panels_placed == 1
    rack = on_top.obstacles[0].body
    assert all(rack.x_m <= r.x_m and r.x_m + r.length_m <= rack.x_m + rack.length_m for r in rects(on_top.packing))


def test_a_hatch_within_a_rack_that_bears_panels_is_no_clash(yard):
    assert roof_figures(yard(options={"light-rack": 1, "lid": 1})).clashes == ()
    assert len(roof_figures(yard(options={"rack": 1, "lid": 1})).clashes) == 1


def test_ribs_by_spacing(yard):
    roof = yard("bare-box").vehicle.roof
    assert rib_lines_m(roof) == pytest.approx((0.8, 2.4, 4.0))
    assert rib_lines_m(roof.model_copy(update={"first_rib_m": 0.0, "rib_spacing_m": 2.0})) == (0, 2, 4)
    assert rib_lines_m(yard().vehicle.roof) == ()


def test_panels_stay_within_rounded_and_narrow_ends_on_two_ribs(yard):
    # Ribs at 0.8, 2.4 and 4 m: of two panels of 1.65 m that have room, one lies on two ribs.
    roof = roof_figures(yard("bare-box", {"panel-300": 4}))
    assert roof.panels_placed == 1
    for r in rects(roof.packing):
        assert sum(r.x_m - 1e-7 <= rib <= r.x_m + r.length_m + 1e-7 for rib in roof.space.ribs_m) >= 2
        assert not any(overlap(r, o) for o in roof.space.outside)


def test_a_tilted_panel_takes_its_shade_along(yard):
    build = yard(options={"tilted-300": 4}, months=(3, 6))
    month, altitude_deg = lowest_useful_noon(build)
    assert month == 3
    deep = tilted_depth_m(39 * 0.0254, 30, altitude_deg)
    placed = roof_figures(build).packing.placed
    assert placed and all(min(p.length_m, p.width_m) == pytest.approx(min(deep, 65 * 0.0254)) for p in placed)
    # A lower sun asks for more room between rows.
    assert roof_figures(yard(options={"tilted-300": 4}, months=(12,))).panels_placed <= len(placed)


def test_panels_lie_clear_of_shade_where_that_costs_nothing(yard):
    build = yard(options={"flue": 1, "panel-300": 1}, months=(6,))
    shade = roof_figures(build).shade
    assert shade.month == 6
    assert shade.worst_frac == 0
    # The chimney stands 0.4 m, the panel's glass 0.085 m above the roof.
    reach = shade_reach_m(0.4 - 0.085, shade.altitude_deg)
    assert shade.strips[0].length_m == pytest.approx(reach)
    assert roof_figures(yard(options={"panel-300": 1})).shade is None


def test_no_power_is_given_up_for_shade(yard):
    # A mast of 0.4 m between two panels: in June each finds room beyond 17 cm of shade, in January shade reaches 1 m.
    low = roof_figures(yard(options={"mast": 1, "panel-300": 2}, months=(1,)))
    high = roof_figures(yard(options={"mast": 1, "panel-300": 2}, months=(6,)))
    assert low.packing.power_w == high.packing.power_w == 600
    assert high.shade.worst_frac == 0
    # Strips 0.1 m wide on two panels of 65 in by 39 in; one side at a time is in shade, on one panel.
    most = 0.1 * shade_reach_m(0.4 - 0.085, low.shade.altitude_deg) / (2 * 65 * 39 * 0.0254**2)
    assert 0 < low.shade.mean_frac < low.shade.worst_frac <= most
