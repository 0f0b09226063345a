"""Heaters take their air from outside and leave their burnt gas there.

A flame that burns the room's air, where people sleep behind shut windows, makes carbon monoxide, uses up the air and
puts water into it.
"""

from engine.build import Build, Figures
from engine.rule import Example, Holds, Inputs, Rule, Source, fact


class Flame(Inputs):
    """A heater, and where it takes its air."""

    name: str = fact("what burns", "chosen")
    gas: bool = fact("whether it burns gas", "catalogue")
    sealed: bool = fact("whether it takes its air from outside", "catalogue")


def read(build: Build, figures: Figures) -> list[Flame] | None:
    """Each that burns the room's air; hobs and ovens are used awake and do not count."""
    o = figures.openings
    found = [Flame(options=(b.option_id,), name=b.name, gas=b.gas, sealed=False) for b in o.breathers]
    if not found and o.sealed_ids:
        return [Flame(options=o.sealed_ids, name="All heating", gas=True, sealed=True)]
    return found


def judge(x: Flame) -> Holds:
    """Gas must be room-sealed; a stove is for somebody who sits by it."""
    return Holds(x.sealed, "fails" if x.gas else "tight")


RULE = Rule(
    code="room-sealed",
    title="Where flames take their air",
    topic="gas",
    category="safety",
    inputs=Flame,
    read=read,
    judge=judge,
    formula="gas heater → room-sealed",
    sources=(
        Source("EN 1949", "heaters of gas in vehicles are room-sealed, cookers apart (from memory)"),
        Source("NFPA 1192", "sealed combustion, cookers apart (from memory)"),
    ),
    says={
        "ok": "{name} takes its air from outside and leaves its burnt gas there.",
        "tight": "{name} burns the room's air. It wants somebody awake beside it, an open vent and an alarm.",
        "fails": "{name} burns gas and the room's air. Where people sleep that can kill.",
    },
    remedy="Choose a room-sealed heater.",
    examples=lambda: (
        Example({"name": "Gas heater", "gas": True, "sealed": True}, "ok", "room-sealed"),
        Example({"name": "Wood stove", "gas": False, "sealed": False}, "tight", "a stove for evenings"),
        Example({"name": "Catalytic heater", "gas": True, "sealed": False}, "fails", "gas without a flue"),
    ),
    offers="space-heater",
    caution="Carbon monoxide kills, and an alarm is a must. Gas, flues and fuel lines are fitted and tested by "
    "licensed people under the local code.",
)
