"""Damp of whole builds: sources, air, cold places, layers."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.build import work_out
from engine.build.damp import DampFigures, wanted_frac
from engine.enquiry.climate import load_places
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
    # On a night exactly as cold as this it just stays dry.
    inside = bare.inside_degc
    at = worst.wet_below_degc + worst.factor_frac * (inside - worst.wet_below_degc)
    assert at == pytest.approx(bare.dew_point_degc)


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
