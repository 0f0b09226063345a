"""A build: a base vehicle with its chosen options in place, ready for arithmetic."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from functools import cached_property, lru_cache
from typing import Any, NamedTuple, TypeVar

from engine.build.plan_figures import PlanFigures
from engine.catalogue.facets import Facet, SolarPanel
from engine.catalogue.section import Option
from engine.catalogue.trip import Trip
from engine.catalogue.vehicle import Vehicle
from engine.catalogue.weighed import WeighedReady, WeighedVehicle
from engine.catalogue.workshop import Workshop
from engine.enquiry.climate import Climate

F = TypeVar("F", bound=Facet)


@dataclass(frozen=True, eq=False)
class Part:
    """One chosen option in its place, all its pieces together."""

    option: Option
    section_id: str
    count: int
    mass_kg: float | None
    """All pieces, without contents; None when the catalogue does not state it."""
    mass_tolerance_frac: float
    x_m: float
    y_m: float
    z_m: float
    price: Decimal
    """All pieces, without labour; with tax only where the workshop's prices have it."""
    labour_h: float


def counted(name: str, pieces: int) -> str:
    """A name in quotation marks, with how many where there are several."""
    return f"{pieces} × “{name}”" if pieces > 1 else f"“{name}”"


@dataclass(frozen=True)
class Stray:
    """A choice the catalogue cannot honour: kept, reported, left out of the sums."""

    option_id: str
    count: int
    reason: str
    name: str
    """What the catalogue calls it, or the id where it does not know it."""
    not_for: str = ""
    """The vehicle's name, where the catalogue has it for other vehicles only."""


class _Index(NamedTuple):
    """Parts by what they are, and what was asked of that already: most rules ask alike of every build."""

    by_kind: Mapping[type[Facet], tuple[tuple[Part, Any], ...]]
    ids: dict[tuple[type[Facet], ...], tuple[str, ...]]


@lru_cache(maxsize=256)
def _index(parts: tuple[Part, ...]) -> _Index:
    found: dict[type[Facet], list[tuple[Part, Any]]] = {}
    for part in parts:
        for facet in part.option.facets:
            found.setdefault(type(facet), []).append((part, facet))
    return _Index({kind: tuple(pairs) for kind, pairs in found.items()}, {})


class Akin(NamedTuple):
    """A weighed vehicle that a build has most of."""

    known: WeighedReady
    share_frac: float
    """How far the build counts as that vehicle: 1 with all that was weighed, 0 with no more than half of it."""
    options: Mapping[str, int]
    """What it had on the weighbridge."""
    gone: tuple[Part, ...]
    """What of that is left out."""


@dataclass(frozen=True, eq=False)
class Build:
    """Everything about one build that the sums and rules may look at."""

    workshop: Workshop
    vehicle: Vehicle
    parts: tuple[Part, ...]
    trip: Trip
    climate: Climate
    strays: tuple[Stray, ...]
    sections_one: tuple[tuple[str, str], ...]
    """(id, title) of the chapters of which only one option may be chosen."""
    option_names: Mapping[str, str]
    """Name of every option of the catalogue, chosen or not, by id."""
    plan: PlanFigures
    """Every module in its place; the parts' own places come from it."""
    weighed: WeighedReady | WeighedVehicle | None = None
    """What weighings say: of this very vehicle when it is a finished one, as it is or with more added, else of its base
    vehicle."""
    weighed_options: Mapping[str, int] = field(default_factory=dict)
    """What that finished vehicle has."""
    akin: tuple[Akin, ...] = ()
    """Weighed vehicles of which it is one with something left out, where it is none of them as it was weighed."""
    offered_kinds: frozenset[str] = frozenset()
    """Kinds of facets that some option of the catalogue has, chosen or not."""
    branches: Mapping[str, tuple[tuple[str, ...], ...]] = field(default_factory=dict)
    """Of each heater that is a branch of another, chosen or not: groups of heaters of which it takes one."""

    @property
    def panel_ids(self) -> tuple[str, ...]:
        """Ids of the chosen solar panels."""
        return self.ids(SolarPanel)

    @cached_property
    def _index(self) -> _Index:
        return _index(self.parts)

    @cached_property
    def chosen(self) -> frozenset[str]:
        """Ids of all parts."""
        return frozenset(part.option.id for part in self.parts)

    def facets(self, kind: type[F]) -> tuple[tuple[Part, F], ...]:
        """Every chosen facet of one kind with the part it belongs to, in catalogue order."""
        return self._index.by_kind.get(kind, ())

    def has(self, option_id: str) -> bool:
        """Whether the option is among the parts."""
        return option_id in self.chosen

    def ids(self, *kinds: type[Facet]) -> tuple[str, ...]:
        """Ids of the chosen options that have any of these facets, one kind after the other."""
        asked = self._index.ids
        if kinds not in asked:
            asked[kinds] = tuple(dict.fromkeys([part.option.id for kind in kinds for part, _ in self.facets(kind)]))
        return asked[kinds]
