"""Panels on one controller look at the sun alike.

Panels in one string carry one current, and one controller tracks one best point. Flat panels look at the sun alike
whichever way they are turned. Tilted frames do not: some tilted along the vehicle and some across it, or some tilted
and some flat, pull each other down unless each group has its own controller.
"""

from engine.build import Build, Figures
from engine.catalogue.facets import SolarController, SolarPanel
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, fact


class Tilts(Inputs):
    """Ways in which the placed panels look at the sun."""

    ways_count: float = fact("ways in which placed panels face", "computed", ge=1)
    controllers_count: float = fact("charge controllers", "chosen", ge=0)
    faces: str = fact("which ways these are", "computed")


def read(build: Build, figures: Figures) -> Tilts | None:
    """Nothing to ask unless a placed panel has a tilt frame."""
    tilts = {part.option.id: f.tilt_deg for part, f in build.facets(SolarPanel)}
    faces = set()
    for p in figures.roof.packing.placed:
        tilt_deg = tilts[p.key]
        # Tilted about its long side, a panel that lies across the roof leans along it.
        faces.add(f"{tilt_deg:g}° {'along' if p.turned else 'across'} the vehicle" if tilt_deg else "flat")
    if not any(tilts[p.key] for p in figures.roof.packing.placed):
        return None
    return Tilts(
        options=build.panel_ids,
        ways_count=float(len(faces)),
        controllers_count=float(sum(part.count for part, _ in build.facets(SolarController))),
        faces=", ".join(sorted(faces)),
    )


def judge(x: Tilts) -> Holds:
    """A controller for each way is enough."""
    return Holds(x.ways_count <= max(1.0, x.controllers_count), otherwise="note")


RULE = Rule(
    code="panel-tilt",
    title="Which way the panels look",
    topic="roof",
    category="function",
    inputs=Tilts,
    read=read,
    judge=judge,
    formula="ways in which placed panels face ≤ charge controllers",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "Tilted panels face {faces}, each way on a controller of its own.",
        "note": "Panels face more ways than there are controllers ({faces}). In one string the worst lit one holds the "
        "others back: give each way its own controller, or tilt them alike.",
    },
    remedy="Choose panels with the same tilt, or a controller for each way.",
    examples=lambda: (
        Example({"ways_count": 1, "controllers_count": 1, "faces": "30° along the vehicle"}, "ok", "all tilted alike"),
        Example(
            {"ways_count": 2, "controllers_count": 2, "faces": "30° along the vehicle, flat"}, "ok", "a controller each"
        ),
        Example(
            {"ways_count": 2, "controllers_count": 1, "faces": "30° along the vehicle, flat"}, "note", "mixed on one"
        ),
    ),
    offers="solar-controller",
)
