"""The main bed is long enough, after linings and insulation have taken their share.

A bed across the vehicle has the bare width less what the walls gain on both sides.
"""

from engine.build import Build, Figures
from engine.catalogue.facets import Berth, InsulationLayer, Trim
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
    sleeper_m: float = fact("tallest traveller", "chosen", gt=0)


def read(build: Build, figures: Figures) -> list[BedLength]:
    """One question for each bed that is not made up from seats."""
    lining = sum(f.thickness_m * p.count for p, f in build.facets(InsulationLayer) if "walls" in f.surfaces)
    lining += sum(f.thickness_m for _, f in build.facets(Trim) if "walls" in f.surfaces)
    cabin = build.vehicle.cabin
    wall = tuple(p.option.id for p, f in build.facets(InsulationLayer) if "walls" in f.surfaces)
    return [
        BedLength(
            options=(p.option.id, *(wall if f.lies == "across" else ())),
            name=p.option.name,
            lies=f.lies,
            mattress_m=f.length_m,
            # Layers can be chosen until nothing is left between them.
            room_m=max(0.0, (cabin.width_m if f.lies == "across" else cabin.length_m) - 2 * lining),
            lining_m=lining,
            sleeper_m=build.trip.tallest_m,
        )
        for p, f in build.facets(Berth)
        if not f.made_from_seats
    ]


def judge(x: BedLength) -> AtLeast:
    """The shorter of mattress and room against the sleeper and a little spare."""
    return AtLeast(min(x.mattress_m, x.room_m), x.sleeper_m + SPARE_M, "m", tight_from=1.0001)


_ACROSS = {"name": "Bed across", "lies": "across", "mattress_m": 1.9, "sleeper_m": 1.78}
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
        "ok": "{name} gives {measured}; {limit} are wanted.",
        "fails": "{name} gives {measured}, {over} less than wanted for {sleeper_m}. It lies {lies} the vehicle, and "
        "walls take {lining_m} on each side.",
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
