"""No single appliance asks more of one leg than a split-phase inverter gives on it.

A split-phase inverter gives half of its rating on each leg. An appliance for the lower voltage hangs on one of them.
"""

from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, fact


class Leg(Inputs):
    """The largest appliance on one leg."""

    name: str = fact("the largest appliance on one leg", "chosen")
    load_va: float = fact("its apparent power", "catalogue", gt=0)
    leg_w: float = fact("what the inverter gives on a leg", "computed", gt=0)


def read(build: Build, figures: Figures) -> Leg | None:
    """Nothing to ask without a split-phase inverter and an appliance on one leg."""
    p = figures.power
    if p.inverter is None or p.inverter.legs < 2:
        return None
    one = [x for x in p.demand.together if (x.supply_v or p.inverter.output_v) < 1.5 * p.inverter.output_v]
    largest = max(one, key=lambda x: (x.apparent_va, x.option_id), default=None)
    if largest is None:
        return None
    return Leg(
        options=(*p.inverter.ids, largest.option_id),
        name=largest.name,
        load_va=largest.apparent_va,
        leg_w=p.inverter.continuous_w / p.inverter.legs,
    )


def judge(x: Leg) -> AtMost:
    """The appliance against one leg."""
    return AtMost(x.load_va, x.leg_w, "va")


_HOB = {"name": "Hob", "leg_w": 2000}
RULE = Rule(
    code="inverter-leg",
    title="Largest appliance on one leg",
    topic="power",
    category="function",
    inputs=Leg,
    read=read,
    judge=judge,
    formula="S of the largest appliance ≤ continuous rating / 2",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{name} takes {measured} of the {limit} that a leg of the inverter gives.",
        "tight": "{name} takes {measured} of the {limit} that a leg of the inverter gives, hardly less.",
        "fails": "{name} takes {measured}; a leg of the inverter gives {limit}.",
    },
    remedy="Choose a larger inverter, or an appliance for both legs.",
    examples=(
        Example(_HOB | {"load_va": 1500}, "ok", "75 %"),
        Example(_HOB | {"load_va": 2000}, "tight", "exactly what a leg gives"),
        Example(_HOB | {"load_va": 1800}, "tight", "exactly 90 %"),
        Example(_HOB | {"load_va": 2100}, "fails", "more than a leg gives"),
    ),
    offers="inverter",
    caution="Mains voltage kills: a licensed electrician installs and tests it under the local code.",
)
