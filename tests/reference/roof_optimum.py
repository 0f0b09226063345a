"""The greatest power of a roof by OR-Tools' CP-SAT solver (constraint `NoOverlap2D`, version 9.15).

The model is written in another way than ours: a free corner for every copy of every panel, all against all. Copies of
one kind are ordered by position and the panels' area is capped by the roof's, or the solver would take minutes.
"""

import itertools
from typing import Any, NamedTuple

import pytest

from engine.physics.roof_packing import PanelKind, RoofSpace

cp_model = pytest.importorskip("ortools.sat.python.cp_model")


def _mm(length_m: float) -> int:
    return round(length_m * 1000)


class Outline(NamedTuple):
    """A true outline, with arcs and slanting sides in place of the rectangles of `RoofSpace.outside`."""

    corner_radius_m: float
    narrowing: tuple[tuple[float, float], ...] = ()
    """Convex: the roof narrows towards its ends."""


def proven_optimum_w(space: RoofSpace, kinds: tuple[PanelKind, ...], outline: Outline | None = None) -> int:
    """Greatest power by CP-SAT, in whole millimetres and watts; fails the test if it is not proven within a minute."""
    model = cp_model.CpModel()
    edge, gap = _mm(space.edge_m), _mm(space.gap_m)
    end, side = _mm(space.length_m) - edge, _mm(space.width_m) - edge
    grown_x, grown_y, panels, needs_holding, power, area = [], [], [], [], [], []
    for kind in kinds:
        a, b = _mm(kind.length_m), _mm(kind.width_m)
        before = None
        for _ in range(kind.count):
            x = model.new_int_var(edge, max(edge, end), "")
            y = model.new_int_var(edge, max(edge, side), "")
            ways = []
            for along, across in sorted({(a, b), (b, a)}):
                this_way = model.new_bool_var("")
                model.add(x + along <= end).only_enforce_if(this_way)
                model.add(y + across <= side).only_enforce_if(this_way)
                grown_x.append(model.new_optional_fixed_size_interval_var(x, along + gap, this_way, ""))
                grown_y.append(model.new_optional_fixed_size_interval_var(y, across + gap, this_way, ""))
                panels.append((x, along, y, across, this_way))
                needs_holding.append(kind.held)
                ways.append(this_way)
            used = model.new_bool_var("")
            model.add(sum(ways) == used)
            if before is not None:
                model.add(before[0] >= used)
                model.add(x >= before[1]).only_enforce_if(used)
            before = (used, x)
            power.append(used * int(kind.power_w))
            area.append(used * (a + gap) * (b + gap))
    model.add_no_overlap_2d(grown_x, grown_y)
    lines = [[_mm(r) for r in space.ribs_m], [_mm(r) for r in space.rails_m]]
    if lines[0] or lines[1]:
        for (x, along, y, across, used), held in zip(panels, needs_holding, strict=True):
            if held:
                _hold(model, ((x, along), (y, across)), used, lines)
    if outline is not None:
        for x, along, y, across, used in panels:
            _keep_within(model, space, outline, (x, along, y, across), used)
    for rect in space.keep_clear if outline is not None else (*space.keep_clear, *space.outside):
        # A panel may touch what is kept clear, so here it is taken without its gap.
        x0, y0 = _mm(rect.x_m), _mm(rect.y_m)
        block_x = model.new_fixed_size_interval_var(x0, _mm(rect.length_m), "")
        block_y = model.new_fixed_size_interval_var(y0, _mm(rect.width_m), "")
        for x, along, y, across, used in panels:
            panel_x = model.new_optional_fixed_size_interval_var(x, along, used, "")
            panel_y = model.new_optional_fixed_size_interval_var(y, across, used, "")
            model.add_no_overlap_2d([block_x, panel_x], [block_y, panel_y])
    model.add(sum(area) <= max(0, end - edge + gap) * max(0, side - edge + gap))
    model.maximize(sum(power))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    solver.parameters.max_time_in_seconds = 60
    assert solver.solve(model) == cp_model.OPTIMAL, "the reference itself was not proven; make the case smaller"
    return round(solver.objective_value)


def _hold(model: Any, sides: Any, used: Any, lines: list[list[int]]) -> None:
    """Two neighbouring ribs or two neighbouring rails lie under a panel that is used."""
    ways = []
    for (at, size), across in zip(sides, lines, strict=True):
        for first, second in itertools.pairwise(sorted(across)):
            if second - first <= size:
                held = model.new_bool_var("")
                model.add(at <= first).only_enforce_if(held)
                model.add(at + size >= second).only_enforce_if(held)
                ways.append(held)
    model.add_bool_or([used.negated(), *ways])


def _keep_within(model: Any, space: RoofSpace, outline: Outline, panel: Any, used: Any) -> None:
    """All four corners of a used panel lie within arcs and slanting sides; for roofs without a setback."""
    x, along, y, across = panel
    end, side, radius = _mm(space.length_m), _mm(space.width_m), _mm(outline.corner_radius_m)
    if radius:
        for from_end in (x, end - x - along):
            for from_side in (y, side - y - across):
                squares = []
                for distance in (from_end, from_side):
                    # The way a panel does not lie may reach over the end; that must not hold the other way back.
                    most = radius + end + side
                    missing = model.new_int_var(0, most, "")
                    model.add_max_equality(missing, [0, radius - distance])
                    square = model.new_int_var(0, most * most, "")
                    model.add_multiplication_equality(square, [missing, missing])
                    squares.append(square)
                model.add(sum(squares) <= radius * radius).only_enforce_if(used)
    for (x0, w0), (x1, w1) in itertools.pairwise((_mm(a), _mm(b)) for a, b in outline.narrowing):
        for corner in (x, x + along):
            for from_side in (y, side - y - across):
                inset = (side - w0) * (x1 - x0) + (w0 - w1) * (corner - x0)
                model.add(2 * from_side * (x1 - x0) >= inset).only_enforce_if(used)
