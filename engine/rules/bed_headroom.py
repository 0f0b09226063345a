"""There is room over the bed: to turn over at least, better to sit up.

A bed over a high garage, or one that is let down from the ceiling, can leave too little.
"""

from engine.build import Build, Figures
from engine.build.plan_alcove import OVER_CAB
from engine.build.plan_inside import interior_of, reached_m
from engine.build.plan_people import beds
from engine.physics.lying import sitting_height_m
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtLeast, Example, Inputs, Rule, Softened, Source, fact

TURN_OVER_M = 0.5
"""Least room over a lying person (common practice)."""


class OverBed(Inputs):
    """A bed and the ceiling."""

    name: str = fact("the bed", "chosen")
    room_m: float = fact("from the mattress to the ceiling", "computed", ge=0)
    tallest_m: float = fact("tallest person", "chosen", gt=1, lt=2.3)


def read(build: Build, figures: Figures) -> list[OverBed]:
    """One question for each bed that stands in the plan."""
    inside = figures.plan.inside
    ceiling = inside.bare_headroom_m - inside.roof_m
    alcove = interior_of(build.vehicle).over_cab
    found: dict[str, OverBed] = {}
    for bed in beds(build):
        if bed.placed is not None and bed.part.option.id not in found:
            top = ceiling
            if alcove is not None and bed.placed.side == OVER_CAB:
                top = alcove.floor_m + alcove.height_m - inside.roof_m
            room_m = max(0.0, top - bed.placed.z_m - bed.placed.height_m)
            found[bed.part.option.id] = OverBed(
                options=(bed.part.option.id,), name=bed.part.option.name, room_m=room_m, tallest_m=build.trip.tallest_m
            )
    return list(found.values())


def judge(x: OverBed) -> AtLeast | Softened:
    """Too little to turn over fails; too little to sit up is only worth knowing."""
    if x.room_m < TURN_OVER_M:
        return AtLeast(x.room_m, TURN_OVER_M, "m")
    upright_m = sitting_height_m(x.tallest_m)
    return Softened(AtLeast(reached_m(x.room_m, upright_m), upright_m, "m", tight_from=JUST_ENOUGH), "note")


_BED = {"name": "Bed across", "tallest_m": 1.8}
RULE = Rule(
    code="bed-headroom",
    title="Room over the bed",
    topic="space",
    category="comfort",
    inputs=OverBed,
    read=read,
    judge=judge,
    formula="ceiling − mattress ≥ 0.50 m to turn over; ≥ 0.52 · stature to sit up",
    sources=(COMMON_PRACTICE, Source("ISO 7250-1:2017", "sitting height; its share of stature is from memory")),
    says={
        "ok": "{name}: {measured} from mattress to ceiling, enough to sit up.",
        "note": "{name}: {measured} from mattress to ceiling; sitting up takes {limit}.",
        "fails": "{name}: {measured} from mattress to ceiling; turning over takes {limit}.",
    },
    remedy="Choose a lower bed, thinner insulation in roof or floor, or a higher vehicle.",
    examples=lambda: (
        Example(_BED | {"room_m": 0.96}, "ok", "a person of 1.80 m sits up"),
        Example(_BED | {"room_m": 0.936}, "ok", "exactly the sitting height"),
        Example(_BED | {"room_m": 0.85}, "note", "sits bent"),
        Example(_BED | {"room_m": 0.5}, "note", "exactly enough to turn over"),
        Example(_BED | {"room_m": 0.45}, "fails", "cannot turn over"),
    ),
    offers="berth",
)
