"""Laws of arranging: mirrors, orders, aisles and tapers."""

import random

import pytest

from engine.physics.arrangement import MOST_STEPS, Arrangement, arrange
from engine.physics.arrangement_ground import allowed
from engine.physics.clearance import Block, Extent, Piece, Room, clash, holes, taper_at, wide_stretch
from engine.physics.passage import Standing, narrowest
from tests.arrangements import AISLES, instance

MIRROR = {"left": "right", "right": "left", "middle": "middle"}
SEEDS = range(60)


def mirrored(room: Room, pieces: tuple[Piece, ...]) -> tuple[Room, tuple[Piece, ...]]:
    """The same room and things seen in a mirror along the vehicle."""
    blocks = tuple(b._replace(y_from=room.width - b.y_to, y_to=room.width - b.y_from) for b in room.blocks)
    turned = tuple(p._replace(sides=tuple(MIRROR[s] for s in p.sides)) for p in pieces)
    return room._replace(blocks=blocks), turned


@pytest.mark.parametrize("seed", SEEDS)
def test_a_mirrored_room_gets_the_mirrored_arrangement(seed: int) -> None:
    room, pieces = instance(seed)
    ours = arrange(room, pieces, AISLES)
    other = arrange(*mirrored(room, pieces), AISLES)
    assert [s and (s.x, MIRROR[s.side]) for s in ours.spots] == [s and (s.x, s.side) for s in other.spots]
    assert (ours.aisle, ours.conflicts) == (other.aisle, other.conflicts)


@pytest.mark.parametrize("seed", SEEDS)
def test_one_thing_more_never_widens_the_aisle_and_never_makes_room(seed: int) -> None:
    room, pieces = instance(seed)
    fewer, more = arrange(room, pieces[:-1], AISLES), arrange(room, pieces, AISLES)
    if not more.conflicts:
        assert not fewer.conflicts
        assert more.aisle <= fewer.aisle


@pytest.mark.parametrize("seed", SEEDS)
def test_a_wider_aisle_is_never_easier(seed: int) -> None:
    room, pieces = instance(seed)
    kept = [arrange(room, pieces, (a, 0)).aisle == a for a in (60, 50, 40, 20)]
    assert kept == sorted(kept)


def test_what_the_buyer_fixed_stays_even_in_one_another() -> None:
    box = Extent(0, 100, 0, 60, 0, 90)
    first = Piece("first", box, box, ("left",), 40, fixed=True)
    second = Piece("second", box, box, ("left",), 60, fixed=True)
    third = Piece("third", box, box, ("left", "right"), 50)
    found = arrange(Room(0, 300, 180), (first, second, third), (0,))
    assert [s and s.x for s in found.spots[:2]] == [40, 60]
    assert found.conflicts == ()
    assert clash(Room(0, 300, 180), box, "left", 40, box, "left", 60)


def test_things_stand_as_near_to_their_places_as_the_others_let_them() -> None:
    box = Extent(0, 100, 0, 60, 0, 90)
    pieces = tuple(Piece(k, box, box, ("left",), w) for k, w in (("a", 20), ("b", 90), ("c", 350)))
    spots = arrange(Room(0, 500, 180), pieces, (0,)).spots
    # The first two overlap where they would like to be; the one behind gives way only as far as it has to.
    assert [s and s.x for s in spots] == [0, 100, 350]


def test_exactly_full_walls_are_found_and_a_hair_more_is_not() -> None:
    sizes = (80, 24, 36, 72, 60, 8)
    pieces = tuple(
        Piece(str(k), Extent(0, s, 0, 30, 0, 90), Extent(0, s, 0, 30, 0, 90), ("left",), 0) for k, s in enumerate(sizes)
    )
    assert not arrange(Room(0, 280, 90), pieces, (0,)).conflicts
    conflict = arrange(Room(0, 279, 90), pieces, (0,))
    assert conflict.conflicts == ((0, 1, 2, 3, 4, 5),) and conflict.proven


def test_a_tapering_room_takes_deep_pairs_where_it_is_wide() -> None:
    room = Room(0, 400, 200, taper=((0, 20), (200, 0), (400, 0)))
    box = Extent(0, 150, 0, 95, 0, 90)
    pieces = (Piece("a", box, box, ("left",), 0), Piece("b", box, box, ("right",), 0))
    spots = arrange(room, pieces, (0,)).spots
    assert all(spots)
    (a, b) = (s.x for s in spots if s)
    begins, ends = max(a, b), min(a, b) + 150
    assert ends <= begins or 2 * (95 + max(taper_at(room, begins), taper_at(room, ends))) <= 200 + 1
    # In a room as narrow as the taper's end all along they cannot face each other, and 400 hold both in a row.
    narrow = arrange(Room(0, 400, 160), pieces, (0,)).spots
    assert all(narrow) and abs(narrow[0].x - narrow[1].x) >= 150
    assert arrange(Room(0, 299, 160), pieces, (0,)).conflicts == ((0, 1),)


@pytest.mark.parametrize("need", range(150, 206, 6))
def test_the_wide_stretch_is_as_wide_as_it_says(need: int) -> None:
    room = Room(0, 400, 200, taper=((0, 20), (150, 0), (300, 0), (400, 13)))
    stretch = wide_stretch(room, need)
    wide = [x for x in range(401) if room.width - 2 * exact_taper(room, x) >= need - 1e-9]
    if stretch is None:
        assert not wide
    else:
        assert [x for x in range(401) if stretch[0] <= x <= stretch[1]] == wide


def exact_taper(room: Room, x: int) -> float:
    """The taper without rounding."""
    for (x0, d0), (x1, d1) in zip(room.taper, room.taper[1:], strict=False):
        if x0 <= x <= x1:
            return d0 + (d1 - d0) * (x - x0) / (x1 - x0)
    raise AssertionError(x)


def test_a_search_that_is_cut_off_says_so() -> None:
    chance = random.Random(5)
    pieces = tuple(
        Piece(f"p{k:02}", box, box, ("left", "right"), chance.randint(0, 900))
        for k in range(18)
        for box in [Extent(0, chance.randint(90, 160), 0, chance.randint(40, 80), 0, 90)]
    )
    found = arrange(Room(0, 1000, 150, (Block("door", 400, 480, 0, 60, 0, 90),)), pieces, (0,), most_steps=400)
    assert not found.proven
    assert MOST_STEPS > 400


def test_nothing_is_arranged_as_nothing() -> None:
    assert arrange(Room(0, 100, 100), (), (0,)) == Arrangement((), 0, (), True)


def test_a_thing_deeper_than_the_room_has_no_place() -> None:
    box = Extent(0, 100, 0, 120, 0, 90)
    assert allowed(Room(0, 300, 110), Piece("bed", box, box, ("left",), 0), "left") == ()
    assert arrange(Room(0, 300, 110), (Piece("bed", box, box, ("left",), 0),), (0,)).conflicts == ((0,),)


def test_things_over_one_another_do_not_meet() -> None:
    bed, den = Extent(0, 150, 0, 100, 90, 110), Extent(0, 90, 0, 70, 0, 80)
    a, b = Piece("bed", bed, bed, ("left",), 0), Piece("den", den, den, ("left",), 0)
    assert holes(a, "left", b, "left", 0) == ()


@pytest.mark.parametrize("seed", range(40))
def test_a_thing_more_on_the_floor_never_widens_the_way(seed: int) -> None:
    chance = random.Random(seed)
    room = ((0.0, 0.0, 2.0), (4.0, 0.1, 1.9))
    things = []
    for k in range(6):
        x, y = chance.uniform(0, 3.5), chance.choice((0.0, 1.2))
        things.append(Standing(str(k), x, x + chance.uniform(0.2, 1.5), y, y + chance.uniform(0.2, 0.8)))
    widths = [narrowest(room, things[:n], 0, 4).width_m for n in range(7)]
    assert widths == sorted(widths, reverse=True)
    assert widths[0] == pytest.approx(1.8)
