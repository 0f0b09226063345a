"""A build: a base vehicle with its chosen options in place, ready for arithmetic."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import TypeVar

from engine.catalogue.facets import Facet, SolarPanel
from engine.catalogue.section import Option
from engine.catalogue.trip import Trip
from engine.catalogue.vehicle import Vehicle
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
    """All pieces, before tax and labour."""
    labour_h: float


@dataclass(frozen=True)
class Stray:
    """A choice the catalogue cannot honour: kept, reported, left out of the sums."""

    option_id: str
    count: int
    reason: str


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

    @property
    def panel_ids(self) -> tuple[str, ...]:
        """Ids of the chosen solar panels."""
        return self.ids(SolarPanel)

    def facets(self, kind: type[F]) -> Iterator[tuple[Part, F]]:
        """Every chosen facet of one kind with the part it belongs to, in catalogue order."""
        for part in self.parts:
            for facet in part.option.facets:
                if isinstance(facet, kind):
                    yield part, facet

    def has(self, option_id: str) -> bool:
        """Whether the option is among the parts."""
        return any(part.option.id == option_id for part in self.parts)

    def ids(self, *kinds: type[Facet]) -> tuple[str, ...]:
        """Ids of the chosen options that have any of these facets, in catalogue order."""
        return tuple(p.option.id for p in self.parts if any(isinstance(f, kinds) for f in p.option.facets))
