"""Two taps of a build at once."""

import pytest

from engine.build import work_out
from engine.build.tap_flow import tap_figures
from engine.catalogue.facets import Pump
from engine.rules import all_rules
from engine.saying import findings_of
from tests.build.test_hot_and_cold_water import _with
from tests.shops import catalogue, enquiry, resolver

RULES = {r.code: r for r in all_rules()}


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
    # Alone the head lets through 1.5 gal/min behind either.
    assert strong.alone_l_min == weak.alone_l_min == pytest.approx(1.5 * 3.785411784)
    assert strong.both_l_min > weak.both_l_min


@pytest.mark.parametrize(("shop", "ready"), [(s, r.id) for s in ("quillback", "hallamoor") for r in catalogue(s).ready])
def test_a_shower_has_one_flow_in_all_that_is_said_of_it(shop: str, ready: str) -> None:
    build = resolver(shop).resolve(enquiry(shop, ready=ready))
    f = work_out(build)
    assert f.taps is not None and f.taps.alone_l_min == pytest.approx(f.water.shower_flow_l_min)
    for said in findings_of(RULES["shower-hot"], build, f):
        told = [x.value for x in said.facts if x.name == "flow of the shower"]
        assert told in ([], [pytest.approx(f.taps.alone_l_min)])


def test_a_weak_pump_gives_less_than_the_head_lets_through() -> None:
    build = resolver("quillback").resolve(enquiry("quillback", ready="sun-porch-bus"))
    weak = tap_figures(_with(build, Pump, pressure_kpa=60.0))
    assert weak is not None and 0 < weak.both_l_min < weak.alone_l_min < 0.9 * 1.5 * 3.785411784


def test_without_a_pump_there_is_nothing_to_say() -> None:
    asked = enquiry("quillback", ready="sun-porch-bus", options={"water-pump": 0})
    assert work_out(resolver("quillback").resolve(asked)).taps is None
