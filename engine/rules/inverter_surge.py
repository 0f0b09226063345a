"""The inverter survives the largest start, mostly a motor's, while the rest keeps running.

What it gives for seconds it does not give for long: of several starts the one counts that comes nearest to what the
inverter gives for the time that it lasts.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.loads import softer
from engine.catalogue.facets import Inverter
from engine.rule import AtMost, Example, Inputs, Rule, Source, fact


class Surge(Inputs):
    """The largest start with everything else running."""

    starter: str = fact("what starts", "catalogue")
    start_multiple: float = fact("its starting draw over its running draw", "catalogue", ge=1)
    start_va: float = fact("apparent power while it starts, others running", "computed", ge=0)
    softer: str = fact("what helps against the start", "computed", default="choose a motor with a soft start")
    surge_va: float = fact("what the inverter gives for the time of the start", "catalogue", gt=0)


def read(build: Build, figures: Figures) -> Surge | None:
    """Nothing to ask without an inverter and something behind it that starts with more than it runs on."""
    p = figures.power
    start = p.inverter.start if p.inverter else None
    if p.inverter is None or start is None:
        return None
    return Surge(
        options=tuple(dict.fromkeys((*build.ids(Inverter), start.load.option_id))),
        starter=start.load.name,
        start_multiple=start.load.start_multiple,
        start_va=start.start_va,
        softer=softer(start.load),
        surge_va=p.inverter.surge_va,
    )


def judge(x: Surge) -> AtMost:
    """Apparent power at the start against the surge rating."""
    return AtMost(x.start_va, x.surge_va, "va")


_MOTOR = {"starter": "Half-horsepower motor", "start_multiple": 4.44, "start_va": 4800}
RULE = Rule(
    code="inverter-surge",
    title="Inverter at the largest start",
    topic="power",
    category="function",
    inputs=Surge,
    read=read,
    judge=judge,
    formula="Σ S_running + (k − 1)·S_start ≤ surge rating",
    sources=(
        Source("NEMA MG 1", "locked-rotor code letters, the measure of a motor's start", "2026-11-25"),
        Source("Common practice", "a compressor starts with four to six times its running draw"),
    ),
    says={
        "ok": "When {starter} starts beside the rest, {measured} are taken; the inverter gives {limit} for so long.",
        "tight": "When {starter} starts beside the rest, {measured} are taken, close to the inverter's {limit}.",
        "fails": "{starter} needs {measured} to start while the rest runs; the inverter gives {limit} for so long.",
    },
    remedy="Choose an inverter with a higher surge rating, or {softer}.",
    examples=lambda: (
        Example(_MOTOR | {"surge_va": 6000}, "ok", "80 % of a 6 kVA surge"),
        Example(_MOTOR | {"surge_va": 5300}, "tight", "91 %"),
        Example(_MOTOR | {"surge_va": 4800}, "tight", "exactly at the rating"),
        Example({"starter": "Microwave", "start_multiple": 1.3, "start_va": 2015, "surge_va": 6000}, "ok", "no motor"),
        Example(_MOTOR | {"surge_va": 4000}, "fails", "120 % of a 4 kVA surge"),
    ),
    offers="inverter",
    caution=cautions.MAINS,
)
