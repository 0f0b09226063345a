"""What stands on the roof, what may stand there and how high it reaches."""

from dataclasses import replace

import pytest

from engine.build import work_out
from engine.build.model import Build
from engine.build.roof_load import RoofLoadFigures, roof_load_figures
from engine.build.roof_things import obstacles
from engine.rules import judge
from tests.build.wiring import with_facet
from tests.shops import enquiry, resolver


def loaded(build: Build) -> RoofLoadFigures:
    """What stands on a build's roof."""
    return roof_load_figures(build, obstacles(build))


def test_racks_come_off_what_the_roof_carries(yard):
    assert loaded(yard()).allowed_kg == 150
    with_rack = loaded(yard(options={"rack": 1, "rack-box": 1}))
    assert (with_rack.load_kg, with_rack.allowed_kg) == (30, 112)


@pytest.mark.parametrize(("more", "load_kg"), [({}, 102), ({"rack-box": 1}, 132)])
def test_the_weakest_link_is_the_roof_under_a_strong_rack(yard, more, load_kg):
    # Rack for 180 kg weighing 38 kg on a roof for 150 kg: 112 kg, not 180.
    load = loaded(yard(options={"rack": 1, "rack-panel": 3, "rack-brackets": 1, "rack-awning": 1} | more))
    assert (load.load_kg, load.allowed_kg, load.rack_is_weakest) == (load_kg, 112, False)
    assert (load.on_racks_kg, load.rack_rating_kg) == (load_kg, 180)


def test_the_weakest_link_is_a_light_rack_on_a_strong_roof(yard):
    load = loaded(yard(options={"light-rack": 1, "rack-box": 1, "rack-panel": 1}))
    assert (load.load_kg, load.allowed_kg, load.rack_is_weakest) == (52, 40, True)


def test_what_is_screwed_to_the_roof_itself_does_not_load_the_rack(yard):
    load = loaded(yard(options={"rack": 1, "flue": 1, "lid": 1, "panel-300": 1}))
    assert load.on_racks_kg == 0
    assert load.load_kg == pytest.approx(3 + 4 + loaded(yard(options={"panel-300": 1})).load_kg)


def test_a_rack_heavier_than_the_rating_leaves_nothing(yard):
    load = loaded(yard("long-bus", {"rack": 1}))
    assert load.allowed_kg == 400 - 38
    assert load.load_kg == 0


def test_reinforcement_adds_to_the_road_and_the_parked_load(yard):
    bare = loaded(yard("bare-box", {"walkway": 1}))
    stiff = loaded(yard("bare-box", {"walkway": 1, "bows": 1}))
    assert (bare.allowed_kg, bare.parked_allowed_kg) == (150, 250)
    assert (stiff.allowed_kg, stiff.parked_allowed_kg) == (200, 350)
    assert (bare.parked_kg, bare.brought_kg) == (105, 100)
    assert (bare.bare_carries_rack, bare.strengthened, stiff.strengthened) == (False, False, True)


def test_without_a_rating_the_parked_roof_is_not_known(yard):
    assert loaded(yard(options={"walkway": 1})).parked_allowed_kg is None


def test_the_tallest_thing_makes_the_height(yard):
    bare = loaded(yard())
    assert (bare.height_m, bare.tallest, bare.tallest_ids) == (2.6, "", ())
    # A walkway is no taller than paint; a panel on brackets is 5 cm of air and its frame.
    assert loaded(yard(options={"walkway": 1})).height_m == 2.6
    assert loaded(yard(options={"panel-300": 1})).height_m == pytest.approx(2.6 + 0.05 + 0.035)
    flue = loaded(yard(options={"panel-300": 1, "flue": 1}))
    assert (flue.height_m, flue.tallest_ids) == (3.0, ("flue",))
    # Panels on a rack stand as high as the rack and their own brackets; tilted ones lie flat on the road.
    on_rack = loaded(yard(options={"light-rack": 1, "tilted-300": 1}))
    assert on_rack.height_m == pytest.approx(2.6 + 0.2 + 0.05 + 0.035)


def told(build):
    return [f for f in judge(build, work_out(build)) if f.rule == "roof-load"]


def test_a_rack_without_a_rating_carries_nobody_knows_what(yard):
    # 38 kg of rack and a box of 30 kg on a roof for 150 kg.
    build = with_facet(yard(options={"rack": 1, "rack-box": 1}), "rack", "roof-object", rating_kg=None)
    [unknown] = told(build)
    assert (unknown.verdict, unknown.missing) == ("unknown", "what the rack carries")
    [empty] = told(with_facet(yard(options={"rack": 1}), "rack", "roof-object", rating_kg=None))
    assert empty.verdict == "ok"


def test_an_overloaded_rack_fails_on_a_roof_that_nobody_rated(yard):
    build = yard(options={"light-rack": 1, "rack-box": 1, "rack-panel": 1})
    roof = build.vehicle.roof.model_copy(update={"load_rating_kg": None})
    rack, unknown = told(replace(build, vehicle=build.vehicle.model_copy(update={"roof": roof})))
    assert (rack.verdict, rack.measured, rack.limit, unknown.verdict) == ("fails", 52, 40, "unknown")


def test_more_than_a_reinforcement_adds_is_not_known_on_an_unrated_roof():
    def bus(count):
        kit = {"roof-bows": 1, "panel-425": count, "ac-roof-13500": 1}
        return resolver("quillback").resolve(enquiry("quillback", "bus", kit))

    light, heavy = (told(with_facet(bus(2), "roof-bows", "structure", roof_load_kg=kg)) for kg in (150.0, 50.0))
    assert [f.verdict for f in light] == ["ok"]
    assert [(f.verdict, f.missing) for f in heavy] == [
        ("unknown", "roof load rating of the Small bus with a front hood")
    ]
    assert "a stronger roof reinforcement" in heavy[0].remedy


def test_the_parked_roof_is_not_known_while_a_mass_on_it_is_not():
    build = resolver("quillback").resolve(enquiry("quillback", "box", {"roof-walkway": 1, "panel-425": 1}))
    known = [f.verdict for f in judge(build, work_out(build)) if f.rule == "roof-load-parked"]
    parts = tuple(replace(p, mass_kg=None) if p.option.id == "panel-425" else p for p in build.parts)
    bare = replace(build, parts=parts)
    [unknown] = [f for f in judge(bare, work_out(bare)) if f.rule == "roof-load-parked"]
    assert known == ["ok"] and (unknown.verdict, unknown.options) == ("unknown", ("panel-425",))
