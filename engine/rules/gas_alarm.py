"""A gas alarm is aboard where one is needed.

Gas is heavier than air and gathers at the floor without being noticed.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.catalogue.facets import Alarm, GasStore
from engine.rule import Example, Holds, Inputs, Rule, Source, fact


class Needed(Inputs):
    """Whether the alarm is aboard."""

    present: bool = fact("whether the alarm is chosen", "chosen")


def read(build: Build, figures: Figures) -> Needed | None:
    """Nothing to ask without reason for it: gas aboard."""
    needed = figures.gas.uses_gas or bool(build.ids(GasStore))
    if not needed:
        return None
    ids = tuple(p.option.id for p, f in build.facets(Alarm) if "gas" in f.detects)
    return Needed(options=ids, present=bool(ids))


def judge(x: Needed) -> Holds:
    """Holds when one is chosen."""
    return Holds(x.present)


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
        Source(
            "NFPA 1192 and EN 50194-2",
            "gas detectors for recreational vehicles (existence seen, clauses not)",
            "2026-11-25",
        ),
    ),
    says={
        "ok": "A gas alarm is aboard.",
        "fails": "No gas alarm is chosen. Gas is heavier than air and gathers at the floor without being noticed.",
    },
    remedy="Add a gas alarm.",
    examples=lambda: (
        Example({"present": True}, "ok", "one is chosen"),
        Example({"present": False}, "fails", "none is chosen"),
    ),
    offers="alarm",
    caution=cautions.GAS,
)
