"""A water heater without a store warms enough water as it flows.

It makes warm water as long as fuel and tank last, but only so much in a minute. Below half of what the shower head lets
through it is a thin stream.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.physics.hot_water import SKIN_DEGC
from engine.rule import COMMON_PRACTICE, AtLeast, Example, Inputs, Rule, Source, fact

LEAST_FRAC = 0.5
"""Share of the head's flow that still makes a shower (assumption)."""


class Flow(Inputs):
    """Warm flow against the shower's."""

    name: str = fact("water heater", "chosen")
    warm_l_min: float = fact("flow it warms for a shower", "computed", ge=0)
    skin_degc: float = fact("warmth of the water at the shower", "assumed", default=SKIN_DEGC)
    head_l_min: float = fact("flow of the shower", "catalogue", gt=0)


def read(build: Build, figures: Figures) -> Flow | None:
    """The strongest heater of the kind; nothing to ask where a store serves the shower, or nobody wants one."""
    hot = figures.hot_water
    if not hot.instants or hot.stores or not hot.shower_ids or not build.trip.showers_per_day:
        return None
    best = max(hot.instants, key=lambda x: x.warm_l_min)
    return Flow(
        options=(best.option_id, *hot.shower_ids),
        name=best.name,
        warm_l_min=best.warm_l_min,
        head_l_min=figures.water.shower_flow_l_min,
    )


def judge(x: Flow) -> AtLeast:
    """At least half of what the head lets through."""
    return AtLeast(x.warm_l_min, LEAST_FRAC * x.head_l_min, "l_min")


RULE = Rule(
    code="hot-water-flow",
    title="Warm water as it flows",
    topic="water",
    category="comfort",
    inputs=Flow,
    read=read,
    judge=judge,
    formula="flow = heat / (1.163 Wh/(L·K) · 28 K) ≥ 50 % of the shower's flow",
    sources=(Source("Heat balance of mixing", "any text on heat"), COMMON_PRACTICE),
    says={
        "ok": "{name} warms {measured} to {skin_degc}, without end; the shower lets {head_l_min} through.",
        "tight": "{name} warms only {measured} to {skin_degc}; the shower lets {head_l_min} through.",
        "fails": "{name} warms only {measured} to {skin_degc}; the shower lets {head_l_min} through, so it comes thin "
        "or cold.",
    },
    remedy="Choose a stronger heater, one with a store, or a head that lets through less.",
    examples=lambda: (
        Example({"name": "Instant heater", "warm_l_min": 5.1, "head_l_min": 6}, "ok", "10 kW"),
        Example({"name": "Instant heater", "warm_l_min": 3, "head_l_min": 6}, "tight", "exactly half"),
        Example({"name": "Instant heater", "warm_l_min": 1.8, "head_l_min": 6}, "fails", "3.5 kW"),
    ),
    offers="water-heater",
    caution=cautions.SCALDING,
)
