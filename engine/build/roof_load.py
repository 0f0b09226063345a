"""What stands on the roof weighs, what may stand there, and how high it all reaches."""

from typing import NamedTuple

from engine.build.model import Build
from engine.build.roof import panel_top_m
from engine.build.roof_things import Obstacle
from engine.catalogue.facets import RoofObject, SolarPanel, Structure


class RoofLoadFigures(NamedTuple):
    """Load on the roof while driving and while parked, and the height of it all."""

    load_kg: float
    """What the weakest link carries: everything on the roof but racks, or what rides on the racks."""
    allowed_kg: float | None
    """What that link may carry: the roof's rating, and what reinforcements add, less the racks; or the racks' own."""
    rated: bool
    """Whether the bare roof's own rating is in that; else only what reinforcements add."""
    rack_is_weakest: bool
    racks_kg: float
    on_racks_kg: float
    rack_rating_kg: float | None
    """What all racks together are rated for; None when one of them has no rating, or without racks."""
    parked_kg: float
    """Everything on the roof with the people and loads that options bring onto it while parked."""
    brought_kg: float
    """Of that, people and loads that are there while parked only."""
    parked_allowed_kg: float | None
    not_stated: tuple[str, ...]
    """Ids of options on the roof whose mass the catalogue does not state."""
    bare_carries_rack: bool
    rack_ids: tuple[str, ...]
    strengthened: bool
    """Whether a chosen structure strengthens the roof."""
    height_m: float
    """Road to the tallest thing, on the road: tilted panels lie flat."""
    own_height_m: float
    """The same of the vehicle as it comes, with what stands on its roof already."""
    tallest: str
    """What reaches highest, empty when nothing stands above the roof."""
    tallest_ids: tuple[str, ...]


def _mass_on_racks(build: Build, things: tuple[Obstacle, ...]) -> float:
    """Boxes, awnings and panels that stand on a rack, and whatever on the roof has no place of its own there."""
    if not any(o.what == "rack" for o in things):
        return 0.0
    bearing = any(o.under_panels for o in things)
    riding = {o.option_id for o in things if o.on_rack}
    placed = {p.option.id for p, _ in build.facets(RoofObject)} | {p.option.id for p, _ in build.facets(Structure)}
    panels = {p.option.id for p, _ in build.facets(SolarPanel)}
    found = 0.0
    for p in build.parts:
        if p.option.place == "roof" and p.mass_kg is not None:
            i = p.option.id
            rides = bearing if i in panels else i in riding or i not in placed
            found += p.mass_kg if rides else 0.0
    return found


def _height(build: Build, things: tuple[Obstacle, ...]) -> tuple[float, float, str, tuple[str, ...]]:
    under = max((o.height_m for o in things if o.under_panels), default=0.0)
    tops = [(o.height_m, o.name, (o.option_id,) if o.option_id else ()) for o in things if o.what != "walkway"]
    tops += [(under + panel_top_m(f), p.option.name, (p.option.id,)) for p, f in build.facets(SolarPanel)]
    height_m, name, ids = max(tops, default=(0.0, "", ()))
    own_m = max((top for top, _, of in tops if not of), default=0.0)
    return build.vehicle.height_m + height_m, build.vehicle.height_m + own_m, name, ids


def roof_load_figures(build: Build, things: tuple[Obstacle, ...]) -> RoofLoadFigures:
    """Loads, ratings and height, with these things on the roof. A rating for the bare roof includes the rack on it."""
    roof = build.vehicle.roof
    on_roof = {p.option.id: p.mass_kg for p in build.parts if p.option.place == "roof"}
    masses = {i: m for i, m in on_roof.items() if m is not None}
    racks = [(p, f) for p, f in build.facets(RoofObject) if f.what == "rack"]
    racks_kg = sum(masses.get(p.option.id, 0.0) for p, _ in racks)
    stiff = [f for _, f in build.facets(Structure) if "roof" in f.carries]
    total_kg = sum(masses.values())
    load_kg, allowed_kg, rack_is_weakest = total_kg - racks_kg, None, False
    if roof.load_rating_kg is not None or stiff:
        left_kg = (roof.load_rating_kg or 0.0) + sum(f.roof_load_kg for f in stiff) - racks_kg
        # A rack that is heavier than the rating leaves nothing, and what it is too heavy counts as load.
        load_kg, allowed_kg = load_kg + max(0.0, -left_kg), max(0.0, left_kg)
    on_racks_kg = _mass_on_racks(build, things)
    ratings = [f.rating_kg * p.count for p, f in racks if f.rating_kg is not None]
    rack_rating_kg = sum(ratings) if racks and len(ratings) == len(racks) else None
    if rack_rating_kg is not None and allowed_kg is not None:
        rack_is_weakest = on_racks_kg * allowed_kg > load_kg * rack_rating_kg
        if rack_is_weakest:
            load_kg, allowed_kg = on_racks_kg, rack_rating_kg
    brought_kg = sum(f.parked_load_kg * p.count for p, f in build.facets(RoofObject))
    more_kg = sum(f.parked_load_kg for f in stiff)
    known = roof.static_rating_kg is not None or more_kg > 0
    height_m, own_height_m, tallest, tallest_ids = _height(build, things)
    carries = roof.bare_carries_rack
    return RoofLoadFigures(
        load_kg=load_kg,
        allowed_kg=allowed_kg,
        rated=roof.load_rating_kg is not None,
        rack_is_weakest=rack_is_weakest,
        racks_kg=racks_kg,
        on_racks_kg=on_racks_kg,
        rack_rating_kg=rack_rating_kg,
        parked_kg=total_kg + brought_kg,
        brought_kg=brought_kg,
        parked_allowed_kg=(roof.static_rating_kg or 0.0) + more_kg if known else None,
        not_stated=tuple(i for i, m in on_roof.items() if m is None),
        bare_carries_rack=carries if carries is not None else build.vehicle.body != "box",
        rack_ids=tuple(p.option.id for p, _ in racks),
        strengthened=bool(stiff),
        height_m=height_m,
        own_height_m=own_height_m,
        tallest=tallest,
        tallest_ids=tallest_ids,
    )
