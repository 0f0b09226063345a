"""Roof fans of a build: a pair against one."""

from engine.build import work_out
from engine.build.fan_air import FanFigures
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
