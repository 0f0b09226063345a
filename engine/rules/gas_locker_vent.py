"""What sinks out of the gas locker does not come in again, nor meet a spark.

Gas is heavier than air and creeps along the ground. The opening through the locker's floor keeps its distance from
doors, windows and vents, and from flues, exhausts and whatever sparks.
"""

from typing import Literal

from pydantic import Field

from engine import cautions
from engine.build import Build, Figures
from engine.catalogue.facets import GasLocker, GasStore
from engine.rule import ELSEWHERE, AtLeast, Example, Holds, Inputs, Rule, Softened, Source, fact
from engine.rules.flue_clearance import keeps_clear

OPENING_M, IGNITION_M = 0.5, 0.9
IGNITION_US_M = 0.9144
"""3 ft, where a standard asks for it; elsewhere the same is usual, rounded."""


class Distance(Inputs):
    """From the locker's opening to one kind of thing."""

    stated: bool = fact("whether the distance is stated", "catalogue")
    to: Literal["anything that opens", "anything that lights gas"] = fact("what it is measured to", "computed")
    distance_m: float = fact("distance", "catalogue", default=0.0, ge=0)
    least_m: float = fact("distance wanted", "regulation", gt=0)
    binds: bool = fact("whether a standard of the region asks for it", "regulation", default=False)
    opening_m: float = Field(default=OPENING_M, description="distance from what opens, for the note on both")


def read(build: Build, figures: Figures) -> list[Distance]:
    """Two questions for a locker with cylinders; one note where nobody measured."""
    if not any(f.container == "cylinder" for _, f in build.facets(GasStore)):
        return []
    us, found = build.workshop.region == "us", []
    ignition_m = IGNITION_US_M if us else IGNITION_M
    for part, f in build.facets(GasLocker):
        for to, have, least, binds in (
            ("anything that opens", f.vent_to_opening_m, OPENING_M, False),
            ("anything that lights gas", f.vent_to_ignition_m, ignition_m, us),
        ):
            ids, known = (part.option.id,), have is not None
            found.append(Distance(options=ids, stated=known, to=to, distance_m=have or 0.0, least_m=least, binds=binds))
    return [x for x in found if x.stated] or found[1:2]


def judge(x: Distance) -> AtLeast | Softened | Holds:
    """Against the least distance."""
    if not x.stated:
        return Holds(False, "note")
    return keeps_clear(x.distance_m, x.least_m, x.binds)


_OPENS = {"stated": True, "to": "anything that opens", "least_m": OPENING_M}
_SPARKS = {"stated": True, "to": "anything that lights gas", "least_m": IGNITION_M}
_SPARKS_US = _SPARKS | {"least_m": IGNITION_US_M, "binds": True}
RULE = Rule(
    code="gas-locker-vent",
    title="Place of the gas locker's vent",
    topic="gas",
    category="safety",
    inputs=Distance,
    read=read,
    judge=judge,
    formula="distance to openings ≥ 0.5 m, to sources of ignition ≥ 0.9 m (United States 3 ft)",
    sources=(
        Source("NFPA 1192", "3 ft from sources of ignition (from memory)"),
        Source("Dutch fitters' advice for boats and caravans", "0.5 m from openings to inside", "2026-11-25"),
    ),
    says={
        "ok": "The vent of the gas locker is {measured} from {to}; {limit:# is|# are} wanted.",
        "tight": "The vent of the gas locker is only {measured} from {to}; {limit:# is|# are} wanted.",
        "fails": "The vent of the gas locker is only {measured} from {to}; {limit:# is|# are} wanted.",
        "note": "How far the vent of the gas locker is from what opens and what lights gas is not stated. Ask the "
        "workshop; {opening_m} and {least_m} are wanted.",
    },
    remedy="Let the workshop move the vent, or lead it down and away.",
    examples=lambda: (
        Example(_OPENS | {"distance_m": 0.8}, "ok", "under the rear, away from doors"),
        Example(_OPENS | {"distance_m": 0.5}, "ok", "exactly"),
        Example(_OPENS | {"distance_m": 0.3}, "tight", "beside the door"),
        Example(_OPENS | {"distance_m": 0.2}, "fails", "nearer than half of it"),
        Example(_SPARKS_US | {"distance_m": 0.9144}, "ok", "exactly 3 ft from the generator", "us"),
        Example(_SPARKS_US | {"distance_m": 0.905}, "fails", "hardly short of 3 ft", "us"),
        Example(_SPARKS_US | {"stated": False}, "note", "nobody measured", "us"),
        Example(_SPARKS | {"distance_m": 0.9}, "ok", "exactly, from the generator", ELSEWHERE),
        Example(_SPARKS | {"distance_m": 0.85}, "tight", "too near the flue", ELSEWHERE),
        Example(_SPARKS | {"stated": False}, "note", "nobody measured", ELSEWHERE),
    ),
    offers="gas-locker",
    caution=cautions.GAS,
)
