"""A generator bears the largest start that may hang on it, with the rest running.

A generator's engine has little to spare for the moment of a start: an air conditioner that runs on it can stall it. The
charger may wait. Fuel for a day's power is told where the generator's use is stated; it is good to a fifth.
"""

from pydantic import Field

from engine.build import Build, Figures
from engine.build.charging import GeneratorFigures
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, Unknown, fact
from engine.units import System, show


class Start(Inputs):
    """The heaviest moment on a generator."""

    name: str = fact("the generator", "chosen")
    moment: str = Field(description="when that is, as the beginning of a sentence")
    start_va: float = fact("apparent power at that moment, others running", "computed", ge=0)
    softer: str = fact("what helps against the start", "computed", default="choose a motor with a soft start")
    gives_va: float = fact("what the generator gives for it", "catalogue", gt=0)
    day: str = fact("hours and fuel for what a day takes from the battery", "computed", default="")


def _day(g: GeneratorFigures, units: System) -> str:
    """A sentence, with its space before it; none where nothing charges from it."""
    if g.day_h is None:
        return ""
    fuel = "" if g.day_l is None else f" and {show(g.day_l, 'l', units, 1)} of fuel"
    return f" A day's power takes {show(g.day_h, 'h', units)} of charging{fuel}."


def read(build: Build, figures: Figures) -> list[Start | Unknown]:
    """One question for each generator; what its start gives has to be known only where it is needed."""
    found: list[Start | Unknown] = []
    for g in figures.power.generators:
        if g.surge_va is None and g.start_va > g.continuous_w:
            found.append(
                Unknown("what the generator gives for a start", "Read it from its data sheet.", (g.option_id,))
            )
            continue
        gives_va = max(g.continuous_w, g.surge_va or 0.0)
        # What runs for long is held against what it keeps up, if that is the tighter of the two.
        starts = g.start and g.start_va / gives_va >= g.running_va / g.continuous_w
        found.append(
            Start(
                options=(g.option_id,),
                name=g.name,
                moment=f"When {g.start} starts," if starts else "With all that runs on it",
                start_va=g.start_va if starts else g.running_va,
                softer=g.softer if starts else "run less at the same time",
                gives_va=gives_va if starts else g.continuous_w,
                day=_day(g, build.workshop.units),
            )
        )
    return found


def judge(x: Start) -> AtMost:
    """Start against what the generator gives."""
    return AtMost(x.start_va, x.gives_va, "va")


_ONE = {"name": "Generator", "moment": "When Air conditioner starts,", "gives_va": 3000}
RULE = Rule(
    code="generator-start",
    title="Generator at the largest start",
    topic="power",
    category="function",
    inputs=Start,
    read=read,
    judge=judge,
    formula="Σ S_running + (k − 1)·S_start ≤ surge of the generator, or its rating",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{moment} {name} gives {measured} of its {limit}.{day}",
        "tight": "{moment} {name} gives {measured}, close to its {limit}.{day}",
        "fails": "{moment} {measured} are asked of {name}; it gives {limit} at most.",
    },
    remedy="Choose a larger generator, {softer}, or leave large loads off it.",
    examples=lambda: (
        Example(_ONE | {"start_va": 2400}, "ok", "80 %"),
        Example(_ONE | {"start_va": 3000}, "tight", "exactly what it gives"),
        Example(_ONE | {"start_va": 3100}, "fails", "it stalls"),
    ),
    offers="generator",
    caution="Exhaust of a generator kills people asleep: never run it inside, under or beside an open window.",
)
