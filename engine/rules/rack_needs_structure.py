"""A rack's feet stand on something that carries them.

A panel van and a bus have gutters, rails or ribs for a rack. A bare box body has a skin over foam or thin bows: feet
pull out of it, whatever the rack itself is good for. It needs a reinforcement under the roof first.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, fact


class RackFeet(Inputs):
    """What a rack stands on."""

    rack: str = fact("the rack", "chosen")
    bare_carries: bool = fact("whether the bare roof takes a rack's feet", "catalogue")
    strengthened: bool = fact("whether a chosen structure strengthens the roof", "chosen")


def read(build: Build, figures: Figures) -> RackFeet | None:
    """Nothing to ask without a rack."""
    load = figures.roof_load
    if not load.rack_ids:
        return None
    return RackFeet(
        options=load.rack_ids,
        lacks="" if load.bare_carries_rack or load.strengthened else "structure",
        rack=" and ".join(build.option_names[i] for i in load.rack_ids),
        bare_carries=load.bare_carries_rack,
        strengthened=load.strengthened,
    )


def judge(x: RackFeet) -> Holds:
    """Either will do."""
    return Holds(x.bare_carries or x.strengthened)


RULE = Rule(
    code="rack-needs-structure",
    title="What the rack stands on",
    topic="roof",
    category="safety",
    inputs=RackFeet,
    read=read,
    judge=judge,
    formula="the bare roof takes a rack's feet, or a chosen structure strengthens the roof",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{rack}: the roof has what its feet need.",
        "fails": "{rack}: this body's bare roof does not carry a rack's feet.",
    },
    remedy="Choose a roof reinforcement too, or leave out the rack.",
    examples=lambda: (
        Example({"rack": "Rack", "bare_carries": True, "strengthened": False}, "ok", "on a van's gutters"),
        Example({"rack": "Rack", "bare_carries": False, "strengthened": True}, "ok", "a box with bows under its roof"),
        Example({"rack": "Rack", "bare_carries": False, "strengthened": False}, "fails", "on the skin of a bare box"),
    ),
    offers="structure",
    caution=f"{cautions.ROOF} A rack that lets go takes its load along.",
)
