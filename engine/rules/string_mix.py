"""Unlike panels on one charge controller have strings of about the same voltage.

A controller looks for the one voltage at which its panels give most. Strings of unlike panels in parallel all stand at
that voltage; where their own best voltages lie apart, one of them gives much less than it could, or nothing.
"""

from engine.build import Build, Figures
from engine.build.solar_strings import by_controller
from engine.catalogue.facets import SolarController
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, Softened, fact
from engine.units import show


class Mixed(Inputs):
    """Strings of unlike panels in parallel."""

    controller: str = fact("the controller they share", "chosen")
    strings: str = fact("panels and the voltage at which their strings give most", "computed")
    apart_frac: float = fact("how far the lowest voltage lies below the highest", "computed", ge=0, le=1)
    allowed_frac: float = fact("difference that costs next to nothing", "assumed", gt=0, le=1)


def read(build: Build, figures: Figures) -> list[Mixed]:
    """One question for each controller with more than one kind of panels."""
    units = build.workshop.units
    found = []
    for groups in by_controller(figures.power.strings):
        if len(groups) < 2:
            continue
        volts = [g.panel.max_power_v * g.layout.series for g in groups]
        told = (f"{g.panel_name}, {g.wired}: {show(v, 'v', units)}" for g, v in zip(groups, volts, strict=True))
        found.append(
            Mixed(
                options=(*(g.panel_id for g in groups), *build.ids(SolarController)),
                controller=groups[0].controller_name,
                strings="; ".join(told),
                apart_frac=1 - min(volts) / max(volts),
                allowed_frac=0.05,
            )
        )
    return found


def judge(x: Mixed) -> Softened:
    """Unlike voltages cost yield and harm nothing."""
    return Softened(AtMost(x.apart_frac, x.allowed_frac, "frac", tight_from=1.01), "tight")


_TWO = {"controller": "Controller", "strings": "Panel A, one panel by itself: 20 V; Panel B, one panel by itself: 21 V"}
RULE = Rule(
    code="string-mix",
    title="Unlike panels on one controller",
    topic="power",
    category="function",
    inputs=Mixed,
    read=read,
    judge=judge,
    formula="1 − lowest U_mp of a string / highest ≤ 5 %",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "Unlike panels on {controller} suit each other ({strings}).",
        "tight": "Unlike panels on {controller} stand at one voltage, though their best ones lie {measured} apart "
        "({strings}). Some of them give much less than they could.",
    },
    remedy="Give each kind a controller of its own, or choose panels of one kind.",
    examples=(
        Example(_TWO | {"apart_frac": 0.01, "allowed_frac": 0.05}, "ok", "20.8 V and 21 V"),
        Example(_TWO | {"apart_frac": 0.05, "allowed_frac": 0.05}, "ok", "exactly 5 % apart"),
        Example(_TWO | {"apart_frac": 0.4, "allowed_frac": 0.05}, "tight", "20 V and 33 V"),
    ),
    offers="solar-controller",
    caution="Panels in series reach dangerous voltages in any light. Wiring and protection belong in trained hands.",
)
