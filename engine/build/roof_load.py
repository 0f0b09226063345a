"""What stands on the roof weighs, and what may stand there."""

from typing import NamedTuple

from engine.build.model import Build
from engine.catalogue.facets import RoofObject, Structure


class RoofLoadFigures(NamedTuple):
    """Load on the roof while driving."""

    load_kg: float
    """Everything on the roof but racks."""
    allowed_kg: float | None
    """What may stand there: the roof's rating, and what reinforcements add, less the racks themselves."""


def roof_load_figures(build: Build) -> RoofLoadFigures:
    """Mass on the roof without racks, and what may stand there; a rating for the bare roof includes the rack on it."""
    on_roof = {p.option.id: p.mass_kg for p in build.parts if p.option.place == "roof" and p.mass_kg is not None}
    racks_kg = sum(on_roof.get(p.option.id, 0.0) for p, f in build.facets(RoofObject) if f.what == "rack")
    carried = [f.roof_load_kg for _, f in build.facets(Structure) if "roof" in f.carries]
    rating_kg = build.vehicle.roof.load_rating_kg
    load_kg = sum(on_roof.values()) - racks_kg
    if rating_kg is None and not carried:
        return RoofLoadFigures(load_kg, None)
    left_kg = (rating_kg or 0.0) + sum(carried) - racks_kg
    # A rack that is heavier than the rating leaves nothing, and what it is too heavy counts as load.
    return RoofLoadFigures(load_kg + max(0.0, -left_kg), max(0.0, left_kg))
