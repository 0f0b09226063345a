"""A cable that the workshop states carries its current.

A conductor that is too thin for its current gets hot along its whole length, behind linings and in looms, where nobody
sees it. What it may carry depends on its size, on what its insulation stands, on other loaded conductors beside it and
on the heat around it. Cables that nobody states are worked out and carry enough by the way they are found.
"""

from engine.build import Build, Figures
from engine.build.circuits import sized_lines
from engine.rule import AtMost, Example, Inputs, Rule, Source, fact


class Cable(Inputs):
    """One circuit whose cable is stated."""

    circuit: str = fact("the circuit", "catalogue")
    cable: str = fact("its cable", "catalogue")
    current_a: float = fact("current of the circuit", "computed", gt=0)
    share_a: float = fact("current in each cable", "computed", gt=0)
    carries_a: float = fact("what each may carry for long", "computed", gt=0)
    by: str = fact("insulation of cables, and the table they go by", "assumed")


def read(build: Build, figures: Figures) -> list[Cable]:
    """One question for each cable that the workshop states."""
    return [
        Cable(
            options=x.ask.option_ids,
            circuit=x.ask.what,
            cable=x.cable_words,
            current_a=x.ask.current_a,
            share_a=x.share_a,
            carries_a=x.ampacity_a,
            by=figures.circuits.conductor_words,
        )
        for x in sized_lines(figures.circuits, figures.power)
        if x.ask.conductor is not None
    ]


def judge(x: Cable) -> AtMost:
    """Current in each cable against its ampacity."""
    return AtMost(x.share_a, x.carries_a, "a")


_INVERTER = {"circuit": "Inverter 2 kW", "current_a": 206.6, "by": "American gauges, 105 °C insulation"}
RULE = Rule(
    code="wire-size",
    title="Current in a stated cable",
    topic="power",
    category="safety",
    inputs=Cable,
    read=read,
    judge=judge,
    formula="I / n ≤ table value · bundle · heat",
    sources=(
        Source("33 CFR 183.425, table 5", "105 °C column as in ABYC E-11", "2026-11-25"),
        Source("ISO 13297:2020, annex A", "from memory"),
        Source("NFPA 70 (NEC) 2023", "table 310.16, for mains in the United States", "2026-11-25"),
    ),
    says={
        "ok": "{circuit}: {cable} carries {limit} and has {measured} to carry.",
        "tight": "{circuit}: {cable} carries {limit} and has {measured} to carry, with little to spare.",
        "fails": "{circuit}: {cable} may carry {limit}; the circuit puts {measured} through it.",
    },
    remedy="Take a thicker cable, or two side by side, each with its own fuse.",
    examples=(
        Example(_INVERTER | {"cable": "2/0 AWG", "share_a": 206.6, "carries_a": 330}, "ok", "63 % of 2/0 AWG"),
        Example(_INVERTER | {"cable": "two of 4 AWG", "share_a": 103.3, "carries_a": 160}, "ok", "two side by side"),
        Example(_INVERTER | {"cable": "2 AWG", "share_a": 206.6, "carries_a": 210}, "tight", "98 %"),
        Example(_INVERTER | {"cable": "4 AWG", "share_a": 160, "carries_a": 160}, "tight", "exactly what it carries"),
        Example(_INVERTER | {"cable": "4 AWG", "share_a": 206.6, "carries_a": 160}, "fails", "129 % of 4 AWG"),
    ),
    offers="wired",
    caution="Battery currents can weld metal and start fires. Wiring and protection belong in trained hands.",
)
