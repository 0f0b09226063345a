"""Layouts on roofs with ribs, rails, rounded corners and narrow ends, against proven optima of CP-SAT."""

import random
from dataclasses import replace

import pytest

from engine.physics.roof_outline import outside
from engine.physics.roof_packing import PanelKind, Rect, RoofSpace, pack_roof
from tests.reference.roof_optimum import Outline, proven_optimum_w

pytestmark = pytest.mark.reference

PANELS_M_W = [
    (1.48, 0.67, 200),
    (1.00, 0.55, 100),
    (1.76, 1.13, 410),
    (1.20, 0.54, 120),
    (1.05, 0.67, 130),
    (0.77, 0.67, 100),
]


def shaped_roof(seed: int, setback: bool) -> tuple[RoofSpace, tuple[PanelKind, ...], Outline]:
    draw = random.Random(seed)
    length_m, width_m = round(draw.uniform(1.8, 3.6), 2), round(draw.uniform(1.1, 1.9), 2)
    how_many = draw.choice([1, 1, 2, 2, 3])
    kinds = tuple(
        PanelKind(f"p{i}", *p, draw.randint(1, 5 - how_many), draw.random() < 0.7)
        for i, p in enumerate(draw.sample(PANELS_M_W, how_many))
    )
    if seed % 8 == 0:  # the same size once held by ribs and once glued, with less power
        kinds += (replace(kinds[0], key="twin", power_w=kinds[0].power_w - 20, held=not kinds[0].held, count=2),)
    keep_clear = []
    for _ in range(draw.randint(0, 3)):
        a, b = draw.choice([0.15, 0.25, 0.4]), draw.choice([0.15, 0.25, 0.4])
        keep_clear.append(Rect(round(draw.uniform(0, length_m - a), 2), round(draw.uniform(0, width_m - b), 2), a, b))
    nose_m, taper_m = draw.choice([0, 0, 0.3, 0.6]), draw.choice([0.1, 0.2])
    narrowing = ((0.0, round(width_m - taper_m, 2)), (nose_m, width_m)) if nose_m else ()
    outline = Outline(draw.choice([0, 0, 0.1, 0.2]), narrowing)
    first, pitch = draw.randint(0, 40) / 100, draw.randint(30, 70) / 100
    ribs = tuple(round(first + n * pitch, 2) for n in range(12) if first + n * pitch <= length_m)
    rails = draw.choice([(), (), (round(width_m * 0.2, 2), round(width_m * 0.8, 2))])
    edge_m = draw.choice([0, 0.05]) if setback else 0
    space = RoofSpace(
        length_m,
        width_m,
        edge_m,
        draw.choice([0, 0.02]),
        tuple(keep_clear),
        outside(length_m, width_m, edge_m, *outline),
        draw.choice([(), ribs, ribs]),
        rails,
    )
    return space, kinds, outline


@pytest.mark.parametrize("first", range(0, 200, 20))
def test_twenty_shaped_roofs_reach_the_proven_optimum(first: int) -> None:
    for seed in range(first, first + 20):
        space, kinds, _ = shaped_roof(seed, setback=True)
        mine = pack_roof(space, kinds, 60_000)
        assert mine.proven, (seed, space, kinds)
        assert mine.power_w == proven_optimum_w(space, kinds), (seed, space, kinds)


def test_steps_in_place_of_arcs_and_slants_cost_little_and_never_give_too_much() -> None:
    less = 0
    for seed in range(1000, 1060):
        space, kinds, outline = shaped_roof(seed, setback=False)
        mine, true_w = pack_roof(space, kinds, 60_000), proven_optimum_w(space, kinds, outline)
        assert mine.proven
        assert mine.power_w <= true_w, (seed, space, kinds)
        less += mine.power_w < true_w
    assert less <= 6
