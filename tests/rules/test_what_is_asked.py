"""When a rule has something to ask of a build, and with which numbers: the doors that examples do not go through."""

import re
from dataclasses import replace

import pytest

from engine.build import Build, work_out
from engine.catalogue.facets import FixedVent, GasAppliance, GasLocker, SpaceHeater, WaterHeater
from engine.rule import Finding
from engine.rules import all_rules
from engine.rules.panels_on_roof import most_panels
from engine.saying import findings_of
from tests.build.test_hot_and_cold_water import _with
from tests.shops import enquiry, resolver

RULES = {r.code: r for r in all_rules()}


def build_of(shop: str, vehicle: str, **options: int) -> Build:
    return resolver(shop).resolve(enquiry(shop, vehicle, {i.replace("_", "-"): n for i, n in options.items()}))


def said(code: str, build: Build) -> list[Finding]:
    return findings_of(RULES[code], build, work_out(build))


def test_a_converter_with_nothing_behind_it_is_no_question() -> None:
    bare = {"battery_24v_200": 1, "step_down_24_12": 1}
    assert said("converter-output", build_of("quillback", "box", **bare)) == []
    [lit] = said("converter-output", build_of("quillback", "box", **bare, lights_basic=1))
    assert lit.verdict == "ok" and lit.measured is not None and lit.measured > 0


def test_small_panels_leave_the_large_ones_what_they_do_not_take() -> None:
    build = build_of("hallamoor", "van-35", panel_115=1, panel_200=2)
    roof = work_out(build).roof
    # 115 W of 500 W leave 385 W: one of 200 W.
    for bound_w, most in ((514.0, 2), (515.0, 3), (500.0, 2), (115.0, 1), (114.0, 0)):
        assert most_panels(build, roof._replace(packing=roof.packing._replace(bound_w=bound_w))) == most, bound_w


def test_an_empty_floor_has_no_row() -> None:
    assert said("plan-length", build_of("quillback", "van", roof_fan=1)) == []
    assert said("plan-length", build_of("quillback", "van", galley_48=1)) != []
    # Two that rule each other out are no row, and the wall across from them, where nothing stands, is none either.
    assert said("plan-length", build_of("quillback", "van", dinette_bed=1, bench_side=1)) == []


def test_a_flame_that_burns_the_rooms_air_wants_openings_high_and_low() -> None:
    build = _with(
        build_of("hallamoor", "van-35", combi_gas_4=1, gas_system=1, cylinder_6=1), SpaceHeater, flue="open-flued"
    )
    # The table asks 100 and 15 cm² for a floor of 6.99 m². 4 kW at 88 % burn 15,510 BTU/h: 15.51 in² are 100.06 cm².
    for high_m2, low_m2, verdicts in (
        (101e-4, 15e-4, ["ok", "ok"]),
        (90e-4, 15e-4, ["fails", "ok"]),
        (101e-4, 10e-4, ["ok", "fails"]),
    ):
        vents = _with(build, FixedVent, high_m2=high_m2, low_m2=low_m2)
        assert [f.verdict for f in said("fixed-vents", vents)] == verdicts


def test_of_every_flame_it_is_asked_where_its_air_comes_from() -> None:
    combi = build_of("hallamoor", "van-35", combi_gas_4=1, gas_system=1, cylinder_6=1)
    [sealed] = said("room-sealed", combi)
    assert sealed.verdict == "ok" and sealed.cause.endswith("led there: Combined gas heater 4 kW with 10 L boiler.")
    # Neither side of it says, and one sentence is enough.
    [silent] = said("room-sealed", _with(_with(combi, SpaceHeater, flue=None), WaterHeater, flue=None))
    assert silent.verdict == "unknown" and "Combined gas heater 4 kW" in (silent.missing or "")
    stove = build_of("quillback", "bus", wood_stove=1)
    assert [f.verdict for f in said("room-sealed", _with(stove, SpaceHeater, flue=None))] == ["unknown"]
    for flue, verdict in (("open-flued", "tight"), ("none", "fails")):
        assert [f.verdict for f in said("room-sealed", _with(stove, SpaceHeater, flue=flue))] == [verdict]


def test_a_water_heater_can_burn_the_rooms_air() -> None:
    kit = {"geyser_gas": 1, "gas_system": 1, "cylinder_11": 1, "pump": 1, "fresh_220": 1, "washroom_box": 1}
    sealed = build_of("hallamoor", "box-72", **kit)
    figures = work_out(sealed)
    assert figures.openings.breathers == () and figures.gas.room_kg_d == 0
    flueless = _with(sealed, WaterHeater, flue="none")
    found = work_out(flueless)
    assert [f.verdict for f in said("room-sealed", flueless)] == ["fails"]
    # 10 kW at 85 % burn 40,140 BTU/h: 40.14 in² are 259 cm².
    assert found.openings.want_high_m2 == pytest.approx(0.0259, abs=1e-5)
    assert found.gas.room_kg_d == pytest.approx(found.gas.hot_water_kg_d) and found.gas.room_kg_d > 0
    drawn = _with(build_of("hallamoor", "box-72", **kit, roof_fan=1), WaterHeater, flue="open-flued")
    assert [f.options for f in said("fan-and-fire", drawn)] == [("roof-fan", "geyser-gas")]


def test_gas_is_the_same_whichever_rule_counts_it() -> None:
    build = build_of("hallamoor", "box-72", geyser_gas=1, gas_system=1, cylinder_11=1)
    figures = work_out(build)
    assert figures.gas_pipe is not None and figures.gas_rate is not None
    # 10 kW at 85 %, 12.872 kWh/kg.
    assert figures.gas_pipe.burnt_kg_h == pytest.approx(10 / 0.85 / 12.872, rel=1e-4)
    assert figures.gas_rate.short_kg_h == pytest.approx(figures.gas_pipe.burnt_kg_h)


def test_what_burns_gas_is_named_whatever_it_is() -> None:
    kit, cold = {"gas-system": 1, "cylinder-6": 1, "lfp-230": 1, "combi-gas-4": 1}, {"place": "garmisch", "months": [1]}
    heated = resolver("hallamoor").resolve(enquiry("hallamoor", "van-35", kit, **cold))
    [short] = said("gas-days", heated)
    assert short.verdict == "fails" and short.options == ("cylinder-6", "combi-gas-4")
    yard = enquiry("proving-yard", "plain-van", {"cylinder-20": 1, "flueless-fire": 1}, **cold)
    for habit, word in (("always", "fridge"), ("heating", "fire and others")):
        fire = _with(resolver("proving-yard").resolve(yard), GasAppliance, habit=habit)
        [days] = said("gas-days", fire)
        assert f"{word} " in days.cause


def test_each_flue_that_nobody_measured_is_told() -> None:
    hydronic = build_of("quillback", "box", heater_diesel_hydronic=1, floor_heat_hydronic=1, water_heater_hydronic=1)
    assert [f.verdict for f in said("flue-clearance", hydronic)] == ["ok", "ok"]
    kit = build_of("hallamoor", "box-72", diesel_2=1, fridge_gas_140=1, stove=1)
    assert [f.verdict for f in said("flue-clearance", kit)] == ["ok"] * 4

    def told(build: Build) -> tuple[str, ...]:
        return next((f.options for f in said("flue-clearance", build) if f.verdict == "note"), ())

    without = without_facets(kit, "fridge-gas-140", "flue-terminal")
    assert told(without) == ("fridge-gas-140",)
    assert told(without_facets(without, "stove", "roof-object")) == ("stove", "fridge-gas-140")


def without_facets(build: Build, option_id: str, kind: str) -> Build:
    """The build with facets of that kind taken from one option."""
    parts = tuple(
        replace(p, option=p.option.model_copy(update={"facets": tuple(f for f in p.option.facets if f.kind != kind)}))
        if p.option.id == option_id
        else p
        for p in build.parts
    )
    return replace(build, parts=parts)


def test_a_locker_s_opening_goes_by_the_region() -> None:
    # Two of 20 lb want 40/7 in², 36.9 cm²; elsewhere 100 cm² whatever stands there.
    us = build_of("quillback", "box", gas_locker=1, gas_cylinder_20=2, gas_lines=1)
    uk = build_of("hallamoor", "van-35", gas_locker=1, cylinder_6=2, gas_system=1)
    for vent_cm2, verdicts in ((40.0, ("ok", "tight")), (36.0, ("tight", "tight")), (100.0, ("ok", "ok"))):
        found = [said("gas-locker", _with(b, GasLocker, drop_vent_m2=vent_cm2 / 1e4))[0] for b in (us, uk)]
        assert tuple(f.verdict for f in found) == verdicts
    assert found[0].limit == pytest.approx(36.87, abs=0.01)


def test_full_tanks_of_both_kinds_are_asked_for() -> None:
    ready = resolver("quillback").resolve(enquiry("quillback", ready="long-winter-box"))
    [full] = said("full-tanks", ready)
    mass = work_out(ready).mass
    axles = mass.all_tanks.axles
    assert full.measured in (axles.total_kg, axles.front_kg, axles.rear_kg)
    assert axles.total_kg > mass.heaviest.axles.total_kg
    # Fresh water alone leaves nothing else to fill.
    assert said("full-tanks", build_of("quillback", "van", fresh_30=1)) == []


def test_unlisted_work_is_told_with_the_gross_mass() -> None:
    build = resolver("quillback").resolve(enquiry("quillback", ready="long-winter-box"))
    unlisted_kg = work_out(build).mass.unlisted_kg
    assert unlisted_kg > 0
    [gross] = said("gross-mass", build)
    assert unlisted_kg in [f.value for f in gross.facts]


@pytest.mark.parametrize(
    ("build", "words"),
    [
        (build_of("quillback", "box", battery_24v_200=20, insulation_xps_25=20, bath_dry=20), "Weighings take off "),
        (resolver("hallamoor").resolve(enquiry("hallamoor", ready="dry-stone")), "Weighings add "),
    ],
    ids=["of its kind", "its own"],
)
def test_what_makes_a_vehicle_too_heavy_adds_up_to_what_it_weighs(build: Build, words: str) -> None:
    v = build.vehicle
    heavy = replace(build, vehicle=v.model_copy(update={"masses": v.masses.model_copy(update={"gross_kg": 2000.0})}))
    [gross] = said("gross-mass", heavy)
    assert gross.verdict == "fails" and words in gross.cause
    kg = 1.0 if build.workshop.units == "metric" else 0.45359237
    weighings, _, parts = gross.cause.partition("rating of ")[2].partition(". ")[2].partition(". ")
    told = [weighings, *parts.partition(";")[0].split(", ")]
    each = [float(re.findall(r"[\d,]+", x)[0].replace(",", "")) * (-1 if "take off" in x else 1) for x in told]
    empty_kg = v.masses.empty_front_kg + v.masses.empty_rear_kg
    assert empty_kg + kg * sum(each) == pytest.approx(gross.measured, abs=kg * (len(each) / 2 + 1))


def test_the_aisle_is_between_two_things_or_one_and_the_wall() -> None:
    for shop, vehicle, kitchen in (("quillback", "van", "galley_48"), ("hallamoor", "van-35", "kitchen_van")):
        name = resolver(shop).catalogue.options_by_id[kitchen.replace("_", "-")][1].name
        [alone] = said("aisle-width", build_of(shop, vehicle, **{kitchen: 1}))
        assert f"“{name}” and the wall" in alone.cause
    ready = resolver("quillback").resolve(enquiry("quillback", ready="long-winter-box"))
    [both] = said("aisle-width", ready)
    names = [f"“{ready.option_names[i]}”" for i in work_out(ready).plan.aisle_ids]
    assert len(names) == 2 and " and ".join(names) in both.cause
