"""Panels in parallel stay within the current that their charge controller allows on its panel side.

A controller takes only the current it can use, but at its terminals the panels must not be able to drive more than
its maker allows: a wrong polarity or a fault inside would meet all of it. Asked where the controller's sheet states a
limit.
"""

from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, fact


class PanelCurrent(Inputs):
    """Strings in parallel on a controller."""

    name: str = fact("panels and how many", "chosen")
    controller: str = fact("the controller they feed", "chosen")
    wired: str = fact("how they are connected", "computed")
    short_a: float = fact("short-circuit current of all strings", "catalogue", gt=0)
    highest_a: float = fact("short-circuit current that the controller allows", "catalogue", gt=0)


def read(build: Build, figures: Figures) -> list[PanelCurrent]:
    """One question for each group whose controller states a limit; groups that share a controller add up."""
    groups = [g for g in figures.power.strings if g.into.highest_a is not None]
    return [
        PanelCurrent(
            options=(g.panel_id, g.controller_id),
            name=f"{g.panel_count} × {g.panel_name}",
            controller=g.controller_name,
            wired=g.wired,
            short_a=g.panel.short_circuit_a * g.layout.parallel,
            highest_a=g.into.highest_a or 0.0,
        )
        for g in groups
    ]


def judge(x: PanelCurrent) -> AtMost:
    """Short-circuit current against the controller's limit."""
    return AtMost(x.short_a, x.highest_a, "a", tight_from=0.97)


_TWO = {"name": "4 × Panel", "controller": "Controller", "wired": "2 in series, 2 such strings"}
RULE = Rule(
    code="controller-current",
    title="Current on the controller's panel side",
    topic="power",
    category="function",
    inputs=PanelCurrent,
    read=read,
    judge=judge,
    formula="strings in parallel · I_sc ≤ highest short-circuit current of the controller",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{name}, {wired}, can drive {measured} into {controller}; it allows {limit}.",
        "tight": "{name}, {wired}, can drive {measured} into {controller}, close to the {limit} it allows.",
        "fails": "{name}, {wired}, can drive {measured} into {controller}; it allows {limit}.",
    },
    remedy="Connect more panels in series and fewer in parallel, or choose a controller for more current.",
    examples=(
        Example(_TWO | {"short_a": 20.8, "highest_a": 50}, "ok", "two strings of 10.4 A"),
        Example(_TWO | {"short_a": 30, "highest_a": 30}, "tight", "exactly what it allows"),
        Example(_TWO | {"short_a": 30.1, "highest_a": 30}, "fails", "just over it"),
    ),
    offers="solar-controller",
    caution="Panels in series reach dangerous voltages in any light. Wiring and protection belong in trained hands.",
)
