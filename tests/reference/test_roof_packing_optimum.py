"""The roof layout against proven optima of OR-Tools' CP-SAT solver."""

import random
from dataclasses import replace

import pytest

from engine.physics.roof_packing import PanelKind, Rect, RoofSpace, pack_roof
from tests.reference.roof_optimum import proven_optimum_w

pytestmark = pytest.mark.reference

PANELS_M_W = [
    (1.48, 0.67, 200),
    (1.00, 0.55, 100),
    (1.76, 1.13, 410),
    (1.20, 0.54, 120),
    (1.05, 0.67, 130),
    (1.65, 0.99, 300),
    (0.77, 0.67, 100),
    (1.58, 0.81, 240),
    (2.10, 1.05, 450),
]


def random_roof(seed: int) -> tuple[RoofSpace, tuple[PanelKind, ...]]:
    draw = random.Random(seed)
    length_m, width_m = round(draw.uniform(1.8, 4.2), 2), round(draw.uniform(1.1, 2.0), 2)
    how_many = draw.choice([1, 1, 2, 2, 3])
    chosen = draw.sample(PANELS_M_W, how_many)
    kinds = [PanelKind(f"p{i}", *p, draw.randint(1, 6 - how_many)) for i, p in enumerate(chosen)]
    if seed % 10 == 0:  # a second kind of the same size but less power
        kinds.append(replace(kinds[0], key="weak", power_w=kinds[0].power_w - 30, count=2))
    keep_clear = []
    for _ in range(draw.randint(0, 4)):
        a, b = draw.choice([0.15, 0.25, 0.36, 0.45, 0.5]), draw.choice([0.15, 0.25, 0.36, 0.45, 0.5])
        keep_clear.append(Rect(round(draw.uniform(0, length_m - a), 2), round(draw.uniform(0, width_m - b), 2), a, b))
    space = RoofSpace(length_m, width_m, draw.choice([0, 0.03, 0.05]), draw.choice([0, 0.01, 0.02]), tuple(keep_clear))
    return space, tuple(kinds)


def coarse_roof(seed: int) -> tuple[RoofSpace, tuple[PanelKind, ...]]:
    """A roof on a 10 cm grid, on which panels and obstacles touch more often than they would on a real one."""
    draw = random.Random(seed)
    length_m, width_m = draw.randint(5, 11) / 10, draw.randint(4, 9) / 10
    powers_w = [10, 20, 30, 37, 50, 80]
    kinds = tuple(
        PanelKind(f"p{i}", draw.randint(2, 5) / 10, draw.randint(2, 5) / 10, draw.choice(powers_w), draw.randint(1, 4))
        for i in range(draw.randint(1, 3))
    )
    keep_clear = tuple(
        Rect(draw.randint(-1, 10) / 10, draw.randint(-1, 8) / 10, draw.randint(1, 3) / 10, draw.randint(1, 3) / 10)
        for _ in range(draw.randint(0, 4))
    )
    return RoofSpace(length_m, width_m, draw.choice([0, 0, 0.1]), draw.choice([0, 0, 0.1]), keep_clear), kinds


@pytest.mark.parametrize("first", range(0, 200, 20))
def test_twenty_random_roofs_reach_the_proven_optimum(first: int) -> None:
    for seed in range(first, first + 20):
        space, kinds = random_roof(seed)
        mine = pack_roof(space, kinds, 60_000)
        assert mine.proven, (seed, space, kinds)
        assert mine.power_w == proven_optimum_w(space, kinds), (seed, space, kinds)


@pytest.mark.parametrize("first", range(0, 200, 50))
def test_fifty_coarse_roofs_reach_the_proven_optimum(first: int) -> None:
    for seed in range(first, first + 50):
        space, kinds = coarse_roof(seed)
        mine = pack_roof(space, kinds, 60_000)
        assert mine.proven, (seed, space, kinds)
        assert mine.power_w == proven_optimum_w(space, kinds), (seed, space, kinds)


def test_the_default_effort_never_claims_more_than_it_proved() -> None:
    unproven = 0
    for seed in range(200):
        space, kinds = random_roof(seed)
        quick, thorough = pack_roof(space, kinds), pack_roof(space, kinds, 60_000)
        assert quick.power_w <= thorough.power_w <= quick.bound_w, seed
        if quick.proven:
            assert quick.power_w == thorough.power_w, seed
        unproven += not quick.proven
    assert unproven <= 10


# Worked once with CP-SAT, each proven optimal: roof, keep-clear rectangles, panels, gap between panels, optimum.
# In these the gap is also kept to the obstacle, so it is added to the obstacle's sides.
PROVEN = [
    ((3.30, 1.50), [(1.45, 0.55, 0.40, 0.40)], [(1.00, 0.66, 175, 8)], 0.0, 700),
    ((2.00, 1.20), [], [(1.20, 0.80, 200, 4), (1.00, 0.60, 130, 5)], 0.0, 520),
    ((3.40, 1.60), [(1.50, 0.60, 0.40, 0.40)], [(1.48, 0.67, 200, 6)], 0.02, 800),
    ((4.10, 1.70), [(1.80, 0.65, 0.40, 0.40)], [(1.76, 1.13, 410, 3), (1.48, 0.67, 200, 6)], 0.02, 820),
]


@pytest.mark.parametrize(("roof", "obstacles", "panels", "gap_m", "optimum_w"), PROVEN)
def test_four_literal_roofs(roof, obstacles, panels, gap_m, optimum_w) -> None:
    keep_clear = tuple(Rect(x - gap_m, y - gap_m, a + 2 * gap_m, b + 2 * gap_m) for x, y, a, b in obstacles)
    space = RoofSpace(*roof, 0.0, gap_m, keep_clear)
    kinds = tuple(PanelKind(f"p{i}", *p) for i, p in enumerate(panels))
    mine = pack_roof(space, kinds)
    assert mine.proven
    assert mine.power_w == optimum_w == proven_optimum_w(space, kinds)


# Roofs that a careless shortcut in the search gets wrong: a panel that rests against two obstacles and no panel, and
# a state dropped for a twin that was itself dropped.
TRICKY = [
    (
        (0.9, 0.7, 0, 0),
        [(0.1, 0.3, 0.3, 0.3), (0.5, 0.1, 0.3, 0.3)],
        [(0.2, 0.4, 10, 2), (0.3, 0.4, 20, 2)],
        40,
    ),
    (
        (0.9, 0.8, 0.1, 0),
        [(0.2, 0.6, 0.1, 0.1), (0.4, 0.2, 0.3, 0.1), (0.6, 0.4, 0.1, 0.2), (0.1, 0.4, 0.2, 0.3)],
        [(0.5, 0.5, 50, 4), (0.2, 0.2, 20, 4), (0.5, 0.4, 50, 1)],
        60,
    ),
    ((1.0, 0.8, 0, 0), [(0.3, 0.5, 0.3, 0.1)], [(0.4, 0.2, 50, 1), (0.3, 0.5, 80, 4)], 370),
]


@pytest.mark.parametrize(("roof", "obstacles", "panels", "optimum_w"), TRICKY)
def test_roofs_that_shortcuts_get_wrong(roof, obstacles, panels, optimum_w) -> None:
    space = RoofSpace(*roof, tuple(Rect(*o) for o in obstacles))
    kinds = tuple(PanelKind(f"p{i}", *p) for i, p in enumerate(panels))
    mine = pack_roof(space, kinds, 20_000)
    assert mine.proven
    assert mine.power_w == optimum_w == proven_optimum_w(space, kinds)
