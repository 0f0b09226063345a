"""The cooler's hottest day."""

import re

import pytest

from engine.build import work_out
from engine.build.cool_day import CoolDay, cool_day
from engine.build.warmth import warmth_figures
from engine.catalogue.facets import AirConditioner
from engine.rule import Finding
from engine.rules import cooling_day, hot_day
from engine.saying import findings_of
from tests.shops import catalogue, enquiry, resolver

COOLER = next(
    i
    for i, (_, o) in catalogue("hallamoor").options_by_id.items()
    if any(isinstance(f, AirConditioner) for f in o.facets)
)


def day(count: int = 1, place: str = "tucson", ready: str = "dry-stone", **trip: object) -> CoolDay | None:
    asked = enquiry("hallamoor", None, {COOLER: count}, ready, place=place, **{"months": [7], "cooling": True} | trip)
    build = resolver("hallamoor").resolve(asked)
    return cool_day(build, warmth_figures(build))


def test_hotter_places_cost_more() -> None:
    tucson, granada = day(), day(place="granada")
    assert tucson is not None and granada is not None
    assert tucson.hottest_degc > granada.hottest_degc
    assert tucson.electric_wh_d > granada.electric_wh_d
    assert tucson.alone_degc > tucson.hottest_degc  # the sun makes a shut room hotter than the air outside
    assert tucson.warmest_degc < tucson.alone_degc


def test_two_coolers_run_half_as_long() -> None:
    one, two = day(), day(2)
    assert one is not None and two is not None
    assert two.running_h == pytest.approx(one.running_h / 2, rel=0.05)
    assert two.electric_wh_d == pytest.approx(one.electric_wh_d, rel=0.05)


def test_shade_and_air_keep_it_near_the_air_outside() -> None:
    for place in ("tucson", "granada"):
        found = day(place=place)
        assert found is not None
        assert found.hottest_degc - 1 < found.shade_degc < found.hottest_degc + 2 < found.alone_degc
    fan = next(
        i for i, (_, o) in catalogue("hallamoor").options_by_id.items() if any(f.kind == "vent-fan" for f in o.facets)
    )
    without, with_fan = (
        cool_day(b, warmth_figures(b))
        for b in (
            resolver("hallamoor").resolve(enquiry("hallamoor", "van-35", options, place="tucson", months=[7]))
            for options in ({}, {fan: 1})
        )
    )
    assert without is not None and with_fan is not None
    assert without.alone_degc == with_fan.alone_degc


@pytest.mark.parametrize("month", [6, 7])
def test_the_battery_counts_what_the_hottest_week_takes(month: int) -> None:
    asked = enquiry("hallamoor", None, {COOLER: 1}, "dry-stone", place="tucson", months=[month], cooling=True)
    build = resolver("hallamoor").resolve(asked)
    figures = work_out(build)
    load = next(x for x in figures.power.all_loads if x.option_id == COOLER)
    assert figures.cool_day is not None
    assert load.daily_wh == pytest.approx(figures.cool_day.week_wh_d)
    assert figures.cool_day.week_wh_d < figures.cool_day.electric_wh_d


def test_no_cooling_is_counted_in_a_dark_month_that_is_not_hot() -> None:
    build = resolver("hallamoor").resolve(
        enquiry("hallamoor", None, {COOLER: 1}, "dry-stone", place="denver", months=[7, 12], cooling=True)
    )
    figures = work_out(build)
    load = next(x for x in figures.power.all_loads if x.option_id == COOLER)
    assert figures.power.sun_month == 12 and load.hours_d == 0 and load.in_season
    assert figures.cool_day is not None and figures.cool_day.week_wh_d > 0


def test_a_better_shell_needs_less_cooling() -> None:
    van, box = day(), day(ready="high-fell")
    assert van is not None and box is not None
    assert box.electric_wh_d < van.electric_wh_d


def test_without_a_cooler_or_its_use_the_day_is_told_all_the_same() -> None:
    for idle in (day(0), day(cooling=False)):
        assert idle is not None and idle.running_h == idle.electric_wh_d == idle.week_wh_d == 0
        assert idle.warmest_degc == idle.alone_degc > idle.shade_degc
    assert day(place="helsinki", months=[1]) is None


@pytest.mark.parametrize(("fans", "aired"), [(0, "windows open"), (1, "a window open and a fan")])
def test_only_a_fan_that_is_there_is_spoken_of(fans: int, aired: str) -> None:
    fan = next(
        i for i, (_, o) in catalogue("hallamoor").options_by_id.items() if any(f.kind == "vent-fan" for f in o.facets)
    )
    for rule, options, cooling in ((hot_day.RULE, {}, False), (cooling_day.RULE, {COOLER: 1, "hookup": 1}, True)):
        chosen = {"lfp-230": 1} | options | ({fan: fans} if fans else {})
        asked = enquiry("hallamoor", "van-35", chosen, place="tucson", months=[7], cooling=cooling)
        build = resolver("hallamoor").resolve(asked)
        found = rule.read(build, work_out(build))
        assert found is not None and not isinstance(found, list)
        assert found.model_dump()["aired"] == aired


@pytest.mark.parametrize(
    ("place", "month", "pets", "verdict"),
    [
        ("phoenix", 7, 2, "tight"),  # 47 °C in the shade
        ("phoenix", 7, 0, "note"),
        ("mount-shasta", 7, 1, "note"),  # 97 °F in the shade: hard on a dog, no more
        ("denver", 5, 1, "note"),  # warm for a dog, and bearable
        ("denver", 5, 0, "ok"),
    ],
)
def test_animals_in_deadly_heat_are_a_warning(place: str, month: int, pets: int, verdict: str) -> None:
    trip = {"place": place, "months": [month], "pets": pets}
    build = resolver("quillback").resolve(enquiry("quillback", ready="two-up-van", **trip))
    [hot] = findings_of(hot_day.RULE, build, work_out(build))
    assert hot.verdict == verdict
    assert ("Never leave animals" in hot.remedy) == (verdict == "tight")
    assert ("2 animals bear at most 85 °F" in hot.cause) == (pets == 2)


@pytest.mark.parametrize(
    ("place", "months", "warm"), [("tucson", [7], True), ("granada", [7], True), ("london", [1], False)]
)
def test_a_cooler_that_the_trip_does_not_use_is_told(place: str, months: list[int], warm: bool) -> None:
    def hot(count: int, cooling: bool) -> list[Finding]:
        trip = {"place": place, "months": months, "cooling": cooling}
        build = resolver("hallamoor").resolve(enquiry("hallamoor", None, {COOLER: count}, "dry-stone", **trip))
        return findings_of(hot_day.RULE, build, work_out(build))

    unused = hot(1, cooling=False)
    assert bool(unused) == warm
    for f in unused:
        assert f.verdict == "note" and COOLER in f.options
        assert "the trip has no cooling chosen" in f.cause
        told = re.search(r"It would take ([\d.]+) kWh a day", f.cause)
        assert told and float(told[1]) > 1
        assert re.search(r"the full battery holds [\d.]+ kWh\.$", f.cause)
    assert not hot(1, cooling=True)  # another rule tells its day
    assert all("no cooling" not in f.cause for f in hot(0, cooling=False))


def test_what_an_unused_cooler_would_take_is_what_it_takes_in_use() -> None:
    used, unused = day(), day(cooling=False)
    assert used is not None and unused is not None
    assert unused.unused_wh_d == pytest.approx(used.week_wh_d) and used.unused_wh_d == unused.week_wh_d == 0


def test_nothing_cools_or_airs_without_the_battery_that_it_runs_on() -> None:
    cooler = "cooler-12v"
    trip = {"place": "tucson", "months": [7], "cooling": True}
    for batteries, verdict in ((0, "fails"), (1, None)):
        options = {cooler: 1, "lfp-230": batteries, "roof-fan": 1}
        build = resolver("hallamoor").resolve(enquiry("hallamoor", "van-35", options, **trip))
        hot = findings_of(hot_day.RULE, build, work_out(build))
        cooled = findings_of(cooling_day.RULE, build, work_out(build))
        assert [f.verdict for f in hot] == ([verdict] if verdict else []) and bool(cooled) == bool(batteries)
        for f in hot:
            assert (
                "nothing feeds this: Battery air conditioner 1.7 kW, 12 V." in f.cause
                and "with windows open" in f.cause
            )
        for f in cooled:
            assert "with a window open and a fan" in f.cause
