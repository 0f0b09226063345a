"""What takes its power from a hook-up has an inlet that the hook-up is plugged into.

A charger for a hook-up, a heater that the inverter never feeds and a generator's cord all want an inlet. Where the
workshop offers one and none is chosen, they are never fed. Where it offers none, it is asked how they are.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.catalogue.facets import Generator, ShoreCharger, ShoreInlet
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, fact, listed


class PluggedIn(Inputs):
    """What a hook-up feeds, and where it comes in."""

    names: str = fact("what wants a hook-up", "chosen")
    inlet: bool = fact("whether an inlet is chosen", "chosen")
    offered: bool = fact("whether the workshop offers one", "catalogue", default=True)


def read(build: Build, figures: Figures) -> PluggedIn | None:
    """Nothing to ask while nothing wants a hook-up."""
    on_it = [x.option_id for x in figures.power.all_loads if x.shore_only]
    ids = tuple(dict.fromkeys((*build.ids(ShoreCharger, Generator), *on_it)))
    if not ids:
        return None
    inlets = build.ids(ShoreInlet)
    return PluggedIn(
        options=(*ids, *inlets),
        lacks="" if inlets else "shore-inlet",
        names=listed(build.option_names[i] for i in ids),
        inlet=bool(inlets),
        offered="shore-inlet" in build.offered_kinds,
    )


def judge(x: PluggedIn) -> Holds:
    """Holds with an inlet; without one it fails where the workshop has one to choose."""
    return Holds(x.inlet, "fails" if x.offered else "note")


RULE = Rule(
    code="hookup-inlet",
    title="Inlet of the hook-up",
    topic="power",
    category="function",
    inputs=PluggedIn,
    read=read,
    judge=judge,
    formula="charger, hook-up heater or generator chosen → inlet chosen",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "Fed through the inlet of the hook-up: {names}.",
        "note": "These want a hook-up, and no option of this workshop says where it comes in: {names}.",
        "fails": "These want a hook-up, and no inlet is chosen for one: {names}. Nothing feeds them.",
    },
    remedy="Add an inlet for a hook-up, or leave out what wants one.",
    examples=lambda: (
        Example({"names": "Hook-up charger", "inlet": True}, "ok", "a charger with its inlet"),
        Example({"names": "Hook-up charger", "inlet": False}, "fails", "a charger by itself"),
        Example({"names": "Hook-up charger", "inlet": False, "offered": False}, "note", "a shop that has no inlet"),
    ),
    offers="shore-inlet",
    follows=("option-requires", "option-needs-one-of"),
    caution=cautions.MAINS,
)
