"""Damp of whole builds: sources, air, cold places, layers."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.build import work_out
from engine.build.damp import DampFigures, damp_figures, dry_nights, wanted_frac
from engine.build.model import Build
from engine.build.warmth import WarmthFigures, warmth_figures
from engine.enquiry.climate import load_places
from engine.physics.condensation import surface_degc
from tests.shops import enquiry, resolver


def damp(shop: str, options: dict[str, int] | None = None, ready: str | None = None, **trip: object) -> DampFigures:
    vehicle = "plain-van" if shop == "proving-yard" else None
    found = work_out(resolver(shop).resolve(enquiry(shop, vehicle, options, ready, **trip))).damp
    assert found is not None
    return found


JANUARY = {"place": "potsdam", "months": [1], "adults": 2, "inside_degc": 18.0}


def test_a_heater_without_a_flue_gives_its_water_to_the_room() -> None:
    # 6,000 BTU/h is 127 g of propane an hour, each gram of it 1.634 g of water.
    d = damp("proving-yard", {"heater-flueless": 1}, **JANUARY)
    assert d.flueless_kg_h == pytest.approx(0.207, abs=0.002)
    assert d.people_kg_h == pytest.approx(0.09)
    dry = damp("proving-yard", {"heater-2": 1}, **JANUARY)
    assert dry.flueless_kg_h == 0 and dry.flueless_ids == ()
    assert d.humidity_frac > dry.humidity_frac
    assert d.needed_m3_h is not None and dry.needed_m3_h is not None
    assert d.needed_m3_h / dry.needed_m3_h == pytest.approx(0.297 / 0.09, rel=0.02)


def test_bare_steel_is_colder_than_foam_and_wetter_than_glass_of_two_panes() -> None:
    bare = damp("hallamoor", {"foam-32": 0}, "dry-stone", **JANUARY)
    foam = damp("hallamoor", None, "dry-stone", **JANUARY)
    worst = min((s for s in bare.spots if not s.glass), key=lambda s: s.margin_k)
    assert worst.name == "bare walls" and worst.margin_k < 0 < min(s.margin_k for s in foam.spots if not s.glass)


def _margin_k(build: Build, night_degc: float, factor_frac: float) -> float:
    """A place of that temperature factor above the dew point, asked of a trip whose coldest night is that one."""
    there = replace(build, climate=replace(build.climate, coldest_night_degc=(night_degc,) * 12))
    found = damp_figures(there, warmth_figures(there), 0.0)
    assert found is not None and found.night_degc == night_degc
    return surface_degc(found.inside_degc, night_degc, factor_frac) - found.dew_point_degc


def _van(**trip: object) -> tuple[Build, WarmthFigures]:
    asked = enquiry("hallamoor", None, {"diesel-4": 1}, "dry-stone", **JANUARY | {"place": "helsinki"} | trip)
    build = resolver("hallamoor").resolve(asked)
    warmth = warmth_figures(build)
    # 45 g/h of each sleeper in 14.4 m³/h for each.
    assert warmth.air_m3_h == pytest.approx(28.8) and warmth.output_w > warmth.design_loss_w
    return build, warmth


def test_bare_steel_is_wet_in_any_weather_that_wants_heat() -> None:
    # Sleepers add 3.1 g/m³. With 9.6 of the air outside at 12 °C and 90 % the dew point is 15 °C, and steel of a factor
    # of 0.235 is at 13.4 °C; at 0 °C there are 7.5 g/m³, of which air at its 4.2 °C holds 6.5.
    build, warmth = _van()
    assert dry_nights(build, warmth, 0.235, kept_warm=True) is None
    assert all(_margin_k(build, degc, 0.235) < 0 for degc in (-25, -15, -5, 0, 5, 10, 11.9))


def test_half_insulated_steel_is_dry_on_nights_neither_cold_nor_mild() -> None:
    # A factor of 0.4. At −20 °C it is at −4.8 °C, where air holds 3.3 g/m³ of the 3.9 in the room; at 0 °C at 7.2 °C,
    # 7.9 of 7.5 g/m³; at 12 °C at 14.4 °C, 12.3 of 12.7.
    build, warmth = _van()
    nights = dry_nights(build, warmth, 0.4, kept_warm=True)
    assert nights is not None and nights.to_degc is not None
    assert -20 < nights.from_degc < 0 < nights.to_degc < 12
    assert _margin_k(build, nights.from_degc - 0.3, 0.4) < 0 < _margin_k(build, nights.from_degc + 0.3, 0.4)
    assert _margin_k(build, nights.to_degc + 0.3, 0.4) < 0 < _margin_k(build, nights.to_degc - 0.3, 0.4)


@pytest.mark.parametrize(("shop", "ready", "options", "place"), [
    ("hallamoor", "dry-stone", {"diesel-4": 1}, "helsinki"),
    ("hallamoor", "dry-stone", {"diesel-2": 0, "floor-heat-12v": 1}, "helsinki"),
    ("quillback", "two-up-van", {}, "northway"),
    ("proving-yard", None, {"heater-flueless": 1}, "potsdam"),
])  # fmt: skip
@pytest.mark.parametrize("factor_frac", [0.1, 0.3, 0.38, 0.42, 0.46, 0.5, 0.6, 0.7, 0.8])
def test_what_is_said_of_other_nights_is_what_is_found_on_them(
    shop: str, ready: str | None, options: dict[str, int], place: str, factor_frac: float
) -> None:
    vehicle = "plain-van" if shop == "proving-yard" else None
    build = resolver(shop).resolve(enquiry(shop, vehicle, options, ready, **JANUARY | {"place": place}))
    warmth = warmth_figures(build)
    if _margin_k(build, warmth.design_degc, factor_frac) >= 0:
        return
    nights = dry_nights(build, warmth, factor_frac, kept_warm=False)
    for i in range(25):
        degc = warmth.design_degc + (11.9 - warmth.design_degc) * i / 24
        margin = _margin_k(build, degc, factor_frac)
        dry = nights is not None and nights.from_degc <= degc <= (12 if nights.to_degc is None else nights.to_degc)
        assert dry == (margin >= 0) or abs(margin) < 0.1, degc


def test_a_vapour_layer_keeps_wool_dry() -> None:
    d = damp("hallamoor", {"foam-32": 0, "wool-60": 1}, "dry-stone", **JANUARY)
    gone = ("insulation-rubber-25", "insulation-pir-50", "insulation-spray-50", "lining-light-panel")
    open_wool = damp("quillback", dict.fromkeys(gone, 0) | {"insulation-wool-50": 1}, "two-up-van", **JANUARY)
    assert not any("skin" in s.name for s in d.spots)
    assert any("skin" in s.name and s.margin_k < 0 for s in open_wool.spots)
    assert d.years[0][1].peak_kg_m2 < 0.1 < open_wool.years[0][1].peak_kg_m2


def test_nothing_is_asked_of_summer() -> None:
    asked = enquiry("hallamoor", ready="dry-stone", place="london", months=[7])
    assert work_out(resolver("hallamoor").resolve(asked)).damp is None


def test_mild_weather_bears_more_humidity() -> None:
    assert [round(wanted_frac(t), 2) for t in (-20, 5, 8.5, 12, 20)] == [0.6, 0.6, 0.65, 0.7, 0.7]


@settings(max_examples=25, deadline=None)
@given(st.sampled_from(sorted(load_places())), st.integers(1, 12), st.floats(5, 26), st.integers(1, 7))
def test_one_sleeper_more_never_asks_for_less_air(place: str, month: int, inside_degc: float, adults: int) -> None:
    found = [
        work_out(
            resolver("hallamoor").resolve(
                enquiry("hallamoor", ready="high-fell", place=place, months=[month], inside_degc=inside_degc, adults=n)
            )
        ).damp
        for n in (adults, adults + 1)
    ]
    few, many = found
    assert (few is None) == (many is None)
    if few is None or many is None:
        return
    assert few.spots == tuple(sorted(few.spots, key=lambda s: (s.margin_k, s.name)))
    assert (few.needed_m3_h is None) == (many.needed_m3_h is None)
    if few.needed_m3_h is not None and many.needed_m3_h is not None:
        assert few.needed_m3_h <= many.needed_m3_h


def test_the_coldest_place_of_all_is_reckoned() -> None:
    place = min(load_places().values(), key=lambda c: min(c.coldest_night_degc))
    month = min(range(12), key=lambda m: place.coldest_night_degc[m]) + 1
    d = damp("quillback", None, "two-up-van", place=place.id, months=[month])
    assert d.night_degc < -40
    assert 0 < d.humidity_frac < 0.6
