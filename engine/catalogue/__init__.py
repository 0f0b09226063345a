"""What a workshop sells: models, and (for authors) the door that reads shop files."""

from engine.catalogue.section import Option, Section
from engine.catalogue.vehicle import Vehicle
from engine.catalogue.workshop import Catalogue, ReadyBuild, Workshop

__all__ = ["Catalogue", "Option", "ReadyBuild", "Section", "Vehicle", "Workshop"]
