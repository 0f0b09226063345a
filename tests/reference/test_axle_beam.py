"""Axle loads against the support reactions of a finite-element beam (PyNiteFEA)."""

import random

import pytest

from engine.physics.axle import PointLoad, axle_loads, wheel_loads

pytestmark = pytest.mark.reference

# Reactions of three beams, computed apart from this project with PyNiteFEA 3.2.0: wheelbase in m, loads in kg at m
# behind the front axle, front and rear reaction in kg. A van, a box truck, a bus.
WORKED = {
    "van": (
        4.035,
        ((1218, 0), (882, 4.035), (75, 0.9), (75, 0.9), (120, 1.9), (100, 3.2), (90, 4.6), (250, 3.0), (60, 5.1)),
        (1454.4188, 1415.5812),
    ),
    "box truck": (
        4.496,
        ((2810, 0), (2300, 4.496), (68, -0.3), (68, -0.3), (300, 5.9), (420, 3.1), (180, 6.5), (150, 1.4)),
        (3014.8612, 3281.1388),
    ),
    "bus": (
        5.5,
        ((3400, 0), (5100, 5.5), (75, -1.2), (400, 7.9), (600, 2.0), (200, 8.3)),
        (3596.8182, 6178.1818),
    ),
}
SEEDS = range(200)


def _reactions(wheelbase_m: float, loads: list[PointLoad]) -> tuple[float, float]:
    """Forces on the supports of a beam that carries the loads; with forces in kg the reactions are kg too."""
    from Pynite import FEModel3D

    # The beam may be as stiff as one likes: on two supports the reactions do not depend on it.
    beam = FEModel3D()
    beam.add_material("steel", 200e9, 77e9, 0.3, 7850)
    beam.add_section("any", 1e-2, 1e-4, 1e-4, 2e-4)
    nose_m, tail_m = -3.0, 13.0
    for name, x_m in (("nose", nose_m), ("front", 0.0), ("rear", wheelbase_m), ("tail", tail_m)):
        beam.add_node(name, x_m, 0, 0)
    beam.add_member("frame", "nose", "tail", "steel", "any")
    beam.def_support("front", True, True, True, True, False, False)
    beam.def_support("rear", False, True, True, False, False, False)
    for load in loads:
        beam.add_member_pt_load("frame", "Fy", -load.mass_kg, load.x_m - nose_m)
    beam.analyze()
    return beam.nodes["front"].RxnFY["Combo 1"], beam.nodes["rear"].RxnFY["Combo 1"]


def _vehicle(seed: int) -> tuple[float, list[PointLoad]]:
    draw = random.Random(seed)
    wheelbase_m = draw.uniform(2.5, 7.5)
    empty = [PointLoad(draw.uniform(900, 4000), 0.0), PointLoad(draw.uniform(600, 5500), wheelbase_m)]
    fit_out = [PointLoad(draw.uniform(1, 600), draw.uniform(-2.4, wheelbase_m + 4)) for _ in range(draw.randint(3, 25))]
    return wheelbase_m, empty + fit_out


@pytest.mark.parametrize("name", WORKED)
def test_worked_vehicles(name):
    wheelbase_m, loads, (front_kg, rear_kg) = WORKED[name]
    axles = axle_loads([PointLoad(*x) for x in loads], wheelbase_m)
    # The figures are printed to four places.
    assert axles.front_kg == pytest.approx(front_kg, abs=5.1e-5)
    assert axles.rear_kg == pytest.approx(rear_kg, abs=5.1e-5)


@pytest.mark.parametrize("seed", SEEDS)
def test_random_vehicles(seed):
    wheelbase_m, loads = _vehicle(seed)
    axles = axle_loads(loads, wheelbase_m)
    front_kg, rear_kg = _reactions(wheelbase_m, loads)
    # The beam's stiffness matrix is solved numerically: it agrees to a gram.
    assert axles.front_kg == pytest.approx(front_kg, abs=1e-3)
    assert axles.rear_kg == pytest.approx(rear_kg, abs=1e-3)


@pytest.mark.parametrize("seed", range(25))
def test_sides_are_the_reactions_of_a_beam_across_each_axle(seed):
    draw = random.Random(1000 + seed)
    wheelbase_m, along = _vehicle(seed)
    loads = [PointLoad(m, x, draw.uniform(-0.7, 0.7)) for m, x, _ in along]
    tracks = (draw.uniform(1.5, 2.1), draw.uniform(1.5, 2.1))
    ends = wheel_loads(loads, wheelbase_m, *tracks)
    on_rear = [PointLoad(load.mass_kg * load.x_m / wheelbase_m, load.y_m + tracks[1] / 2) for load in loads]
    on_front = [PointLoad(load.mass_kg * (1 - load.x_m / wheelbase_m), load.y_m + tracks[0] / 2) for load in loads]
    for (left_kg, right_kg), across, track_m in ((ends[:2], on_front, tracks[0]), (ends[2:], on_rear, tracks[1])):
        left, right = _reactions(track_m, across)
        assert left_kg == pytest.approx(left, abs=1e-3)
        assert right_kg == pytest.approx(right, abs=1e-3)
