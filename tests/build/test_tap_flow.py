"""Two taps of a build at once."""

from engine.build import work_out
from tests.shops import enquiry, resolver


def test_a_second_tap_takes_from_the_shower() -> None:
    for pump in ("water-pump", "water-pump-variable"):
        options = {"water-pump": 0, pump: 1}
        taps = work_out(
            resolver("quillback").resolve(enquiry("quillback", ready="sun-porch-bus", options=options))
        ).taps
        assert taps is not None
        assert 0 < taps.both_l_min < taps.alone_l_min


def test_a_stronger_pump_gives_more() -> None:
    weak, strong = (
        work_out(
            resolver("quillback").resolve(
                enquiry("quillback", ready="sun-porch-bus", options={"water-pump": 0, pump: 1})
            )
        ).taps
        for pump in ("water-pump", "water-pump-variable")
    )
    assert weak is not None and strong is not None
    assert strong.alone_l_min > weak.alone_l_min and strong.both_l_min > weak.both_l_min


def test_without_a_pump_there_is_nothing_to_say() -> None:
    asked = enquiry("quillback", ready="sun-porch-bus", options={"water-pump": 0})
    assert work_out(resolver("quillback").resolve(asked)).taps is None
