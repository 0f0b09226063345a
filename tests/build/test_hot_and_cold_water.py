"""Hot water, frost and waste of a build against sums on paper, and what must hold whatever the numbers."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.build import Build, work_out
from engine.build.frost import cold_tanks
from engine.build.water import water_figures
from engine.catalogue.facets import FreshTank, GreyTank, WaterHeater
from tests.shops import enquiry, resolver


def _with(build: Build, kind: type, **changed: object) -> Build:
    """The build with other numbers in every facet of one kind."""
    parts = tuple(
        replace(
            part,
            option=part.option.model_copy(
                update={
                    "facets": tuple(f.model_copy(update=changed) if type(f) is kind else f for f in part.option.facets)
                }
            ),
        )
        for part in build.parts
    )
    return replace(build, parts=parts)


def _yard(**trip: object) -> Build:
    options = {"tank-20": 1, "tank-30-under": 1, "waste-10": 1, "gas-boiler-10": 1, "shower-4": 1}
    return resolver("proving-yard").resolve(
        enquiry("proving-yard", "plain-van", options, **{"showers_per_day": 1, **trip})
    )


def test_a_store_mixes_to_skin_warm() -> None:
    [store] = work_out(_yard()).hot_water.stores
    # 10 L: 22/28 and 50/28 of it as warm water; 1.5 kW of the 7,815 W that 4 L/min from 10 to 38 °C take.
    share = 1 - 1500 / (1.163 * 4 * 60 * 28)
    assert store.low_minutes == pytest.approx(10 * 22 / 28 / 4 / share)
    assert store.high_minutes == pytest.approx(10 * 50 / 28 / 4 / share)
    assert store.heat_up_h == pytest.approx(10 * 1.163 * 50 / 1500)


def test_a_store_on_the_engine_gets_no_heat_in_camp() -> None:
    [store] = work_out(_with(_yard(), WaterHeater, energy="engine")).hot_water.stores
    assert store.heat_w == 0
    assert store.high_minutes == pytest.approx(10 * 50 / 28 / 4)


def test_only_tanks_outside_are_cold() -> None:
    assert [t.option_id for t in cold_tanks(_yard(place="garmisch", months=(12,)))] == ["tank-30-under"]
    assert cold_tanks(_yard(months=(7,))) == ()


def test_a_long_cold_month_freezes_what_one_night_does_not() -> None:
    build = _with(_yard(place="garmisch", months=(12,)), FreshTank, insulation_m=0.03)
    [tank] = cold_tanks(build)
    mean = build.climate.mean_degc[11]
    assert mean < 0
    assert tank.cold_degc == mean and tank.cold_h == 72
    assert tank.freezes_h > 72


@given(st.floats(2, 1500), st.floats(2, 1500))
def test_a_bigger_waste_tank_never_shortens_the_stay(one: float, other: float) -> None:
    small, large = sorted((one, other))
    days = []
    for volume in (small, large):
        w = water_figures(_with(_yard(), GreyTank, volume_l=volume))
        assert w.fresh_days is not None and w.grey_days is not None
        days.append(min(w.fresh_days, w.grey_days))
    assert days[0] <= days[1]


@given(st.floats(2, 120), st.floats(2, 120), st.floats(40, 90))
def test_a_bigger_store_never_gives_less_shower(one: float, other: float, hot: float) -> None:
    small, large = (
        work_out(_with(_yard(), WaterHeater, volume_l=v, hot_degc=hot)).hot_water.stores[0]
        for v in sorted((one, other))
    )
    assert small.low_minutes <= large.low_minutes + 1e-9 and small.high_minutes <= large.high_minutes + 1e-9


@given(st.floats(0, 0.2), st.floats(0, 0.2))
def test_more_insulation_never_freezes_sooner(one: float, other: float) -> None:
    build = _yard(place="garmisch", months=(12,))
    [thin], [thick] = (cold_tanks(_with(build, FreshTank, insulation_m=d)) for d in sorted((one, other)))
    assert thin.hold_w >= thick.hold_w - 1e-9
    if thin.cold_h == thick.cold_h:
        assert thin.freezes_h <= thick.freezes_h + 1e-9
