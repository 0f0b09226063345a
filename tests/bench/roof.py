"""Laying out panels: mixes of kinds on roofs with corners, ribs and things on them, and how the time grows."""

import gc
import time

from engine.physics import packing_ground, roof_packing
from engine.physics.roof_outline import outside
from engine.physics.roof_packing import PanelKind, Rect, RoofSpace

ROUNDS = 5
_SIZES_M_W = ((1.48, 0.67, 200), (1.05, 0.53, 100), (1.72, 1.13, 425), (1.47, 0.68, 160))
_RIBS_M = tuple(0.2 + 0.46 * n for n in range(11))
_THINGS = (Rect(0.6, 0.7, 0.45, 0.45), Rect(2.4, 0.65, 0.6, 0.6), Rect(3.9, 0.2, 0.3, 0.3), Rect(1.6, 1.5, 0.3, 0.3))


def _roof(things: int, length_m: float = 4.8) -> RoofSpace:
    beyond = outside(length_m, 2.1, 0.05, 0.15, ((0.0, 1.9), (0.4, 2.1)))
    return RoofSpace(length_m, 2.1, 0.05, 0.02, _THINGS[:things], beyond, _RIBS_M)


def _kinds(count: int, each: int) -> tuple[PanelKind, ...]:
    return tuple(PanelKind(f"k{i}", a, b, w, each, i != 3) for i, (a, b, w) in enumerate(_SIZES_M_W[:count]))


def _ms(space: RoofSpace, kinds: tuple[PanelKind, ...]) -> float:
    best = float("inf")
    gc.collect()
    for _ in range(ROUNDS):
        for memo in (roof_packing.pack_roof, roof_packing._pack, packing_ground._knapsack):
            memo.cache_clear()
        began = time.process_time()
        roof_packing.pack_roof(space, kinds)
        best = min(best, time.process_time() - began)
    return best * 1000


def packing_times_ms() -> tuple[float, float]:
    """(hardest mix of up to four kinds on up to four things, the same at five panels of each kind over two)."""
    mixes = [(n, each, t) for n in (1, 2, 3, 4) for each in (2, 4) for t in range(5)]
    worst = max(_ms(_roof(t), _kinds(n, each)) for n, each, t in mixes)
    few, many = (sum(_ms(_roof(t), _kinds(3, each)) for t in range(5)) for each in (2, 5))
    return worst, many / few
