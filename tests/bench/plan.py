"""Arranging a room: eight modules from nothing, and a plan with all its findings as the number of parts grows."""

from __future__ import annotations

import time
from dataclasses import replace
from inspect import getsource

from engine.build import Build, work_out
from engine.build.plan import plan, plan_parts
from engine.physics.arrangement import arrange
from engine.physics.arrangement_ground import allowed
from engine.physics.clearance import holes, wide_stretch
from engine.rules import all_rules
from engine.saying import findings_of
from tests.shops import enquiry, resolver

MEMOS = (plan, arrange, allowed, holes, wide_stretch)
ROUNDS = 7


def least_arranging_ms(build: Build) -> float:
    """Milliseconds to arrange eight options' modules of a build, nothing remembered."""
    import time

    from engine.build.plan import plan, plan_parts
    from engine.catalogue.facets import FurnitureModule
    from engine.physics.arrangement import arrange
    from engine.physics.arrangement_ground import allowed
    from engine.physics.clearance import holes, wide_stretch

    parts = plan_parts(build.vehicle, build.parts)
    with_module = [p for p in parts if any(isinstance(f, FurnitureModule) for f in p.option.facets)]
    parts = tuple(p for p in parts if p not in with_module[8:])
    taken = []
    for _ in range(7):
        for memo in (plan, arrange, allowed, holes, wide_stretch):
            memo.cache_clear()
        began = time.perf_counter()
        plan(build.vehicle, parts, (), 0.4)
        taken.append((time.perf_counter() - began) * 1000)
    return min(taken)


IN_BROWSER = f"""
from __future__ import annotations
from engine import desk
{getsource(least_arranging_ms)}
def _arranging_ms():
    resolver = desk._desk.resolver
    return least_arranging_ms(resolver.resolve(desk.start_enquiry(resolver.catalogue)))
"""
"""The same function for the browser's Python, on the build that the page opens with."""


def arranging_ms(shop: str) -> float:
    """The same in CPython, on the shop's first finished vehicle."""
    return least_arranging_ms(resolver(shop).resolve(enquiry(shop, ready=resolver(shop).catalogue.ready[0].id)))


def space_check_ms(shop: str, count: int) -> float:
    """Milliseconds to plan a build of so many parts, nothing remembered, and to find all that concerns its space."""
    build = resolver(shop).resolve(enquiry(shop, ready=resolver(shop).catalogue.ready[0].id))
    # Layers and modules stay as they are: ten times as many would leave no room to plan.
    room = plan_parts(build.vehicle, build.parts)
    plain = [p for p in build.parts if p not in room]
    many = tuple([*room, *(plain * (count // len(plain) + 1))][:count])
    rules = [r for r in all_rules() if r.topic == "space"]
    figures = work_out(build)
    taken = []
    for _ in range(ROUNDS):
        for memo in MEMOS:
            memo.cache_clear()
        began = time.perf_counter()
        made = plan(build.vehicle, plan_parts(build.vehicle, many), (), 0.4)
        fresh = replace(build, parts=many, plan=made)
        for rule in rules:
            findings_of(rule, fresh, figures._replace(plan=made))
        taken.append((time.perf_counter() - began) * 1000)
    return min(taken)
