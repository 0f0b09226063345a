"""Panels on a switching controller keep enough of their current to fill the battery when they are hot.

A switching (PWM) controller joins its panels to the battery, so they stand at its voltage, whatever their best one is.
Up to their best voltage they give their whole current; above it less and less, and at their open-circuit voltage none.
Heat lowers both. A little less current on the hottest noon is no harm; with little left the battery stays short of
full on hot days.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.solar_strings import words
from engine.physics.panel import Panel
from engine.physics.panel_curve import held_frac, warm_panel
from engine.physics.string_layout import LEAST_HELD_FRAC
from engine.rule import COMMON_PRACTICE, AtLeast, Example, Inputs, Rule, Source, fact

CLOSE_FRAC = 0.9
"""From here on nobody minds (assumption)."""


class HotCurrent(Inputs):
    """A string on the hottest noon, at the voltage of the full battery."""

    name: str = fact("panels and how many", "chosen")
    controller: str = fact("the switching controller they feed", "chosen")
    wired: str = fact("how they are connected", "computed")
    held_frac: float = fact("share of their current left at the full battery's voltage, hot", "computed", ge=0, le=1)
    hot_v: float = fact("voltage of a string at its greatest power, hot", "computed", gt=0)
    cell_degc: float = fact("cells on the hottest noon of the year", "computed")
    charge_v: float = fact("voltage of the full battery while it charges", "computed", gt=0)
    least_frac: float = fact(
        "share of hot panels' current that still fills a battery", "assumed", default=LEAST_HELD_FRAC
    )
    instead: str = fact("what would work", "computed", default="")


def read(build: Build, figures: Figures) -> list[HotCurrent]:
    """One question for each group of panels on a switching controller."""
    return [
        HotCurrent(
            options=(g.panel_id, g.controller_id),
            name=f"{g.panel_count} × {g.panel_name}",
            controller=g.controller_name,
            wired=g.wired,
            held_frac=g.layout.held_frac,
            hot_v=g.layout.hot_power_v,
            cell_degc=g.hottest_cell_degc,
            charge_v=g.into.charge_v,
            instead=f"; {g.better.panel_count} of them would work, {words(g.better)}" if g.better else "",
        )
        for g in figures.power.strings
        if g.into.switching
    ]


def judge(x: HotCurrent) -> AtLeast:
    """Current left against half of it; close up to nine tenths."""
    return AtLeast(x.held_frac, x.least_frac, "frac", tight_from=x.least_frac / CLOSE_FRAC)


def _one(power_v: float, **more: float) -> dict[str, str | float]:
    """One panel of 100 W that gives most at such a voltage by its label, with cells at 65 °C, on a 12 V battery."""
    panel = Panel(100.0, 1.19 * power_v, power_v, 1.06 * 100.0 / power_v)
    return {
        "name": "1 × Panel", "controller": "Controller", "wired": "one panel by itself", "cell_degc": 65,
        "charge_v": 14.4, "held_frac": held_frac(panel, 1, 14.4, 65.0), "hot_v": warm_panel(panel, 65.0).max_power_v,
        **more,
    }  # fmt: skip


RULE = Rule(
    code="string-current-hot",
    title="Panel current on the hottest noon",
    topic="power",
    category="function",
    inputs=HotCurrent,
    read=read,
    judge=judge,
    formula="I(U_battery) / I_mp of the hot panels' curve ≥ 50 %",
    sources=(
        Source("IEC 60891", "linear temperature coefficients (from memory)"),
        Source("H. S. Rauschenbach, Solar Cell Array Design Handbook (1980)", "curve of a panel; from memory"),
        COMMON_PRACTICE,
    ),
    says={
        "ok": "{name} on {controller}, {wired}: with cells at {cell_degc} they still give {measured} of their current "
        "at the full battery's {charge_v}.",
        "tight": "{name} on {controller}, {wired}: with cells at {cell_degc} they give {measured} of their current at "
        "the full battery's {charge_v}. Their best voltage is {hot_v} then.",
        "fails": "{name} on {controller}, {wired}: with cells at {cell_degc} they give {measured} of their current at "
        "the full battery's {charge_v}. Their best voltage is {hot_v} then, so on hot days it stays short of full. The "
        "sun's yield counts that.",
    },
    remedy="Choose panels of a higher voltage{instead}.",
    examples=lambda: (
        Example(_one(18.6), "ok", "18.6 V at 65 °C: 15.6 V"),
        Example(_one(14.39 / 0.84), "ok", "a hundredth of a volt short"),
        Example(_one(15.22), "tight", "a low one in the heat"),
        Example(_one(14.3833, held_frac=LEAST_HELD_FRAC), "tight", "exactly half"),
        Example(_one(13.95), "fails", "next to none"),
    ),
    follows=("panels-on-roof",),
    offers="solar-panel",
    caution=cautions.PANELS,
)
