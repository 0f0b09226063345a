"""What every builder knows, held against whole builds of both demo workshops (common practice, no published source)."""

from dataclasses import replace
from functools import partial

import pytest

from engine.build import Figures, work_out
from engine.catalogue.facets import AcLoad, DcLoad, Inverter
from tests.shops import catalogue, enquiry, quick_scene, resolver

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


def used(yard, kind, hours: float, **how: object) -> dict[str, float]:
    """A day's Wh from the battery, of a 60 W appliance at battery or mains voltage and a 2 kW inverter of 20 W idle."""
    build = yard(options={"lfp-200": 1, "inverter-2000": 1, "lamp-12": 1})
    other = {
        "lamp-12": kind(power=60.0, hours_per_day=hours, **how),
        "inverter-2000": build.facets(Inverter)[0][1].model_copy(update={"idle_w": 20.0, "switched": True}),
    }
    parts = tuple(
        replace(p, option=p.option.model_copy(update={"facets": (other[p.option.id],)})) if p.option.id in other else p
        for p in build.parts
    )
    power = work_out(replace(build, parts=parts)).power
    return {x.option_id: x.energy_wh_d for x in power.loads} | {"day": power.use_wh_d}


@pytest.mark.parametrize("hours", [0.5, 3.0, 9.0])
def test_equipment_at_battery_voltage_saves_the_inverters_losses(yard, hours):
    straight = used(yard, partial(DcLoad, kind="dc-load"), hours)
    through = used(yard, partial(AcLoad, kind="ac-load"), hours)
    # At battery voltage nothing is lost, and an inverter on which nothing runs sleeps.
    assert straight == {"lamp-12": pytest.approx(60 * hours), "day": pytest.approx(60 * hours)}
    # Through the inverter, of 88 %, what it is made into costs more, and it draws 20 W itself while it is awake.
    assert through["lamp-12"] == pytest.approx(60 * hours / 0.88)
    assert through["day"] - straight["day"] == pytest.approx(60 * hours * (1 / 0.88 - 1) + 20 * hours)
    # What may run at any time keeps it awake day and night.
    awake = used(yard, partial(AcLoad, kind="ac-load"), hours, running="cycling")
    assert awake["day"] - straight["day"] == pytest.approx(60 * hours * (1 / 0.88 - 1) + 20 * 24)
