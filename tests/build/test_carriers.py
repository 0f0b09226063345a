"""Bicycles on a carrier outside: they go there, and weigh there."""

import pytest

from engine.build import work_out
from engine.build.carriers import carried, is_bike
from engine.catalogue.trip import CargoBox
from engine.rules import judge
from engine.sheets.cargo_form import COMMON
from tests.shops import enquiry, resolver

BICYCLE = {"name": "Bicycle", "length_m": 1.8, "width_m": 0.35, "height_m": 1.05, "mass_kg": 15}
CRATE = {"name": "Crate", "length_m": 1.2, "width_m": 0.7, "height_m": 0.7, "any_way_up": True}
CARRIER = {"bike-carrier": 1, "rear-plates": 1}


def made(*boxes, options=CARRIER, **trip):
    """The demo's van without a garage for bicycles."""
    return resolver("hallamoor").resolve(enquiry("hallamoor", "van-35", options, boxes=boxes, **trip))


def cargo(build):
    """What the check of bulky things says."""
    [found] = [f for f in judge(build, work_out(build)) if f.rule == "cargo-fits"]
    return found


def test_two_bicycles_go_on_a_carrier_for_two():
    build = made(BICYCLE | {"count": 2})
    assert [(c.part.option.id, len(c.bikes), c.mass_kg) for c in carried(build)] == [("bike-carrier", 2, 30.0)]
    found = cargo(build)
    assert (found.verdict, found.cause) == ("ok", "On “Carrier for two bicycles, rear”: 2 × Bicycle.")


@pytest.mark.parametrize(
    ("boxes", "left"),
    [
        ([BICYCLE | {"count": 3}], "No garage is chosen for Bicycle."),
        ([BICYCLE | {"count": 2, "mass_kg": 35}], "No garage is chosen for Bicycle."),
        ([BICYCLE, CRATE], "No garage is chosen for Crate."),
    ],
)
def test_what_the_carrier_does_not_take_still_needs_a_garage(boxes, left):
    found = cargo(made(*boxes))
    assert found.verdict == "fails" and found.cause.startswith(left + " On “Carrier")
    assert "carrier" not in found.remedy


def test_what_is_too_heavy_for_the_carrier_is_said():
    # It bears 60 kg: one bicycle of 35 kg and no second one, none of 65 kg, and a third only for want of an arm.
    one, none, full = (
        cargo(made(BICYCLE | {"count": n, "mass_kg": kg})) for n, kg in ((2, 35), (1, 65), (3, 15))
    )  # fmt: skip
    assert one.cause.endswith("rear”: Bicycle. It may carry 60 kg: too little for one more “Bicycle” of 35 kg.")
    assert none.cause.endswith("“Carrier for two bicycles, rear” may carry 60 kg: too little for “Bicycle” of 65 kg.")
    assert one.remedy == "Take fewer, smaller or lighter things, or choose a bed with a garage under it."
    assert "may carry" not in full.cause and "lighter" not in full.remedy


def test_without_a_carrier_one_is_a_way_out_for_bicycles_only():
    assert cargo(made(BICYCLE, options={})).remedy.endswith("or a carrier outside for bicycles.")
    assert "carrier" not in cargo(made(CRATE, options={})).remedy
    assert carried(made(BICYCLE, options={})) == ()


def test_bicycles_weigh_at_the_carrier_and_not_in_the_garage():
    inside, outside = (
        work_out(made(BICYCLE | {"count": 2}, options={"bike-carrier": n, "rear-plates": 1}, baggage_kg=100)).mass
        for n in (0, 1)
    )
    bare = [work_out(made(options={"bike-carrier": n, "rear-plates": 1}, baggage_kg=100)).mass for n in (0, 1)]
    van = made().vehicle
    lever_m = van.place("rear-wall").x_m - van.place("garage").x_m
    # Beyond what the carrier itself brings, 30 kg move rearward and nothing is added.
    more_kg = (outside.rear_worst.axles.rear_kg - inside.rear_worst.axles.rear_kg) - (
        bare[1].rear_worst.axles.rear_kg - bare[0].rear_worst.axles.rear_kg
    )
    assert more_kg == pytest.approx(30 * lever_m / van.wheelbase_m, abs=0.1) and more_kg > 5
    gained_kg = outside.heaviest.axles.total_kg - inside.heaviest.axles.total_kg
    assert gained_kg == pytest.approx(bare[1].heaviest.axles.total_kg - bare[0].heaviest.axles.total_kg, abs=1e-6)
    assert outside.baggage_kg == inside.baggage_kg == pytest.approx(100)


def test_bicycles_beyond_the_stated_baggage_count_in_full():
    assert work_out(made(BICYCLE | {"count": 2}, baggage_kg=10)).mass.baggage_kg == pytest.approx(30)


def test_only_the_shape_of_a_bicycle_is_one():
    assert [b.name for b in COMMON if is_bike(b)] == ["Bicycle, handlebar turned"]
    assert not is_bike(CargoBox(**CRATE))
    assert is_bike(CargoBox(name="Child's bicycle", length_m=1.3, width_m=0.5, height_m=0.8))
