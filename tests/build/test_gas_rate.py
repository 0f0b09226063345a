"""Gas in the cold and gas pipes of a build."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.build import Figures, work_out
from engine.physics.gas_pipe import pipe_loss_kpa
from engine.physics.gas_rate import Cylinder, vapour_kg_h, wetted_m2
from tests.shops import enquiry, resolver


def _figures(options: dict[str, int], **trip: object) -> Figures:
    return work_out(resolver("proving-yard").resolve(enquiry("proving-yard", "plain-van", options, **trip)))


def test_a_fire_burns_full_on_the_coldest_night() -> None:
    rate = _figures({"cylinder-20": 2, "gas-fire": 1, "cooker": 1}, place="garmisch", months=(12,)).gas_rate
    assert rate is not None
    # 8,000 BTU/h of 13.98 kWh/kg; the cooker is used for an hour and does not count for long.
    assert rate.steady_kg_h == pytest.approx(8000 * 0.29307107 / 13980)
    assert rate.short_kg_h == pytest.approx(6000 * 0.29307107 / 13980)
    # Of two cylinders one is in use.
    [full] = {vapour_kg_h(wetted_m2(Cylinder(20 * 0.45359237), 0.3), rate.night_degc)}
    assert rate.rate == pytest.approx(full)


def test_nothing_is_said_of_gas_without_gas() -> None:
    assert _figures({}).gas_rate is None and _figures({}).gas_pipe is None
    assert _figures({"cylinder-20": 1}).gas_rate is None and _figures({"cylinder-20": 1}).gas_pipe is None


def test_the_pipe_carries_everything_at_once() -> None:
    pipe = _figures({"cylinder-20": 1, "gas-fire": 1, "cooker": 1}).gas_pipe
    assert pipe is not None
    assert pipe.input_w == pytest.approx(14000 * 0.29307107, rel=1e-4)
    assert pipe.length_m == pytest.approx(2.0)  # the yard's places lie above each other
    assert pipe.allowed_kpa == 0.25  # where the yard is
    assert pipe_loss_kpa(pipe.least_bore_m, pipe.length_m, pipe.input_w) <= pipe.allowed_kpa + 1e-9


@given(st.integers(1, 12), st.sampled_from(("garmisch", "northway", "london", "palmas")))
def test_a_colder_month_never_gives_more_gas(month: int, place: str) -> None:
    found = [
        (f.gas_rate.night_degc, f.gas_rate.rate.kg_h)
        for m in (month, month % 12 + 1)
        if (f := _figures({"cylinder-20": 1, "gas-fire": 1}, place=place, months=(m,))).gas_rate
    ]
    (cold, least), (warm, most) = sorted(found)
    assert cold <= warm and least <= most + 1e-12
