"""For each circuit a usual cable and fuse are found.

The largest currents need cables thicker than anybody bends into a locker. Two side by side, each with its own fuse,
then do; where even those do not, the current has to come down, most simply with a battery of higher voltage.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.circuit_lines import Line
from engine.build.wiring_practice import Lay, practice
from engine.physics.conductor_choice import Run, thinnest
from engine.physics.voltage_drop import CRITICAL_FRAC
from engine.rule import ELSEWHERE, Example, Holds, Inputs, Rule, Source, fact


class Found(Inputs):
    """Whether a cable is found."""

    circuit: str = fact("the circuit", "computed")
    current_a: float = fact("its current", "computed", gt=0)
    length_run_m: float = fact("its length one way", "computed", gt=0)
    found: bool = fact("whether a usual cable and fuse carry it", "computed")
    cable: str = fact("the cable", "computed", default="none")
    circuits: str = fact("how many circuits have cable and fuse, in words", "computed", default="")


def read(build: Build, figures: Figures) -> list[Found] | None:
    """Each circuit without one; else the one with most current, for all."""
    lines = figures.circuits.lines
    if not lines:
        return None
    missing = [x for x in lines if x.size is None]
    most = max(lines, key=lambda x: (x.ask.current_a, x.number))
    return [
        Found(
            options=x.ask.option_ids,
            circuit=x.ask.what,
            current_a=x.ask.current_a,
            length_run_m=x.ask.one_way_m,
            found=x.size is not None,
            cable=x.cable_words,
            circuits=_counted(lines),
        )
        for x in missing or [most]
    ]


def _counted(lines: tuple[Line, ...]) -> str:
    """How many circuits have what; a fuse that cannot break the fault is another check's matter, but not counted."""
    cabled = [x for x in lines if x.size is not None]
    fused = sum(not x.unbroken for x in cabled)
    have = f"{len(cabled)} of {len(lines)} circuits have a usual cable"
    return f"{have} and fuse" if fused == len(cabled) else f"{have}, and {fused} a usual fuse"


def judge(x: Found) -> Holds:
    """Holds when one is found."""
    return Holds(x.found)


def _main(current_a: float, metric: bool = False) -> dict[str, str | float | bool]:
    """A main cable at 12 V, found as the checks find it."""
    best = thinnest(Run(current_a, 0.8, 12.0, CRITICAL_FRAC), practice(Lay(metric, None, 2, ())))
    many = "two of " if best and best.parallel == 2 else ""
    return {
        "circuit": "Main cable", "current_a": current_a, "length_run_m": 0.8, "found": best is not None,
        "cable": f"{many}{best.conductor}" if best else "none",
        "circuits": f"{24 if best else 23} of 24 circuits have a usual cable and fuse",
    }  # fmt: skip


RULE = Rule(
    code="cable-found",
    title="Cable for each circuit",
    topic="power",
    category="safety",
    inputs=Found,
    read=read,
    judge=judge,
    formula="some usual size: 1.25·I ≤ fuse ≤ ampacity, drop ≤ 3 % or 10 %; else two side by side",
    sources=(
        Source("33 CFR 183.425, table 5", "ampacity, 105 °C as in ABYC E-11", "2026-11-25"),
        Source("ISO 13297:2020, annex A", "from memory"),
        Source("Common practice", "two equal cables side by side, each with its own fuse"),
    ),
    says={
        "ok": "{circuits}. The largest is {circuit}: {current_a} through {cable}.",
        "fails": "{circuit} carries {current_a}, and no usual cable and fuse do that, not even two side by side.",
    },
    remedy="Choose a battery of higher voltage, or a smaller inverter or charger.",
    examples=lambda: (
        Example(_main(263), "ok", "one cable", "us"),
        Example(_main(500), "ok", "two, each with its fuse", "us"),
        Example(_main(263, metric=True), "ok", "one cable", ELSEWHERE),
        Example(_main(500, metric=True), "ok", "two, each with its fuse", ELSEWHERE),
        Example(_main(1340), "fails", "1,340 A at 12 V"),
    ),
    offers="inverter",
    caution=cautions.BATTERY,
)
