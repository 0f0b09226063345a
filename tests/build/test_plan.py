"""The floor plan of whole builds: finished vehicles arrange, moves are kept, and what is counted is what stands."""

import random
import timeit
from dataclasses import replace

import pytest

from engine.build import work_out
from engine.build.plan import least_aisle_m, plan, plan_parts
from engine.build.plan_cargo import cargo_of
from engine.build.plan_escape import ways_out
from engine.build.plan_figures import PlanFigures
from engine.build.plan_inside import clear_inside, interior_of, widths_at
from engine.build.plan_modules import width_m
from engine.build.plan_people import beds_share, belted_places, sleeping_places, without_place
from engine.catalogue.facets import Berth, FurnitureModule, Seat
from engine.catalogue.interior import Interior, OverCab
from engine.catalogue.trip import CargoBox
from engine.enquiry.model import Move
from engine.rules import judge
from tests.bench.energy import million_additions
from tests.bench.plan import arranging_ms
from tests.shops import catalogue, enquiry, resolver

READY = [pytest.param(shop, r.id, id=r.id) for shop in ("hallamoor", "quillback") for r in catalogue(shop).ready]


def made(shop, ready=None, moves=None, vehicle=None, options=None, **trip):
    """A build with a buyer's moves."""
    asked = enquiry(shop, vehicle, options, ready, **trip)
    return resolver(shop).resolve(asked.model_copy(update={"moves": moves or {}}))


def spot(figures: PlanFigures, option_id: str):
    """Where the first piece of an option stands by day."""
    return next(p for p in figures.day if p.option_id == option_id and p.piece == 0)


def verdicts(build, code):
    """Verdicts of one rule."""
    return [f.verdict for f in judge(build, work_out(build)) if f.rule == code]


@pytest.mark.parametrize(("shop", "ready"), READY)
def test_every_finished_vehicle_arranges(shop, ready):
    build = made(shop, ready)
    figures = build.plan
    assert figures.proven and not figures.conflicts and not figures.overlaps
    assert all(p.fits for p in figures.day)
    assert len(figures.day) >= 8
    assert figures.aisle_m is not None and figures.aisle_m >= 0.4
    modules = sum(isinstance(f, FurnitureModule) for p in build.parts for f in p.option.facets for _ in range(p.count))
    assert len(figures.day) == len(figures.night) == modules


@pytest.mark.parametrize(("shop", "ready"), READY)
def test_nothing_reaches_through_walls_or_ceiling(shop, ready):
    figures = made(shop, ready).plan
    inside = figures.inside
    for p in figures.day:
        assert p.x_m >= inside.front_m - 1e-4 and p.x_m + p.length_m <= inside.bare_length_m - inside.rear_m + 2e-4
        assert p.y_m >= inside.side_m - 1e-4 and p.y_m + p.depth_m <= inside.bare_width_m - inside.side_m + 2e-4
        assert p.z_m >= inside.floor_m - 1e-4
        assert p.z_m + p.height_m <= inside.bare_headroom_m - inside.roof_m + 1e-4


@pytest.mark.parametrize(("shop", "ready"), READY)
def test_parts_stand_where_the_plan_puts_them(shop, ready):
    build = made(shop, ready)
    cabin = build.vehicle.cabin
    for part in build.parts:
        pieces = [p for p in build.plan.day if p.option_id == part.option.id]
        if not pieces:
            place = build.vehicle.place(part.option.place)
            assert (part.x_m, part.y_m, part.z_m) == (place.x_m, place.y_m, place.z_m)
            continue
        at = [p.in_vehicle(cabin.front_x_m, cabin.width_m, cabin.floor_z_m) for p in pieces]
        assert part.x_m == pytest.approx(sum(x for x, _, _ in at) / len(at))
        assert part.y_m == pytest.approx(sum(y for _, y, _ in at) / len(at))
        assert -cabin.width_m / 2 <= part.y_m <= cabin.width_m / 2
        assert cabin.floor_z_m <= part.z_m <= cabin.floor_z_m + cabin.height_m + 0.3


def test_a_move_is_kept_and_the_others_make_room():
    free = made("hallamoor", "dry-stone").plan
    moved = made("hallamoor", "dry-stone", {"kitchen-van": Move(x_m=1.13, side="right")}).plan
    kitchen = spot(moved, "kitchen-van")
    assert (kitchen.x_m, kitchen.side, kitchen.fixed_by_buyer) == (pytest.approx(1.13), "right", True)
    assert spot(free, "kitchen-van").side == "left" and not spot(free, "kitchen-van").fixed_by_buyer
    assert spot(moved, "washroom-van").side == "left" or not spot(moved, "washroom-van").fits


def test_a_move_that_does_not_fit_is_kept_and_shown():
    build = made("hallamoor", "dry-stone", {"kitchen-van": Move(x_m=2.2, side="left")})
    assert spot(build.plan, "kitchen-van").x_m == pytest.approx(2.2)
    assert "fails" in verdicts(build, "modules-fit")
    both = made(
        "hallamoor",
        "dry-stone",
        {"kitchen-van": Move(x_m=1.2, side="right"), "washroom-van": Move(x_m=1.5, side="right")},
    )
    pairs = {frozenset((o.first_id, o.second_id)) for o in both.plan.overlaps if o.use == "solid"}
    assert frozenset(("kitchen-van", "washroom-van")) in pairs
    outside = made("hallamoor", "dry-stone", {"bench-belted": Move(x_m=11.0, side="left")})
    assert spot(outside.plan, "bench-belted").x_m == pytest.approx(11.0)
    assert any(o.second == "end wall" for o in outside.plan.overlaps)


def test_a_door_that_the_buyer_blocks_is_named():
    build = made("hallamoor", "dry-stone", {"bench-belted": Move(x_m=0.1, side="left")})
    assert any(o.first_id == "bench-belted" and o.second == "sliding door" for o in build.plan.overlaps)


def test_moves_of_what_is_no_module_change_nothing():
    asked = enquiry("hallamoor", ready="dry-stone")
    odd = asked.model_copy(update={"moves": {"roof-fan": Move(x_m=1, side="left"), "gone": Move(x_m=1, side="left")}})
    assert resolver("hallamoor").resolve(odd).plan.day == resolver("hallamoor").resolve(asked).plan.day


def test_axle_loads_follow_a_move():
    build = made("hallamoor", "high-fell")
    moved = made("hallamoor", "high-fell", {"wardrobe": Move(x_m=0.1, side="right")})
    x = {p.option.id: p.x_m for p in build.parts}["wardrobe"]
    x_moved = {p.option.id: p.x_m for p in moved.parts}["wardrobe"]
    assert x_moved < x
    assert x_moved == pytest.approx(1.34 + 0.1 + 0.225)


def test_the_conflict_of_two_is_named_and_smallest():
    build = made("hallamoor", "dry-stone", options={"bed-across": 0, "bed-along": 1})
    [conflict] = build.plan.conflicts
    assert 2 <= len(conflict.option_ids) <= 4
    for left_out in conflict.option_ids:
        fewer = made(
            "hallamoor",
            None,
            None,
            "van-35",
            {i: 1 for i in conflict.option_ids if i != left_out} | {"foam-32": 1, "lining-felt": 1, "floor-vinyl": 1},
        )
        assert not fewer.plan.conflicts, left_out


def test_the_order_of_choices_never_matters():
    asked = enquiry("quillback", ready="long-winter-box")
    chance = random.Random(3)
    first = resolver("quillback").resolve(asked).plan
    for _ in range(5):
        items = list(asked.options.items())
        chance.shuffle(items)
        assert resolver("quillback").resolve(asked.model_copy(update={"options": dict(items)})).plan == first


@pytest.mark.parametrize(("shop", "ready"), READY)
def test_a_longer_aisle_wish_never_makes_a_fail_good(shop, ready):
    build = made(shop, ready)
    kept = []
    for wanted in (0.3, 0.4, 0.5, 0.6, 0.7, 0.9):
        figures = plan(build.vehicle, plan_parts(build.vehicle, build.parts), (), wanted)
        kept.append(figures.aisle_m is not None and figures.aisle_m >= wanted)
    assert kept == sorted(kept, reverse=True)


@pytest.mark.parametrize(("shop", "ready"), READY)
def test_one_module_more_never_makes_room(shop, ready):
    chosen = dict(next(r for r in catalogue(shop).ready if r.id == ready).options)
    modules = [
        i
        for i, (_, o) in catalogue(shop).options_by_id.items()
        if any(isinstance(f, FurnitureModule) for f in o.facets)
    ]
    before = made(shop, ready).plan
    for extra in random.Random(1).sample(modules, 6):
        after = made(shop, ready, options={extra: chosen.get(extra, 0) + 1}).plan
        if not after.conflicts and after.aisle_m is not None and before.aisle_m is not None:
            # Aisles are tried in steps of 5 cm up to half a metre; within a step either may come out wider.
            assert min(after.aisle_m, 0.5) <= min(before.aisle_m, 0.5) + 0.05 + 1e-9


def test_thicker_walls_leave_less_inside():
    thin = made("hallamoor", None, vehicle="van-35", options={"foam-19": 1}).plan.inside
    thick = made("hallamoor", None, vehicle="van-35", options={"wool-60": 1}).plan.inside
    assert thick.width_m == pytest.approx(thin.width_m - 2 * 0.041)
    assert thick.headroom_m == pytest.approx(thin.headroom_m - 0.041 - 0.015)
    # The van is open to the cab, so only its rear end is lined.
    assert thick.length_m == pytest.approx(3.72 - 0.06)
    assert "wool-60" in thick.takers and not thick.assumed


def test_a_vehicle_without_its_inside_is_a_plain_box_and_says_so():
    build = made("proving-yard", None, vehicle="plain-van", options={"wool-40": 1, "board-6": 1})
    inside = build.plan.inside
    assert inside.assumed
    assert inside.width_m == pytest.approx(1.778) and inside.length_m == pytest.approx(3.6 - 0.092)


def test_layers_can_be_chosen_until_nothing_is_left():
    build = made("proving-yard", None, vehicle="plain-van", options={"wool-40": 20})
    assert clear_inside(build.vehicle, build.parts).width_m == pytest.approx(0.27)


def test_widths_between_stated_ones():
    van = next(v for v in catalogue("quillback").vehicles if v.id == "van")
    floor, shoulder = widths_at(interior_of(van), 136 * 0.0254)
    assert floor == pytest.approx(70.25 * 0.0254) and shoulder == pytest.approx(70 * 0.0254)
    inside = made("hallamoor", "dry-stone").plan.inside
    assert width_m(inside, 0, 0.9) == pytest.approx(1.86)
    assert width_m(inside, 0.4, 0.9) == pytest.approx(1.88)
    assert width_m(inside, 0.4, 1.9) == pytest.approx(1.87)


def test_a_bed_made_up_at_night_stands_deeper():
    figures = made("hallamoor", "high-fell").plan
    by_night = next(p for p in figures.night if p.option_id == "dinette-box")
    by_day = spot(figures, "dinette-box")
    assert (by_day.depth_m, by_night.depth_m) == (pytest.approx(1.5), pytest.approx(1.85))
    assert by_night.berth and not by_day.berth
    assert figures.night_aisle_m < figures.aisle_m


def test_a_lift_bed_is_out_of_the_way_by_day():
    figures = made("hallamoor", None, vehicle="box-72", options={"bed-lift": 1, "bench-light": 1}).plan
    by_day, by_night = spot(figures, "bed-lift"), next(p for p in figures.night if p.option_id == "bed-lift")
    assert by_day.z_m > 1.7 and by_night.z_m == pytest.approx(1.05)
    assert figures.aisle_m == pytest.approx(2.18 - 0.55)


def test_the_narrowest_aisle_is_the_workshop_s_or_a_round_figure_of_its_units():
    shop = catalogue("hallamoor").workshop
    assert shop.aisle_m is None and least_aisle_m(shop) == 0.4
    assert least_aisle_m(shop.model_copy(update={"units": "us"})) == pytest.approx(16 * 0.0254)
    assert least_aisle_m(catalogue("quillback").workshop) == pytest.approx(15 * 0.0254)


def test_no_aisle_is_told_while_something_has_no_place():
    # A bed wider than the van is drawn through both walls: what it leaves to walk on is anybody's guess.
    without = made("quillback", vehicle="van", options={"dinette-bed": 1, "galley-48": 1})
    assert without.plan.aisle_m is not None and not without.plan.aisle_wants
    build = made("quillback", vehicle="van", options={"dinette-bed": 1, "galley-48": 1, "bed-across-queen": 1})
    figures = build.plan
    assert figures.aisle_m is None and figures.night_aisle_m is None and figures.aisle_ids == ()
    assert "bed-across-queen" in figures.aisle_wants
    [found] = [f for f in judge(build, work_out(build)) if f.rule == "aisle-width"]
    assert (found.verdict, found.missing) == ("unknown", "width of the aisle")
    assert found.options == figures.aisle_wants


def test_a_module_larger_than_the_room_is_told_by_how_much():
    build = made("quillback", vehicle="van", options={"bed-across-queen": 1})
    [module] = [f for _, f in build.facets(FurnitureModule)]
    inside = build.plan.inside
    wide_m = max(inside.floor_width_m, inside.width_m, inside.shoulder_width_m)
    [found] = [f for f in judge(build, work_out(build)) if f.rule == "modules-fit"]
    told = {fact.name: fact.value for fact in found.facts}
    assert (
        told["how much deeper it is than the room is wide"] == pytest.approx(module.depth_m - wide_m) and wide_m > 1.5
    )
    assert "too deep." in found.cause and "too long" not in found.cause


def test_seats_and_beds_without_a_place_do_not_count():
    roomy = made("quillback", "long-winter-box")
    assert (belted_places(roomy), sleeping_places(roomy)) == (4, 4)
    crowded = made("quillback", "two-up-van", options={"seat-pair-belted": 1})
    left_out = {p.option_id for p in crowded.plan.day if not p.fits}
    assert "seat-pair-belted" in left_out or "bench-side" in left_out
    assert belted_places(crowded) == (2 if "seat-pair-belted" in left_out else 4)
    over = made("quillback", "long-winter-box", {"dinette-bed-belted": Move(x_m=3.4, side="left")})
    assert belted_places(over) == 2 and sleeping_places(over) < 4


@pytest.mark.parametrize(
    ("code", "kind", "options", "lost"),
    [
        ("belted-seats", Seat, {"seat-pair-belted": 1}, "“Two belted seats on floor track”"),
        (
            "berths",
            Berth,
            {"bed-along-full": 0, "bench-side": 0, "bed-across-van": 2},
            "2 × “Fixed bed across, 72 in by 54 in”",
        ),
    ],
)
def test_seats_and_beds_that_are_not_counted_are_named(code, kind, options, lost):
    crowded = made("quillback", "two-up-van", options=options, children=2)
    assert without_place(crowded, kind) == (lost,)
    [said] = [f for f in judge(crowded, work_out(crowded)) if f.rule == code]
    assert said.verdict == "fails" and lost in said.cause and said.remedy.startswith("Make room in the plan")


@pytest.mark.parametrize(("shop", "ready"), READY)
def test_nothing_of_a_finished_vehicle_is_left_out_of_the_count(shop, ready):
    build = made(shop, ready, children=4)
    assert without_place(build, Seat) == without_place(build, Berth) == () and not beds_share(build)
    causes = [f.cause for f in judge(build, work_out(build)) if f.rule in ("belted-seats", "berths")]
    assert causes and not any("ot counted" in c or "one counts" in c for c in causes)


def test_beds_that_rule_each_other_out_count_once():
    both = made("quillback", None, vehicle="bus", options={"bed-lift": 1, "bed-across-queen": 1}, adults=4, children=0)
    one = made("quillback", None, vehicle="bus", options={"bed-lift": 1}, adults=4, children=0)
    assert sleeping_places(both) == sleeping_places(one) == 2
    [said] = [f for f in judge(both, work_out(both)) if f.rule == "berths"]
    assert said.verdict == "fails" and "one counts" in said.cause
    apart = made(
        "quillback", None, vehicle="bus", options={"bunk-fold": 2, "bed-across-queen": 1}, adults=4, children=0
    )
    assert sleeping_places(apart) == 4 and verdicts(apart, "berths") == ["ok"]


def test_every_bed_of_the_finished_vehicles_has_two_ways_out():
    for shop in ("hallamoor", "quillback"):
        for r in catalogue(shop).ready:
            build = made(shop, r.id)
            for way in ways_out(build):
                assert way.doors and len(way.doors) + way.windows >= 2, (r.id, way)


def test_a_bed_behind_a_full_aisle_has_no_way_to_the_front():
    free = made("proving-yard", None, vehicle="row-bus", options={"bed-80": 1})
    shut = made("proving-yard", None, vehicle="row-bus", options={"bed-80": 1, "wide-cupboard": 1})
    assert [w.doors for w in ways_out(free)] == [("front door",)]
    # 15 in are enough to get past; with the walls lined less than 11 in of them are left.
    assert [w.doors for w in ways_out(shut)] == [("front door",)]
    lined = made(
        "proving-yard",
        None,
        vehicle="row-bus",
        options={"bed-80": 1, "wide-cupboard": 1, "wool-40": 2, "end-lining": 1},
    )
    assert [w.doors for w in ways_out(lined)] == [()]


BICYCLE = CargoBox(name="Bicycle", length_m=1.8, width_m=0.35, height_m=1.05)


@pytest.mark.parametrize(("count", "fits"), [(1, True), (4, True), (5, False)])
def test_the_garage_swallows_as_many_bicycles_as_its_summary_says(count, fits):
    build = made("hallamoor", "high-fell", boxes=(BICYCLE.model_copy(update={"count": count}).model_dump(),))
    cargo = cargo_of(build)
    assert cargo.garage is not None and cargo.garage.option_id == "bed-box"
    assert cargo.fit is not None and cargo.fit.fits is fits
    assert verdicts(build, "cargo-fits") == ["ok" if fits else "fails"]


def test_what_no_door_lets_through_does_not_go_in():
    tall = CargoBox(name="Crate", length_m=1.2, width_m=1.0, height_m=1.0)
    build = made("hallamoor", "high-fell", boxes=(tall.model_dump(),))
    assert [(x.box.name, x.by) for x in cargo_of(build).shut_out] == [("Crate", "door")]
    assert verdicts(build, "cargo-fits") == ["fails"]
    no_door = made("hallamoor", "high-fell", options={"box-garage-door": 0}, boxes=(BICYCLE.model_dump(),))
    assert verdicts(no_door, "cargo-fits") == ["unknown"]
    no_bed = made("hallamoor", None, vehicle="box-72", options={}, boxes=(BICYCLE.model_dump(),))
    assert verdicts(no_bed, "cargo-fits") == ["fails"]


@pytest.mark.parametrize(
    ("length_m", "width_m", "height_m", "any_way_up", "by", "said", "way"),
    [
        # 38 in of bed less 2 in of board are 91.4 cm; the door is 1.4 by 1.65 m (55 by 65 in).
        (1.85, 0.7, 1.1, False, "low", "“Thing” is 43.3 in high, and under “Fixed bed", "a higher garage"),
        (1.1, 1.1, 0.95, True, "low", "“Thing” is 37.4 in high, and under “Fixed bed", "a higher garage"),
        (1.1, 1.1, 0.9, True, None, "All of it fits", ""),
        (2.2, 0.3, 0.3, False, "small", "“Thing” of 86.6 in × 11.8 in × 11.8 in is larger", "a larger garage"),
    ],
)
def test_what_keeps_a_thing_out_of_the_garage_is_said(length_m, width_m, height_m, any_way_up, by, said, way):
    thing = CargoBox(name="Thing", length_m=length_m, width_m=width_m, height_m=height_m, any_way_up=any_way_up)
    build = made("quillback", "two-up-van", boxes=(thing.model_dump(),))
    assert [x.by for x in cargo_of(build).shut_out] == ([by] if by else [])
    (found,) = (f for f in judge(build, work_out(build)) if f.rule == "cargo-fits")
    assert found.cause.startswith(said)
    assert way in found.remedy and "door" not in found.remedy


def test_what_the_bed_leaves_of_a_door_is_told_from_the_door():
    """A door that reaches past the bed's end, or above the room under it, is no smaller for it by itself."""
    build = made("hallamoor", "high-fell", boxes=(BICYCLE.model_dump(),))
    bed = next(p for p in build.plan.day if p.option_id == "bed-box")
    door = next(o for o in build.plan.openings if o.serves == "loads")

    def shut(**at):
        plan = replace(build.plan, openings=(door._replace(**at),))
        return [x.by for x in cargo_of(replace(build, plan=plan)).shut_out]

    end_m = bed.x_m + bed.length_m
    assert door.wall in ("left", "right") and shut() == []
    assert shut(from_m=end_m - 0.3, to_m=end_m + 0.9) == ["cut"]
    assert shut(from_m=end_m - 0.3, to_m=end_m) == ["door"]
    assert shut(sill_m=0.2, height_m=1.2) == ["cut"]
    assert shut(height_m=1.0) == ["door"]


def test_what_is_built_into_the_garage_takes_its_room():
    bags = CargoBox(name="Bag", length_m=0.9, width_m=0.65, height_m=0.65, count=6).model_dump()
    free = made("hallamoor", "high-fell", boxes=(bags | {"count": 3},))
    assert cargo_of(free).fit.fits
    with_den = made("hallamoor", "high-fell", options={"dog-den": 1, "garage-floor": 1}, boxes=(bags | {"count": 3},))
    assert len(cargo_of(with_den).garage.space.taken) == len(cargo_of(free).garage.space.taken) + 1


def test_eight_modules_are_arranged_in_no_time():
    additions_ms = 1000 * min(timeit.repeat(million_additions, number=1, repeat=5))
    # Measured a fifteenth of that; a search that tries all orders takes hundreds of it.
    assert arranging_ms("quillback") < additions_ms


@pytest.mark.parametrize(
    ("length_m", "depth_m", "height_m", "fits"),
    [(1.45, 1.6, 0.2, True), (1.5, 1.6, 0.2, False), (1.45, 1.7, 0.2, False), (1.45, 1.6, 0.8, False)],
)
def test_a_bed_over_the_cab_fits_its_alcove_or_is_named(length_m, depth_m, height_m, fits):
    """1.5 m long, 1.87 m wide at the wall and 1.7 m in front, 0.75 m high; 46 mm of lining."""
    plain = made("proving-yard", None, vehicle="plain-van", options={"wool-40": 1, "board-6": 1, "bed-along": 1})
    alcove = OverCab(length_m=1.5, floor_m=1.1, height_m=0.75, front_width_m=1.7)
    interior = Interior(floor_width_m=1.87, shoulder_width_m=1.87, over_cab=alcove)
    van = plain.vehicle.model_copy(update={"interior": interior})
    bed = FurnitureModule(
        kind="furniture", length_m=length_m, depth_m=depth_m, height_m=height_m, stands="over-cab", storage_l=0
    )
    parts = tuple(
        replace(p, option=p.option.model_copy(update={"facets": (*p.option.facets, bed)}))
        if p.option.id == "bed-along"
        else p
        for p in plain.parts
    )
    figures = plan(van, plan_parts(van, parts), (), 0.4)
    [placed] = figures.day
    assert placed.fits is fits and placed.side == "over-cab" and placed.x_m == -length_m
    assert [c.option_ids for c in figures.conflicts] == ([] if fits else [("bed-along",)])
    assert figures.aisle_m is None
