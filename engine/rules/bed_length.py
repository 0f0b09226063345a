"""The main bed is long enough, after linings and insulation have taken their share.

A bed across the vehicle has the bare width less what the walls gain on both sides. One person may still find length
enough lying askew; two cannot.
"""

from engine.build import Build, Figures
from engine.catalogue.facets import Berth
from engine.physics.lying import BODY_WIDTH_M, longest_askew_m
from engine.rule import COMMON_PRACTICE, AtLeast, Example, Inputs, Rule, fact

SPARE_M = 0.05
"""What a sleeper wants beyond the body's length (choice)."""


class BedLength(Inputs):
    """A bed and its longest sleeper."""

    name: str = fact("the bed", "chosen")
    lies: str = fact("along or across the vehicle", "catalogue")
    mattress_m: float = fact("length of its mattress", "catalogue", gt=0)
    room_m: float = fact("clear length where it lies", "computed", ge=0)
    lining_m: float = fact("taken by insulation and lining on each side", "computed", ge=0)
    askew_m: float = fact("longest straight line for one body lying askew", "computed", ge=0)
    sleeper_m: float = fact("tallest traveller", "chosen", gt=0)


def askew_m(mattress_m: float, width_m: float, room_m: float) -> float:
    """Longest straight body on a bed that the room may cut short; a bed narrower than a body has none."""
    length_m = min(mattress_m, room_m)
    return longest_askew_m(length_m, width_m) if min(length_m, width_m) >= BODY_WIDTH_M else length_m


def read(build: Build, figures: Figures) -> list[BedLength]:
    """One question for each bed that is not made up from seats."""
    inside = figures.plan.inside
    found = []
    for p, f in build.facets(Berth):
        if f.made_from_seats:
            continue
        # Layers can be chosen until nothing is left between them: then the room is 0.
        room_m = inside.width_m if f.lies == "across" else inside.length_m
        found.append(
            BedLength(
                options=(p.option.id, *(inside.takers if f.lies == "across" else ())),
                name=p.option.name,
                lies=f.lies,
                mattress_m=f.length_m,
                room_m=room_m,
                lining_m=inside.side_m,
                askew_m=askew_m(f.length_m, f.width_m, room_m),
                sleeper_m=build.trip.tallest_m,
            )
        )
    return found


def judge(x: BedLength) -> AtLeast:
    """The shorter of mattress and room against the sleeper and a little spare."""
    return AtLeast(min(x.mattress_m, x.room_m), x.sleeper_m + SPARE_M, "m", tight_from=1.0001)


_ACROSS = {"name": "Bed across", "lies": "across", "mattress_m": 1.9, "askew_m": 1.785, "sleeper_m": 1.78}
RULE = Rule(
    code="bed-length",
    title="Length of the main bed",
    topic="space",
    category="comfort",
    inputs=BedLength,
    read=read,
    judge=judge,
    formula="min(mattress, bare size − 2·(insulation + lining)) ≥ tallest traveller + 50 mm",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{name} gives {measured}; {limit:# is|# are} wanted.",
        "fails": "{name} gives {measured}, {over} less than wanted for {sleeper_m}. It lies {lies} the vehicle, and "
        "walls take {lining_m} on each side. Lying askew, one person alone finds {askew_m}.",
    },
    remedy="Choose a bed that lies the other way, thinner insulation beside it, or a wider vehicle.",
    examples=(
        Example(
            _ACROSS | {"room_m": 1.778, "lining_m": 0.046}, "fails", "1.87 m bare width less 46 mm a side: 52 mm short"
        ),
        Example(_ACROSS | {"room_m": 1.83, "lining_m": 0.02}, "ok", "exactly enough"),
        Example(_ACROSS | {"lies": "along", "room_m": 3.2, "lining_m": 0.046}, "ok", "lengthways"),
    ),
    offers="berth",
)
