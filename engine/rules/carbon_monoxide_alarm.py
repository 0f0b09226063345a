"""A carbon monoxide alarm is aboard where one is needed.

Where people sleep or fuel burns, carbon monoxide can gather, and it has no smell.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.catalogue.facets import Alarm, Berth, SpaceHeater
from engine.rule import Example, Holds, Inputs, Rule, Source, fact


class Needed(Inputs):
    """Whether the alarm is aboard."""

    present: bool = fact("whether the alarm is chosen", "chosen")


def read(build: Build, figures: Figures) -> Needed | None:
    """Nothing to ask without reason for it: burner aboard or sleeping place."""
    burns = any(f.fuel in ("gas", "diesel", "wood") for _, f in build.facets(SpaceHeater))
    if not (burns or figures.gas.uses_gas or figures.gas.diesel_l_d > 0 or build.ids(Berth)):
        return None
    ids = tuple(p.option.id for p, f in build.facets(Alarm) if "carbon-monoxide" in f.detects)
    return Needed(options=ids, present=bool(ids))


def judge(x: Needed) -> Holds:
    """Holds when one is chosen."""
    return Holds(x.present)


RULE = Rule(
    code="carbon-monoxide-alarm",
    title="Carbon monoxide alarm",
    topic="gas",
    category="safety",
    inputs=Needed,
    read=read,
    judge=judge,
    formula="burner aboard or sleeping place → alarm chosen",
    sources=(
        Source(
            "UL 2034 and EN 50291-2", "alarms for recreational vehicles (existence seen, clauses not)", "2026-11-25"
        ),
    ),
    says={
        "ok": "A carbon monoxide alarm is aboard.",
        "fails": "No carbon monoxide alarm is chosen. "
        "Where people sleep or fuel burns it can gather, and it has no smell.",
    },
    remedy="Add a carbon monoxide alarm.",
    examples=lambda: (
        Example({"present": True}, "ok", "one is chosen"),
        Example({"present": False}, "fails", "none is chosen"),
    ),
    offers="alarm",
    caution=f"{cautions.CARBON_MONOXIDE} {cautions.GAS}",
)
