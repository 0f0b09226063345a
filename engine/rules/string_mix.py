"""Panels on a charge controller stand at one voltage, and not far from their best one.

A tracking controller looks for the one voltage at which its panels give most. Strings of unlike panels in parallel all
stand at it; where their own best voltages lie apart, some give much less than they could. A switching (PWM) controller
holds all panels at the battery's voltage: those made for 12 V lose a fifth or a quarter by it, those made for house
roofs more than half. What is left follows from the current that each label's four values give at any voltage.
"""

from pydantic import Field

from engine import cautions
from engine.build import Build, Figures
from engine.build.sun_power import held_back_wh
from engine.catalogue.facets import Battery, SolarController
from engine.physics.panel import Panel
from engine.physics.panel_curve import Strings, shared_frac, string_w
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtMost, Example, Inputs, Rule, Softened, Source, fact
from engine.units import show

MIXED_FRAC = 0.02
"""What mismatch takes anyway (PVWatts)."""

SWITCHED_FRAC = 0.35
"""A 12 V panel's loss at a 12 V battery stays below this (common practice)."""

APART = "Give each kind a tracking controller of its own, or choose panels of one kind"
TRACKING = "Choose a tracking controller, or panels made for a battery of this voltage"


class Held(Inputs):
    """Panels at one voltage."""

    controller: str = fact("the controller they share", "chosen")
    strings: str = fact("panels and the voltage at which their strings give most", "computed")
    why: str = fact("what holds them at one voltage", "computed")
    lost_frac: float = fact("share of their power that this costs", "computed", ge=0, le=1)
    allowed_frac: float = fact("share of their power that unlike panels may cost", "assumed", gt=0, le=1)
    lost: str = Field(default="", description="the same in a year, once worked out, as the end of a sentence")
    way: str = fact("what loses less", "computed", default=APART)


def read(build: Build, figures: Figures) -> list[Held]:
    """One question for each controller with more than one kind of panels, and for each switching one."""
    units, controllers = build.workshop.units, figures.power.controllers
    found = []
    for unit, c in enumerate(controllers):
        switching = c.strings[0].into.switching
        # Panels that bring nothing at all stay below the battery's voltage, of which string-current-hot speaks.
        if (len(c.strings) < 2 and not switching) or c.tracked_frac <= 0:
            continue
        told = (
            f"{g.panel_name}, {g.wired}: {show(g.panel.max_power_v * g.layout.series, 'v', units)}" for g in c.strings
        )
        sun_wh = figures.energy.sun_wh_y if figures.energy else None
        kwh = 0.0 if sun_wh is None else held_back_wh(controllers, unit, sun_wh) / 1000
        found.append(
            Held(
                options=(
                    *(g.panel_id for g in c.strings),
                    *build.ids(SolarController, *((Battery,) if switching else ())),
                ),
                controller=c.strings[0].controller_name,
                strings="; ".join(told),
                why="the battery's voltage" if switching else "one voltage",
                lost_frac=1 - c.tracked_frac,
                allowed_frac=SWITCHED_FRAC if switching else MIXED_FRAC,
                lost=f", {kwh:,.0f} kWh a year" if kwh >= 0.5 else "",
                way=TRACKING if switching else APART,
            )
        )
    return found


def judge(x: Held) -> Softened:
    """Unlike voltages cost yield and harm nothing."""
    return Softened(AtMost(x.lost_frac, x.allowed_frac, "frac", tight_from=JUST_ENOUGH), "tight")


def _alone(power_v: float) -> Strings:
    """One panel of 200 W by itself."""
    return Strings(Panel(200.0, 1.19 * power_v, power_v, 1.06 * 200.0 / power_v), 1, 1)


def _together(first_v: float, second_v: float, **more: str | float) -> dict[str, str | float]:
    """Two panels side by side on a tracking controller."""
    return {
        "controller": "Controller",
        "strings": f"Panel A, one panel by itself: {first_v:.1f} V; Panel B, one panel by itself: {second_v:.1f} V",
        "why": "one voltage", "allowed_frac": MIXED_FRAC,
        "lost_frac": 1 - shared_frac((_alone(first_v), _alone(second_v))), **more,
    }  # fmt: skip


def _switched(power_v: float) -> dict[str, str | float]:
    """One panel on a switching controller, at 13.6 V of a battery that is being charged."""
    return {
        "controller": "Controller", "strings": f"Panel, one panel by itself: {power_v:.1f} V",
        "why": "the battery's voltage", "allowed_frac": SWITCHED_FRAC, "way": TRACKING,
        "lost_frac": 1 - string_w(_alone(power_v), 13.6) / 200.0,
    }  # fmt: skip


RULE = Rule(
    code="string-mix",
    title="Panels held off their best voltage",
    topic="power",
    category="function",
    inputs=Held,
    read=read,
    judge=judge,
    formula="1 − greatest Σ U·I(U) / Σ own greatest U·I ≤ 2 %; switching: 1 − U_battery·I / P ≤ 35 %",
    sources=(
        Source("PVWatts Version 5 Manual, NREL/TP-6A20-62641", "table 5, mismatch", "2026-11-25"),
        Source("H. S. Rauschenbach, Solar Cell Array Design Handbook (1980)", "curve of a panel; from memory"),
        COMMON_PRACTICE,
    ),
    says={
        "ok": "On {controller} panels stand at {why}, which takes {measured} of their power{lost} ({strings}).",
        "tight": "On {controller} panels stand at {why}, though their best one is another ({strings}). That takes "
        "{measured} of their power{lost}.",
    },
    remedy="{way}.",
    examples=lambda: (
        Example(_together(20.8, 21), "ok", "20.8 V and 21 V"),
        Example(_together(20, 22.18, lost_frac=MIXED_FRAC), "ok", "20 V and 22.2 V: exactly 2 %"),
        Example(_together(20, 33, lost=", 60 kWh a year"), "tight", "20 V and 33 V"),
        Example(_switched(18), "ok", "a 12 V panel at a 12 V battery"),
        Example(_switched(31), "tight", "a panel for house roofs at a 12 V battery"),
    ),
    offers="solar-controller",
    caution=cautions.PANELS,
)  # fmt: skip
