"""Things of a build that move: beds and lids on gas struts, drawers, the way up to the door."""

from typing import NamedTuple

from engine.build.model import Build, Part
from engine.catalogue.facets import Drawer, EntryStep, GasStrutLift, LiftedLoad
from engine.physics.strut import HAND_N, WEAKEST_FRAC, Arc, Struts, lifting_arc, recommended
from engine.units import System, show

HEAVY_PERSON_KG = 120.0
"""A large grown-up on the entry step (assumption)."""

CARRIED_KG = 30.0
"""What that person carries in (assumption)."""

ROUGH_ROAD = 2.0
"""What a load weighs on a rough road, in multiples of its weight at rest (common practice)."""


class Lift(NamedTuple):
    """A bed or a lid on gas struts."""

    option_ids: tuple[str, ...]
    """The bed's option first, then what rides on it."""
    name: str
    moved_kg: float
    hand_along_m: float
    """From the hinge to where the hand takes hold."""
    struts: Struts
    catch: bool
    arc: Arc
    not_stated: tuple[str, ...]
    """Ids of what rides on it and states no mass; its mass is missing above."""
    instead: str
    """Struts that would do, in words; looked for only where those chosen do not."""


class Sliding(NamedTuple):
    """A drawer with what it is meant to hold."""

    option_id: str
    name: str
    load_kg: float
    """Drawer and content."""
    rough_kg: float
    """What that weighs on a rough road."""
    rating_kg: float | None
    extension_m: float


class Entry(NamedTuple):
    """The way from the road up to the floor."""

    option_ids: tuple[str, ...]
    floor_m: float
    treads_count: int
    """Treads between road and floor, chosen and built in."""
    rise_m: float
    """Height of each step when all are alike."""
    rating_kg: float | None
    """The weakest of the chosen steps; None when one of them states no rating."""
    to_stow: tuple[str, ...]
    """Names of chosen steps that somebody must put away before driving off."""


class MovingFigures(NamedTuple):
    """Everything that moves."""

    lifts: tuple[Lift, ...]
    drawers: tuple[Sliding, ...]
    entry: Entry


def _rides_on(build: Build, lift: Part) -> tuple[tuple[str, ...], float, tuple[str, ...]]:
    """What rides on the lifted bed of the same place: (ids, mass, ids of those that state no mass)."""
    ids, total_kg, not_stated = [], 0.0, []
    for part, facet in build.facets(LiftedLoad):
        if part.option.place == lift.option.place:
            ids.append(part.option.id)
            load_kg = part.mass_kg if facet.load_kg is None else facet.load_kg * part.count
            if load_kg is None:
                not_stated.append(part.option.id)
            else:
                total_kg += load_kg
    return tuple(ids), total_kg, tuple(not_stated)


def fine(arc: Arc, catch: bool) -> bool:
    """Whether struts hold the open bed up, let it stay shut and ask no more than an ordinary hand.

    They must still hold it with what is left of their rating after some winters.
    """
    holds = WEAKEST_FRAC * arc.open_struts_n >= arc.open_weight_n
    return holds and (catch or arc.shut_n >= 0) and max(arc.push_n, arc.pull_n) <= HAND_N


def _lift(build: Build, part: Part, facet: GasStrutLift) -> Lift:
    riders, load_kg, not_stated = _rides_on(build, part)
    hinge = facet.hinge._replace(moved_kg=facet.moved_kg + load_kg)
    struts = Struts(facet.struts, facet.force_n, facet.rise_frac, facet.drawn_out_m, facet.stroke_m)
    arc = lifting_arc(hinge, struts)
    fit = struts if fine(arc, facet.catch) else recommended(hinge, facet.rise_frac, HAND_N, facet.catch)
    instead = "these" if fit is struts else struts_words(fit, build.workshop.units)
    return Lift(
        (part.option.id, *riders),
        part.option.name,
        hinge.moved_kg,
        hinge.hand_along_m,
        struts,
        facet.catch,
        arc,
        not_stated,
        instead,
    )


def struts_words(fit: Struts | None, units: System) -> str:
    """Struts that would do."""
    if fit is None:
        return "none of the usual ratings; their eyes must move"
    return f"{fit.number} of {show(fit.force_n, 'n', units)} each"


def _entry(build: Build) -> Entry:
    chosen = build.facets(EntryStep)
    cabin = build.vehicle.cabin
    # Steps of two doors do not stand one above the other: the longest flight counts.
    treads = cabin.treads_at_entry + max((f.treads for _, f in chosen), default=0)
    ratings = [f.rating_kg for _, f in chosen]
    return Entry(
        option_ids=tuple(p.option.id for p, _ in chosen),
        floor_m=cabin.floor_z_m,
        treads_count=treads,
        rise_m=cabin.floor_z_m / (treads + 1),
        rating_kg=None if None in ratings else min((r for r in ratings if r is not None), default=None),
        to_stow=tuple(p.option.name for p, f in chosen if f.moves != "fixed" and not f.retracts_with_ignition),
    )


def moving_figures(build: Build) -> MovingFigures:
    """Lifts, drawers and entry of a build."""
    return MovingFigures(
        lifts=tuple(_lift(build, p, f) for p, f in build.facets(GasStrutLift)),
        drawers=tuple(
            Sliding(
                p.option.id,
                p.option.name,
                f.moved_kg + f.content_kg,
                ROUGH_ROAD * (f.moved_kg + f.content_kg),
                f.slide_rating_kg,
                f.extension_m,
            )
            for p, f in build.facets(Drawer)
        ),
        entry=_entry(build),
    )
