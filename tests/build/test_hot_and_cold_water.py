"""Hot water, frost and waste of a build against sums on paper, and what must hold whatever the numbers."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.build import Build, work_out
from engine.build.frost import ColdTank
from engine.build.water import water_figures
from engine.catalogue.facets import FreshTank, GreyTank, SpaceHeater, WaterHeater
from engine.rules import heater_fuel_days
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
    [store] = work_out(_with(_yard(driving_h=1), WaterHeater, energy="engine")).hot_water.stores
    assert store.heat_w == 0
    assert store.high_minutes == pytest.approx(10 * 50 / 28 / 4)


HEATED = {"tank-20": 1, "tank-30-under": 1, "waste-10": 1, "heater-2": 1}


def _tanks(build: Build) -> tuple[ColdTank, ...]:
    return work_out(build).cold_tanks


def _winter(options: dict[str, int], place: str = "garmisch", month: int = 12, **trip: object) -> Build:
    return resolver("proving-yard").resolve(
        enquiry("proving-yard", "plain-van", options, place=place, months=(month,), **trip)
    )


def test_where_a_heater_keeps_the_room_warm_only_tanks_outside_are_cold() -> None:
    assert [(t.option_id, t.outside) for t in _tanks(_winter(HEATED))] == [("tank-30-under", True)]
    assert _tanks(_winter(HEATED, month=7)) == ()


def test_where_nothing_heats_the_room_its_tanks_and_pipes_are_cold_too() -> None:
    build = _winter(HEATED | {"heater-2": 0})
    found = work_out(build)
    assert {(t.option_id, t.outside) for t in found.cold_tanks} == {
        ("tank-20", False), ("tank-30-under", True), ("waste-10", False)
    }  # fmt: skip
    inside = next(t for t in found.cold_tanks if t.option_id == "tank-20")
    # One person gives 70 W, which the shell and fresh air let out: so much warmer than outside it stays.
    # Its coldest hour lies 2 K higher still, by what it has stored.
    assert build.trip.people == 1
    warmer = 70 / found.warmth.total_w_k
    assert inside.night_degc == pytest.approx(build.climate.coldest_night_degc[11] + warmer + 2)
    assert inside.freezes_h < inside.cold_h
    assert [p.name for p in found.cold_pipes if p.night_degc == inside.night_degc] == ["Inside, with no heating"]


@pytest.mark.parametrize("place", ["tampa", "miami"])
def test_nothing_freezes_inside_in_a_mild_place(place: str) -> None:
    # The coldest hour outside lies above freezing, or so little below that the people's own warmth makes up for it.
    found = work_out(_winter(HEATED | {"heater-2": 0}, place, 1))
    assert [t for t in found.cold_tanks if not t.outside] == []
    assert [p for p in found.cold_pipes if p.name.startswith("Inside")] == []


def test_a_heater_that_only_warms_a_spot_keeps_no_tank_warm() -> None:
    build = _with(_winter(HEATED), SpaceHeater, role="spot")
    assert "tank-20" in {t.option_id for t in _tanks(build)}


def test_a_waste_tank_is_judged_with_what_one_day_brings() -> None:
    build = _winter({"waste-30-under": 1, "shower-4": 1, "heater-2": 1}, showers_per_day=0, adults=1)
    [tank] = _tanks(build)
    # One person: 4 L to wash and 3 L, three quarters of what two need, for each of 1.5 meals' dishes are 8.5 L of 113.
    assert tank.level_l == pytest.approx(8.5)
    assert tank.freezes_h < 2
    full = _tanks(_winter({"waste-30-under": 1, "shower-4": 1, "heater-2": 1}, showers_per_day=3, adults=8))
    assert full[0].level_l == full[0].volume_l
    assert full[0].freezes_h > 2.5 * tank.freezes_h


def test_a_long_cold_month_freezes_what_one_night_does_not() -> None:
    build = _with(_winter(HEATED), FreshTank, insulation_m=0.03)
    [tank] = _tanks(build)
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
    build = _winter(HEATED)
    [thin], [thick] = (_tanks(_with(build, FreshTank, insulation_m=d)) for d in sorted((one, other)))
    assert thin.hold_w >= thick.hold_w - 1e-9
    if thin.cold_h == thick.cold_h:
        assert thin.freezes_h <= thick.freezes_h + 1e-9


@pytest.mark.parametrize(("place", "month", "burnt_for"), [
    ("tucson", 7, "Hot water"), ("helsinki", 1, "Heating and hot water"),
])  # fmt: skip
def test_diesel_is_told_for_what_burns_it(place: str, month: int, burnt_for: str) -> None:
    build = resolver("quillback").resolve(enquiry("quillback", ready="long-winter-box", place=place, months=(month,)))
    asked = heater_fuel_days.read(build, work_out(build))
    assert isinstance(asked, heater_fuel_days.Diesel)
    assert asked.burnt_for == burnt_for
    assert (asked.available_d == 365) == (month == 7)


def test_diesel_for_heating_alone_is_no_hot_water() -> None:
    build = _winter({"heater-2": 1, "gas-boiler-10": 1, "shower-4": 1}, showers_per_day=1)
    gas = work_out(build).gas
    assert gas.diesel_l_d == gas.diesel_heating_l_d > 0
    assert gas.hot_water_kg_d > 0
