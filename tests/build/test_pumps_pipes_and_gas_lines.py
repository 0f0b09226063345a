"""Vessels, filters, outside pipes, regulators and gas lines against sums on paper, and what must always hold."""

from dataclasses import replace
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.build import Build, Figures, work_out
from engine.build.gas_rate import gas_pipe
from engine.build.mass_items import gas_content_kg
from engine.build.openings import opening_figures
from engine.build.tap_flow import tap_figures, vessel_figures
from engine.build.water import water_figures
from engine.catalogue.facets import (
    FixedVent,
    FreshTank,
    GasLine,
    GasRegulator,
    GasStore,
    OutsidePipe,
    PressureVessel,
    Pump,
    SpaceHeater,
)
from engine.physics.freezing import frost, pipe_l, pipe_loss_w_k
from engine.physics.pipe_flow import Pipe, drop_kpa
from engine.rule import Unknown
from engine.rules.fixed_vents import RULE as VENTS
from tests.build.test_hot_and_cold_water import _with
from tests.shops import enquiry, resolver


def _yard(options: dict[str, int], **trip: Any) -> Build:
    return resolver("proving-yard").resolve(enquiry("proving-yard", "plain-van", options, **trip))


WATER = {"tank-20": 1, "pump-10": 1, "shower-4": 1, "pipe-outside": 1}
GAS = {"cylinder-20": 1, "regulator-small": 1, "hob-30-mbar": 1}


def _figures(options: dict[str, int], **trip: Any) -> Figures:
    return work_out(_yard(options, **trip))


def test_a_vessel_gives_what_boyle_says() -> None:
    vessel = _figures(WATER).vessel
    assert vessel is not None
    # 2 L, 140 kPa of air, from 280 down to 150 kPa: 0.65 L.
    assert vessel.gives_l == pytest.approx(2 * 241.325 * (1 / 251.325 - 1 / 381.325))
    # The shower of 4 L/min half open: 2 L/min, as 215 kPa less a metre of water are above 1 bar; the pump refills at 5
    # less that.
    drawn = 0.5 * 4
    assert vessel.every_s == pytest.approx(60 * vessel.gives_l * (1 / drawn + 1 / (5 - drawn)), rel=1e-3)


def test_air_that_is_too_strong_gives_nothing() -> None:
    vessel = vessel_figures(_with(_yard(WATER), PressureVessel, precharge_kpa=200.0))
    assert vessel is not None and vessel.gives_l == 0


def test_a_filter_is_used_by_everything_behind_the_pump() -> None:
    f = _figures(WATER)
    [cartridge] = f.filters
    assert cartridge.through_l_d == f.water.use_l_d and cartridge.asked_l_min == 4


def test_a_bare_pipe_freezes_as_its_water_and_surface_say() -> None:
    pipe, inside = _figures(WATER, place="garmisch", months=(12,)).cold_pipes
    assert inside.night_degc > pipe.night_degc and not inside.stated  # nothing heats the room either
    cold = frost(pipe_l(2, 0.012), 10, pipe_loss_w_k(2, 0.015), pipe.night_degc)
    assert (pipe.freezes_h, pipe.solid_h, pipe.hold_w) == cold and pipe.stated
    assert not _figures(WATER, months=(7,)).cold_pipes
    [plain] = _figures({"tank-30-under": 1}, place="garmisch", months=(12,)).cold_pipes
    assert not plain.stated and plain.freezes_h < 1


def test_a_regulator_is_asked_for_everything_at_once() -> None:
    pipe = _figures(GAS | {"gas-fire": 1}).gas_pipe
    assert pipe is not None
    assert pipe.burnt_kg_h == pytest.approx((5 + 8000 * 0.29307107e-3) / 13.98, rel=1e-3)
    assert pipe.regulator_kg_h == 0.3 and pipe.outlet_kpa == pytest.approx(5.0)
    assert pipe.odd_kpa == (("Hob for 30 mbar with a flue beside the window", pytest.approx(3.0)),)
    bare = _figures({"cylinder-20": 1, "gas-fire": 1}).gas_pipe
    assert bare is not None and bare.regulator_kg_h is None and not bare.stated and not bare.odd_kpa


def test_a_regulator_is_stated_as_gas_or_as_heat() -> None:
    by_heat = gas_pipe(_with(_yard(GAS), GasRegulator, capacity_kg_h=None, passes_heat_w=13_980.0))
    assert by_heat is not None and by_heat.regulator_kg_h == pytest.approx(1.0, rel=1e-3)


@given(st.floats(0.004, 0.03), st.floats(0.004, 0.03), st.floats(0.004, 0.03))
def test_a_wider_gas_pipe_or_hose_never_loses_more(one: float, other: float, hose: float) -> None:
    thin, wide = sorted((one, other))
    build = _yard(GAS)

    def lost(bore: float, hose_bore: float) -> float:
        pipe = gas_pipe(_with(build, GasLine, bore_m=bore, hose_bore_m=hose_bore))
        assert pipe is not None
        return pipe.loss_kpa

    assert lost(wide, hose) <= lost(thin, hose) + 1e-9
    assert lost(hose, wide) <= lost(hose, thin) + 1e-9


@pytest.mark.parametrize(("shop", "bought"), [("proving-yard", GAS), ("quillback", {})])
def test_the_bore_that_would_do_does_behind_its_hose_in_its_region(shop: str, bought: dict[str, int]) -> None:
    options = bought or {"gas-lines": 1, "gas-cylinder-20": 1, "water-heater-gas-instant": 1}
    build = resolver(shop).resolve(enquiry(shop, options=options))
    pipe = gas_pipe(_with(build, GasLine, bore_m=0.005, hose_m=0.4, hose_bore_m=0.012))
    assert pipe is not None and pipe.stated and pipe.hose_kpa > 0
    assert pipe.allowed_kpa == pytest.approx(0.1245 if shop == "quillback" else 0.25, rel=1e-3)
    wide = gas_pipe(_with(build, GasLine, bore_m=pipe.least_bore_m, hose_m=0.4, hose_bore_m=0.012))
    assert wide is not None and wide.loss_kpa <= wide.allowed_kpa + 1e-9
    assert pipe.least_bore_m == 0.004 or wide.loss_kpa == pytest.approx(wide.allowed_kpa, rel=1e-6)


@given(st.floats(0.004, 0.06), st.floats(0.004, 0.06), st.floats(0.5, 25), st.floats(0.5, 30))
def test_a_wider_water_pipe_never_loses_more(one: float, other: float, length: float, flow: float) -> None:
    thin, wide = sorted((one, other))
    assert drop_kpa(Pipe(length, wide), flow) <= drop_kpa(Pipe(length, thin), flow) * (1 + 1e-9)


@given(st.floats(0.006, 0.025), st.floats(0.006, 0.025))
def test_wider_pipes_never_weaken_the_shower(one: float, other: float) -> None:
    build = resolver("quillback").resolve(enquiry("quillback", ready="sun-porch-bus"))
    thin, wide = (tap_figures(_with(build, Pump, bore_m=b)) for b in sorted((one, other)))
    assert thin is not None and wide is not None
    assert thin.alone_l_min <= wide.alone_l_min + 1e-6 and thin.both_l_min <= wide.both_l_min + 1e-6


@given(st.floats(2, 1500), st.floats(2, 1500))
def test_a_bigger_fresh_tank_never_shortens_the_stay(one: float, other: float) -> None:
    build = _yard({"tank-20": 1, "waste-10": 1})
    small, large = (water_figures(_with(build, FreshTank, volume_l=v)) for v in sorted((one, other)))
    days = [min(w.fresh_days or 0.0, w.grey_days or 0.0) for w in (small, large)]
    assert days[0] <= days[1]


@given(st.integers(1, 12), st.sampled_from(("garmisch", "northway", "london")), st.floats(0, 0.05))
def test_no_pipe_lasts_longer_in_a_colder_month(month: int, place: str, lagging: float) -> None:
    found = [
        (p.night_degc, p.freezes_h)
        for m in (month, month % 12 + 1)
        for p in work_out(_with(_yard(WATER, place=place, months=(m,)), OutsidePipe, insulation_m=lagging)).cold_pipes
        if p.stated
    ]
    found.sort()
    assert all(a[1] <= b[1] + 1e-9 for a, b in pairwise(found))


@pytest.mark.parametrize(("high_in2", "verdict"), [(9.0, "ok"), (6.0, "ok"), (5.0, "fails")])
def test_a_flame_in_the_united_states_is_asked_for_its_own_area(high_in2: float, verdict: str) -> None:
    # A catalytic heater of 6,000 BTU/h without a flue wants 6 square inches; an opening of 3 by 3 inches is 9.
    options = {"heater-gas-catalytic": 1, "roof-vent-passive": 1}
    build = resolver("quillback").resolve(enquiry("quillback", "van", options))
    build = _with(build, SpaceHeater, output_w=6000 * 0.29307107, efficiency_frac=1.0)
    figures = work_out(_with(build, FixedVent, high_m2=high_in2 * 0.0254**2, low_m2=0.0))
    [vents] = VENTS.read(build, figures)
    assert vents.want_cm2 == pytest.approx(6 * 2.54**2, rel=1e-6)
    assert VENTS.judge(vents).verdict() == verdict


def test_a_cylinder_by_its_water_capacity_is_filled_by_weight() -> None:
    # 47.6 lb of water: 42 % of it by weight is the 20 lb of its name, and nothing more comes off.
    store = GasStore.model_validate({"kind": "gas-store", "container": "cylinder", "total_volume_l": 47.6 * 0.45359237})
    assert gas_content_kg(store) / 0.45359237 == pytest.approx(20.0, abs=0.05)
    tank = store.model_copy(update={"container": "tank"})
    assert gas_content_kg(tank) < gas_content_kg(store)


@pytest.mark.parametrize(("floor_m2", "high_cm2", "low_cm2"), [(9.0, 15, 5), (10.0, 15, 5), (12.0, 18, 6)])
def test_a_floor_beyond_the_table_asks_for_more_by_its_area(floor_m2: float, high_cm2: float, low_cm2: float) -> None:
    build = _yard(WATER)
    cabin = build.vehicle.cabin.model_copy(update={"length_m": floor_m2 / 2, "width_m": 2.0})
    found = opening_figures(replace(build, vehicle=build.vehicle.model_copy(update={"cabin": cabin})))
    assert (found.want_high_m2 * 1e4, found.want_low_m2 * 1e4) == pytest.approx((high_cm2, low_cm2))
    assert (found.sure_high_m2 * 1e4, found.sure_low_m2 * 1e4) == pytest.approx((15, 5))


def test_a_hob_counts_in_europes_table_and_asks_for_a_window_in_the_united_states() -> None:
    # Floor of 6.99 m²: the table asks 100 cm² high and 15 low where anything burns the room's air, 15 and 5 else.
    def vents(shop: str, vehicle: str, high_cm2: float, **options: int) -> Any:
        chosen = {i.replace("_", "-"): n for i, n in options.items()}
        build = resolver(shop).resolve(enquiry(shop, vehicle, chosen))
        return VENTS.read(build, work_out(_with(build, FixedVent, high_m2=high_cm2 * 1e-4, low_m2=25e-4)))

    for high_cm2, verdict in ((40, "tight"), (100, "ok")):
        high, low = vents("hallamoor", "van-35", high_cm2, hob_gas=1, gas_system=1)
        assert (high.want_cm2, low.want_cm2) == pytest.approx((100, 15))
        assert VENTS.judge(high).verdict() == verdict and "Counted too: Two-burner gas hob" in high.cooking
    spirit, _ = vents("hallamoor", "van-35", 40, gas_system=1, cylinder_6=1)
    assert spirit.want_cm2 == pytest.approx(15) and not spirit.cooking
    found = vents("quillback", "van", 0, hob_gas_2=1, gas_cylinder_20=1, roof_fan=1, battery_12v_100=1)
    assert [VENTS.judge(x).verdict() for x in found] == ["note"]
    assert "Not counted: " in found[0].cooking
    asked = vents("quillback", "van", 0, hob_gas_2=1, gas_cylinder_20=1)
    assert isinstance(asked, Unknown) and "Gas cooktop" in asked.ask
    outdoors = vents("quillback", "van", 0, grill_outdoor=1, gas_cylinder_20=1)
    assert not isinstance(outdoors, Unknown) and not outdoors[0].cooking
