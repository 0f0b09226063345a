"""What the law makes of masses: licences by rating, and what may and must be carried."""

from dataclasses import replace

import pytest

from engine.build import Build, work_out
from engine.build.legal_limits import LICENCES, SIZES, step_of
from engine.build.plan_people import belted_places, without_place
from engine.catalogue.facets import Seat
from engine.rule import Finding
from engine.rules import driving_licence, height_notice, minimum_payload, occupant_cargo_capacity, vehicle_size
from engine.saying import findings_of
from tests.shops import enquiry, resolver

LB_KG = 0.45359237


def placed(build: Build, region: str, length_m: float | None = None, width_m: float | None = None, **masses) -> Build:
    """The same build sold in another region, with other ratings."""
    v = build.vehicle
    sizes = {"length_m": length_m or v.length_m, "width_m": width_m or v.width_m}
    changed = v.model_copy(update={"masses": v.masses.model_copy(update=masses), **sizes})
    shop = build.workshop.model_copy(update={"region": region, "units": "us" if region == "us" else "metric"})
    return replace(build, vehicle=changed, workshop=shop)


def found(rule, build: Build) -> list[Finding]:
    return findings_of(rule.RULE, build, work_out(build))


@pytest.mark.parametrize(
    ("rating_lb", "verdict"),
    [(25950, "ok"), (26000, "ok"), (26001, "note"), (29800, "note")],
)
def test_a_private_motor_home_is_never_told_to_get_a_commercial_licence(yard, rating_lb, verdict):
    (finding,) = found(driving_licence, placed(yard(), "us", gross_kg=rating_lb * LB_KG))
    assert finding.verdict == verdict
    if verdict == "note":
        assert "check your state" in finding.cause
        assert "no federal commercial license for private use" in finding.cause
    else:
        assert "state" not in finding.cause and "commercial" not in finding.cause


def test_a_seat_that_has_no_place_asks_for_no_capacity():
    """Both laws count seats that are there: the pair behind the cab has no room beside the bed and the bath."""
    options = {"seat-pair-belted": 1, "floor-crossmembers": 1}
    build = resolver("quillback").resolve(enquiry("quillback", ready="two-up-van", options=options))
    assert without_place(build, Seat) == ("“Two belted seats on floor track”",)
    legal = work_out(build).legal
    assert legal.belted_count == belted_places(build) == len(build.vehicle.seats) == 2
    assert legal.capacity.least_kg == pytest.approx(2 * 150 * LB_KG, abs=0.2)
    (finding,) = found(occupant_cargo_capacity, build)
    assert "its 2 belted seats ask" in finding.cause
    free = resolver("quillback").resolve(enquiry("quillback", "van", options))
    assert without_place(free, Seat) == ()
    assert work_out(free).legal.belted_count == 4


@pytest.mark.parametrize(
    ("region", "rating_kg", "verdict", "said"),
    [
        ("uk", 3500, "ok", "(B)"),
        ("uk", 3501, "note", "C1"),
        ("uk", 4250, "note", "before 1 January 1997"),
        ("uk", 7500, "note", "C1"),
        ("uk", 7501, "note", "a C licence"),
        ("eu", 3500, "ok", "(B)"),
        ("eu", 4250, "note", "2025/2205"),
        ("eu", 4251, "note", "up to 7,500 kg"),
        ("eu", 12000, "note", "a C licence"),
        ("au", 4500, "ok", "(C)"),
        ("au", 4501, "note", "(LR)"),
        ("au", 8000, "note", "(LR)"),
        ("au", 8001, "note", "(MR)"),
    ],
)
def test_licence_classes_end_where_the_law_says(yard, region, rating_kg, verdict, said):
    (finding,) = found(driving_licence, placed(yard(), region, gross_kg=rating_kg))
    assert (finding.verdict, said in finding.cause) == (verdict, True), finding.cause
    assert finding.cause.endswith("Check with your authority.")


def test_the_weight_on_the_scale_does_not_change_the_licence(yard):
    heavy = placed(yard(options={"box-120": 1}, baggage_kg=1500), "uk")
    (finding,) = found(driving_licence, heavy)
    assert finding.verdict == "ok"
    assert work_out(heavy).mass.heaviest.axles.total_kg > 3500


def test_every_region_has_its_classes_in_rising_order():
    assert LICENCES.keys() == SIZES.keys() == {"us", "eu", "uk", "au"}
    for region, licences in LICENCES.items():
        ends = [s.upto_kg for s in licences.steps]
        assert ends[-1] is None and None not in ends[:-1]
        assert ends[:-1] == sorted(ends[:-1])
        assert step_of(region, ends[0]) is licences.steps[0]


def test_capacity_counts_propane_as_vehicle_and_water_as_cargo(yard):
    # 2000 kg bare; cylinder of 8 kg with 20 lb (9.07 kg) of propane; 20 gal of water do not count. Two belts: 136 kg.
    build = placed(yard(options={"cylinder-20": 1, "tank-20": 1}, adults=8, baggage_kg=500), "us")
    legal = work_out(build).legal
    assert legal.payload is None
    assert legal.capacity.empty_kg == pytest.approx(2000 + 8 + 9.072, abs=0.001)
    assert legal.capacity.allowed_kg == pytest.approx(3500 - 2017.072, abs=0.001)
    assert legal.capacity.least_kg == 136
    (finding,) = found(occupant_cargo_capacity, build)
    assert finding.verdict == "ok"
    assert "167 lb" in finding.cause  # the full tank, at 8.345 lb a gallon


@pytest.mark.parametrize(("capacity_kg", "verdict"), [(136.0, "tight"), (135.9, "fails"), (150.0, "ok")])
def test_capacity_exactly_at_what_the_seats_ask_for(yard, capacity_kg, verdict):
    (finding,) = found(occupant_cargo_capacity, placed(yard(), "us", gross_kg=2000 + capacity_kg))
    assert finding.verdict == verdict


def test_pay_mass_counts_seats_and_not_the_travellers(yard):
    # 2000 kg, a tenth of 80 L of diesel (6.68 kg) less, driver and passenger 75 kg each; 10·(2 + 6) = 80 kg.
    alone, many = (work_out(placed(yard(adults=n), "eu")).legal for n in (1, 8))
    assert alone == many
    assert alone.payload.empty_kg == pytest.approx(2000 - 6.68 + 75)
    assert alone.payload.allowed_kg == pytest.approx(3500 - 2068.32 - 75)
    assert alone.payload.least_kg == 80
    assert alone.capacity is None


def test_water_counts_as_filled_for_travel(yard):
    build = yard(options={"tank-20": 1})
    (part,) = (p for p in build.parts if p.option.id == "tank-20")
    tank = part.option.facets[0]
    limited = part.option.model_copy(update={"facets": (tank.model_copy(update={"travel_fill_l": 20.0}),)})
    full, low = (
        work_out(placed(replace(build, parts=(replace(part, option=o),)), "eu")).legal for o in (part.option, limited)
    )
    assert full.travel_water_kg == pytest.approx(75.708, abs=0.001)
    assert low.travel_water_kg == 20
    assert low.payload.allowed_kg - full.payload.allowed_kg == pytest.approx(55.708, abs=0.001)


@pytest.mark.parametrize("region", ["uk", "au"])
def test_no_payload_law_where_none_is_known(yard, region):
    build = placed(yard(), region)
    assert found(minimum_payload, build) == found(occupant_cargo_capacity, build) == []


@pytest.mark.parametrize(("region", "rule"), [("us", occupant_cargo_capacity), ("eu", minimum_payload)])
def test_a_part_without_a_mass_leaves_it_open(yard, region, rule):
    build = yard(options={"co-alarm": 1})
    unweighed = replace(build, parts=tuple(replace(p, mass_kg=None) for p in build.parts))
    (finding,) = found(rule, placed(unweighed, region))
    assert finding.verdict == "unknown"
    assert "Carbon monoxide alarm" in finding.cause


@pytest.mark.parametrize(
    ("region", "length_m", "width_m", "verdict"),
    [
        ("uk", 12.0, 2.0, "ok"),
        ("uk", 12.1, 2.0, "note"),
        ("uk", 8.0, 2.55, "ok"),
        ("eu", 8.0, 2.56, "note"),
        ("us", 13.0, 102 * 0.0254, "ok"),
        ("us", 13.0, 2.6, "note"),
        ("au", 12.5, 2.5, "ok"),
    ],
)
def test_sizes_at_their_limits(yard, region, length_m, width_m, verdict):
    (finding,) = found(vehicle_size, placed(yard(), region, length_m, width_m))
    assert finding.verdict == verdict, finding.cause


def test_the_notice_counts_what_stands_on_the_roof(yard):
    build = placed(yard(), "uk")
    tall = replace(build, vehicle=build.vehicle.model_copy(update={"height_m": 3.0}))
    (finding,) = found(height_notice, tall)
    assert finding.verdict == "ok"
    racked = placed(yard(options={"rack": 1}), "uk")
    (finding,) = found(height_notice, replace(racked, vehicle=tall.vehicle))
    assert (finding.verdict, finding.options) == ("note", ("rack",))
    assert found(height_notice, placed(yard(), "eu")) == []
