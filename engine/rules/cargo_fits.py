"""The bulky things of the trip go through the garage's door and into the garage, all together.

Boxes are packed in three dimensions by a search that is complete for few of them; wheel arches and what is built into
the garage count as taken. Bicycles go on a carrier first, where one is chosen, as many as it has arms and strength for.
"""

from pydantic import Field

from engine.build import Build, Figures
from engine.build.carriers import is_bike
from engine.build.plan_cargo import cargo_of
from engine.catalogue.trip import CargoBox
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, Unknown, each_once, fact, listed

MORE = "Take fewer or smaller things, choose a higher garage or a wider door"
CARRIER = MORE + ", or a carrier outside for bicycles"


class Cargo(Inputs):
    """The boxes and the garage."""

    said: str = fact("what packing them shows", "computed")
    fits: bool = fact("all of them go in", "computed")
    way: str = Field(default=CARRIER, description="the way out")


def _named(boxes: tuple[CargoBox, ...]) -> str:
    return listed(each_once(b.name for b in boxes))


def read(build: Build, figures: Figures) -> Cargo | Unknown | None:
    """Nothing to ask without bulky things."""
    if not build.trip.boxes:
        return None
    cargo = cargo_of(build)
    garage, names = cargo.garage, _named(cargo.boxes)
    outside = "".join(f" On “{c.part.option.name}”: {_named(c.bikes)}." for c in cargo.outside)
    carriers = tuple(c.part.option.id for c in cargo.outside)

    def told(said: str, fits: bool, ids: tuple[str, ...] = ()) -> Cargo:
        # A carrier that is chosen already is no way out.
        more = MORE if carriers or not any(map(is_bike, cargo.boxes)) else CARRIER
        return Cargo(options=ids + carriers, said=(said + outside).strip(), fits=fits, way=more)

    if not cargo.boxes:
        return told("", True)
    if garage is None:
        return told(f"No garage is chosen for {names}.", False)
    ids = (garage.option_id,)
    if cargo.too_large:
        large = " and ".join(f"“{n}”" for n in cargo.too_large)
        return told(f"No garage door lets {large} through.", False, ids)
    if not garage.doors:
        return Unknown("how the garage is loaded", "Choose a garage door, or ask the workshop for the way in.", ids)
    if cargo.fit is None or cargo.fit.fits is None:
        return Unknown("whether all the boxes fit together", "Try fewer boxes, or larger ones for several.", ids)
    where = f"under “{garage.name}”"
    if not cargo.fit.fits:
        return told(f"Not all of it fits {where}: {names}.", False, ids)
    return told(f"All of it fits {where}: {names}.", True, ids)


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
    remedy="{way}.",
    examples=lambda: (
        Example({"said": "All of it fits under “Bed across”: 2 × bicycle.", "fits": True}, "ok", "two bicycles"),
        Example({"said": "No garage door lets “bicycle” through.", "fits": False}, "fails", "a door 0.5 m high"),
        Example(
            {"said": "On “Carrier for two bicycles”: 2 × bicycle.", "fits": True}, "ok", "the same two, on a carrier"
        ),
    ),
    offers="furniture",
)
