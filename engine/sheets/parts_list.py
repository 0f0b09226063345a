"""One numbering for everything that is drawn: the same number in every drawing and in the parts list beside them.

Numbers follow the catalogue's order of the chosen options that some drawing shows, so they do not depend on the order
of choices, and all pieces of one option share a number.
"""

from __future__ import annotations

from collections import Counter
from functools import lru_cache
from typing import NamedTuple

from markupsafe import Markup

from engine.build import Build, Figures
from engine.catalogue.facets import RoofObject, SolarPanel
from engine.sheets.drawings.floor_plan import NO_PLACE, where
from engine.sheets.templates import joined, render
from engine.sheets.view import Scene, mass_text

HEAVIEST = 7
"""So many of the heaviest parts are drawn where they sit, whatever they are."""

PLACE_WORDS: dict[str, str] = {
    "cab": "cab",
    "entry": "at the entry",
    "kitchen": "kitchen",
    "bathroom": "bathroom",
    "seating": "seating",
    "bed": "bed",
    "garage": "garage",
    "overhead": "overhead",
    "underfloor-front": "under the floor, front",
    "underfloor-rear": "under the floor, rear",
    "roof": "on the roof",
    "shell": "walls, floor and ceiling",
    "rear-wall": "outside, on the rear",
}
"""What a reader calls the named places of a vehicle."""


class Listed(NamedTuple):
    """One line of the parts list."""

    number: int
    option_id: str
    name: str
    pieces: int
    mass: str
    place: str


def heaviest(build: Build) -> tuple[str, ...]:
    """Ids of the heaviest chosen options that sit in one place. Layers and linings are everywhere at once."""
    heavy = sorted(
        (p for p in build.parts if p.mass_kg and p.option.place != "shell"), key=lambda p: -(p.mass_kg or 0.0)
    )
    return tuple(p.option.id for p in heavy[:HEAVIEST])


def numbers(build: Build, figures: Figures) -> dict[str, int]:
    """The number of every chosen option that a drawing shows, by its id."""
    drawn = {o.option_id for o in figures.roof.obstacles} | {p.key for p in figures.roof.packing.placed}
    drawn |= set(build.ids(SolarPanel, RoofObject)) | set(heaviest(build))
    drawn |= {p.option_id for p in (*figures.plan.day, *figures.plan.night)}
    ids = (p.option.id for p in build.parts if p.option.id in drawn)
    return {option_id: n for n, option_id in enumerate(ids, 1)}


def listed(scene: Scene, numbered: dict[str, int]) -> tuple[Listed, ...]:
    """The parts list, in the order of its numbers."""
    units = scene.build.workshop.units
    pieces = sorted(scene.figures.plan.day, key=lambda p: (p.fits, -p.piece))
    places = {p.option_id: where(p, units) for p in pieces}
    lost = Counter(p.option_id for p in pieces if not p.fits)
    for option_id, count in lost.items():
        if places[option_id] != NO_PLACE:
            places[option_id] += f"; {NO_PLACE} for {count}"
    return tuple(
        Listed(
            numbered[p.option.id],
            p.option.id,
            p.option.name,
            p.count,
            mass_text(p.mass_kg, units),
            places.get(p.option.id, PLACE_WORDS[p.option.place]),
        )
        for p in scene.build.parts
        if p.option.id in numbered
    )


@lru_cache(maxsize=2048)
def _line(part: Listed) -> Markup:
    return render("parts_line", p=part)


@lru_cache(maxsize=256)
def parts_list(lines: tuple[Listed, ...]) -> Markup:
    """The list beside the drawings, ``parts-list``."""
    return render("parts_list", lines=joined(_line(p) for p in lines))
