"""Storage by kind, from the modules that have a place."""

from engine.build.plan_figures import Storages
from engine.build.plan_modules import Module
from engine.catalogue.facets import FurnitureModule

_BY_PLACE = {"overhead": "overhead", "bed": "garage", "garage": "garage"}


def kind_of(m: Module) -> str:
    """What kind of storage a module has; where the catalogue does not say, its place tells."""
    return m.facet.storage_kind or _BY_PLACE.get(m.part.option.place, "cupboard")


def storage_of(modules: tuple[Module, ...], fits: tuple[bool, ...]) -> Storages:
    """Litres by kind, the largest first."""
    sums: dict[str, float] = {}
    for n, m in enumerate(modules):
        if m.facet.storage_l and fits[n if m.host is None else m.host]:
            sums[kind_of(m)] = sums.get(kind_of(m), 0.0) + m.facet.storage_l
    return tuple(sorted(sums.items(), key=lambda kv: (-kv[1], kv[0])))


BOARD_M = 0.05
"""Slats or board and frame over a storage space (common practice)."""


def garage_height_m(f: FurnitureModule) -> float:
    """Clear height below a bed: what the catalogue states, or the module's height less mattress board."""
    return f.storage_height_m if f.storage_height_m is not None else max(0.0, f.height_m - BOARD_M)
