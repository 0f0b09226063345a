"""Random small rooms with things for them, that several tests look at."""

import random

from engine.physics.clearance import Block, Extent, Piece, Room

AISLES = (50, 40, 0)


def instance(seed: int) -> tuple[Room, tuple[Piece, ...]]:
    """A small room and some things for it: about half of them do not fit."""
    chance = random.Random(seed)
    length, width = chance.randint(250, 420), chance.randint(160, 230)
    blocks = []
    if chance.random() < 0.6:
        at = chance.randint(0, length - 80)
        y = 0 if chance.random() < 0.5 else width - 60
        blocks.append(Block("door", at, at + chance.randint(50, 90), y, y + 60, 0, 180))
    if chance.random() < 0.4:
        at = chance.randint(0, length - 80)
        blocks.append(Block("arch", at, at + 70, 0, 20, 0, 30, arch=chance.random() < 0.5))
    pieces = []
    for k in range(chance.randint(3, 7)):
        size = chance.randint(40, 150)
        depth = chance.randint(35, 90)
        low = chance.choice((0, 0, 0, 150))
        high = low + (40 if low else chance.choice((50, 90, 190)))
        day = Extent(0, size, 0, depth, low, high)
        night = day if chance.random() < 0.7 else Extent(0, size, 0, depth + chance.randint(0, 60), low, high)
        free = ()
        if chance.random() < 0.5 and not low:
            x = chance.randint(0, size // 2)
            free = (Extent(x, x + size // 2, depth, depth + chance.randint(20, 50), 10, 180),)
        sides = chance.choice((("left",), ("right",), ("left", "right"), ("right", "left"), ("middle",)))
        anchor = "rear" if sides == ("middle",) and chance.random() < 0.6 else ""
        pieces.append(
            Piece(
                f"p{k}", day, night, sides, chance.randint(0, length), anchor=anchor, free=free,
                in_way=not low, ends_aisle=anchor == "rear", over_arch=chance.random() < 0.7,
            )
        )  # fmt: skip
    return Room(0, length, width, tuple(blocks)), tuple(pieces)
