"""A fuse that the workshop states carries its load and protects its cable.

A fuse is for the cable: it has to blow before the cable gets too hot, so it is never larger than what the cable
carries. It also has to carry the load for hours, so it is a quarter larger than the load. On the battery side of an
inverter the battery's voltage counts: 2,000 W are some 200 A there, not the 17 A that a wall socket would give. The
most it takes is at the voltage at which it cuts off, 207 A at 11 V; that passes soon, so the quarter is added to the
189 A of 12 V.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.circuits import sized_lines
from engine.physics.overcurrent import CONTINUOUS, through_fuse_w
from engine.rule import ELSEWHERE, JUST_ENOUGH, AtLeast, AtMost, Example, Inputs, Rule, Source, fact
from engine.rules.wire_size import carries_a, each_of


class Fused(Inputs):
    """One circuit whose fuse is stated."""

    circuit: str = fact("the circuit", "catalogue")
    cable: str = fact("its cable", "computed")
    fuse_a: float = fact("fuse on each cable", "catalogue", gt=0)
    share_a: float = fact("current in each cable, an inverter's at its cut-off voltage", "computed", gt=0)
    wanted_a: float = fact("a quarter more than what runs for hours, an inverter's at 12, 24 or 48 V", "computed", gt=0)
    carries_a: float = fact("what each cable may carry", "computed", gt=0)
    passes: str = fact("what the fuse lets through", "computed", default="")

    @property
    def one(self) -> str:
        """The cable, or each of several."""
        return each_of(self.cable)

    @property
    def lacking_a(self) -> float:
        """By how much the load passes what the cable carries; 0 where some fuse suits both."""
        return max(0.0, self.share_a - self.carries_a)


def read(build: Build, figures: Figures) -> list[Fused]:
    """One question for each fuse that the workshop states."""
    power = figures.power
    found = []
    for x in sized_lines(figures.circuits, power):
        if x.ask.fuse_a is None:
            continue
        feeds_inverter = (
            power.inverter is not None
            and not x.ask.mains
            and any(i in power.inverter.ids for i in x.ask.option_ids[:1])
        )
        watts = through_fuse_w(x.ask.fuse_a * x.parallel, x.ask.system_v, power.efficiency_frac)
        found.append(
            Fused(
                options=x.ask.option_ids,
                circuit=x.ask.what,
                cable=x.cable_words,
                fuse_a=x.ask.fuse_a,
                share_a=x.share_a,
                wanted_a=max(x.share_a, x.ask.design_a / x.parallel),
                carries_a=x.ampacity_a,
                passes=f" It would blow at {watts:,.0f} W behind the inverter." if feeds_inverter else "",
            )
        )
    return found


def judge(x: Fused) -> AtMost | AtLeast:
    """Too small for the load comes first; then against the cable."""
    if x.fuse_a > x.carries_a * (1 + 1e-9):
        return AtMost(x.fuse_a, x.carries_a, "a")
    if x.fuse_a < x.wanted_a * (1 - 1e-9):
        return AtLeast(x.fuse_a, x.share_a, "a", tight_from=0.0)
    return AtMost(x.fuse_a, x.carries_a, "a", tight_from=JUST_ENOUGH)


def _inverter(
    label: str, fuse_a: float, insulation_degc: float | None = None, parallel: int = 1
) -> dict[str, str | float]:
    """An inverter of 2 kW: 206.6 A at its cut-off voltage, 189.4 A at 12 V, and a quarter more for hours."""
    return {
        "circuit": "Inverter 2 kW", "cable": f"two of {label}" if parallel == 2 else label, "fuse_a": fuse_a,
        "share_a": 206.6 / parallel, "wanted_a": CONTINUOUS * 189.4 / parallel,
        "carries_a": carries_a(label, insulation_degc),
    }  # fmt: skip


RULE = Rule(
    code="fuse-size",
    title="Rating of a stated fuse",
    topic="power",
    category="safety",
    inputs=Fused,
    read=read,
    judge=judge,
    formula="load ≤ fuse ≤ ampacity of its cable; wanted: 1.25·load ≤ fuse, of an inverter at 12, 24 or 48 V, not at "
    "its cut-off",
    sources=(
        Source("NFPA 70 (NEC) 2023", "210.20(A), 240.4", "2026-11-25"),
        Source("ABYC E-11", "fuses and ampacity, as reproduced", "2026-11-25"),
    ),
    says={
        "ok": "{circuit}: a fuse of {fuse_a} carries the load and protects {one}, which carries {carries_a}.",
        "tight": "{circuit}: a fuse of {fuse_a} carries {share_a}, but not for hours; {wanted_a} would.",
        "fails": "{circuit}: the fuse is {measured}"
        "{lacking_a:, and it must be between {share_a} for the load and {carries_a} for {one}"
        "|. The load takes {share_a} and {one} carries {carries_a}, so no fuse suits both"
        "|. The load takes {share_a} and {one} carries {carries_a}, so no fuse suits both}.{passes}",
    },
    remedy="Take a fuse of at least {wanted_a}, and a cable that carries more than the fuse.",
    examples=lambda: (
        Example(_inverter("2/0 AWG", 250), "ok", "250 A on 2/0 AWG", "us"),
        Example(_inverter("2/0 AWG", 300), "ok", "300 A will do as well", "us"),
        Example(_inverter("4/0 AWG", 300, 60), "ok", "exactly its ampacity, with insulation for 60 °C", "us"),
        Example(_inverter("2/0 AWG", 225), "tight", "but not for hours", "us"),
        Example(_inverter("2/0 AWG", 20), "fails", "worked out from the mains side: 20 A", "us"),
        Example(_inverter("4 AWG", 250), "fails", "250 A on 4 AWG", "us"),
        Example(_inverter("4 AWG", 150, parallel=2), "ok", "two cables, each with its own fuse", "us"),
        Example(_inverter("95 mm²", 250), "ok", "250 A on 95 mm²", ELSEWHERE),
        Example(_inverter("95 mm²", 300), "ok", "300 A will do as well", ELSEWHERE),
        Example(_inverter("120 mm²", 450, 105), "ok", "exactly its ampacity, with insulation for 105 °C", ELSEWHERE),
        Example(_inverter("95 mm²", 225), "tight", "but not for hours", ELSEWHERE),
        Example(_inverter("95 mm²", 10), "fails", "worked out from the mains side: 10 A", ELSEWHERE),
        Example(_inverter("35 mm²", 250), "fails", "250 A on 35 mm²", ELSEWHERE),
        Example(_inverter("35 mm²", 150, parallel=2), "ok", "two cables, each with its own fuse", ELSEWHERE),
    ),
    offers="wired",
    caution=cautions.BATTERY,
)  # fmt: skip
