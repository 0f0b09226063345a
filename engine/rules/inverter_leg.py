"""No leg of a split-phase inverter gets more than it gives, even when loads are shared out as evenly as can be.

A split-phase inverter gives half of its rating on each leg. An appliance for the lower voltage hangs on one of them,
one for the higher on both. Loads that plausibly run together are shared out so that the heavier leg is as light as
possible; no wiring does better.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.physics.legs import balanced
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, fact


class Leg(Inputs):
    """Loads on both legs."""

    name: str = fact("the largest appliance on one leg", "chosen")
    heavier_va: float = fact("loads on the heavier leg, shared out as evenly as can be", "computed", gt=0)
    lighter_va: float = fact("loads on the other leg", "computed", ge=0)
    leg_w: float = fact("what the inverter gives on a leg", "computed", gt=0)


def read(build: Build, figures: Figures) -> Leg | None:
    """Nothing to ask without a split-phase inverter and an appliance on one leg."""
    p = figures.power
    if p.inverter is None or p.inverter.legs < 2:
        return None
    low_v = p.inverter.output_v
    one = [x for x in p.demand.together if (x.supply_v or low_v) < 1.5 * low_v]
    largest = max(one, key=lambda x: (x.apparent_va, x.option_id), default=None)
    if largest is None:
        return None
    both_va = sum(x.apparent_va for x in p.demand.together if x not in one)
    legs = balanced(tuple(x.apparent_va for x in one), both_va)
    return Leg(
        options=(*p.inverter.ids, largest.option_id),
        name=largest.name,
        heavier_va=legs.heavier_va,
        lighter_va=legs.lighter_va,
        leg_w=p.inverter.continuous_w / p.inverter.legs,
    )


def judge(x: Leg) -> AtMost:
    """The heavier leg against what a leg gives."""
    return AtMost(x.heavier_va, x.leg_w, "va")


_HOB = {"name": "Hob", "lighter_va": 600, "leg_w": 2000}
RULE = Rule(
    code="inverter-leg",
    title="Loads on the two legs",
    topic="power",
    category="function",
    inputs=Leg,
    read=read,
    judge=judge,
    formula="S of the heavier leg, loads shared out as evenly as can be ≤ continuous rating / 2",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "Shared out evenly, the legs of the inverter carry {measured} and {lighter_va}; each gives {limit}.",
        "tight": "Shared out evenly, the legs of the inverter carry {measured} and {lighter_va}; each gives "
        "{limit}. The largest appliance is {name}.",
        "fails": "Even shared out best, the legs of the inverter carry {measured} and {lighter_va}; each gives "
        "{limit}. The largest appliance is {name}.",
    },
    remedy="Choose a larger inverter, or an appliance for both legs.",
    examples=lambda: (
        Example(_HOB | {"heavier_va": 1500}, "ok", "75 %"),
        Example(_HOB | {"heavier_va": 2000}, "tight", "exactly what a leg gives"),
        Example(_HOB | {"heavier_va": 1800}, "tight", "exactly 90 %"),
        Example(_HOB | {"heavier_va": 2100}, "fails", "more than a leg gives"),
    ),
    offers="inverter",
    caution=cautions.MAINS,
)
