"""What every builder knows, held against whole builds of both demo workshops (common practice, no published source)."""

import pytest

from engine.build import Figures
from engine.desk import quick_scene
from tests.shops import catalogue, enquiry, resolver

READY = [(shop, ready.id) for shop in ("quillback", "hallamoor") for ready in catalogue(shop).ready]


def figures(shop: str, ready: str, place: str, month: int, **trip: object) -> Figures:
    asked = enquiry(shop, ready=ready, months=(month,))
    asked = asked.model_copy(update={"trip": asked.trip.model_copy(update={"place": place, **trip})})
    return quick_scene(resolver(shop), asked).figures


@pytest.mark.parametrize(("shop", "ready"), READY)
def test_the_floor_is_the_coldest_surface_in_winter(shop, ready):
    faces = {s.name: s.face_frac for s in figures(shop, ready, "helsinki", 1).warmth.surfaces if s.kind == "surface"}
    assert min(faces, key=faces.__getitem__) == "floor"


def test_cooling_is_the_largest_draw_of_an_off_grid_camper():
    loads = figures("quillback", "long-winter-box", "tucson", 7, cooling=True).power.loads
    cooler = max(loads, key=lambda x: x.energy_wh_d)
    assert cooler.name == "Under-bench air conditioner, 7,000 BTU/h"
    assert cooler.energy_wh_d > sum(x.energy_wh_d for x in loads) / 2


def test_a_room_built_of_stone_weighs_several_times_one_of_plastic_board():
    of = catalogue("quillback").options_by_id
    assert of["bath-stone"][1].mass_kg > 5 * of["bath-dry"][1].mass_kg
