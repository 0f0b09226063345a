"""Builds and circuits for the tests of wiring."""

from dataclasses import replace
from typing import Any

from engine.build import Build, work_out
from engine.build.circuit_asks import Ask
from engine.build.circuit_lines import Line
from engine.build.circuits import CircuitFigures
from engine.build.wiring_practice import Lay
from engine.physics.conductor import AWG, WORKSHOP_METRIC
from tests.shops import catalogue, enquiry, resolver

US = Lay(metric=False, insulation_degc=None, parallel_most=2, stocked=())
METRIC = Lay(metric=True, insulation_degc=None, parallel_most=2, stocked=())
READY = [(shop, r.id) for shop in ("quillback", "hallamoor") for r in catalogue(shop).ready]
AREAS = {c.label: c.area_m2 for c in (*AWG, *WORKSHOP_METRIC)}


def circuits(shop: str, ready: str | None = None, **options: int) -> CircuitFigures:
    """Circuits of one build."""
    named = {k.replace("_", "-"): n for k, n in options.items()}
    return work_out(resolver(shop).resolve(enquiry(shop, ready=ready, options=named))).circuits


def ask(current_a: float, one_way_m: float, drop_frac: float = 0.03, system_v: float = 12.0) -> Ask:
    """A circuit with a quarter of margin."""
    return Ask(
        "loads", "x", ("x",), "a", "b", one_way_m, system_v, current_a, 1.25 * current_a, drop_frac, "fuse"
    )  # fmt: skip


def copper_m2(line: Line) -> float:
    """All copper of one of its two conductors; endless where no cable is enough."""
    return float("inf") if line.size is None else AREAS[line.size] * line.parallel


def with_facet(build: Build, option_id: str, kind: str, **fields: Any) -> Build:
    """The same build with other values on one technical side of a chosen option."""

    def changed(part: Any) -> Any:
        facets = tuple(f.model_copy(update=fields) if f.kind == kind else f for f in part.option.facets)
        return replace(part, option=part.option.model_copy(update={"facets": facets}))

    assert any(f.kind == kind for p in build.parts if p.option.id == option_id for f in p.option.facets)
    return replace(build, parts=tuple(changed(p) if p.option.id == option_id else p for p in build.parts))
