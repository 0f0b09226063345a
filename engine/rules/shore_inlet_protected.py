"""Where mains voltage is aboard, a residual-current device stands in front of it.

It (an RCD) switches off when current returns another way than through its wires, such as through a person, and nothing
else does that. In North America it is called a ground-fault interrupter (GFCI) and trips at 4 to 6 mA; elsewhere 30 mA,
both poles, is usual. An inverter's output needs it as much as a hook-up.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.catalogue.facets import MainsProtection
from engine.rule import AtMost, Example, Holds, Inputs, Rule, Source, fact

MOST_A = 0.03
"""The largest residual current that protects people."""


class Protection(Inputs):
    """Protection of everything at mains voltage."""

    from_: str = fact("what brings or uses mains voltage", "chosen")
    trip_a: float = fact("residual current at which it trips; 0 without one", "catalogue", ge=0)
    offered: bool = fact("whether the workshop says where such a device is", "catalogue")


def read(build: Build, figures: Figures) -> Protection | None:
    """Nothing to ask without mains aboard."""
    c = figures.circuits
    if not c.mains_ids:
        return None
    return Protection(
        options=(*c.mains_ids, *build.ids(MainsProtection)),
        lacks="" if build.ids(MainsProtection) else "mains-protection",
        from_=build.option_names[c.mains_ids[0]],
        trip_a=c.trip_a or 0.0,
        offered=c.trip_a is not None or "mains-protection" in build.offered_kinds,
    )


def judge(x: Protection) -> Holds | AtMost:
    """At most 30 mA. Where no option says it has one, the schedule plans one, and that is worth a note."""
    if not x.trip_a:
        return Holds(False, "fails" if x.offered else "note")
    return Holds(x.trip_a <= MOST_A * (1 + 1e-9))


RULE = Rule(
    code="shore-inlet-protected",
    title="Protection of mains voltage",
    topic="power",
    category="safety",
    inputs=Protection,
    read=read,
    judge=judge,
    formula="mains aboard → residual-current device, ≤ 30 mA",
    sources=(
        Source(
            "BS 7671:2018, section 721, and HD 60364-7-721", "30 mA, double pole, from an older guide", "2026-11-25"
        ),
        Source("NFPA 70 (NEC) 2023", "551.40(C) and 551.41(C), from memory"),
        Source("UL 943", "class A, 4 to 6 mA, from memory"),
    ),
    says={
        "ok": "{from_} brings mains voltage, behind a residual-current device that protects people.",
        "note": "{from_} brings mains voltage. The schedule plans a residual-current device of 30 mA or less in front "
        "of all of it; no option says which.",
        "fails": "{from_} brings mains voltage, and no residual-current device of 30 mA or less is in front of it.",
    },
    remedy="Add the breaker panel or inlet that has such a device.",
    examples=lambda: (
        Example({"from_": "Inlet", "trip_a": 0.03, "offered": True}, "ok", "exactly 30 mA"),
        Example({"from_": "Inlet", "trip_a": 0.005, "offered": True}, "ok", "5 mA ground-fault interrupter"),
        Example(
            {"from_": "Inlet", "trip_a": 0.1, "offered": True}, "fails", "100 mA protects the building, not people"
        ),
        Example({"from_": "Inverter", "trip_a": 0, "offered": True}, "fails", "on offer, and not chosen"),
        Example({"from_": "Inverter", "trip_a": 0, "offered": False}, "note", "no option says where it is"),
    ),
    offers="mains-protection",
    caution=cautions.MAINS,
)
