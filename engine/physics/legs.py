"""Two legs of a split-phase supply: how evenly loads can be shared out between them."""

from functools import lru_cache
from typing import NamedTuple

from engine.physics.ranges import within


class Legs(NamedTuple):
    """Loads on each leg."""

    heavier_va: float
    lighter_va: float


@lru_cache(maxsize=256)
def balanced(loads_va: tuple[float, ...], both_va: float = 0.0) -> Legs:
    """The most even way to put loads on two legs; what hangs on both takes half of each.

    Every sum that some of the loads make, told apart by whole volt-amperes, so good to half of one. loads_va: each 0 to
    100,000; both_va: 0 to 100,000. Source: definition.

    >>> balanced((1500.0, 1000.0, 400.0, 200.0), 600.0)
    Legs(heavier_va=1900.0, lighter_va=1800.0)
    """
    sums = {0: 0.0}
    for load in loads_va:
        within("loads_va", load, 0, 1e5)
        sums |= {round(s + load): s + load for s in sums.values()}
    total = sum(loads_va)
    heavier = min(max(s, total - s) for s in sums.values())
    half = within("both_va", both_va, 0, 1e5) / 2
    return Legs(heavier + half, total - heavier + half)
