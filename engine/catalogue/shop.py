"""The workshop's private view: the same catalogue with what only the workshop may see."""

from collections import Counter

from pydantic import Field

from engine.catalogue.quantities import Entry, Line, Money
from engine.catalogue.section import Option, Section
from engine.catalogue.vehicle import Vehicle
from engine.catalogue.weighed import Reading
from engine.catalogue.workshop import Catalogue, ReadyBuild, Workshop


class ShopOption(Option):
    """An option with the workshop's own figures."""

    cost_price: Money | None = Field(default=None, ge=0, description="what one costs the workshop; never published")
    supplier: Line | None = Field(default=None, description="where the workshop buys it; never published")


class ShopSection(Section):
    """A chapter with the workshop's own figures."""

    options: tuple[ShopOption, ...] = Field(min_length=1, alias="option", description="what can be chosen in it")


class ShopReadyBuild(ReadyBuild):
    """A finished vehicle with what the workshop weighed."""

    readings: tuple[Reading, ...] = Field(
        default=(), alias="reading", max_length=12, description="visits to a weighbridge; never published"
    )


class Shop(Entry):
    """Everything a shop folder holds, checked."""

    workshop: Workshop = Field(description="whose folder it is")
    vehicles: tuple[Vehicle, ...] = Field(min_length=1, description="base vehicles")
    sections: tuple[ShopSection, ...] = Field(min_length=1, description="chapters, with private figures")
    ready: tuple[ShopReadyBuild, ...] = Field(default=(), description="finished vehicles for sale, with readings")

    def public(self, dated: str) -> Catalogue:
        """What may be published, as of a day (YYYY-MM-DD).

        Built anew from classes that have no private field. Only fields that the public class names are copied, so a
        private field added to ShopOption later stays private without anybody remembering it here. What weighings
        teach is added by ``engine.build.mass_readings.published``.
        """
        return Catalogue(
            workshop=self.workshop,
            vehicles=self.vehicles,
            sections=tuple(_public_section(s) for s in self.sections),
            ready=tuple(_public_ready(r) for r in self.ready),
            dated=dated,
        )

    def counts(self) -> dict[str, int]:
        """How many of each kind of thing the folder holds."""
        return {
            "vehicles": len(self.vehicles),
            "sections": len(self.sections),
            "options": sum(len(s.options) for s in self.sections),
            "ready builds": len(self.ready),
        }

    def facet_counts(self) -> Counter[str]:
        """How many facets of each kind its options have."""
        return Counter(f.kind for s in self.sections for o in s.options for f in o.facets)


def _public_ready(ready: ShopReadyBuild) -> ReadyBuild:
    named = {k: getattr(ready, k) for k in ready.model_fields_set & ReadyBuild.model_fields.keys()}
    return ReadyBuild.model_validate(named, by_name=True, by_alias=False)


def _public_section(section: ShopSection) -> Section:
    named = {k: getattr(section, k) for k in section.model_fields_set & Section.model_fields.keys()}
    named["options"] = tuple(_public_option(o) for o in section.options)
    return Section.model_validate(named, by_name=True, by_alias=False)


def _public_option(option: ShopOption) -> Option:
    named = {k: getattr(option, k) for k in option.model_fields_set & Option.model_fields.keys()}
    return Option.model_validate(named, by_name=True, by_alias=False)
