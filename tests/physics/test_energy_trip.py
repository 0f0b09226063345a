"""What must hold in every hour and every year of a trip, whatever the system."""

from itertools import pairwise
from math import exp

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.enquiry.climate import load_places
from engine.physics.energy_day import DayMaker
from engine.physics.energy_system import NONE, DayPlan, EnergySystem, Store, WarmthLoad, check_plan, check_system
from engine.physics.energy_trace import trace_trip
from engine.physics.energy_trip import SLICE_DAYS, rank, simulate_trip, trip_slices
from engine.physics.energy_year import YEAR_DAYS, simulate_year, year_slices
from engine.physics.panel_day import PanelGroup
from engine.physics.ranges import OutOfRangeError
from engine.physics.store_hours import run_store, wishes
from engine.physics.sun_day import DAYS_IN_MONTH
from engine.physics.warmth_loads import bent_line, load_w, segment
from engine.physics.weather_years import Climate, month_of, weather_years

PLACES = load_places()


def climate(place):
    p = PLACES[place]
    return Climate(p.latitude_deg, p.ghi_kwh_m2_d, p.mean_degc, p.coldest_night_degc, p.hottest_day_degc)


def at_hours(watts, *hours):
    return tuple(watts if h in hours else 0.0 for h in range(24))


CLIMATES = st.sampled_from([climate(p) for p in ("london", "helsinki", "tucson", "sydney", "northway", "singapore")])
STORES = st.builds(
    Store,
    usable_wh=st.floats(0, 8000),
    charge_w=st.floats(0, 2000),
    discharge_w=st.floats(0, 3000),
    charge_frac=st.floats(0.8, 1),
    discharge_frac=st.floats(0.8, 1),
    min_charge_degc=st.sampled_from((-70.0, 0.0, 5.0)),
    cells_least_degc=st.sampled_from((-70.0, 10.0)),
    cells_swing_frac=st.sampled_from((0.0, 0.5)),
    taper_h=st.sampled_from((0.0, 1.5)),
    warmer_w=st.sampled_from((0.0, 40.0)),
    cells_warmer_k=st.sampled_from((0.0, 8.0)),
)
GROUPS = st.builds(
    PanelGroup,
    power_w=st.floats(0, 1500),
    mount=st.sampled_from(("raised", "glued", "open")),
    tilt_deg=st.sampled_from((0.0, 30.0)),
    facing_deg=st.floats(0, 360),
    power_coefficient_frac_k=st.floats(-0.005, -0.002),
    kept_frac=st.floats(0.8, 1),
    unit=st.sampled_from((0, 1)),
    shaded_frac=st.just(()) | st.just((0.9, 0.5, 0.3, 0.2, 0.1, 0.05, 0.02, 0.0, 0.0)),
    falls_from_degc=st.floats(10, 70),
    falls_frac_k=st.sampled_from((0.0, 0.05)),
)
FRIDGES = st.builds(
    WarmthLoad,
    power_w=st.floats(0, 80),
    at_degc=st.just(20.0),
    duty_frac=st.floats(0.1, 0.6),
    duty_frac_k=st.floats(-0.03, 0.03),
    least_frac=st.just(0.05),
    most_frac=st.floats(0.5, 1),
    least_degc=st.sampled_from((-70.0, 12.0)),
)
SYSTEMS = st.builds(
    EnergySystem,
    store=STORES,
    panels=st.lists(GROUPS, max_size=2).map(tuple),
    controller_frac=st.floats(0.9, 1),
    controllers_w=st.tuples(st.floats(0, 1500), st.floats(0, 1500)),
    inverter_frac=st.floats(0.8, 1),
    by_warmth=st.lists(FRIDGES, max_size=2).map(tuple),
    wind_m_s=st.just(3.0),
)
HOURS = st.lists(st.floats(0, 400), min_size=24, max_size=24).map(tuple)
PLANS = st.builds(
    DayPlan,
    dc_w=HOURS,
    ac_w=HOURS | st.just(NONE),
    idle_w=st.just(NONE) | st.just((8.0,) * 24),
    alternator_w=st.floats(0, 600).map(lambda w: at_hours(w, 9, 10)),
    shore_w=st.floats(0, 800).map(lambda w: at_hours(w, 19, 20, 21)),
    shore_feeds_ac=st.booleans(),
)
STARTS = st.integers(1, 362)


@settings(max_examples=30, deadline=None)
@given(CLIMATES, SYSTEMS, PLANS, STARTS, st.floats(0, 1))
def test_every_hour_balances(place, system, plan, first, start):
    days = tuple(range(first, first + 4))
    for year in (0, 3):
        hours = trace_trip(place, system, days, (plan,) * 4, year, 4, 1, start)
        before = start * system.store.usable_wh
        for i, h in enumerate(hours):
            came, went = h.sun_wh + h.alternator_wh + h.shore_wh, h.load_wh + h.loss_wh + h.change_wh
            scale = max(1.0, came, h.load_wh, h.stored_wh)
            assert abs(came - went) <= 1e-9 * scale, i
            assert h.stored_wh == pytest.approx(before + h.change_wh, rel=1e-12, abs=1e-9)
            assert -1e-9 <= h.stored_wh <= system.store.usable_wh + 1e-9
            assert min(h.sun_wh, h.alternator_wh, h.shore_wh, h.load_wh, h.unmet_wh, h.spilled_wh) >= 0
            assert h.loss_wh >= -1e-9 * scale
            assert h.change_wh <= system.store.charge_w * system.store.charge_frac * (1 + 1e-9) + 1e-9
            # Nothing is lacking while something is left, unless the discharge limit binds.
            most = system.store.discharge_w
            if h.unmet_wh > 1e-6 and h.stored_wh > 1e-6:
                assert -h.change_wh * system.store.discharge_frac == pytest.approx(most, rel=1e-9, abs=1e-9)
            before = h.stored_wh


def test_panels_that_fall_steeply_in_heat_give_nothing_and_not_less():
    cape = Climate(
        -33.95,
        (6.6, 5.63, 4.87, 3.74, 2.66, 2.18, 2.56, 3.56, 4.58, 5.64, 5.99, 6.38),
        (22.0, 22.9, 21.3, 18.7, 15.9, 13.4, 12.3, 13.6, 15.3, 18.4, 19.8, 21.2),
        (14.6, 15.0, 12.6, 10.0, 6.7, 6.0, 1.0, 5.6, 7.6, 7.6, 9.7, 12.8),
        (34.5, 34.3, 30.0, 29.0, 26.4, 19.8, 23.5, 26.9, 28.3, 37.0, 29.4, 43.0),
    )
    steep = PanelGroup(400.0, falls_from_degc=10.0, falls_frac_k=0.05)
    system = EnergySystem(Store(0.0, 0.0, 0.0), (steep,))
    plan, days = DayPlan(dc_w=(10.0,) * 24), tuple(range(1, 9))
    some = 0.0
    for year in range(8):
        for h in trace_trip(cape, system, days, (plan,) * 8, year, 8, 1, 0.0):
            assert h.load_wh >= 0 and h.unmet_wh <= 10.0
            some += h.sun_wh
    assert some > 0


@settings(max_examples=30, deadline=None)
@given(CLIMATES, SYSTEMS, PLANS, STARTS)
def test_the_short_way_through_a_day_is_the_long_one(place, system, plan, first):
    days = tuple(range(first, first + 3))
    weather = weather_years(place, days, 4)
    maker = DayMaker(place.latitude_deg, system, weather, (plan,) * 3)
    for clearness, warmer in zip(weather.clearness_frac, weather.warmer_k, strict=True):
        for i, (clear, warm) in enumerate(zip(clearness, warmer, strict=True)):
            short = maker.gains(i, clear, warm)
            long = maker.hours(i, clear, warm)
            wished = wishes(system.store, long.net_w, long.locked)
            assert short.gain_wh == pytest.approx(wished.gain_wh, rel=1e-9, abs=1e-7)
            assert short.sun_wh == pytest.approx(sum(long.sun_w), rel=1e-9, abs=1e-7)
            assert short.load_wh == pytest.approx(sum(long.load_w), rel=1e-9, abs=1e-7)
            assert short.refused_wh == pytest.approx(wished.refused_wh, rel=1e-9, abs=1e-7)
            assert short.lacking_wh == pytest.approx(wished.lacking_wh, rel=1e-9, abs=1e-7)


@settings(max_examples=30, deadline=None)
@given(CLIMATES, SYSTEMS, PLANS, STARTS, st.floats(0, 1))
def test_a_trip_is_all_its_years_together(place, system, plan, first, start):
    days, plans = tuple(range(first, first + 3)), (plan,) * 3
    trip = simulate_trip(place, system, days, plans, 10, 2, start)
    years = [trace_trip(place, system, days, plans, y, 10, 2, start) for y in range(10)]
    for hour, (median, poor) in enumerate(zip(trip.median_stored_wh, trip.poor_stored_wh, strict=True)):
        column = sorted(y[hour].stored_wh for y in years)
        assert median == pytest.approx(column[rank(10, 0.5)], rel=1e-9, abs=1e-6)
        assert poor == pytest.approx(column[rank(10, 0.1)], rel=1e-9, abs=1e-6)
    for name in ("unmet_wh", "spilled_wh"):
        mean = sum(getattr(h, name) for y in years for h in y) / 30
        if name == "spilled_wh":
            assert trip.spilled_wh_d == pytest.approx(mean, rel=1e-7, abs=1e-5)
        else:
            assert trip.unmet_wh_d == pytest.approx(mean, rel=1e-7, abs=1e-5)


@settings(max_examples=30, deadline=None)
@given(CLIMATES, SYSTEMS, PLANS, STARTS, st.floats(0.1, 1000))
def test_more_panel_never_stores_less(place, system, plan, first, more_w):
    days, plans = tuple(range(first, first + 3)), (plan,) * 3
    # The warmer draws in hours when there is enough sun for it: there more sun may first cost.
    # Controllers share one slope of warmth, so another panel on one moves the others' sun in the fifth place.
    on_one = tuple(p._replace(unit=0) for p in system.panels)
    system = system._replace(store=system.store._replace(warmer_w=0.0), panels=on_one)
    larger = system._replace(panels=(*system.panels, PanelGroup(more_w)))
    little, much = (simulate_trip(place, s, days, plans, 10) for s in (system, larger))
    assert much.sun_wh_d >= little.sun_wh_d - 1e-6
    assert much.unmet_wh_d <= little.unmet_wh_d + 1e-6
    for a, b in zip(little.poor_stored_wh, much.poor_stored_wh, strict=True):
        assert b >= a - 1e-6


@settings(max_examples=30, deadline=None)
@given(CLIMATES, SYSTEMS, PLANS, STARTS, st.floats(0.1, 3000), st.floats(0, 1))
def test_more_battery_never_empties_sooner(place, system, plan, first, more_wh, start):
    days, plans = tuple(range(first, first + 3)), (plan,) * 3
    larger = system._replace(store=system.store._replace(usable_wh=system.store.usable_wh + more_wh))
    small, large = (simulate_trip(place, s, days, plans, 10, 1, start) for s in (system, larger))
    assert large.unmet_wh_d <= small.unmet_wh_d + 1e-6
    assert large.empty_years_frac <= small.empty_years_frac
    for a, b in ((small.poor_empty_d, large.poor_empty_d), (small.median_empty_d, large.median_empty_d)):
        assert b is None or (a is not None and b >= a)


def test_a_battery_by_hand():
    # 1,000 Wh, 100 W all day, no losses: empty after ten hours, with 14 hours unmet.
    store = Store(1000.0, 500.0, 500.0, 1.0, 1.0)
    trip = simulate_trip(climate("london"), EnergySystem(store), (10,), (DayPlan(dc_w=(100.0,) * 24),), 2)
    assert trip.median_stored_wh[:11] == (900, 800, 700, 600, 500, 400, 300, 200, 100, 0, 0)
    assert trip.poor_empty_d == pytest.approx(10 / 24)
    assert (trip.unmet_wh_d, trip.unmet_frac, trip.load_wh_d) == (1400.0, pytest.approx(1400 / 2400), 2400.0)


def test_shore_feeds_sockets_past_the_inverter():
    store = Store(1000.0, 500.0, 900.0, 1.0, 1.0)
    plan = DayPlan(ac_w=(90.0,) * 24, idle_w=(10.0,) * 24, shore_w=at_hours(50.0, 0, 1))
    hours = trace_trip(climate("london"), EnergySystem(store), (10,), (plan,), 0, 2, 1, 0.5)
    assert hours[0][:6] == pytest.approx((0, 0, 140, 90, 0, 50))
    assert hours[2][:6] == pytest.approx((0, 0, 0, 90, 20, -110))
    held = plan._replace(shore_feeds_ac=False)
    hours = trace_trip(climate("london"), EnergySystem(store), (10,), (held,), 0, 2, 1, 0.5)
    assert hours[0][:6] == pytest.approx((0, 0, 50, 90, 20, -60))


def test_cold_cells_take_nothing_and_warmed_ones_do():
    place = climate("northway")
    plan = DayPlan(alternator_w=at_hours(400.0, 10, 11))
    store = Store(2000.0, 800.0, 800.0)
    cold = simulate_trip(place, EnergySystem(store), (10,), (plan,), 2, 1, 0.5)
    assert cold.median_stored_wh[-1] == 1000
    assert cold.spilled_wh_d == pytest.approx(800)
    warmed = simulate_trip(place, EnergySystem(store._replace(warmer_w=60.0)), (10,), (plan,), 2, 1, 0.5)
    assert warmed.median_stored_wh[-1] == pytest.approx(1000 + 2 * 340 * 0.97)
    inside = simulate_trip(place, EnergySystem(store._replace(cells_least_degc=10.0)), (10,), (plan,), 2, 1, 0.5)
    assert inside.median_stored_wh[-1] == pytest.approx(1000 + 2 * 400 * 0.97)
    # People alone warm the room by some kelvins, which does not do in a January of −24 °C; a small heater's 40 K do.
    for warmer_k, stored_wh in ((5.0, 1000), (40.0, 1000 + 2 * 400 * 0.97)):
        room = simulate_trip(place, EnergySystem(store._replace(cells_warmer_k=warmer_k)), (10,), (plan,), 2, 1, 0.5)
        assert room.median_stored_wh[-1] == pytest.approx(stored_wh)


def test_near_full_a_lead_acid_battery_takes_less_and_less():
    store = Store(1000.0, 500.0, 500.0, 1.0, 1.0, taper_h=2.0)
    course = run_store(store, 500.0, [200.0] * 30)
    rises = [b - a for a, b in pairwise([500.0, *course.stored_wh])]
    # Half an hour at 200 W until only 400 Wh are missing, then half an hour of a falling rate.
    assert rises[0] == pytest.approx(100 + 400 * (1 - exp(-0.25)))
    assert all(0 <= b <= a + 1e-9 for a, b in pairwise(rises))
    assert 999 < course.stored_wh[-1] < 1000
    # Fine steps of dx/dt = min(gain, missing/taper).
    missing, steps = 500.0, 200000
    for _ in range(3 * steps):
        missing -= min(200.0, missing / 2.0) / steps
    assert 1000 - missing == pytest.approx(course.stored_wh[2], abs=0.01)


@given(st.lists(FRIDGES, min_size=1, max_size=4).map(tuple), st.floats(-70, 70))
def test_the_bent_line_is_all_loads_together(loads, degc):
    line = bent_line(loads)
    i = segment(line, degc)
    total = sum(load_w(x, degc) for x in loads)
    assert line.offset_w[i] + line.slope_w_k[i] * degc == pytest.approx(total, rel=1e-9, abs=1e-7)


def test_a_year_is_its_months():
    place = climate("london")
    system = EnergySystem(Store(2000.0, 800.0, 800.0), (PanelGroup(400.0),))
    plan = DayPlan(dc_w=(30.0,) * 24)
    year = simulate_year(place, system, (plan,) * 12, 4)
    assert len(YEAR_DAYS) == 365
    assert [month_of(d) for d in YEAR_DAYS] == [month_of(d) for d in range(1, 366)]
    # Each month's sun is that of its days, one by one, for the same climate.
    begin = 0
    for month, days in enumerate(DAYS_IN_MONTH):
        dates = tuple(range(begin + 1, begin + days + 1))
        begin += days
        trip = simulate_trip(place, system, dates, (plan,) * days, 40)
        assert year[month].sun_wh_d == pytest.approx(trip.sun_wh_d, rel=0.03), month + 1
        assert year[month].load_wh_d == 720
    assert year[5].sun_alone_frac > 0.9 > 0.1 > year[11].sun_alone_frac
    assert year[5].met_days_frac > 0.95
    driven = simulate_year(place, system, (plan._replace(alternator_w=at_hours(400.0, 10, 11)),) * 12, 4)
    assert driven[11].met_days_frac > 0.95
    assert [m.sun_alone_frac for m in driven] == [m.sun_alone_frac for m in year]


def test_in_slices_the_result_is_the_same_and_rests_come_often():
    place, plan = climate("london"), DayPlan(dc_w=(60.0,) * 24)
    system = EnergySystem(Store(2000.0, 800.0, 800.0), (PanelGroup(400.0),))
    days = tuple(range(80, 94))
    for slices, whole, least in (
        (trip_slices(place, system, days, (plan,) * 14), simulate_trip(place, system, days, (plan,) * 14),
         200 * 14 // SLICE_DAYS),
        (year_slices(place, system, (plan,) * 12, 4), simulate_year(place, system, (plan,) * 12, 4), 4),
    ):  # fmt: skip
        rests = 0
        while True:
            try:
                next(slices)
            except StopIteration as done:
                assert done.value == whole
                break
            rests += 1
        assert rests >= least


def test_out_of_range_raises():
    good = EnergySystem(Store(1000.0, 500.0, 500.0), (PanelGroup(100.0),))
    check_system(good)
    bad = [
        good._replace(store=good.store._replace(**{name: value}))
        for name in Store._fields
        for value in (float("nan"), float("inf"), -1000.0)
    ]
    bad += [
        good._replace(**{n: v}) for n in ("controller_frac", "inverter_frac", "wind_m_s") for v in (-1.0, float("nan"))
    ]
    bad += [good._replace(controllers_w=(w,)) for w in (-1.0, float("nan"))]
    bad += [good._replace(panels=(PanelGroup(100.0, unit=n),)) for n in (-1, 1)]
    bad += [good._replace(by_warmth=(WarmthLoad(50.0, 20.0, 0.4, 0.02, 0.6, 0.5),))]
    bad += [good._replace(by_warmth=(WarmthLoad(float("nan"), 20.0, 0.4, 0.02),))]
    for system in bad:
        with pytest.raises(OutOfRangeError):
            check_system(system)
    for plan in (DayPlan(dc_w=(1.0,) * 23), DayPlan(ac_w=(-1.0,) * 24), DayPlan(shore_w=(float("nan"),) * 24)):
        with pytest.raises(OutOfRangeError):
            check_plan(plan)
    place = climate("london")
    for groups in ((PanelGroup(-1.0),), (PanelGroup(100.0, 0.1),), (PanelGroup(100.0, tilt_deg=91.0),)):
        with pytest.raises(OutOfRangeError):
            simulate_trip(place, good._replace(panels=groups), (10,), (DayPlan(),), 2)
    with pytest.raises(OutOfRangeError):
        simulate_trip(place, good, (10,), (DayPlan(),), 2, start_frac=1.1)
    with pytest.raises(ValueError, match="2 plans for 1 days"):
        simulate_trip(place, good, (10,), (DayPlan(),) * 2, 2)
    with pytest.raises(ValueError, match="1 plans for 12 months"):
        simulate_year(place, good, (DayPlan(),), 2)


@settings(max_examples=15, deadline=None)
@given(CLIMATES, st.floats(100, 1500), st.floats(30, 800), st.floats(0, 2000))
def test_what_a_controller_clips_is_what_it_would_pass_without_a_limit(place, panel_w, limit_w, charge_w):
    store = Store(2000.0, charge_w, 2000.0)
    system = EnergySystem(store, (PanelGroup(panel_w),), controllers_w=(limit_w,))
    plans = (DayPlan(dc_w=(20.0,) * 24),) * 12
    tight, free = (simulate_year(place, s, plans, 2) for s in (system, system._replace(controllers_w=(1e6,))))
    for a, b in zip(tight, free, strict=True):
        assert b.clipped_wh_d == (0.0,)
        assert a.sun_wh_d + a.clipped_wh_d[0] == pytest.approx(b.sun_wh_d, rel=1e-9, abs=1e-6)
        assert a.clipped_wh_d[0] >= 0


def test_one_controller_clips_for_itself_alone():
    place, store = climate("london"), Store(2000.0, 2000.0, 2000.0)
    plans = (DayPlan(dc_w=(20.0,) * 24),) * 12
    panels = (PanelGroup(600.0), PanelGroup(200.0, unit=1))

    def year(*limits_w, panels=panels):
        return simulate_year(place, EnergySystem(store, panels, controllers_w=limits_w), plans, 2)

    # 700 W are enough for both together, but 300 W are not for the first alone.
    apart, first, second = year(300.0, 400.0), year(300.0, panels=panels[:1]), year(400.0, panels=(PanelGroup(200.0),))
    for a, one, two in zip(apart, first, second, strict=True):
        assert a.sun_wh_d == pytest.approx(one.sun_wh_d + two.sun_wh_d)
        assert a.clipped_wh_d == pytest.approx((*one.clipped_wh_d, 0.0))
    assert apart[5].clipped_wh_d[0] > 20
    assert all(m.clipped_wh_d == (0.0,) for m in year(700.0, panels=(PanelGroup(800.0 * 0.5),)))


def test_each_month_has_its_own_battery():
    place = climate("london")
    system = EnergySystem(Store(1200.0, 1000.0, 1000.0), (PanelGroup(800.0),))
    plans = (DayPlan(dc_w=(40.0,) * 24),) * 12
    same = simulate_year(place, system, plans, 2)
    assert simulate_year(place, system, plans, 2, usable_wh=(1200.0,) * 12) == same
    cold = simulate_year(place, system, plans, 2, usable_wh=(0.0,) * 3 + (1200.0,) * 8 + (600.0,))
    # By night nothing is left to feed from, by day the sun still feeds.
    for one, other in zip(cold[:3], same[:3], strict=True):
        assert one.met_days_frac == 0 and one.unmet_wh_d > other.unmet_wh_d
    assert cold[6] == same[6] and cold[11].unmet_wh_d > same[11].unmet_wh_d
    with pytest.raises(ValueError):
        simulate_year(place, system, plans, 2, usable_wh=(1.0,) * 11)
    with pytest.raises(OutOfRangeError):
        simulate_year(place, system, plans, 2, usable_wh=(-1.0,) * 12)
