"""Masses and every worst case of a build as its parts grow, in both Pythons."""

from inspect import getsource

from engine.build import Build
from engine.desk import start_enquiry
from tests.shops import catalogue, resolver


def least_ms(build: Build, parts_count: int) -> float:
    """Milliseconds to work out masses and worst cases of a build with so many parts, none of it remembered."""
    import time
    from dataclasses import replace
    from itertools import cycle, islice

    from engine.build.masses import mass_figures

    taken = []
    for n in range(7):
        # Every round has masses of its own, so that nothing is met again.
        many = tuple(
            replace(p, mass_kg=(p.mass_kg or 1.0) * 40 / parts_count + n / 1000)
            for p in islice(cycle(build.parts), parts_count)
        )
        fresh = replace(build, parts=many)
        began = time.perf_counter()
        mass_figures(fresh)
        taken.append((time.perf_counter() - began) * 1000)
    return min(taken)


IN_BROWSER = f"""
from __future__ import annotations
from engine import desk
{getsource(least_ms)}
def _masses_ms(parts_count):
    resolver = desk._desk.resolver
    return least_ms(resolver.resolve(desk.start_enquiry(resolver.catalogue)), parts_count)
"""
"""The same function for the browser's Python, on the build that the page opens with."""


def mass_times_ms(shop: str, parts_count: int) -> float:
    """The same in CPython."""
    return least_ms(resolver(shop).resolve(start_enquiry(catalogue(shop))), parts_count)
