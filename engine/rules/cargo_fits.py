"""The bulky things of the trip go through the garage's door and into the garage, all together.

Boxes are packed in three dimensions by a search that is complete for few of them; wheel arches and what is built into
the garage count as taken.
"""

from engine.build import Build, Figures
from engine.build.plan_cargo import cargo_of
from engine.catalogue.trip import CargoBox
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, Unknown, fact, listed


class Cargo(Inputs):
    """The boxes and the garage."""

    said: str = fact("what packing them shows", "computed")
    fits: bool = fact("all of them go in", "computed")


def _counted(b: CargoBox) -> str:
    return f"{b.count} × {b.name}" if b.count > 1 else b.name


def read(build: Build, figures: Figures) -> Cargo | Unknown | None:
    """Nothing to ask without bulky things."""
    boxes = build.trip.boxes
    if not boxes:
        return None
    names = listed(map(_counted, boxes))
    cargo = cargo_of(build)
    garage = cargo.garage
    if garage is None:
        return Cargo(said=f"No garage is chosen for {names}.", fits=False)
    ids = (garage.option_id,)
    if cargo.too_large:
        large = " and ".join(f"“{n}”" for n in cargo.too_large)
        return Cargo(options=ids, said=f"No garage door lets {large} through.", fits=False)
    if not garage.doors:
        return Unknown("how the garage is loaded", "Choose a garage door, or ask the workshop for the way in.", ids)
    if cargo.fit is None or cargo.fit.fits is None:
        return Unknown("whether all the boxes fit together", "Try fewer boxes, or larger ones for several.", ids)
    where = f"under “{garage.name}”"
    if not cargo.fit.fits:
        return Cargo(options=ids, said=f"Not all of it fits {where}: {names}.", fits=False)
    return Cargo(options=ids, said=f"All of it fits {where}: {names}.", fits=True)


def judge(x: Cargo) -> Holds:
    """All of it goes in, or not."""
    return Holds(x.fits)


RULE = Rule(
    code="cargo-fits",
    title="Bulky things in the garage",
    topic="space",
    category="function",
    inputs=Cargo,
    read=read,
    judge=judge,
    formula="each box passes a garage door; all boxes fit the garage's clear box without overlap",
    sources=(COMMON_PRACTICE,),
    says={"ok": "{said}", "fails": "{said}"},
    remedy="Take fewer or smaller things, choose a higher garage or a wider door, or a carrier outside.",
    examples=(
        Example({"said": "All of it fits under “Bed across”: 2 × bicycle.", "fits": True}, "ok", "two bicycles"),
        Example({"said": "No garage door lets “bicycle” through.", "fits": False}, "fails", "a door 0.5 m high"),
    ),
    offers="furniture",
)
