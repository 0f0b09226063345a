"""Fans of a build: a pair in the roof against one, and a fan against a chimney."""

from math import sqrt

import pytest

from engine.build import work_out
from engine.build.fan_air import LEAKS_M2, Draught, FanFigures
from engine.catalogue.facets import SpaceHeater
from engine.rules.fan_and_fire import RULE as FAN_AND_FIRE
from engine.rules.fan_pair import RULE as FAN_PAIR
from engine.saying import findings_of
from tests.build.test_hot_and_cold_water import _with
from tests.shops import enquiry, resolver


def _fans(count: int) -> FanFigures | None:
    asked = enquiry("quillback", ready="two-up-van", options={"roof-fan": count})
    return work_out(resolver("quillback").resolve(asked)).fans


def test_a_pair_moves_far_more_than_either_alone_in_a_shut_room() -> None:
    pair = _fans(2)
    assert pair is not None and pair.pair_m3_h is not None
    assert pair.pair_m3_h > 10 * pair.alone_m3_h
    # Two like fans, one in and one out, have nothing to work against: both move their free flow of 900 ft³/min.
    assert abs(pair.pair_m3_h - 900 * 1.69901082) < 1


def test_one_fan_wants_a_window() -> None:
    one = _fans(1)
    assert one is not None and one.pair_m3_h is None and not one.past_bed
    assert one.window_m3_h > 5 * one.alone_m3_h


def test_without_a_fan_nothing_is_said() -> None:
    assert _fans(0) is None


def _draught(options: dict[str, int], shop: str = "quillback", vehicle: str = "bus") -> Draught | None:
    return work_out(resolver(shop).resolve(enquiry(shop, vehicle, options))).draught


def test_a_hood_beside_a_stove_wants_an_open_window() -> None:
    # 140 ft³/min are 237.9 m³/h, at 8 of 50 Pa 199.8; at 8 Pa air comes in at 3.65 m/s through 0.6 of an opening.
    ducted = _draught({"range-hood": 1, "wood-stove": 1})
    assert ducted is not None and ducted.ducted and ducted.fan_ids == ("range-hood",)
    both = _draught({"range-hood": 1, "roof-fan": 1, "wood-stove": 1})
    assert both is not None and both.fan_ids == ("roof-fan", "range-hood")
    assert ducted.want_m2 == pytest.approx(199.8 / 3600 / (0.6 * sqrt(2 * 8 / 1.2)), rel=1e-3)
    assert ducted.have_m2 == LEAKS_M2 < ducted.want_m2
    # A stove that burns the room's air stands 4 Pa only.
    asked = enquiry("quillback", "bus", {"range-hood": 1, "wood-stove": 1})
    burns = _with(resolver("quillback").resolve(asked), SpaceHeater, flue="open-flued")
    open_stove = work_out(burns).draught
    assert open_stove is not None and not open_stove.ducted
    assert open_stove.want_m2 == pytest.approx(237.9 * (1 - 4 / 50) / 3600 / (0.6 * sqrt(2 * 4 / 1.2)), rel=1e-3)
    assert [f.verdict for f in findings_of(FAN_AND_FIRE, burns, work_out(burns))] == ["tight"]
    # Whoever cooks stands beside it, and a hob has no flue at all.
    assert _draught({"oven-gas": 1, "roof-fan": 1}, "hallamoor", "box-72") is None


@pytest.mark.parametrize(
    ("options", "verdict"),
    [
        ({"range-hood": 1, "wood-stove": 1}, "note"),
        ({"range-hood": 1}, None),
        ({"wood-stove": 1}, None),
        ({"range-hood": 1, "heater-diesel-2": 1, "hob-gas-2": 1, "heater-gas-catalytic": 1}, None),  # no chimney
    ],
)
def test_only_a_chimney_and_a_fan_together_are_told(options: dict[str, int], verdict: str | None) -> None:
    build = resolver("quillback").resolve(enquiry("quillback", "bus", options))
    assert [f.verdict for f in findings_of(FAN_AND_FIRE, build, work_out(build))] == ([verdict] if verdict else [])


@pytest.mark.parametrize(
    ("options", "name", "pair"),
    [
        ({"washroom-fan": 1}, "Washroom", False),
        ({"washroom-fan": 1, "roof-fan": 1}, "Roof fan", False),
        ({"roof-fan": 2}, "Roof fan", True),
    ],
)
def test_the_fan_that_is_meant_is_named(options: dict[str, int], name: str, pair: bool) -> None:
    build = resolver("hallamoor").resolve(enquiry("hallamoor", "box-72", options))
    figures = work_out(build)
    assert figures.fans is not None and figures.fans.strongest.startswith(name)
    [found] = findings_of(FAN_PAIR, build, figures)
    assert (figures.fans.strongest in found.cause) != pair
