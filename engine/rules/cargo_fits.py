"""The bulky things of the trip go through the garage's door and into the garage, all together.

Boxes are packed in three dimensions by a search that is complete for few of them; wheel arches and what is built into
the garage count as taken. Bicycles go on a carrier first, where one is chosen, as many as it has arms and strength for.
"""

from pydantic import Field

from engine.build import Build, Figures
from engine.build.carriers import Carried, bike_kg, is_bike
from engine.build.plan_cargo import Cargo, Garage, cargo_of
from engine.catalogue.trip import CargoBox
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, Unknown, each_once, fact, listed
from engine.spelling import in_a_row
from engine.units import System, show

FEWER, LIGHTER = "Take fewer or smaller things", "Take fewer, smaller or lighter things"
CARRIER = "a carrier outside for bicycles"


class Bulky(Inputs):
    """The boxes and the garage."""

    said: str = fact("what packing them shows", "computed")
    fits: bool = fact("all of them go in", "computed")
    way: str = Field(default=f"{FEWER}, or choose a larger garage", description="the way out")


def _named(boxes: tuple[CargoBox, ...]) -> str:
    return listed(each_once(b.name for b in boxes))


def _on(c: Carried, units: System) -> str:
    """What a carrier takes, and what is too heavy for it, as sentences."""
    name, said = f"“{c.part.option.name}”", ""
    if c.bikes:
        said, name = f" On {name}: {_named(c.bikes)}.", "It"
    if c.too_heavy is not None:
        heavy = f"“{c.too_heavy.name}” of {show(bike_kg(c.too_heavy), 'kg', units)}"
        said += (
            f" {name} may carry {show(c.load_kg, 'kg', units)}: too little for {'one more ' if c.bikes else ''}{heavy}."
        )
    return said


def _shut_out(cargo: Cargo, garage: Garage, units: System) -> tuple[str, tuple[str, ...]]:
    """What cannot get into the garage and why, as sentences, and what to choose for it."""

    def shown(*lengths_m: float) -> str:
        return " × ".join(show(m, "m", units) for m in lengths_m)

    said: list[str] = []
    ways: dict[str, None] = {}
    under, space = f"under “{garage.name}”", garage.space
    for box, by in cargo.shut_out:
        if by == "low":
            high_m = min(box.length_m, box.width_m, box.height_m) if box.any_way_up else box.height_m
            said.append(f"“{box.name}” is {shown(high_m)} high, and {under} are {shown(space.height_m)}.")
            ways["a higher garage"] = None
        elif by == "small":
            said.append(
                f"“{box.name}” of {shown(box.length_m, box.width_m, box.height_m)} is larger than the room {under}: "
                f"{shown(space.length_m, space.width_m, space.height_m)}."
            )
            ways["a larger garage"] = None
        elif by == "cut":
            said.append(f"“{box.name}” passes the garage door, but not the {shown(*cargo.widest_m)} of it {under}.")
            ways["a higher garage"] = None
    if names := [f"“{box.name}”" for box, by in cargo.shut_out if by == "door"]:
        said.append(f"No garage door lets {in_a_row(names)} through.")
        ways["a larger garage door"] = None
    return " ".join(said), tuple(ways)


def read(build: Build, figures: Figures) -> Bulky | Unknown | None:
    """Nothing to ask without bulky things."""
    if not build.trip.boxes:
        return None
    cargo, units = cargo_of(build), build.workshop.units
    garage, names = cargo.garage, _named(cargo.boxes)
    outside = "".join(_on(c, units) for c in cargo.outside)
    carriers = tuple(c.part.option.id for c in cargo.outside)

    def told(said: str, fits: bool, ids: tuple[str, ...] = (), choose: tuple[str, ...] = ("a larger garage",)) -> Bulky:
        # A carrier that is chosen already is no way out.
        if not carriers and any(map(is_bike, cargo.boxes)):
            choose += (CARRIER,)
        less = LIGHTER if any(c.too_heavy is not None for c in cargo.outside) else FEWER
        way = f"{less}, or choose {' or '.join(choose)}"
        return Bulky(options=ids + carriers, said=(said + outside).strip(), fits=fits, way=way)

    if not cargo.boxes:
        return told("", True)
    if garage is None:
        return told(f"No garage is chosen for {names}.", False, choose=("a bed with a garage under it",))
    ids = (garage.option_id,)
    if cargo.shut_out:
        said, choose = _shut_out(cargo, garage, units)
        return told(said, False, ids, choose)
    if not garage.doors:
        return Unknown("how the garage is loaded", "Choose a garage door, or ask the workshop for the way in.", ids)
    if cargo.fit is None or cargo.fit.fits is None:
        return Unknown("whether all the boxes fit together", "Try fewer boxes, or larger ones for several.", ids)
    where = f"under “{garage.name}”"
    if not cargo.fit.fits:
        return told(f"Not all of it fits {where}: {names}.", False, ids)
    return told(f"All of it fits {where}: {names}.", True, ids)


def judge(x: Bulky) -> Holds:
    """All of it goes in, or not."""
    return Holds(x.fits)


_DOOR = f"{FEWER}, or choose a larger garage door"
RULE = Rule(
    code="cargo-fits",
    title="Bulky things in the garage",
    topic="space",
    category="function",
    inputs=Bulky,
    read=read,
    judge=judge,
    formula="each box passes a garage door; all boxes fit the garage's clear box without overlap",
    sources=(COMMON_PRACTICE,),
    says={"ok": "{said}", "fails": "{said}"},
    remedy="{way}.",
    examples=lambda: (
        Example({"said": "All of it fits under “Bed across”: 2 × bicycle.", "fits": True}, "ok", "two bicycles"),
        Example({"said": "No garage door lets “bicycle” through.", "fits": False, "way": _DOOR}, "fails", "a low door"),
        Example(
            {"said": "On “Carrier for two bicycles”: 2 × bicycle.", "fits": True}, "ok", "the same two, on a carrier"
        ),
    ),
    offers="furniture",
)
