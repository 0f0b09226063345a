"""Days off the grid are those of the chosen month that empties the battery soonest."""

from math import inf

import pytest

from engine.build import Build, work_out
from engine.build.loads import build_loads
from engine.build.trip_energy import trip_energy
from tests.shops import enquiry, resolver

YEAR = tuple(range(1, 13))
SUMMER = (5, 6, 7, 8, 9)


def _box(cooler: str = "ac-roof-dc-8000", **trip: object) -> Build:
    coolers = {"ac-bench-7000": 0} | {cooler: 1}
    asked = enquiry("quillback", ready="long-winter-box", options=coolers, place="phoenix", **trip)
    return resolver("quillback").resolve(asked)


def _days(build: Build) -> float:
    days = work_out(build).hardest.days
    return inf if days is None else days


@pytest.mark.parametrize("cooler", ["ac-roof-dc-8000", "ac-bench-7000"])
def test_a_hot_month_with_a_cooler_is_harder_than_the_darkest(cooler):
    build = _box(cooler, months=YEAR, cooling=True)
    figures = work_out(build)
    assert (figures.power.sun_month, figures.hardest.sun_month) == (12, 7)
    # As bad as July alone, and as every month of the year that the hourly reckoning shows, or worse.
    assert figures.hardest.days == pytest.approx(_days(_box(cooler, months=(7,), cooling=True)), rel=1e-3)
    energy = trip_energy(build, figures)
    shown = [inf if x is None else x for x in energy.months_d]
    assert energy.trip.median_empty_d == min(shown) < 5


def test_more_months_never_make_a_trip_easier():
    all_summer = _days(_box(months=SUMMER, cooling=True))
    assert all_summer == pytest.approx(min(_days(_box(months=(m,), cooling=True)) for m in SUMMER), rel=1e-3)


def test_without_cooling_the_darkest_month_is_the_hardest():
    for trip in ({"months": YEAR, "cooling": False}, {"months": (12, 1, 2), "cooling": True}):
        figures = work_out(_box(**trip))
        assert figures.hardest is figures.power


def test_a_fan_against_the_heat_rests_in_a_month_without_any():
    asked = enquiry("quillback", "box", {"fan-circulation": 1}, place="denver", months=YEAR, cooling=True)
    build = resolver("quillback").resolve(asked)
    figures = work_out(build)
    december, july = (
        next(x for x in build_loads(build, figures.warmth, figures.water, m) if x.option_id == "fan-circulation")
        for m in (12, 7)
    )
    assert december.hours_d == 0 < july.hours_d and december.in_season
