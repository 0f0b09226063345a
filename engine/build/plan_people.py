"""Who can ride and sleep where: seats by day and beds by night, counted as they stand in the plan."""

from collections import Counter
from collections.abc import Collection
from functools import lru_cache
from itertools import combinations
from typing import NamedTuple

from engine.build.model import Build, Part, counted
from engine.build.plan_figures import Placed, PlanFigures
from engine.catalogue.facets import Berth, FurnitureModule, Seat


class Bed(NamedTuple):
    """One made-up bed in its place, or one that has no module (then ``placed`` is None)."""

    part: Part
    berth: Berth
    placed: Placed | None


def _stands(plan: PlanFigures, option_id: str, piece: int, night: bool) -> Placed | None:
    return next((p for p in (plan.night if night else plan.day) if (p.option_id, p.piece) == (option_id, piece)), None)


def usable_pieces(part: Part, plan: PlanFigures, night: bool) -> int:
    """How many pieces of an option stand free of everything else; all of them when it has no module."""
    modules = sum(isinstance(f, FurnitureModule) for f in part.option.facets)
    if not modules:
        return part.count
    taken = {
        i
        for o in plan.overlaps
        if o.use == "solid" and o.state in (("day", "night") if night else ("day",))
        for i in (o.first_id, o.second_id)
    }
    if part.option.id in taken:
        return 0
    standing = sum(p.fits for p in (plan.night if night else plan.day) if p.option_id == part.option.id)
    return min(part.count, standing // modules)


def without_place(build: Build, kind: type[Berth] | type[Seat]) -> tuple[str, ...]:
    """Names of the chosen options of that kind that are not counted, for they stand nowhere free of everything else."""
    lost = {p.option.name: p.count - usable_pieces(p, build.plan, night=False) for p, _ in build.facets(kind)}
    return tuple(counted(name, n) for name, n in lost.items() if n > 0)


def belted_places(build: Build) -> int:
    """Seats with belts, cab and living space, that stand where somebody can sit on them by day. Of options that rule
    each other out those count that seat most."""
    counted = tuple((p.option.id, f.belted * usable_pieces(p, build.plan, night=False)) for p, f in build.facets(Seat))
    return len(build.vehicle.seats) + _most(counted, ruled_out(build, build.ids(Seat)))


def ruled_out(build: Build, ids: Collection[str]) -> frozenset[frozenset[str]]:
    """Pairs of these chosen options that rule each other out."""
    return frozenset(
        frozenset((p.option.id, e.option))
        for p in build.parts
        if p.option.id in ids
        for e in p.option.excludes
        if e.option in ids
    )


def beds(build: Build) -> tuple[Bed, ...]:
    """Every bed that has a place by night."""
    found = []
    for part, berth in build.facets(Berth):
        for piece in range(usable_pieces(part, build.plan, night=True)):
            found.append(Bed(part, berth, _stands(build.plan, part.option.id, piece, night=True)))
    return tuple(found)


def sleeping_places(build: Build, without: Collection[str] = ()) -> int:
    """Most people who can sleep at once: of beds made up in the same space, or that rule each other out, one counts.

    without: ids of options of which one piece stays empty, for each time that they are named.
    """
    apart = frozenset(
        frozenset((o.first_id, o.second_id))
        for o in build.plan.overlaps
        if o.use == "solid" and o.state == "night" and o.second_id
    )
    empty = Counter(without)
    counted = tuple(
        (part.option.id, berth.sleeps)
        for part, berth in build.facets(Berth)
        for _ in range(usable_pieces(part, build.plan, night=False) - empty[part.option.id])
    )
    return _most(counted, apart | ruled_out(build, build.ids(Berth)))


def beds_share(build: Build) -> bool:
    """Whether some bed that has a place is not counted, for another one is."""
    pieces = sum(f.sleeps * usable_pieces(p, build.plan, night=False) for p, f in build.facets(Berth))
    return pieces > sleeping_places(build)


@lru_cache(maxsize=256)
def _most(counted: tuple[tuple[str, int], ...], apart: frozenset[frozenset[str]]) -> int:
    free = sum(n for i, n in counted if not any(i in pair for pair in apart))
    rest = [(i, n) for i, n in counted if any(i in pair for pair in apart)][:12]
    best = 0
    for size in range(len(rest) + 1):
        for some in combinations(rest, size):
            if not any(frozenset((a, b)) in apart for (a, _), (b, _) in combinations(some, 2)):
                best = max(best, sum(n for _, n in some))
    return free + best
