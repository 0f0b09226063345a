"""Winter by the hour and through the wall."""

import pytest

from engine.build import work_out
from engine.build.damp import damp_figures
from engine.build.shell import Ply
from engine.build.winter_hours import CUTS, DampDay, Night, cold_night, damp_day, through
from engine.physics.heat import Layer
from engine.physics.moist_air import dew_point_degc, vapour_kpa
from tests.shops import enquiry, resolver

LINING = Ply("ply", "lining", Layer(0.004, 0.13), 100)
FOAM = Ply("foam", "insulation", Layer(0.010, 0.036), 7000)
WOOL = Ply("wool", "insulation", Layer(0.040, 0.036), 1)
STEEL = Ply("steel", "shell", Layer(0.0008, 50), None)


def test_foam_keeps_its_face_above_the_dew_point() -> None:
    w = through("walls", (FOAM, STEEL), 18, 0.6, 0)  # 10 mm of foam at 18 °C and 60 %, outside freezing
    assert w.faces_degc[0] == pytest.approx(12.8, abs=0.05)
    assert w.room_dew_degc == pytest.approx(10.1, abs=0.05)
    assert w.dew_degc[0][3] == pytest.approx(w.room_dew_degc)


def test_vapour_gets_through_wool_to_the_cold_skin_and_no_further() -> None:
    w = through("walls", (LINING, WOOL, STEEL), 18, 0.6, 0)
    at_skin = w.dew_degc[2 * (CUTS + 1) - 1]
    assert at_skin[3] == pytest.approx(w.room_dew_degc, abs=0.1) and at_skin[3] > at_skin[2] and w.wet
    assert w.dew_degc[-1][3] == pytest.approx(dew_point_degc(vapour_kpa(0, 0.9)))
    assert [d for *_, d in w.dew_degc] == sorted((d for *_, d in w.dew_degc), reverse=True)


def test_a_vapour_layer_on_the_room_side_keeps_vapour_out() -> None:
    board = Ply("board", "shell", Layer(0.02, 0.13), 50)
    layered = [(LINING, p, board) for p in (WOOL, WOOL._replace(barrier_m=100))]
    open_w, held = (through("walls", plies, 18, 0.5, 0) for plies in layered)
    assert open_w.wet and not held.wet
    assert held.faces_degc == open_w.faces_degc


def test_a_layer_that_says_nothing_on_vapour_is_named() -> None:
    w = through("walls", (LINING, WOOL._replace(vapour_multiple=None), STEEL), 18, 0.5, -10)
    assert w.unknown == "wool" and w.dew_degc == () and not w.wet


def night(shop: str, ready: str, **trip: object) -> Night | None:
    build = resolver(shop).resolve(enquiry(shop, ready=ready, **trip))
    return cold_night(build, work_out(build).warmth)


def test_a_heater_that_suffices_holds_the_warmth_and_without_it_the_cold_comes_in() -> None:
    n = night("hallamoor", "dry-stone", months=[1])
    assert n is not None and n.heated_degc == pytest.approx((18.0,) * 16)
    assert list(n.off_degc[:12]) == sorted(n.off_degc[:12], reverse=True)
    assert all(off >= out - 0.5 for off, out in zip(n.off_degc[:12], n.outside_degc[:12], strict=True))
    assert min(n.outside_degc) == pytest.approx(-8.3) and n.hours[n.outside_degc.index(min(n.outside_degc))] == 5


def test_a_heater_that_is_too_small_lets_it_get_colder() -> None:
    n = night("hallamoor", "lapwing", place="helsinki", months=[1], inside_degc=22)
    assert n is not None and min(n.heated_degc) < 21
    assert all(on >= off for on, off in zip(n.heated_degc, n.off_degc, strict=True))


def test_no_cold_night_in_a_hot_summer() -> None:
    assert night("hallamoor", "lapwing", place="tucson", months=[7], inside_degc=15) is None


def damp(**trip: object) -> DampDay:
    build = resolver("hallamoor").resolve(enquiry("hallamoor", ready="dry-stone", **{"months": [1]} | trip))
    f = work_out(build)
    found = damp_day(build, f.warmth, damp_figures(build, f.warmth, f.gas.room_kg_d), f.openings, f.gas.room_kg_d)
    assert found is not None
    return found


def test_people_cooking_and_showers_are_seen_in_the_hours_they_happen() -> None:
    alone, family = damp(adults=1, pets=0), damp(adults=2, children=2)
    at_home = [h for h in range(24) if h not in range(9, 18)]
    assert all(family.source_kg[h] > alone.source_kg[h] for h in at_home)
    dry = damp(showers_per_day=0)
    assert [h for h in range(24) if damp().source_kg[h] > dry.source_kg[h]] == [7, 21]
    cold = damp(hot_meals_per_day=0)
    assert [h for h in range(24) if damp(hot_meals_per_day=2).source_kg[h] > cold.source_kg[h]] == [8, 19]


def test_glass_is_wet_before_the_structure_is() -> None:
    d = damp()
    assert d.glass and d.structure
    assert all(g < s for g, s in zip(d.glass_frac, d.structure_frac, strict=True))
    assert d.wiped_kg > 0 and any(h > g for h, g in zip(d.humidity_frac, d.glass_frac, strict=True))
    assert d.wind_m3_h > d.still_m3_h > 0
