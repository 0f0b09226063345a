"""Masses and axle loads against sums on paper. Wheelbase 3.65 m; empty 1200 kg in front, 800 kg in the rear."""

import pytest

from engine.build import work_out
from engine.build.mass_items import ADULT_KG
from engine.build.masses import mass_figures

WHEELBASE_M = 3.65


def case(mass, name):
    return next(c for c in mass.cases if c.name == name)


def test_an_empty_van_with_its_driver(yard):
    mass = mass_figures(yard())
    dry, leaving, home = mass.cases
    assert (dry.axles.front_kg, dry.axles.rear_kg) == pytest.approx((1200, 800))
    # 75 kg sit right over the front axle.
    for loaded in (leaving, home):
        assert (loaded.axles.front_kg, loaded.axles.rear_kg) == pytest.approx((1275, 800))
    assert mass.heaviest.axles.total_kg == pytest.approx(2075)
    assert (mass.fit_out_kg, mass.fresh_water_kg, mass.people_kg) == (0, 0, 75)


def test_a_load_behind_the_rear_axle_lifts_the_front(yard):
    mass = mass_figures(yard(options={"box-120": 1}))
    # 4.5 m behind the front axle: 120·4.5/3.65 = 147.9 kg on the rear, −27.9 kg in front.
    dry = case(mass, "dry and empty")
    assert dry.axles.rear_kg == pytest.approx(800 + 147.945, abs=0.001)
    assert dry.axles.front_kg == pytest.approx(1200 - 27.945, abs=0.001)
    assert dry.axles.total_kg == pytest.approx(2120)


def test_water_gas_and_baggage_count_only_when_aboard(yard):
    mass = mass_figures(yard(options={"tank-20": 1, "cylinder-20": 1}, baggage_kg=50))
    assert case(mass, "dry and empty").axles.total_kg == pytest.approx(2000 + 8)
    # 20 gal are 75.708 L, taken as kilograms; 20 lb of gas are 9.072 kg.
    leaving = case(mass, "full fresh water, all aboard")
    assert leaving.axles.total_kg == pytest.approx(2008 + 75 + 75.708 + 9.072 + 50, abs=0.001)
    # No waste tank is chosen, so on the way home the water is gone.
    home = case(mass, "full waste tanks, all aboard")
    assert home.axles.total_kg == pytest.approx(2008 + 75 + 9.072 + 50, abs=0.001)
    assert mass.heaviest is leaving


def test_people_fill_the_cab_first_then_the_living_space(yard):
    mass = mass_figures(yard(adults=3, children=1, pets=2))
    assert mass.people_kg == pytest.approx(3 * 75 + 40 + 2 * 25)
    # Two in front at 0 m; the third, the child and both dogs at 1.5 m.
    back = 75 + 40 + 50
    leaving = case(mass, "full fresh water, all aboard")
    assert leaving.axles.rear_kg == pytest.approx(800 + back * 1.5 / WHEELBASE_M)
    assert leaving.axles.front_kg == pytest.approx(1200 + 150 + back * (1 - 1.5 / WHEELBASE_M))
    assert mass.front_worst is leaving
    # Most stands on the rear when both other grown-ups sit behind and the child is not there.
    assert mass.rear_worst.axles.rear_kg == pytest.approx(800 + (150 + 50) * 1.5 / WHEELBASE_M)
    assert mass.rear_worst.name == "3 aboard"


def test_grown_ups_weigh_what_their_region_counts():
    assert ADULT_KG["us"] == pytest.approx(150 * 0.45359237, abs=0.05)
    assert {ADULT_KG[r] for r in ("eu", "uk", "au")} == {75}


def test_errors_add_by_their_squares(yard):
    # Nothing of the yard has a tolerance: what is uncertain are 75 kg of driver and 100 kg of baggage, each by a tenth.
    heaviest = mass_figures(yard(baggage_kg=100)).heaviest
    assert heaviest.spread_kg == pytest.approx((7.5**2 + 10**2) ** 0.5)
    # The driver sits on the front axle; the baggage at 2 m of 3.65.
    share = 2 / WHEELBASE_M
    assert heaviest.rear_spread_kg == pytest.approx(10 * share)
    assert heaviest.front_spread_kg == pytest.approx((7.5**2 + (10 * (1 - share)) ** 2) ** 0.5)


def test_the_heaviest_are_named(yard):
    mass = mass_figures(yard(options={"box-120": 1, "light-5": 1, "lfp-200": 1}))
    assert mass.largest[0].name == "Box of 120 kg on the rear wall"
    assert mass.largest_ids == ("box-120", "lfp-200", "light-5")
    assert mass.not_stated == ()


def test_figures_hold_the_same_masses(yard):
    build = yard(options={"box-120": 1})
    assert work_out(build).mass == mass_figures(build)
