"""Warming up of whole builds."""

from dataclasses import replace
from math import inf

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.build.warm_room import living_room, warm_up_figures
from engine.build.warmth import WarmthFigures, warmth_figures
from engine.catalogue.facets import SpaceHeater
from engine.physics.fixed_vents import FLAME_AIR_M3_KG
from engine.physics.heat import air_loss_w_k
from tests.shops import enquiry, resolver

READY = [("hallamoor", "dry-stone"), ("hallamoor", "high-fell"), ("quillback", "long-winter-box")]


@pytest.mark.parametrize(("shop", "ready"), READY)
def test_the_room_loses_what_the_shell_and_air_lose(shop: str, ready: str) -> None:
    build = resolver(shop).resolve(enquiry(shop, ready=ready))
    warmth = warmth_figures(build)
    assert living_room(build, warmth).steady_w_k == pytest.approx(warmth.total_w_k)


@settings(max_examples=30, deadline=None)
@given(st.sampled_from(READY), st.sampled_from(("helsinki", "denver", "potsdam")), st.sampled_from((1, 2, 12)),
       st.floats(10, 23), st.floats(0.5, 3))  # fmt: skip
def test_more_warmth_takes_longer(which: tuple[str, str], place: str, month: int, wanted: float, more: float) -> None:
    shop, ready = which
    found = []
    for inside_degc in (wanted, wanted + more):
        build = resolver(shop).resolve(enquiry(shop, ready=ready, place=place, months=[month], inside_degc=inside_degc))
        found.append(warm_up_figures(build, warmth_figures(build)))
    less, longer = found
    assert less is not None and longer is not None
    assert less.floor_degc < longer.floor_degc < wanted + more
    assert less.grade_count == longer.grade_count  # the test's own 20 °C, whatever is wanted
    if longer.warm_up_h is not None:
        assert less.warm_up_h is not None and less.warm_up_h <= longer.warm_up_h


def test_a_colder_place_never_needs_a_smaller_heater() -> None:
    losses = []
    for place in ("london", "potsdam", "helsinki"):
        build = resolver("hallamoor").resolve(enquiry("hallamoor", ready="dry-stone", place=place, months=[1]))
        w = warmth_figures(build)
        losses.append((w.design_degc, w.design_loss_w))
    assert losses == sorted(losses, key=lambda x: -x[0])
    assert [w for _, w in losses] == sorted(w for _, w in losses)


@pytest.mark.parametrize(
    ("shop", "ready", "more", "what"),
    [
        ("hallamoor", "dry-stone", {}, "Half the diesel tank"),
        ("hallamoor", "high-fell", {}, "Half the diesel tank"),
        ("quillback", "long-winter-box", {}, "Half the diesel tank"),
        ("hallamoor", "dry-stone", {"diesel-2": 0, "diesel-4": 0, "combi-gas-4": 1}, "A fill of gas"),
    ],
)
def test_the_fill_that_lasts_so_many_nights_is_named(shop: str, ready: str, more: dict[str, int], what: str) -> None:
    build = resolver(shop).resolve(enquiry(shop, ready=ready, options=more, months=[1]))
    warm = warm_up_figures(build, warmth_figures(build))
    assert warm is not None and warm.fuel.nights_count is not None
    assert warm.fuel.lasting == what
    half_l = build.vehicle.engine.fuel_l / 2
    if what == "Half the diesel tank":
        assert warm.fuel.nights_count == pytest.approx(half_l / warm.fuel.diesel_l)
    else:
        assert warm.fuel.diesel_l == 0 < warm.fuel.gas_kg


def test_a_burner_lights_no_oftener_than_it_can_and_a_stove_is_fed_by_hand() -> None:
    asked = enquiry("hallamoor", ready="high-fell", options={"diesel-2": 0, "diesel-8": 1}, months=[4])
    build = resolver("hallamoor").resolve(asked)
    w = warmth_figures(build)
    warm = warm_up_figures(build, w)
    # 307 W of 3.5 kW: 3 min to light and 3 min to run on, a start every 68 min. Air and lining
    # alone would have one every 11 min.
    assert w.min_output_w == 3500 and w.mild_loss_w == pytest.approx(307, abs=2)
    assert warm is not None and warm.cycle_h == pytest.approx(0.1 * 3500 / w.mild_loss_w)
    # 130 W for 3 min while it lights, over what it takes running.
    [(part, heater)] = [(p, f) for p, f in build.facets(SpaceHeater)]
    assert warm.start_wh == pytest.approx((130 - heater.electric_w) / 20)
    wood = part.option.model_copy(update={"facets": (heater.model_copy(update={"fuel": "wood"}),)})
    parts = tuple(replace(p, option=wood) if p == part else p for p in build.parts)
    burning_wood = replace(build, parts=parts)
    stove = warm_up_figures(burning_wood, warmth_figures(burning_wood))
    assert stove is not None and (stove.cycle_h, stove.start_wh) == (inf, 0)


def test_no_heater_warms_nothing_up() -> None:
    build = resolver("hallamoor").resolve(enquiry("hallamoor", "van-35", {}, place="helsinki", months=[1]))
    assert warm_up_figures(build, warmth_figures(build)) is None


@pytest.mark.parametrize(("altitude_m", "carried_frac"), [(0, 1.0), (1600, 0.825), (-2, 1.0)])
def test_thin_air_carries_less_heat(altitude_m: float, carried_frac: float) -> None:
    # Standard atmosphere: 83.5 kPa at 1,600 m over 101.3 at the sea.
    build = resolver("quillback").resolve(enquiry("quillback", ready="long-winter-box", place="denver", months=[1]))
    there = warmth_figures(replace(build, climate=replace(build.climate, altitude_m=altitude_m)))
    sea = warmth_figures(replace(build, climate=replace(build.climate, altitude_m=0)))
    assert there.air_m3_h == sea.air_m3_h
    assert there.air_loss_w_k == pytest.approx(carried_frac * sea.air_loss_w_k, rel=2e-3)
    assert sea.total_w_k - there.total_w_k == pytest.approx((1 - carried_frac) * sea.air_loss_w_k, abs=0.05)


def _yard(options: dict[str, int], **trip: object) -> WarmthFigures:
    asked = enquiry("proving-yard", "plain-van", options, **{"place": "garmisch", "months": [1], **trip})
    return warmth_figures(resolver("proving-yard").resolve(asked))


def test_a_flame_without_a_flue_asks_for_its_own_air() -> None:
    # 6,000 BTU/h are 1,758 W, all the night asks for and more: 0.1366 kg/h of propane. Three molecules of carbon
    # dioxide from one are 0.2236 m³/h of it, and 4,580 ppm more than outside let 48.8 m³/h of air carry it off. At
    # 711 m, 101 m above the height from which air is too thin for it, the burner gives 1.33 % less.
    plain, flame = _yard({}), _yard({"heater-flueless": 1})
    assert plain.flame_m3_h == 0
    assert flame.design_loss_w > 1758
    assert flame.flame_m3_h == pytest.approx(48.8 * 0.9867, abs=0.2)
    assert flame.air_m3_h == plain.air_m3_h
    more = flame.total_w_k - plain.total_w_k
    assert more == pytest.approx(48.8 * 0.9867 * 0.335 * 0.919, rel=0.01)  # at 711 m
    assert flame.design_loss_w - plain.design_loss_w == pytest.approx(more * (18 - flame.design_degc), rel=1e-6)


def test_no_air_for_flames_where_no_night_asks_for_heat_or_the_burner_breathes_from_outside() -> None:
    assert _yard({"heater-flueless": 1}, place="miami", months=[7]).flame_m3_h == 0
    assert _yard({"heater-5": 1}) == _yard({"heater-5": 1})._replace(flame_m3_h=0, air_m3_h=_yard({}).air_m3_h)


@pytest.mark.parametrize("adults", [1, 4])
def test_an_open_flue_counts_only_beyond_what_people_breathe(adults: int) -> None:
    # 3 m³ of room air for each kilowatt-hour burnt; people ask for 14.4 m³/h each, and leaks let air through anyway.
    asked = enquiry("proving-yard", "plain-van", {"heater-5": 1}, place="northway", months=[1], adults=adults)
    build = resolver("proving-yard").resolve(asked)
    sealed = warmth_figures(build)
    [part] = build.parts
    changed = {"flue": "open-flued", "efficiency_frac": 0.4}
    facets = tuple(f.model_copy(update=changed) for f in part.option.facets if f.kind == "space-heater")
    open_flued = replace(part, option=part.option.model_copy(update={"facets": facets}))
    found = warmth_figures(replace(build, parts=(open_flued,)))
    assert 3000 < sealed.design_loss_w < 5000
    drawn = sealed.design_loss_w / 1000 / 0.4 * 3
    assert found.air_m3_h == pytest.approx(max(sealed.air_m3_h, drawn))
    assert (found.air_m3_h > sealed.air_m3_h) == (adults == 1)
    assert found.flame_m3_h == 0


def test_a_hob_brings_more_warmth_than_its_air_takes() -> None:
    # Even 100 K colder outside: a kilogram of propane gives 12.87 kWh.
    assert FLAME_AIR_M3_KG * air_loss_w_k(1) * 100 < 12_872
