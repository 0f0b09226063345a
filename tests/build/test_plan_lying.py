"""What is over a bed by night is what its sleeper has room under; a bed from seats lies as high as seats are."""

from dataclasses import replace

import pytest

from engine.build import work_out
from engine.build.plan_lying import lying
from engine.build.plan_modules import SEAT_M, modules_of
from engine.rules import judge
from engine.units import INCH_M
from tests.shops import catalogue, enquiry, resolver

LONGWAYS, BUNK, DINETTE = "Fixed bed lengthwise, 75 in by 54 in", "Fold-up bunk, 72 in by 27 in", "dinette-bed-belted"
LOCKERS = "Overhead lockers, 12 ft"


def built(ready, options=None, shop="quillback", **trip):
    return resolver(shop).resolve(enquiry(shop, None, options, ready, **trip))


def over(build):
    """What is over each bed, by the bed's option."""
    return {x.bed.part.option.id: (x.over.name, pytest.approx(x.over.room_m, abs=1e-4), x.spared) for x in lying(build)}


def told(build):
    found = [f for f in judge(build, work_out(build)) if f.rule == "bed-headroom"]
    return {f.options[0]: f for f in found}


def shifted(build, option_id, **by):
    """The same build, with one thing somewhere else by night."""
    night = tuple(
        p._replace(**{k: getattr(p, k) + m for k, m in by.items()}) if p.option_id == option_id else p
        for p in build.plan.night
    )
    return replace(build, plan=replace(build.plan, night=night))


def test_a_bunk_over_the_fixed_bed_leaves_nobody_room_to_turn_over():
    # The bunk's underside is 46 in above the floor, the mattress 38 in.
    build = built("two-up-van", {"bunk-fold": 1}, children=1)
    assert over(build)["bed-along-full"] == (BUNK, 8 * INCH_M, False)
    found = told(build)["bed-along-full"]
    assert found.verdict == "fails" and f"8 in from mattress to “{BUNK}”; turning over takes" in found.cause
    assert found.remedy.startswith("Move one of the two")
    assert over(build)["bunk-fold"][0] == ""


def test_a_bed_in_the_open_has_the_ceiling_over_it():
    build = built("two-up-van")
    inside, (bed,) = build.plan.inside, lying(build)
    at = bed.bed.placed
    assert bed.over.name == "" and not bed.spared
    assert bed.over.room_m == pytest.approx(inside.bare_headroom_m - inside.roof_m - at.z_m - at.height_m)


def test_a_bed_made_up_from_seats_lies_as_high_as_the_seats():
    # 36 in of backrest by day; the bunk begins 46 in above the floor and the mattress ends at 18 in.
    build = built("long-winter-box", {"bunk-fold": 1}, children=2)
    assert over(build)[DINETTE] == (BUNK, 28 * INCH_M, False)
    assert told(build)[DINETTE].verdict == "note"


def test_what_no_height_by_night_is_stated_for_lies_at_45_cm():
    build = built("long-winter-box")
    part = next(p for p in build.parts if p.option.id == DINETTE)
    facets = tuple(f.model_copy(update={"night": None}) if f.kind == "furniture" else f for f in part.option.facets)
    silent = replace(part, option=part.option.model_copy(update={"facets": facets}))
    (module,) = modules_of(build.vehicle, (silent,), build.plan.inside, ())
    assert (module.box.night.z_to - module.box.night.z_from) * 1e-5 == pytest.approx(SEAT_M)
    assert module.box.day.z_to > module.box.night.z_to
    low = silent.option.model_copy(
        update={"facets": tuple(f.model_copy(update={"height_m": 0.4}) if f.kind == "furniture" else f for f in facets)}
    )
    (module,) = modules_of(build.vehicle, (replace(part, option=low),), build.plan.inside, ())
    assert module.box.night == module.box.day


def test_seats_need_not_be_made_up_under_a_bunk_while_everybody_lies_elsewhere():
    # Bed for two, dinette for two, bunk for one: four have places without the bunk, five have not.
    for people, spared, verdict in ((2, True, "note"), (4, True, "note"), (5, False, "fails")):
        build = built("long-winter-box", {"bunk-fold": 1}, adults=2, children=people - 2)
        low = shifted(build, "bunk-fold", z_m=-20 * INCH_M)
        assert over(low)[DINETTE] == (BUNK, 8 * INCH_M, spared)
        found = told(low)[DINETTE]
        assert found.verdict == verdict, people
        assert found.cause.endswith("Nobody can sleep in both at once.") == spared


def test_lockers_over_an_edge_or_over_feet_shut_nobody_in():
    build = built("long-winter-box")
    bed = next(p for p in build.plan.night if p.option_id == "bed-across-queen")
    locker = next(p for p in build.plan.night if p.option_id == "overhead-lockers")
    apart = [p for p in build.plan.night if p.option_id != "overhead-lockers"]

    def with_locker(x_m, y_m, length_m, depth_m, room_m):
        thing = locker._replace(
            x_m=bed.x_m + x_m, y_m=bed.y_m + y_m, length_m=length_m, depth_m=depth_m,
            z_m=bed.z_m + bed.height_m + room_m,
        )  # fmt: skip
        night = (*apart, thing)
        return over(replace(build, plan=replace(build.plan, night=night)))["bed-across-queen"][0]

    # The bed lies across: 2.08 m from left to right, 1.52 m for two, who take up 0.5 m each.
    assert with_locker(0.0, 0.0, bed.length_m, 0.4, 0.3) == ""  # over feet, which lie 25 cm deep
    assert with_locker(0.0, 0.0, bed.length_m, 0.4, 0.2) == LOCKERS
    assert with_locker(0.0, 0.0, bed.length_m, 0.6, 0.3) == LOCKERS  # as far as the knees
    assert with_locker(0.0, 0.0, 0.5, bed.depth_m, 0.3) == ""  # 1.02 m are left beside it
    assert with_locker(0.0, 0.0, 0.53, bed.depth_m, 0.3) == LOCKERS
    assert with_locker(0.0, 0.0, bed.length_m, 1.0, 0.6) == ""  # at the other end both sit up
    assert with_locker(0.0, 0.0, bed.length_m, 1.1, 0.6) == LOCKERS
    assert with_locker(-1.0, 0.0, 1.0, bed.depth_m, 0.3) == ""  # beside the bed


@pytest.mark.parametrize("shop", ["quillback", "hallamoor"])
def test_in_finished_vehicles_everybody_can_turn_over(shop):
    for ready in catalogue(shop).ready:
        assert {f.verdict for f in told(built(ready.id, shop=shop)).values()} <= {"ok", "note"}, ready.id
