"""Gas burners give less heat high above the sea; nothing else about a heater changes with the height."""

import pytest

from engine.build import work_out
from engine.build.warmth import gives_w
from engine.catalogue.facets import SpaceHeater
from engine.rules import judge
from tests.shops import enquiry, resolver

GAS, DIESEL = {"heater-gas-furnace": 1}, {"heater-diesel-4": 1}


def _bus(place: str, heater: dict[str, int]):
    asked = enquiry(
        "quillback", ready="sun-porch-bus", options={"heater-gas-furnace": 0} | heater, place=place, months=[1]
    )
    return resolver("quillback").resolve(asked)


def _rated_w(build) -> float:
    return sum(f.output_w * p.count for p, f in build.facets(SpaceHeater))


@pytest.mark.parametrize(
    ("place", "left_frac"),
    # 1,650 m are 5,413 ft: 3.413 thousands above the 2,000 ft, of 4 % each. 2,548 m are 8,360 ft.
    [("miami", 1.0), ("denver", 1 - 0.04 * 3.4134), ("bogota", 1 - 0.04 * 6.3596)],
)
def test_a_gas_heater_gives_four_hundredths_less_for_each_thousand_feet(place, left_frac):
    build = _bus(place, GAS)
    assert work_out(build).warmth.output_w == pytest.approx(left_frac * _rated_w(build), rel=1e-4)


def test_a_diesel_heater_gives_what_its_sheet_says_everywhere():
    build = _bus("bogota", DIESEL)
    heaters = [f for _, f in build.facets(SpaceHeater)]
    assert [f.fuel for f in heaters] == ["diesel"]
    assert gives_w(build, heaters[0]) == heaters[0].output_w == work_out(build).warmth.output_w


def test_the_note_says_what_thin_air_takes():
    def told(place: str, heater: dict[str, int]):
        build = _bus(place, heater)
        return next(f for f in judge(build, work_out(build)) if f.rule == "heater-capacity")

    high = told("denver", GAS)
    assert high.limit == pytest.approx(0.86346 * _rated_w(_bus("denver", GAS)), rel=1e-4)
    assert any(
        fact.value == pytest.approx(0.86346, rel=1e-4) for fact in high.facts if fact.name.startswith("of their")
    )
    for low in (told("miami", GAS), told("denver", DIESEL)):
        assert not any(fact.name.startswith("of their") for fact in low.facts)
