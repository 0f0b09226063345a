"""Warming up of whole builds."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.build.warm_room import living_room, warm_up_figures
from engine.build.warmth import warmth_figures
from tests.shops import enquiry, resolver

READY = [("hallamoor", "dry-stone"), ("hallamoor", "high-fell"), ("quillback", "long-winter-box")]


@pytest.mark.parametrize(("shop", "ready"), READY)
def test_the_room_loses_what_the_shell_and_air_lose(shop: str, ready: str) -> None:
    build = resolver(shop).resolve(enquiry(shop, ready=ready))
    warmth = warmth_figures(build)
    assert living_room(build, warmth).steady_w_k == pytest.approx(warmth.total_w_k)


@settings(max_examples=30, deadline=None)
@given(st.sampled_from(READY), st.sampled_from(("helsinki", "denver", "potsdam")), st.sampled_from((1, 2, 12)),
       st.floats(10, 23), st.floats(0.5, 3))  # fmt: skip
def test_more_warmth_takes_longer(which: tuple[str, str], place: str, month: int, wanted: float, more: float) -> None:
    shop, ready = which
    found = []
    for inside_degc in (wanted, wanted + more):
        build = resolver(shop).resolve(enquiry(shop, ready=ready, place=place, months=[month], inside_degc=inside_degc))
        found.append(warm_up_figures(build, warmth_figures(build)))
    less, longer = found
    assert less is not None and longer is not None
    assert less.floor_degc < longer.floor_degc < wanted + more
    assert less.grade_count == longer.grade_count  # the test's own 20 °C, whatever is wanted
    if longer.warm_up_h is not None:
        assert less.warm_up_h is not None and less.warm_up_h <= longer.warm_up_h


def test_a_colder_place_never_needs_a_smaller_heater() -> None:
    losses = []
    for place in ("london", "potsdam", "helsinki"):
        build = resolver("hallamoor").resolve(enquiry("hallamoor", ready="dry-stone", place=place, months=[1]))
        w = warmth_figures(build)
        losses.append((w.design_degc, w.design_loss_w))
    assert losses == sorted(losses, key=lambda x: -x[0])
    assert [w for _, w in losses] == sorted(w for _, w in losses)


def test_no_heater_warms_nothing_up() -> None:
    build = resolver("hallamoor").resolve(enquiry("hallamoor", "van-35", {}, place="helsinki", months=[1]))
    assert warm_up_figures(build, warmth_figures(build)) is None


@pytest.mark.parametrize(("altitude_m", "carried_frac"), [(0, 1.0), (1600, 0.825), (-2, 1.0)])
def test_thin_air_carries_less_heat(altitude_m: float, carried_frac: float) -> None:
    # Standard atmosphere: 83.5 kPa at 1,600 m over 101.3 at the sea.
    build = resolver("quillback").resolve(enquiry("quillback", ready="long-winter-box", place="denver", months=[1]))
    there = warmth_figures(replace(build, climate=replace(build.climate, altitude_m=altitude_m)))
    sea = warmth_figures(replace(build, climate=replace(build.climate, altitude_m=0)))
    assert there.air_m3_h == sea.air_m3_h
    assert there.air_loss_w_k == pytest.approx(carried_frac * sea.air_loss_w_k, rel=2e-3)
    assert sea.total_w_k - there.total_w_k == pytest.approx((1 - carried_frac) * sea.air_loss_w_k, abs=0.05)
