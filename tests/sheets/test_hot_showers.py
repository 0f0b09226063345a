"""Showers by source: the sums on paper, every heater on offer, and in the reader's units."""

from math import exp

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.build.hot_water import warm_shower
from engine.catalogue.facets import WaterHeater
from engine.sheets.hot_showers import _told
from engine.sheets.page import fragments


def _heater(**changed: object) -> WaterHeater:
    return WaterHeater.model_validate(
        {"kind": "water-heater", "volume_l": 10.0, "heat_w": 1500.0, "energy": "gas"} | changed
    )


def test_the_next_shower_waits_for_its_own_heat() -> None:
    w = warm_shower(_heater(), 4.0, 3.0)
    # 12 L from 10 to 38 °C take 390.8 Wh: 15.6 min with 1.5 kW.
    assert 60 * w.next_h == pytest.approx(12 * 28 * 1.163 / 1500 * 60)
    assert w.low_minutes == pytest.approx(10 * 22 / 28 / 4 / (1 - 1500 / (1.163 * 4 * 60 * 28)))


@pytest.mark.parametrize(("heat_w", "said"), [(1500.0, "the next shower after 16 min;"), (150.0, "after 2.6 h;")])
def test_a_long_wait_is_told_in_hours(heat_w: float, said: str) -> None:
    assert said in _told(_heater(heat_w=heat_w), False, 4.0, 3.0, "metric")


def test_what_the_engine_heated_has_cooled_by_morning() -> None:
    w = warm_shower(_heater(energy="engine", volume_l=16.0, standing_heat_w=40.0, hot_degc=60.0), 4.0, 3.0)
    # 40 W at 40 K are 1 W/K: 16 L lose by e^(−12/18.6) of 42 K over 18 °C.
    degc = 18 + 42 * exp(-12 / (16 * 1.163))
    assert w.morning_degc == pytest.approx(degc)
    assert w.morning_high_minutes == pytest.approx(16 * (degc - 10) / 28 / 4 if degc >= 38 else 0.0)


@given(st.sampled_from(("gas", "diesel", "battery", "mains", "engine")), st.floats(200, 3000), st.floats(0, 3000))
def test_more_heat_never_makes_one_wait_longer(energy: str, heat: float, more: float) -> None:
    weak, strong = (warm_shower(_heater(energy=energy, heat_w=h), 6.0, 4.0) for h in (heat, heat + more))
    assert strong.next_h <= weak.next_h and strong.high_minutes >= weak.high_minutes


def test_every_heater_that_fits_is_told(stage) -> None:
    scene = stage.scene()
    html = fragments(scene)["hot-showers"]
    fitting = [
        o
        for s in scene.catalogue.sections
        for o in s.options
        if any(isinstance(f, WaterHeater) for f in o.facets) and (not o.fits or scene.build.vehicle.id in o.fits)
    ]
    assert len(fitting) >= 4 and html.count("<li>") == len(fitting)
    assert ("50 °F" in html) == (scene.build.workshop.units == "us")
    assert html.count("<b>") == sum(o.id in scene.enquiry.options for o in fitting)
