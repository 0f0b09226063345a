"""Masses and axle loads against sums on paper. Wheelbase 3.65 m; empty 1200 kg in front, 800 kg in the rear."""

from dataclasses import replace
from statistics import NormalDist

import pytest

from engine.build import work_out
from engine.build.mass_items import ADULT_KG
from engine.build.masses import mass_figures
from engine.catalogue.facets import Cassette, GreyTank
from tests.shops import enquiry, resolver

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


def test_the_worst_case_of_either_axle_is_found():
    """A weekend van: water ahead of the rear axle, waste behind it, gas in front of the front axle's lever."""
    build = resolver("hallamoor").resolve(enquiry("hallamoor", ready="dry-stone"))
    mass = mass_figures(build)
    assert mass.front_worst.axles.front_kg > max(c.axles.front_kg for c in mass.cases)
    assert mass.rear_worst.axles.rear_kg > max(c.axles.rear_kg for c in mass.cases)
    assert "without" in mass.front_worst.name and "baggage" in mass.front_worst.name


def test_fuel_that_is_gone_lightens_the_front(yard):
    build = yard()
    assert mass_figures(build).steer_lightest.name == "driver aboard"
    engine = build.vehicle.engine.model_copy(update={"fuel_x_m": 0.5})
    mass = mass_figures(replace(build, vehicle=build.vehicle.model_copy(update={"engine": engine})))
    # 80 L of diesel at 0.835 kg/L, half a metre behind the front axle.
    fuel_kg = 80 * 0.835
    front = 1275 - fuel_kg * (1 - 0.5 / WHEELBASE_M)
    assert mass.steer_lightest.axles.front_kg == pytest.approx(front)
    assert mass.steer_lightest.axles.total_kg == pytest.approx(2075 - fuel_kg)
    assert mass.steer_lightest.name == "fuel used up"
    # Full fuel is in the delivered mass, so nothing is heavier for it.
    assert mass.heaviest.axles.total_kg == pytest.approx(2075)


def test_a_trailers_nose_presses_where_the_coupling_is(yard):
    mass = mass_figures(yard(nose_kg=100, cupboards_kg=30))
    # The plain van ends 6 m − 0.95 m behind its front axle; its cupboards hang at 2 m.
    leaving = case(mass, "full fresh water, all aboard")
    rear = 800 + (100 * 5.05 + 30 * 2) / WHEELBASE_M
    assert leaving.axles.rear_kg == pytest.approx(rear)
    assert leaving.axles.total_kg == pytest.approx(2075 + 130)
    # Without a trailer the front is heavier: the worst case there leaves it at home.
    assert "trailer's nose" in mass.front_worst.name
    coupled = yard(nose_kg=100).vehicle.model_copy(update={"coupling_x_m": 4.65})
    moved = mass_figures(replace(yard(nose_kg=100), vehicle=coupled))
    assert moved.rear_worst.axles.rear_kg == pytest.approx(800 + 100 * 4.65 / WHEELBASE_M)


def test_water_is_counted_once_unless_it_is_filled_in_before_waste_is_let_out():
    build = resolver("hallamoor").resolve(enquiry("hallamoor", ready="dry-stone"))
    mass = mass_figures(build)
    waste = sum(f.volume_l * p.count for p, f in (*build.facets(GreyTank), *build.facets(Cassette)))
    assert mass.fresh_water_kg == 100
    assert mass.all_tanks.axles.total_kg == pytest.approx(mass.cases[1].axles.total_kg + waste)
    assert mass.heaviest.axles.total_kg == pytest.approx(mass.cases[1].axles.total_kg)


def test_one_scale_weighed_both_axles(yard):
    build = yard()
    masses = build.vehicle.masses.model_copy(update={"tolerance_frac": 0.02})
    dry = mass_figures(replace(build, vehicle=build.vehicle.model_copy(update={"masses": masses}))).cases[0]
    # 24 and 16 kg have one cause, so they add as they are.
    assert (dry.spread_kg, dry.front_spread_kg, dry.rear_spread_kg) == pytest.approx((40, 24, 16))


def test_chance_of_an_overload(yard):
    # 2000 kg and 1300 kg of baggage give or take 130, and a driver of 75 kg give or take 7.5.
    mass = mass_figures(yard(baggage_kg=1300))
    spread = (130**2 + 7.5**2) ** 0.5
    assert mass.heaviest.spread_kg == pytest.approx(spread)
    assert mass.gross_exceed_frac == pytest.approx(1 - NormalDist(3375, spread / 1.644853627).cdf(3500), abs=1e-9)
    assert 0.05 < mass.gross_exceed_frac < 0.1
    assert mass_figures(yard()).gross_exceed_frac == 0


def test_the_centre_of_gravity_needs_a_delivered_height(yard):
    build = yard()
    assert mass_figures(build).cases[0].cg == pytest.approx((800 * WHEELBASE_M / 2000, 0, None), nan_ok=True)
    masses = build.vehicle.masses.model_copy(update={"cg_height_m": 0.75})
    mass = mass_figures(replace(build, vehicle=build.vehicle.model_copy(update={"masses": masses})))
    # The driver sits at 1 m: (2000·0.75 + 75·1)/2075.
    assert mass.cases[0].cg[2] == pytest.approx(0.75)
    assert mass.stability.height_m == pytest.approx((2000 * 0.75 + 75) / 2075)
    assert mass.stability.factor_frac == pytest.approx(1.7 / 2 / mass.stability.height_m)


def test_a_stated_mass_of_grown_ups_replaces_the_laws(yard):
    usual, heavy = (mass_figures(yard(adults=2, children=1, adult_kg=kg)) for kg in (None, 90.0))
    assert usual.people_kg == pytest.approx(2 * 75 + 40) and heavy.people_kg == pytest.approx(2 * 90 + 40)
    assert heavy.heaviest.axles.total_kg - usual.heaviest.axles.total_kg == pytest.approx(30)
    same = mass_figures(yard(adults=2, children=1, adult_kg=75.0))
    assert same.heaviest.axles == usual.heaviest.axles
