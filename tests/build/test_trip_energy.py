"""The slow figures: they follow the quick ones, close their balance, and come the same in slices and from memory."""

from __future__ import annotations

import math
import random

import pytest

from engine.build import trip_energy as slow
from engine.build import work_out
from engine.build.day_plan import DRIVING, driving_shares, load_shares, shares
from engine.build.energy_figures import Change
from engine.build.energy_inputs import asked, days_about, days_looked_at, years_for
from engine.build.trip_energy import energy_slices, trip_energy
from engine.physics.slices import drained
from tests.shops import catalogue, enquiry, resolver

READY = [(shop, r.id) for shop in ("quillback", "hallamoor") for r in catalogue(shop).ready]


def built(shop, **what):
    build = resolver(shop).resolve(enquiry(shop, **what))
    return build, work_out(build)


@pytest.mark.parametrize("hours", [0.0, 0.02, 1.5, 5.0, 7.25, 24.0])
@pytest.mark.parametrize("window", [(19,), tuple(range(18, 23)), tuple(range(24))])
def test_hours_are_spread_whole(hours, window):
    found = shares(hours, window)
    assert len(found) == 24 and sum(found) == pytest.approx(hours) and 0 <= min(found) <= max(found) <= 1
    if hours <= len(window):
        assert sum(found[h] for h in window) == pytest.approx(hours)


def test_a_day_has_room_for_all_driving_a_trip_may_ask_for():
    assert len(set(DRIVING)) == 14
    for hours in (0.0, 0.5, 2.25, 14.0):
        assert sum(driving_shares(hours)) == pytest.approx(hours)


def test_days_stand_about_the_middle_of_their_month_and_wrap_round_the_year():
    assert days_about(1, 40)[:2] == (361, 362) and 16 in days_about(1, 40)
    assert set(days_about(6, 14)) <= set(range(152, 182))
    assert days_looked_at(4) == 14 and days_looked_at(17) == 20 and days_looked_at(90) * 0.9 > 90
    assert years_for(14) == 200 and years_for(106) == 40 and years_for(20) == 140


@pytest.mark.parametrize(("shop", "ready"), READY)
def test_hourly_and_quick_figures_of_finished_vehicles_agree(shop, ready):
    build, figures = built(shop, ready=ready)
    a = asked(build, figures.power, figures.roof)
    # What each load takes by the hour is what it takes a day.
    for x in figures.power.all_loads:
        assert sum(load_shares(x)) == pytest.approx(min(24.0, x.hours_d))
    assert sum(a.plan.alternator_w) == pytest.approx(figures.power.driving_wh_d)
    slow = trip_energy(build, figures)
    assert slow is not None and slow.complete
    assert slow.trip.load_wh_d == pytest.approx(figures.power.use_wh_d, rel=0.03)
    assert slow.trip.sun_wh_d == pytest.approx(figures.power.sun_wh_d, rel=0.05)
    assert slow.trip.other_wh_d == pytest.approx(figures.power.driving_wh_d)
    assert slow.trip.usable_wh == figures.power.usable_wh
    assert len(slow.trip.median_stored_wh) == 24 * slow.days_count
    assert slow.day is not None and (slow.day.month, slow.day.kind) == (figures.power.sun_month, "usual")
    assert len(slow.day.hours) == 24 and len(slow.year or ()) == len(slow.months_d or ()) == 12
    for h in slow.day.hours:
        taken = h.sun_wh + h.alternator_wh + h.shore_wh
        assert taken == pytest.approx(h.load_wh + h.loss_wh + h.change_wh, abs=1e-9)
    # The trip's own month is not told in two ways.
    assert (slow.months_d or ())[figures.power.sun_month - 1] == slow.trip.median_empty_d


def test_what_is_remembered_is_what_would_be_worked_out_anew():
    chance = random.Random(5)
    seen = []
    for _ in range(8):
        shop = chance.choice(("quillback", "hallamoor"))
        ready = chance.choice([r.id for r in catalogue(shop).ready])
        out = chance.choice(list(catalogue(shop).options_by_id))
        months = (chance.randint(1, 12),)
        build, figures = built(
            shop, ready=ready, options={out: chance.randint(0, 1)}, months=months, inside_degc=chance.randint(12, 22)
        )
        seen.append((build, figures, trip_energy(build, figures)))
    slow.cache_clear()
    for build, figures, before in seen:
        assert trip_energy(build, figures) == before


def test_it_rests_often_the_first_time_and_never_again():
    build, figures = built("hallamoor", ready="dry-stone", months=(1,))
    slow.cache_clear()
    steps = list(energy_slices(build, figures))
    assert len(steps) > 40
    # The trip comes first, then the year, then the other months.
    order = ["nothing" if s is None else "trip" if s.year is None else "year" for s in steps]
    assert order == sorted(order, key=("nothing", "trip", "year").index) and len(set(order)) == 3
    again = energy_slices(build, figures)
    with pytest.raises(StopIteration):
        next(again)


def test_a_build_without_loads_or_battery_has_no_hours_to_follow():
    for options in ({}, {"light-5": 1}, {"panel-400": 1, "controller": 1, "light-5": 1}):
        build, figures = built("proving-yard", options=options)
        assert drained(energy_slices(build, figures)) is None


def test_more_of_everything_helps_and_is_told_in_order():
    build, figures = built("quillback", ready="two-up-van", months=(12,), place="aberdeen")
    slow = trip_energy(build, figures)
    assert slow is not None and slow.trip.median_empty_d is not None
    changes = slow.changes or ()
    # Days are what is told, so they make the order, although an hour of driving leaves least unmet.
    assert len(changes) >= 3 and [c.after_d for c in changes] == sorted(
        (c.after_d or 99 for c in changes), reverse=True
    )
    assert [c.gain for c in changes] != sorted((c.gain for c in changes), reverse=True)
    for c in changes:
        assert c.before_d == slow.trip.median_empty_d
        assert c.gain > 0 and (c.after_d is None or c.after_d >= slow.trip.median_empty_d), c.what


def test_where_no_day_tells_what_goes_missing_makes_the_order():
    few, more = (Change("x", "x", None, None, 0.02, after) for after in (0.015, 0.001))
    worse = Change("x", "x", None, None, 0.02, 0.03)
    assert few.helps and more.helps and not worse.helps
    assert sorted((few, more), key=lambda c: (-c.days_gained_d, -c.gain)) == [more, few]
    assert not Change("x", "x", 3.0, 2.0, 0.5, 0.4).helps  # sooner empty, whatever the share
    assert Change("x", "x", 3.0, None, 0.5, 0.4).days_gained_d == math.inf


@pytest.mark.parametrize(("things", "advised"), [({}, True), ({"roof-light-40": 1, "roof-fan": 1}, False)])
def test_one_more_panel_is_advised_only_where_the_roof_has_room(things, advised):
    base = {"lfp-230": 1, "mppt-100-40": 1, "fridge-150": 1, "board-12v": 1, "laptop-supply": 1, "panel-430": 1}
    build, figures = built(
        "hallamoor", vehicle="van-35", options=base | things, months=(12,), place="aberdeen", driving_h=0, computer_h=10
    )
    assert figures.roof.panels_placed == 1
    slow = trip_energy(build, figures)
    assert slow is not None and slow.changes
    assert any(c.option_id == "panel-430" for c in slow.changes) is advised


def test_what_needs_nothing_gets_no_advice():
    build, figures = built("hallamoor", ready="dry-stone", months=(6,))
    slow = trip_energy(build, figures)
    assert slow is not None and slow.trip.poor_empty_d is None and slow.changes == ()
