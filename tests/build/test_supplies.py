"""Tanks and gas from day to day: bands round the days that the rules judge, and what must hold whatever the numbers."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.build import Build, work_out
from engine.build.supplies import Supplies, supplies
from tests.shops import enquiry, resolver


def _supplies(build: Build) -> Supplies:
    f = work_out(build)
    return supplies(build, f.warmth, f.water, f.gas.gas_kg)


def _yard(options: dict[str, int], **trip: object) -> Build:
    return resolver("proving-yard").resolve(enquiry("proving-yard", "plain-van", options, **trip))


@pytest.mark.parametrize(("shop", "ready"), [("quillback", "long-winter-box"), ("hallamoor", "dry-stone")])
def test_the_days_are_those_of_the_rules_with_a_band_round_them(shop: str, ready: str) -> None:
    build = resolver(shop).resolve(enquiry(shop, ready=ready))
    f, s = work_out(build), _supplies(build)
    assert [x.days for x in s.water] == [f.water.fresh_days, f.water.grey_days, f.water.toilet_days]
    assert s.gas is None or s.gas.days == pytest.approx(f.gas.gas_days)
    for x in (*s.water, *([s.gas] if s.gas else [])):
        assert x.low_days < x.days < x.high_days


def test_the_band_of_fresh_water_is_what_the_handbook_leaves_open() -> None:
    # Two people, no showers, no meals: 6 + 4 L each; half-widths 1.75 and 2 L each, by their squares 5.32 of 20 L.
    trip = {"adults": 2, "pets": 0, "showers_per_day": 0, "hot_meals_per_day": 0}
    [fresh] = _supplies(_yard({"tank-20": 1}, **trip)).water
    off = (3.5**2 + 4**2) ** 0.5 / 20
    assert (fresh.low_days, fresh.high_days) == pytest.approx((fresh.days / (1 + off), fresh.days / (1 - off)))


def test_gas_by_month_follows_the_cold() -> None:
    heated = resolver("hallamoor").resolve(
        enquiry(
            "hallamoor", ready="lapwing", options={"combi-diesel-6": 0, "combi-gas-4": 1, "cylinder-6": 2}, months=(1,)
        )
    )
    s = _supplies(heated)
    assert s.gas is not None and len(s.gas_months_d) == 12
    assert s.gas_months_d[0] == pytest.approx(s.gas.days)
    assert s.gas_months_d[0] < s.gas_months_d[6]
    assert _supplies(_yard({})).gas is None
    assert _supplies(_yard({"cylinder-20": 1})).gas is None


@given(st.integers(1, 12), st.integers(1, 3))
def test_more_gas_lasts_longer_in_every_month(month: int, times: int) -> None:
    one, more = (
        _supplies(_yard({"cylinder-20": n, "gas-fire": 1}, months=(month,))).gas_months_d for n in (1, 1 + times)
    )
    assert all(a is not None and b is not None and a < b for a, b in zip(one, more, strict=True))
