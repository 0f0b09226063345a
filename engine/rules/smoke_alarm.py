"""A smoke alarm is aboard where one is needed.

A camper burns out in minutes, and its sleepers must be woken.
"""

from engine.build import Build, Figures
from engine.catalogue.facets import Alarm, Berth
from engine.rule import Example, Holds, Inputs, Rule, Source, fact


class Needed(Inputs):
    """Whether the alarm is aboard."""

    present: bool = fact("whether the alarm is chosen", "chosen")


def read(build: Build, figures: Figures) -> Needed | None:
    """Nothing to ask without reason for it: sleeping place."""
    needed = bool(build.ids(Berth))
    if not needed:
        return None
    ids = tuple(p.option.id for p, f in build.facets(Alarm) if "smoke" in f.detects)
    return Needed(options=ids, present=bool(ids))


def judge(x: Needed) -> Holds:
    """Holds when one is chosen."""
    return Holds(x.present)


RULE = Rule(
    code="smoke-alarm",
    title="Smoke alarm",
    topic="gas",
    category="safety",
    inputs=Needed,
    read=read,
    judge=judge,
    formula="sleeping place → alarm chosen",
    sources=(Source("UL 217 and EN 14604", "smoke alarms (existence seen, clauses not)", "2026-11-25"),),
    says={
        "ok": "A smoke alarm is aboard.",
        "fails": "No smoke alarm is chosen. A camper burns out in minutes, and its sleepers must be woken.",
    },
    remedy="Add a smoke alarm.",
    examples=lambda: (
        Example({"present": True}, "ok", "one is chosen"),
        Example({"present": False}, "fails", "none is chosen"),
    ),
    offers="alarm",
    caution="Keep every way out free.",
)
