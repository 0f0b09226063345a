"""A gas alarm is aboard where one is needed.

Gas is heavier than air and gathers at the floor without being noticed.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.catalogue.facets import Alarm, GasStore
from engine.rule import ELSEWHERE, Example, Holds, Inputs, Rule, Source, fact


class Needed(Inputs):
    """Whether the alarm is aboard."""

    present: bool = fact("whether the alarm is chosen", "chosen")
    binds: bool = fact("whether a standard of the region asks for it", "regulation", default=True)


def read(build: Build, figures: Figures) -> Needed | None:
    """Nothing to ask without reason for it: gas aboard."""
    needed = figures.gas.uses_gas or bool(build.ids(GasStore))
    if not needed:
        return None
    ids = tuple(p.option.id for p, f in build.facets(Alarm) if "gas" in f.detects)
    return Needed(options=ids, present=bool(ids), binds=build.workshop.region == "us")


def judge(x: Needed) -> Holds:
    """Holds when one is chosen; where nothing asks for it, its absence is worth knowing."""
    return Holds(x.present, "fails" if x.binds else "note")


RULE = Rule(
    code="gas-alarm",
    title="Gas alarm",
    topic="gas",
    category="safety",
    inputs=Needed,
    read=read,
    judge=judge,
    formula="gas aboard → alarm chosen",
    sources=(
        Source("NFPA 1192", "a gas detector in recreational vehicles (existence seen, clause not)", "2026-11-25", "us"),
        Source("EN 50194-2", "gas detectors made for leisure vehicles (existence seen)", "2026-11-25", ELSEWHERE),
    ),
    says={
        "ok": "A gas alarm is aboard.",
        "fails": "No gas alarm is chosen. Gas is heavier than air and gathers at the floor without being noticed.",
        "note": "No gas alarm is chosen. We know of no law here that asks for one, but gas is heavier than air and "
        "gathers at the floor without being noticed.",
    },
    remedy="Add a gas alarm.",
    examples=lambda: (
        Example({"present": True}, "ok", "one is chosen"),
        Example({"present": False}, "fails", "none is chosen", "us"),
        Example({"present": False, "binds": False}, "note", "none is chosen, and nothing asks for it", ELSEWHERE),
    ),
    offers="alarm",
    caution=cautions.GAS,
)
