"""A cable that the workshop states carries its current.

A conductor that is too thin for its current gets hot along its whole length, behind linings and in looms, where nobody
sees it. What it may carry depends on its size, on what its insulation stands, on other loaded conductors beside it and
on the heat around it. Cables that nobody states are worked out and carry enough by the way they are found.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.circuits import sized_lines
from engine.build.wiring_practice import Lay, practice
from engine.physics.ampacity import ampacity_a
from engine.rule import ELSEWHERE, AtMost, Example, Inputs, Rule, Source, fact


class Cable(Inputs):
    """One circuit whose cable is stated."""

    circuit: str = fact("the circuit", "catalogue")
    cable: str = fact("its cable", "catalogue")
    current_a: float = fact("current of the circuit", "computed", gt=0)
    share_a: float = fact("current in each cable", "computed", gt=0)
    carries_a: float = fact("what each may carry for long", "computed", gt=0)
    by: str = fact("insulation of cables, and the table they go by", "assumed")

    @property
    def one(self) -> str:
        """The cable, or each of several."""
        return each_of(self.cable)


def each_of(cable: str) -> str:
    """The words for one of a circuit's cables: figures beside them are those of one.

    >>> each_of("two of 4 AWG"), each_of("4 AWG")
    ('each of two 4 AWG', '4 AWG')
    """
    number, of, size = cable.partition(" of ")
    return f"each of {number} {size}" if of else cable


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


def carries_a(label: str, insulation_degc: float | None = None) -> float:
    """What one cable by itself may carry, with the insulation usual for its kind of size where none is given."""
    by = practice(Lay(label.endswith("mm²"), insulation_degc, 1, ()))
    return ampacity_a(by.table, label, by.insulation_degc)


def _inverter(label: str, current_a: float = 206.6, parallel: int = 1) -> dict[str, str | float]:
    metric = label.endswith("mm²")
    return {
        "circuit": "Inverter 2 kW", "current_a": current_a, "cable": f"two of {label}" if parallel == 2 else label,
        "share_a": current_a / parallel, "carries_a": carries_a(label),
        "by": "metric sizes, 70 °C insulation" if metric else "American gauges, 105 °C insulation",
    }  # fmt: skip


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
        Source("IEC 60364-5-52:2009", "table B.52.2, method A2, for mains elsewhere (from memory)"),
    ),
    says={
        "ok": "{circuit}: {one} carries {limit} and has {measured} to carry.",
        "tight": "{circuit}: {one} carries {limit} and has {measured} to carry, with little to spare.",
        "fails": "{circuit}: {one} may carry {limit}; the circuit puts {measured} through it.",
    },
    remedy="Take a thicker cable, or two side by side, each with its own fuse.",
    examples=lambda: (
        Example(_inverter("2/0 AWG"), "ok", "63 % of 2/0 AWG", "us"),
        Example(_inverter("4 AWG", parallel=2), "ok", "two side by side", "us"),
        Example(_inverter("2 AWG"), "tight", "98 %", "us"),
        Example(_inverter("4 AWG", current_a=160), "tight", "a smaller inverter, exactly what it carries", "us"),
        Example(_inverter("4 AWG"), "fails", "129 % of 4 AWG", "us"),
        Example(_inverter("95 mm²"), "ok", "67 % of 95 mm²", ELSEWHERE),
        Example(_inverter("35 mm²", parallel=2), "ok", "two side by side", ELSEWHERE),
        Example(_inverter("50 mm²"), "tight", "98 %", ELSEWHERE),
        Example(_inverter("35 mm²", current_a=160), "tight", "a smaller inverter, exactly what it carries", ELSEWHERE),
        Example(_inverter("35 mm²"), "fails", "129 % of 35 mm²", ELSEWHERE),
    ),
    offers="wired",
    caution=cautions.BATTERY,
)
