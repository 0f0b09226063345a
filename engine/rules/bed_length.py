"""Every bed is long enough for who lies in it, after linings and insulation have taken their share.

A bed across the vehicle has the bare width less what the walls gain on both sides. One person may still find length
enough lying askew; two cannot. Beds that the grown-ups leave over are held to a child's length.
"""

from pydantic import Field

from engine.build import Build, Figures
from engine.build.plan_inside import BUILT_TO_M, reached_m
from engine.catalogue.facets import Berth
from engine.physics.lying import BODY_WIDTH_M, longest_askew_m
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtLeast, Example, Inputs, Rule, fact
from engine.units import INCH_M, show

SPARE_M, SPARE_US_M = 0.05, 2 * INCH_M
"""What a sleeper wants beyond the body's length (choice)."""


CHILD_M = 1.5
"""Stature of a child (assumption: about the middle at twelve years, WHO growth reference, from memory)."""

LONGER = "Choose a longer bed"


class BedLength(Inputs):
    """A bed and its longest sleeper."""

    name: str = fact("the bed", "chosen")
    mattress_m: float = fact("length of its mattress", "catalogue", gt=0)
    room_m: float = fact("clear length where it lies", "computed", ge=0)
    whose: str = fact("who has to fit", "computed", default="the tallest person")
    sleeper_m: float = fact("that person's stature", "chosen", gt=0)
    spare_m: float = fact("length of a bed beyond the sleeper", "assumed", default=SPARE_M)
    why: str = Field(default="", description="what makes it so short, as sentences")
    way: str = Field(default=LONGER, description="the way out")


def askew_m(mattress_m: float, width_m: float, room_m: float) -> float:
    """Longest straight body on a bed that the room may cut short; a bed narrower than a body has none."""
    length_m = min(mattress_m, room_m)
    return longest_askew_m(length_m, width_m) if min(length_m, width_m) >= BODY_WIDTH_M else length_m


def _room_m(build: Build, f: Berth) -> float:
    # Layers can be chosen until nothing is left between them: then the room is 0.
    inside = build.plan.inside
    return inside.width_m if f.lies == "across" else inside.length_m


def _why(build: Build, f: Berth) -> tuple[str, str]:
    """What makes a bed so short, in sentences, and the way out."""
    inside, units, room_m = build.plan.inside, build.workshop.units, _room_m(build, f)
    if f.length_m <= room_m:
        said, way = " The mattress itself is too short.", LONGER
    elif f.lies == "across":
        taken = f", and walls take {show(inside.side_m, 'm', units)} on each side" if inside.side_m else ""
        said = f" It lies across the vehicle{taken}."
        way = "Choose a bed that lies the other way, thinner insulation beside it, or a wider vehicle"
    else:
        said, way = " The room inside is so short.", "Choose a bed that lies the other way, or a longer vehicle"
    alone_m = askew_m(f.length_m, f.width_m, room_m)
    if alone_m > min(f.length_m, room_m) + BUILT_TO_M:
        said += f" Lying askew, one person alone finds {show(alone_m, 'm', units)}."
    return said, way


def _spare_m(build: Build) -> float:
    """Five centimetres, or two inches: as the reader's own trade rounds it."""
    return SPARE_US_M if build.workshop.units == "us" else SPARE_M


def _long_enough(build: Build, f: Berth) -> bool:
    wanted_m = build.trip.tallest_m + _spare_m(build)
    return reached_m(min(f.length_m, _room_m(build, f)), wanted_m) >= wanted_m


def _grown_ups(build: Build) -> set[int]:
    """Which of the berths, in their order, the grown-ups lie on until all of them have a place: those that are long
    enough, then those for more people, then the longer."""
    berths = [(_long_enough(build, f), f.sleeps, f.length_m, p.count) for p, f in build.facets(Berth)]
    found, waiting = set(), build.trip.adults
    for k in sorted(range(len(berths)), key=lambda k: berths[k][:3], reverse=True):
        if waiting > 0:
            found.add(k)
            waiting -= berths[k][1] * berths[k][3]
    return found


def read(build: Build, figures: Figures) -> list[BedLength]:
    """One question for each bed; of those made up from seats only where the tallest has no other. One that the
    grown-ups leave over and that is too short for them is for a child, or a guest of that size."""
    trip, inside, berths = build.trip, figures.plan.inside, build.facets(Berth)
    theirs = _grown_ups(build)
    found = []
    for k, (p, f) in enumerate(berths):
        if f.made_from_seats and (k not in theirs or any(_long_enough(build, berths[j][1]) for j in theirs - {k})):
            continue
        room_m = _room_m(build, f)
        left_over = k not in theirs and not _long_enough(build, f)
        small = {"whose": "a child", "sleeper_m": min(CHILD_M, trip.tallest_m)} if left_over else {}
        said, way = _why(build, f)
        found.append(
            BedLength.model_validate(
                {
                    "options": (p.option.id, *(inside.takers if f.lies == "across" else ())),
                    "name": p.option.name,
                    "mattress_m": f.length_m,
                    "room_m": room_m,
                    "sleeper_m": trip.tallest_m,
                    "spare_m": _spare_m(build),
                    "why": said,
                    "way": way,
                }
                | small
            )
        )
    return found


def judge(x: BedLength) -> AtLeast:
    """The shorter of mattress and room against the sleeper and a little spare."""
    wanted_m = x.sleeper_m + x.spare_m
    return AtLeast(reached_m(min(x.mattress_m, x.room_m), wanted_m), wanted_m, "m", tight_from=JUST_ENOUGH)


_WALLS = {
    "why": " It lies across the vehicle, and walls take their share.",
    "way": "Choose a bed that lies the other way, thinner insulation beside it, or a wider vehicle",
}
_ACROSS = {"name": "Bed across", "mattress_m": 1.9, "sleeper_m": 1.78}
_BUNK = {"name": "Bunk", "room_m": 3.2}
RULE = Rule(
    code="bed-length",
    title="Length of the beds",
    topic="space",
    category="comfort",
    inputs=BedLength,
    read=read,
    judge=judge,
    formula="min(mattress, bare size − 2·(insulation + lining)) ≥ sleeper + 50 mm",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{name} gives {measured}, enough for {whose}.",
        "fails": "{name} gives {measured}, {over} less than wanted for {whose}: {sleeper_m}, and {spare_m} to "
        "spare.{why}",
    },
    remedy="{way}.",
    examples=lambda: (
        Example(_ACROSS | _WALLS | {"room_m": 1.778}, "fails", "1.87 m bare width less 46 mm a side: 52 mm short"),
        Example(_ACROSS | {"room_m": 1.83}, "ok", "exactly enough"),
        Example(_ACROSS | {"room_m": 3.2}, "ok", "lengthways"),
        Example(
            _BUNK | {"mattress_m": 1.5, "sleeper_m": 1.78, "why": " The mattress itself is too short."},
            "fails",
            "a bunk",
        ),
        Example(_BUNK | {"mattress_m": 1.6, "sleeper_m": 1.5, "whose": "a child"}, "ok", "the grown-ups lie elsewhere"),
    ),
    offers="berth",
)
