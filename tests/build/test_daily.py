"""A day's water, gas, heat and power against sums on paper."""

from math import inf

import pytest

from engine.build import work_out
from engine.build.battery_cold import takes_charge, warming_wh_d
from engine.build.gas import hot_water_wh_d
from engine.build.habits import habit_factor
from engine.build.water import water_figures
from engine.build.winter_hours import damp_day
from engine.catalogue.facets import GasAppliance
from engine.rules.grey_water_days import RULE as GREY
from engine.saying import findings_of
from tests.build.test_hot_and_cold_water import _with
from tests.reference.daily_sum import cell_rise_k, daily_yield_wh
from tests.shops import enquiry, resolver


def test_water_of_a_day(yard):
    # Two people and a dog, two cooked meals for all, no toilet.
    trip = {"adults": 2, "pets": 1, "showers_per_day": 1, "shower_minutes": 3, "hot_meals_per_day": 2}
    water = water_figures(yard(options={"tank-20": 1}, **trip))
    wash = 4 * 2 + 4 * 2
    # Where no shower is, inside or out, nobody takes one.
    assert water.shower_l_d == 0 and water.use_l_d == pytest.approx(6 * 2 + 1.5 + wash)
    assert water.grey_l_d == pytest.approx(wash)
    assert water.fresh_days == pytest.approx(75.708 / 29.5, abs=1e-4)
    assert water.grey_days is None and water.toilet_days is None


def test_a_shower_outside_takes_water_and_fills_no_waste_tank():
    trip = {"adults": 2, "children": 0, "pets": 0, "showers_per_day": 1, "shower_minutes": 3, "hot_meals_per_day": 2}
    asked = enquiry("quillback", "van", {"fresh-40": 1, "shower-outdoor": 1}, **trip)
    water = water_figures(resolver("quillback").resolve(asked))
    assert water.shower_l_d == pytest.approx(2 * 3 * water.shower_flow_l_min) and water.shower_l_d > 10
    assert water.use_l_d == pytest.approx(6 * 2 + 16 + water.shower_l_d)
    assert water.grey_l_d == pytest.approx(16)


def test_an_indoor_shower_fills_the_waste_tank_and_sets_the_flow():
    shop = resolver("hallamoor")
    trip = {"adults": 1, "pets": 0, "showers_per_day": 1, "shower_minutes": 2, "hot_meals_per_day": 0}
    water = water_figures(shop.resolve(enquiry("hallamoor", ready="dry-stone", **trip)))
    assert water.shower_l_d == pytest.approx(2 * water.shower_flow_l_min)
    assert water.grey_l_d == pytest.approx(4 + water.shower_l_d)
    assert water.grey_days == pytest.approx(water.grey_l / water.grey_l_d)


def test_washing_up_grows_with_the_people_as_the_meal_does(yard):
    # Pots are shared and plates are not: 2 meals of 4 L for two are 8 L for two, 16 L for six and 6 L for one.
    for adults, dishes_l in ((1, 6), (2, 8), (6, 16)):
        build = yard(options={"tank-20": 1}, adults=adults, pets=0, showers_per_day=0, hot_meals_per_day=2)
        water = water_figures(build)
        assert water.dishes_l_d == pytest.approx(dishes_l)
        assert water.grey_l_d == pytest.approx(4 * adults + dishes_l)
        # Warmed from 10 to 38 degC, 1.163 Wh for each litre and kelvin.
        assert hot_water_wh_d(water, build) == pytest.approx(dishes_l * 28 * 1.163, rel=0.01)


def test_habits_stretch_hours(yard):
    trip = yard(adults=2, hot_meals_per_day=3, computer_h=1, showers_per_day=0.5, cooling=True).trip
    factors = {
        habit: habit_factor(habit, trip, coldest_mean_degc=5, hottest_degc=30)
        for habit in ("always", "cooking", "computers", "showers", "heating", "cooling", "evenings")
    }
    assert factors == {
        "always": 1, "cooking": 2, "computers": 0.5, "showers": 1, "heating": 1, "cooling": 1, "evenings": 1,
    }  # fmt: skip
    assert habit_factor("heating", trip, 12, 30) == 0
    assert habit_factor("cooling", trip, 5, 26) == 0


PARTIES = [(1, 0, 0.75), (2, 0, 1.0), (1, 1, 1.0), (2, 2, 1.5), (8, 8, 4.5)]
"""(adults, children, heat of their meal over that of one for two): half of it is the same for all, half for each."""


@pytest.mark.parametrize(("adults", "children", "times"), PARTIES)
def test_a_meal_for_more_takes_more_heat_and_gives_more_steam(adults, children, times):
    party = {"adults": adults, "children": children, "place": "london", "months": (1,), "hot_meals_per_day": 1.5}
    # 3.3 kW of propane for half an hour at 13.98 kWh/kg.
    asked = enquiry("hallamoor", "van-35", {"hob-gas": 1, "cylinder-6-light": 1}, **party)
    assert work_out(resolver("hallamoor").resolve(asked)).gas.cooking_kg_d == pytest.approx(
        times * 3.3 * 0.5 / 13.98, rel=2e-3
    )
    asked = enquiry("hallamoor", "van-35", {"hob-induction": 1}, **party)
    [hob] = work_out(resolver("hallamoor").resolve(asked)).power.all_loads
    assert hob.daily_wh == pytest.approx(times * 1800 * 0.5)

    def steam_kg(meals):
        build = resolver("hallamoor").resolve(
            enquiry("hallamoor", ready="lapwing", **party | {"hot_meals_per_day": meals})
        )
        f = work_out(build)
        day = damp_day(build, f.warmth, f.damp, f.openings, f.gas.room_kg_d)
        return sum(day.source_kg)

    # Two meals at 0.3 kg for two.
    assert steam_kg(2) - steam_kg(0) == pytest.approx(2 * 0.3 * times)


def test_nothing_cooks_longer_than_the_day_is():
    party = {"adults": 8, "children": 8, "hot_meals_per_day": 5}
    build = resolver("hallamoor").resolve(
        enquiry("hallamoor", "van-35", {"hob-gas": 1, "cylinder-6-light": 1}, **party)
    )
    long = _with(build, GasAppliance, hours_per_day_h=2.0)
    assert work_out(long).gas.cooking_kg_d == pytest.approx(3.3 * 24 / 13.98, rel=2e-3)


def test_gas_of_a_day_follows_the_plate(yard):
    gas = work_out(yard(options={"cylinder-20": 1, "burner-1": 1})).gas
    # 582.5 W for 24 h are 13.98 kWh, the higher heating value of a kilogram.
    assert gas.gas_kg_d == pytest.approx(1.0)
    assert gas.gas_days == pytest.approx(9.0718, abs=1e-3)
    assert gas.diesel_days is None


def test_next_to_no_gas_is_none(yard):
    gas = work_out(resolver("hallamoor").resolve(enquiry("hallamoor", ready="dry-stone", months=(7,)))).gas
    assert gas.gas_days is not None and gas.cooking_kg_d > 0
    trip = {"hot_meals_per_day": 1e-300, "showers_per_day": 0, "months": (7,), "place": "palmas"}
    gas = work_out(resolver("hallamoor").resolve(enquiry("hallamoor", ready="dry-stone", **trip))).gas
    assert (gas.gas_kg_d, gas.gas_days) == (0, None)


def test_diesel_for_heating_follows_the_heat(yard):
    figures = work_out(yard(options={"heater-2": 1}, place="london", months=(1,), inside_degc=18))
    # London's mean January of 5.5 °C; 59.2 W/K. A litre gives 9.95 kWh at 85 %.
    month_degc = resolver("proving-yard").climates["london"].mean_degc[0]
    heat_wh = 24 * figures.warmth.total_w_k * (18 - month_degc)
    assert figures.warmth.mean_heat_wh_d == pytest.approx(heat_wh)
    assert figures.gas.diesel_l_d == pytest.approx(heat_wh / 1000 / 0.85 / 9.95)
    # Half of the tank of 80 L.
    assert figures.gas.diesel_days == pytest.approx(40 / figures.gas.diesel_l_d)


def test_heat_loss_is_area_by_area(yard):
    warmth = work_out(yard()).warmth
    by_name = {s.name: s for s in warmth.surfaces}
    # 230 ft² of wall less 30 of glass.
    assert by_name["walls"].area_m2 == pytest.approx(200 * 0.09290304)
    for name in ("walls", "roof", "floor"):
        assert by_name[name].u_w_m2k == pytest.approx(5.678263 / 5, rel=1e-4)
    assert by_name["glass"].loss_w_k == pytest.approx(30 * 0.09290304 * 5.678)
    assert warmth.total_w_k == pytest.approx(sum(s.loss_w_k for s in warmth.surfaces) + warmth.air_loss_w_k)
    # One person: the leaks bring more than the 14.4 m³/h that a sleeper needs; three need more than the leaks.
    assert warmth.air_m3_h == pytest.approx(2.657 * 3.6 * 1.87 * 1.9 * 0.75)
    assert work_out(yard(adults=3)).warmth.air_m3_h == pytest.approx(43.2)


def test_power_of_a_day(yard):
    options = {"lfp-100": 1, "inverter-2000-keen": 1, "hob-1400": 1, "cooler": 1}
    power = work_out(yard(options=options)).power
    # Cooler 40 W · 7.2 h, hob 1400 W · 10 min behind an inverter of 90 %.
    assert power.use_wh_d == pytest.approx(288 + 1400 / 6 / 0.9)
    assert [x.option_id for x in power.loads] == ["cooler", "hob-1400"]
    assert power.usable_wh == pytest.approx(1152)
    assert power.days == pytest.approx(1152 / power.use_wh_d)
    # The hob and the cooler together: 1400/0.9/12.8 + 40/12.8.
    assert power.current_a == pytest.approx(1400 / 0.9 / 12.8 + 3.125)


def test_an_inverter_is_awake_as_long_as_it_must(yard):
    def idle(**options):
        loads = work_out(yard(options=options)).power.loads
        return {x.name: x.energy_wh_d for x in loads}.get("Inverter, awake without a load", 0)

    base = {"lfp_200_spared": 1}
    chosen = {k.replace("_", "-"): v for k, v in base.items()}
    assert idle(**chosen, **{"inverter-wired-lithium": 1}) == pytest.approx(19.2 * 24)
    # One with a switch is on for as long as something runs behind it.
    shop = resolver("hallamoor")
    build = shop.resolve(enquiry("hallamoor", "van-35", {"lfp-100": 2, "inverter-1200": 1, "microwave": 1}))
    figures = work_out(build).power
    [micro] = [f for p in build.parts if p.option.id == "microwave" for f in p.option.facets if f.kind == "ac-load"]
    [inverter] = [f for p in build.parts for f in p.option.facets if f.kind == "inverter"]
    found = {x.name: x.energy_wh_d for x in figures.loads}
    assert found["Inverter, awake without a load"] == pytest.approx(inverter.idle_w * micro.hours_per_day_h)


def test_sun_needs_a_controller(yard):
    with_it = work_out(yard(options={"panel-400": 1, "controller": 1, "lfp-100": 1})).power
    without = work_out(yard(options={"panel-400": 1, "lfp-100": 1})).power
    june = resolver("proving-yard").climates["london"]
    sun, air_degc = june.ghi_kwh_m2_d[5], june.mean_degc[5]
    # A reckoning from the daily sum, which leaves out what the glass throws back of a low sun.
    yield_wh = daily_yield_wh(400, sun, air_degc, -0.0035, cell_rise_k(sun, "raised"))
    assert with_it.sun_wh_d == pytest.approx(yield_wh * 0.96, rel=0.08) and with_it.sun_wh_d < yield_wh * 0.96
    # Panels at 25 °C would give 400·5.5·0.859·0.96; June's warmth and the glass take a tenth off it.
    assert 0.85 < with_it.sun_wh_d / (400 * sun * 0.859 * 0.96) < 0.95
    assert with_it.panel_w == without.panel_w == 400
    assert without.sun_wh_d == 0 and not without.controlled


def test_driving_brings_what_the_alternator_can_spare(yard):
    small = work_out(yard(options={"charger-30": 1, "lfp-100": 1}, driving_h=2)).power
    assert small.driving_wh_d == pytest.approx(30 * 14.2 * 2)
    large = work_out(yard(options={"charger-60": 1, "lfp-100": 1}, driving_h=2)).power
    # It asks for 68.6 A of the 45 A to spare.
    assert large.driving_wh_d == pytest.approx(60 * 14.2 * 2 * 45 / (60 * 14.2 / 0.92 / 13.5))


def test_a_frozen_battery_takes_nothing(yard):
    winter = {"place": "northway", "months": (3,)}  # −11.3 °C on average
    kit = {"panel-400": 1, "controller": 1, "light-5": 1, "charger-30": 1}
    outside = yard(options=kit | {"lfp-200-outside": 1}, driving_h=2, **winter)
    found = work_out(outside)
    assert not takes_charge(outside, found.warmth, 3) and takes_charge(outside, found.warmth, 7)
    power = found.power
    assert (power.sun_wh_d, power.driving_wh_d) == (0, 0)
    warmed = yard(options=kit | {"lfp-200-warmed": 1}, driving_h=2, **winter)
    found = work_out(warmed)
    [(part, wh)] = warming_wh_d(warmed, found.warmth, 3)
    # 25 kg of 1.0 kJ/(kg·K) by 16.3 K.
    assert part.option.id == "lfp-200-warmed" and wh == pytest.approx(25 * 16.3 / 3.6)
    assert warming_wh_d(warmed, found.warmth, 7) == []
    power = found.power
    assert power.sun_wh_d > 0 and power.driving_wh_d > 0
    assert any("warming itself" in x.name for x in power.loads)


def test_the_darkest_month_counts(yard):
    kit = {"panel-400": 1, "controller": 1, "lfp-100": 1}
    all_year = work_out(yard(options=kit, months=tuple(range(1, 13)))).power
    assert all_year.sun_month == 12
    least = min((work_out(yard(options=kit, months=(m,))).power.sun_wh_d for m in range(1, 13)), default=inf)
    assert all_year.sun_wh_d == pytest.approx(least)


def test_gas_without_a_cylinder_lasts_no_day_and_without_a_burner_for_ever(yard):
    assert work_out(yard(options={"burner-1": 1})).gas.gas_days == 0
    assert work_out(yard(options={"cylinder-20": 1})).gas.gas_days is None


def test_a_gas_fridge_does_not_cook(yard):
    build = resolver("quillback").resolve(enquiry("quillback", "box", {"fridge-absorption": 1, "gas-cylinder-20": 1}))
    gas = work_out(build).gas
    assert gas.cooking_kg_d == gas.room_kg_d == 0 and gas.other_kg_d == pytest.approx(gas.gas_kg_d) and gas.gas_kg_d > 0
    # A hob's burnt gas stays in the room, a grill's and that of an oven with a flue do not.
    for shop, option, cooks, stays in (
        ("quillback", "hob-gas-2", True, True),
        ("quillback", "grill-outdoor", True, False),
        ("hallamoor", "oven-gas", True, False),
        ("proving-yard", "flueless-fire", False, True),
    ):
        vehicle = {"quillback": "box", "hallamoor": "box-72", "proving-yard": "plain-van"}[shop]
        gas = work_out(resolver(shop).resolve(enquiry(shop, vehicle, {option: 1}))).gas
        assert (gas.cooking_kg_d > 0, gas.room_kg_d > 0) == (cooks, stays), option


def test_a_waste_tank_without_fresh_water_never_fills(yard):
    none = resolver("hallamoor").resolve(enquiry("hallamoor", "van-35", {"grey-80": 1}))
    assert work_out(none).water.grey_days is None and GREY.read(none, work_out(none)) is None


@pytest.mark.parametrize(("more", "left_l"), [({}, 0.0), ({"fresh-125-garage": 1}, 225 - 36.8 * 80 / 24.8)])
def test_fresh_water_is_told_as_left_only_where_it_is(more: dict[str, int], left_l: float) -> None:
    # 36.8 L a day, 24.8 of it into 80 L of waste tank: full after 3.2 days. 100 L of fresh water are gone before.
    chosen = {"fresh-100": 1, "grey-80": 1, "washroom-van": 1} | more
    trip = {"showers_per_day": 0.3, "shower_minutes": 3, "hot_meals_per_day": 1.5, "days_between_fills_d": 9}
    build = resolver("hallamoor").resolve(enquiry("hallamoor", "van-35", chosen, **trip))
    figures = work_out(build)
    asked = GREY.read(build, figures)
    w = figures.water
    assert w.grey_days is not None
    assert asked.left_l == pytest.approx(max(0.0, w.fresh_l - w.use_l_d * w.grey_days))
    [found] = findings_of(GREY, build, figures)
    assert found.verdict == "fails" and ("Fresh water left" in found.cause) == (left_l > 0) == (asked.left_l > 0)


def test_who_wants_it_warmer_heats_in_milder_months_too():
    """Seville's February has 13.2 °C on the mean; 6 K of warmth come from people, cooking and sun."""

    def heating_kg(inside_degc):
        asked = enquiry("quillback", ready="sun-porch-bus", place="seville", months=[2], inside_degc=inside_degc)
        return work_out(resolver("quillback").resolve(asked)).gas.heating_kg_d

    assert heating_kg(18) == heating_kg(19.1) == 0
    # Then the whole difference counts, to be safe: heat by the degree.
    assert heating_kg(22) / heating_kg(20) == pytest.approx((22 - 13.2) / (20 - 13.2), rel=0.01)
