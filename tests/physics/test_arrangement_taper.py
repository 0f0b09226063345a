"""Rooms that draw in towards their ends, as vans and buses do, against every arrangement there is."""

import random
from functools import cache
from itertools import product

import pytest

from engine.physics.arrangement import arrange
from engine.physics.clearance import Extent, Piece, Room

SEEDS = range(160)


@cache
def instance(seed: int) -> tuple[Room, tuple[Piece, ...]]:
    chance = random.Random(seed)
    length, width = 24, 20  # depths are even, as half of what is left is a whole number to the search
    taper = ((0, chance.choice((0, 2, 4))), (8, 0), (16, 0), (24, chance.choice((0, 1, 3, 4))))
    pieces = []
    for k in range(chance.choice((3, 4, 4))):
        box = Extent(0, chance.randint(5, 14), 0, chance.choice((6, 8, 10, 10, 12, 12)), 0, 90)
        sides = chance.choice((("left",), ("right",), ("left", "right")))
        pieces.append(Piece(f"p{k}", box, box, sides, chance.randint(0, length)))
    return Room(0, length, width, taper=taper), tuple(pieces)


def free_width(room: Room, x: int) -> float:
    for (x0, d0), (x1, d1) in zip(room.taper, room.taper[1:], strict=False):
        if x0 <= x <= x1:
            return room.width - 2 * (d0 + (d1 - d0) * (x - x0) / (x1 - x0))
    raise AssertionError(x)


def holds(room: Room, x_from: int, x_to: int, need: int) -> bool:
    """Whether the room is that wide all along. Its walls bend outwards only, so the narrowest place is an end."""
    return min(free_width(room, x_from), free_width(room, x_to)) >= need - 1e-9


def keeps(room: Room, p: Piece, side: str, x: int, others: list[tuple[Piece, str, int]]) -> bool:
    end = x + p.day.x_to
    if not holds(room, x, end, p.day.out_to):
        return False
    for q, other, at in others:
        begins, ends = max(x, at), min(end, at + q.day.x_to)
        if begins < ends and (side == other or not holds(room, begins, ends, p.day.out_to + q.day.out_to)):
            return False
    return True


def some_way(room: Room, pieces: tuple[Piece, ...], placed: list[tuple[Piece, str, int]]) -> bool:
    if len(placed) == len(pieces):
        return True
    p = pieces[len(placed)]
    return any(
        keeps(room, p, side, x, placed) and some_way(room, pieces, [*placed, (p, side, x)])
        for side, x in product(p.sides, range(room.x_to - p.day.x_to + 1))
    )


@pytest.mark.parametrize("seed", SEEDS)
def test_the_search_finds_a_place_where_there_is_one_and_keeps_the_walls(seed: int) -> None:
    room, pieces = instance(seed)
    found = arrange(room, pieces, (0,))
    assert found.proven
    assert (not found.conflicts) == some_way(room, pieces, [])
    placed: list[tuple[Piece, str, int]] = []
    for p, spot in zip(pieces, found.spots, strict=True):
        if spot is not None:
            assert keeps(room, p, spot.side, spot.x, placed), (p.key, spot)
            placed.append((p, spot.side, spot.x))


def test_the_rooms_are_worth_something() -> None:
    fits = [some_way(*instance(s), []) for s in SEEDS]
    assert 40 <= sum(fits) <= 120
    # In a room without a taper more would fit: the walls decide.
    straight = [some_way(instance(s)[0]._replace(taper=((0, 0), (24, 0))), instance(s)[1], []) for s in SEEDS]
    assert sum(straight) > sum(fits)
