"""Panels in parallel stay within the current that their charge controller allows on its panel side.

A controller takes only the current it can use, but at its terminals the panels must not be able to drive more than
its maker allows: a wrong polarity or a fault inside would meet all of it. Asked where the controller's sheet states a
limit.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.solar_strings import StringGroup, by_controller, words
from engine.physics.string_layout import splits
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, fact

LARGER = "Choose a controller for more current on its panel side, or share the panels out to two"
TRACKING = (
    "Choose a controller for more current on its panel side, or a tracking one for a higher voltage, on which panels "
    "in series lose nothing"
)


class PanelCurrent(Inputs):
    """Strings in parallel on a controller."""

    name: str = fact("panels and how many", "chosen")
    controller: str = fact("the controller they feed", "chosen")
    wired: str = fact("how they are connected", "computed")
    short_a: float = fact("short-circuit current of all strings", "catalogue", gt=0)
    highest_a: float = fact("short-circuit current that the controller allows", "catalogue", gt=0)
    way: str = fact("what lowers it, or bears it", "computed", default=LARGER)


def read(build: Build, figures: Figures) -> list[PanelCurrent]:
    """One question for each controller that states a limit; unlike panels on one add up, each with its own current."""
    return [
        PanelCurrent(
            options=(*dict.fromkeys(g.panel_id for g in groups), groups[0].controller_id),
            name=" and ".join(f"{g.panel_count} × {g.panel_name}" for g in groups),
            controller=groups[0].controller_name,
            wired=" and ".join(g.wired for g in groups),
            short_a=sum(g.panel.short_circuit_a * g.layout.parallel for g in groups),
            highest_a=groups[0].into.highest_a or 0.0,
            way=_way(groups),
        )
        for groups in by_controller(tuple(g for g in figures.power.strings if not g.idle))
        if groups[0].into.highest_a is not None
    ]


def _way(groups: tuple[StringGroup, ...]) -> str:
    """Longer strings help only a tracking controller, and only below the voltage that it survives."""
    into = groups[0].into
    if into.switching:
        return TRACKING
    if len(groups) == 1:
        g = groups[0]
        ways = splits(g.panel, into, g.panel_count, g.coldest_degc, g.hottest_cell_degc)
        if not ways[0].objections:
            return f"Connect more panels in series and fewer in parallel: {words(ways[0])}"
    return LARGER


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
    remedy="{way}.",
    examples=lambda: (
        Example(_TWO | {"short_a": 20.8, "highest_a": 50}, "ok", "two strings of 10.4 A"),
        Example(_TWO | {"short_a": 30, "highest_a": 30}, "tight", "exactly what it allows"),
        Example(_TWO | {"short_a": 30.1, "highest_a": 30}, "fails", "just over it"),
    ),
    offers="solar-controller",
    caution=cautions.PANELS,
)
