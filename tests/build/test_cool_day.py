"""The cooler's hottest day."""

import pytest

from engine.build.cool_day import CoolDay, cool_day
from engine.build.warmth import warmth_figures
from engine.catalogue.facets import AirConditioner
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


def test_a_better_shell_needs_less_cooling() -> None:
    van, box = day(), day(ready="high-fell")
    assert van is not None and box is not None
    assert box.electric_wh_d < van.electric_wh_d


def test_nothing_without_a_cooler_or_its_use() -> None:
    assert day(0) is None
    assert day(cooling=False) is None
    assert day(place="helsinki", months=[1]) is None
