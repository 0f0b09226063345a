"""There is room over the bed: to turn over at least, better to sit up.

A bed over a high garage, one that is let down from the ceiling, and one under a bunk can have too little. Whatever is
over the bed by night counts: the ceiling, another bed, or lockers, unless those who sleep there find as much width
beside it as they take up, or only feet lie under it.
"""

from pydantic import Field

from engine.build import Build, Figures
from engine.build.plan_inside import reached_m
from engine.build.plan_lying import TURN_OVER_M, lying
from engine.physics.lying import sitting_height_m
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtLeast, Example, Inputs, Rule, Softened, Source, fact

LOWER = "Choose a lower bed, thinner insulation in roof or floor, or a higher vehicle"
APART = "Move one of the two in the plan, or choose a lower bed, or one in another place"


class OverBed(Inputs):
    """A bed and what is over it."""

    name: str = fact("the bed", "chosen")
    room_m: float = fact("from the mattress to what is over it", "computed", ge=0)
    top: str = Field(default="ceiling", description="what that is")
    spared: bool = Field(
        default=False, description="made up from seats under another bed, and everybody has a place with one of the two"
    )
    tallest_m: float = fact("tallest person", "chosen", gt=1, lt=2.3)
    way: str = Field(default=LOWER, description="the way out")

    @property
    def takes(self) -> str:
        """What there is too little room for, where the bed can do without."""
        return "turning over takes" if self.room_m < TURN_OVER_M else "sitting up takes"

    @property
    def either(self) -> str:
        """A sentence where only one of two beds can be slept in at a time."""
        return " Nobody can sleep in both at once." if self.room_m < TURN_OVER_M else ""


def read(build: Build, figures: Figures) -> list[OverBed]:
    """One question for each kind of bed that stands in the plan."""
    return [
        OverBed(
            options=(bed.part.option.id,),
            name=bed.part.option.name,
            room_m=over.room_m,
            top=f"“{over.name}”" if over.name else "ceiling",
            spared=spared,
            tallest_m=build.trip.tallest_m,
            way=APART if over.name else LOWER,
        )
        for bed, over, spared in lying(build)
    ]


def judge(x: OverBed) -> AtLeast | Softened:
    """Too little to turn over fails, save where nobody has to lie; too little to sit up is only worth knowing."""
    if x.room_m < TURN_OVER_M:
        too_low = AtLeast(x.room_m, TURN_OVER_M, "m")
        return Softened(too_low, "note") if x.spared else too_low
    upright_m = sitting_height_m(x.tallest_m)
    return Softened(AtLeast(reached_m(x.room_m, upright_m), upright_m, "m", tight_from=JUST_ENOUGH), "note")


_BED = {"name": "Bed across", "tallest_m": 1.8}
_BUNK = {"top": "“Bunk”", "way": APART}
RULE = Rule(
    code="bed-headroom",
    title="Room over the bed",
    topic="space",
    category="comfort",
    inputs=OverBed,
    read=read,
    judge=judge,
    formula="what is over it − mattress ≥ 0.50 m to turn over; ≥ 0.52 · stature to sit up",
    sources=(COMMON_PRACTICE, Source("ISO 7250-1:2017", "sitting height; its share of stature is from memory")),
    says={
        "ok": "{name}: {measured} from mattress to {top}, enough to sit up.",
        "note": "{name}: {measured} from mattress to {top}; {takes} {limit}.{either}",
        "fails": "{name}: {measured} from mattress to {top}; turning over takes {limit}.",
    },
    remedy="{way}.",
    examples=lambda: (
        Example(_BED | {"room_m": 0.96}, "ok", "a person of 1.80 m sits up"),
        Example(_BED | {"room_m": 0.936}, "ok", "exactly the sitting height"),
        Example(_BED | {"room_m": 0.85}, "note", "sits bent"),
        Example(_BED | {"room_m": 0.5}, "note", "exactly enough to turn over"),
        Example(_BED | {"room_m": 0.45}, "fails", "cannot turn over"),
        Example(_BED | _BUNK | {"room_m": 0.2}, "fails", "a bunk over it"),
        Example(
            _BUNK | {"name": "Dinette", "tallest_m": 1.8, "room_m": 0.2, "spared": True},
            "note",
            "seats that nobody has to make up while the bunk over them is slept in",
        ),
    ),
    offers="berth",
)
