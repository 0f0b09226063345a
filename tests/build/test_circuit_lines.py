"""One circuit's cable: table values, and laws that hold for any run."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.build.circuit_asks import Spot, class_v, run_m
from engine.build.circuit_lines import one_line
from engine.build.wiring_practice import Lay
from tests.build.wiring import METRIC, US, ask, copper_m2


def test_a_run_goes_along_across_and_up() -> None:
    assert run_m(Spot("a", 0, 0, 0), Spot("b", 3, -1, 2), 0.8) == pytest.approx(6.8)
    assert run_m(Spot("b", 3, -1, 2), Spot("a", 0, 0, 0), 0.8) == pytest.approx(6.8)


@pytest.mark.parametrize(("nominal_v", "round_v"), [(12, 12), (12.8, 12), (14.2, 12), (24, 24), (25.6, 24), (51.2, 48)])
def test_systems_have_round_voltages(nominal_v: float, round_v: float) -> None:
    assert class_v(nominal_v) == round_v


@pytest.mark.parametrize(
    ("lay", "current_a", "one_way_m", "drop_frac", "size", "fuse_a"),
    [
        (US, 8, 7.62, 0.03, "8 AWG", 10),  # 0.045 ohm there and back is the most: 10 AWG has 0.050
        (METRIC, 8, 7.62, 0.03, "6 mm²", 10),  # 2.96 %
        (US, 8, 7.62, 0.10, "14 AWG", 10),
        (US, 189, 1.5, 0.03, "1/0 AWG", 250),
        (METRIC, 10, 6, 0.10, "2.5 mm²", 15),
    ],
)
def test_cables_of_tables(
    lay: Lay, current_a: float, one_way_m: float, drop_frac: float, size: str, fuse_a: float
) -> None:
    line = one_line(ask(current_a, one_way_m, drop_frac), lay, ())
    assert (line.size, line.fuse_a) == (size, fuse_a)
    assert line.drop_frac <= drop_frac and line.ampacity_a >= fuse_a


RUNS = {"current_a": st.floats(0.05, 900), "one_way_m": st.floats(0.3, 20), "lay": st.sampled_from([US, METRIC])}


@given(**RUNS, more=st.floats(1, 4))
def test_farther_is_never_thinner(current_a: float, one_way_m: float, lay: Lay, more: float) -> None:
    near, far = (one_line(ask(current_a, m), lay, ()) for m in (one_way_m, one_way_m * more))
    assert copper_m2(far) >= copper_m2(near) or far.parallel > near.parallel


@given(**RUNS, more=st.floats(1, 4))
def test_more_current_is_never_thinner(current_a: float, one_way_m: float, lay: Lay, more: float) -> None:
    some, much = (one_line(ask(a, one_way_m), lay, ()) for a in (current_a, current_a * more))
    assert copper_m2(much) >= copper_m2(some) or much.parallel > some.parallel


@given(**RUNS)
def test_what_is_proposed_is_sound(current_a: float, one_way_m: float, lay: Lay) -> None:
    line = one_line(ask(current_a, one_way_m), lay, ())
    if line.size is None:
        assert line.faults == ("no-cable-enough", "drop-too-large") or line.faults
        return
    assert line.faults == ()
    assert line.drop_frac <= 0.03 * (1 + 1e-9)
    assert line.fuse_a is not None
    assert line.share_a * 1.25 <= line.fuse_a * (1 + 1e-9) <= line.ampacity_a * (1 + 2e-9)


@given(**RUNS)
def test_twice_the_voltage_loses_half_the_share(current_a: float, one_way_m: float, lay: Lay) -> None:
    label = "10 AWG" if not lay.metric else "6 mm²"
    low = one_line(ask(current_a, one_way_m)._replace(conductor=label), lay, ())
    high = one_line(ask(current_a, one_way_m, system_v=24.0)._replace(conductor=label), lay, ())
    assert high.drop_frac == pytest.approx(low.drop_frac / 2)
