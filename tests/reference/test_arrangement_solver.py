"""Arrangements along two walls and boxes in a space, against OR-Tools' CP-SAT with the same constraints."""

from __future__ import annotations

import random
from collections.abc import Sequence
from functools import cache

import pytest
from ortools.sat.python import cp_model

from engine.physics.arrangement import arrange
from engine.physics.arrangement_ground import allowed
from engine.physics.box_fit import Box, Space, Taken, fit_boxes, turned
from engine.physics.clearance import Piece, Room, holes
from tests.arrangements import AISLES, instance

pytestmark = pytest.mark.reference

SEEDS = range(200)


def solver_says(room: Room, pieces: Sequence[Piece], aisle: int) -> bool:
    """Whether CP-SAT finds places: one Boolean for each thing's side, one disjunction for each hole."""
    model = cp_model.CpModel()
    xs, on = [], []
    for p in pieces:
        x = model.new_int_var(-10, room.x_to, f"x {p.key}")
        sides = {s: model.new_bool_var(f"{p.key} {s}") for s in p.sides}
        model.add_exactly_one(sides.values())
        for s, chosen in sides.items():
            spans = allowed(room, p, s)
            if not spans:
                model.add(chosen == 0)
                continue
            domain = cp_model.Domain.from_intervals([list(span) for span in spans])
            model.add_linear_expression_in_domain(x, domain).only_enforce_if(chosen)
        xs.append(x)
        on.append(sides)
    for i, p in enumerate(pieces):
        for j in range(i + 1, len(pieces)):
            for s, here in on[i].items():
                for t, there in on[j].items():
                    for hole in holes(p, s, pieces[j], t, aisle):
                        if hole.need <= room.width:
                            continue
                        before = model.new_bool_var("")
                        model.add(xs[j] - xs[i] >= hole.high).only_enforce_if(here, there, before)
                        model.add(xs[j] - xs[i] <= hole.low).only_enforce_if(here, there, before.Not())
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    status = solver.solve(model)
    assert status in (cp_model.OPTIMAL, cp_model.FEASIBLE, cp_model.INFEASIBLE)
    return status != cp_model.INFEASIBLE


@cache
def solved(seed: int):
    """The engine's own answer to an instance."""
    return arrange(*instance(seed), AISLES)


@pytest.mark.parametrize("seed", SEEDS)
def test_the_search_and_the_solver_agree(seed: int) -> None:
    room, pieces = instance(seed)
    ours = solved(seed)
    assert ours.proven
    fits = solver_says(room, pieces, 0)
    assert (not ours.conflicts) == fits
    assert all(ours.spots) == fits
    if fits:
        wide = [a for a in AISLES if all(wide_alone(room, p, a) for p in pieces) and solver_says(room, pieces, a)]
        assert ours.aisle == max(wide)
    else:
        standing = [p for p, spot in zip(pieces, ours.spots, strict=True) if spot]
        assert solver_says(room, standing, 0)


def wide_alone(room: Room, p: Piece, aisle: int) -> bool:
    """Whether one thing leaves the aisle by itself, if the aisle runs past it at all."""
    return p.ends_aisle or not p.in_way or "middle" in p.sides or p.day.out_to + aisle <= room.width


@pytest.mark.parametrize("seed", SEEDS)
def test_conflicts_are_smallest_sets(seed: int) -> None:
    room, pieces = instance(seed)
    for conflict in solved(seed).conflicts:
        assert not solver_says(room, [pieces[k] for k in conflict], 0)
        for left_out in conflict:
            assert solver_says(room, [pieces[k] for k in conflict if k != left_out], 0)


def test_the_instances_are_worth_something() -> None:
    without = sum(bool(solved(s).conflicts) for s in SEEDS)
    assert 40 <= without <= 160
    assert any(len(c) >= 3 for s in SEEDS for c in solved(s).conflicts)
    assert {solved(s).aisle for s in SEEDS} == set(AISLES)


@pytest.mark.parametrize("seed", SEEDS)
def test_every_arrangement_keeps_its_clearances(seed: int) -> None:
    room, pieces = instance(seed)
    ours = solved(seed)
    standing = [(p, s) for p, s in zip(pieces, ours.spots, strict=True) if s]
    for i, (p, at) in enumerate(standing):
        assert any(a <= at.x <= b for a, b in allowed(room, p, at.side))
        for q, other in standing[i + 1 :]:
            for hole in holes(p, at.side, q, other.side, ours.aisle):
                assert hole.need <= room.width or not hole.low < other.x - at.x < hole.high


def boxes_of(seed: int) -> tuple[Space, tuple[Box, ...]]:
    """A small space and a few boxes, in whole decimetres so that fits are tight."""
    chance = random.Random(1000 + seed)
    size = [chance.randint(6, 14) / 10 for _ in range(3)]
    taken = ()
    if chance.random() < 0.4:
        taken = (Taken(0, 0, 0, chance.randint(1, 4) / 10, 0.2, 0.3),)
    boxes = tuple(
        Box(*(chance.randint(3, 9) / 10 for _ in range(3)), any_way_up=chance.random() < 0.3)
        for _ in range(chance.randint(2, 5))
    )
    return Space(*size, taken), boxes


def solver_packs(space: Space, boxes: Sequence[Box]) -> bool:
    """Whether CP-SAT packs the boxes: a way round for each, and a side on which each pair is apart."""
    model = cp_model.CpModel()
    room = [round(s * 1000) for s in space[:3]]
    at, size = [], []
    for b in boxes:
        ways = [w for w in turned(b) if all(s <= r for s, r in zip(w, room, strict=True))]
        if not ways:
            return False
        chosen = [model.new_bool_var("") for _ in ways]
        model.add_exactly_one(chosen)
        size.append([sum(w[k] * c for w, c in zip(ways, chosen, strict=True)) for k in range(3)])
        place = [model.new_int_var(0, r, "") for r in room]
        for k in range(3):
            model.add(place[k] + size[-1][k] <= room[k])
        at.append(place)
    for t in space.taken:
        at.append([round(v * 1000) for v in t[:3]])
        size.append([round(v * 1000) for v in t[3:]])
    for i in range(len(boxes)):
        for j in range(i + 1, len(at)):
            apart = [model.new_bool_var("") for _ in range(6)]
            model.add_bool_or(apart)
            for k in range(3):
                model.add(at[i][k] + size[i][k] <= at[j][k]).only_enforce_if(apart[2 * k])
                model.add(at[j][k] + size[j][k] <= at[i][k]).only_enforce_if(apart[2 * k + 1])
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    return solver.solve(model) in (cp_model.OPTIMAL, cp_model.FEASIBLE)


@pytest.mark.parametrize("seed", range(80))
def test_boxes_fit_when_the_solver_packs_them(seed: int) -> None:
    space, boxes = boxes_of(seed)
    ours = fit_boxes(space, boxes, 400_000)
    assert ours.fits is not None
    assert ours.fits == solver_packs(space, boxes)
    if ours.fits:
        assert {s.box for s in ours.stowed} == set(range(len(boxes)))


def test_boxes_fit_and_do_not_fit_in_fair_shares() -> None:
    fits = [fit_boxes(*boxes_of(seed), 400_000).fits for seed in range(80)]
    assert 20 <= sum(map(bool, fits)) <= 60
