"""Solar panels charge through a controller, and one that can carry them.

More panels than a controller passes lose only the top of bright days; workshops do so on purpose, because the same
panels bring more on dull ones. What it comes to in a year is taken from the hours of ten years of the place's weather,
controller by controller; less than one hundredth counts as nothing. A tracking (MPPT) controller makes current of the
panels' spare voltage; a switching (PWM) one passes the panels' own current.
"""

from pydantic import Field

from engine import cautions
from engine.build import Build, Figures
from engine.build.sun_power import ControllerSun
from engine.catalogue.facets import Battery, SolarController
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtMost, Example, Holds, Inputs, Rule, Softened, fact
from engine.units import show

LITTLE_FRAC = 0.01
"""Share of a year's sun whose loss nobody minds (common practice)."""

NOTHING_FRAC = 0.0005
"""Less is told as nothing."""


class Charging(Inputs):
    """Panels and the controller they feed."""

    panels: str = fact("the panels", "chosen")
    controller: str = fact("the controller they feed; empty without one", "chosen")
    panels_a: float = fact("current into the battery on a bright day", "computed", ge=0)
    controller_a: float = fact("output limit of the controller", "catalogue", ge=0)
    lost_frac: float | None = fact("share of a year's sun that is clipped, once worked out", "computed", default=None)
    lost: str = Field(default="", description="the same as the end of a sentence")


def read(build: Build, figures: Figures) -> list[Charging]:
    """Nothing to ask without panels on the roof or without one battery voltage."""
    p, units = figures.power, build.workshop.units
    if not p.panel_w or p.bank.nominal_v is None:
        return []
    if not p.controlled:
        watts = show(p.panel_w, "w", units)
        lacks = "" if build.ids(SolarController) else "solar-controller"
        none = Charging(
            options=build.panel_ids, lacks=lacks, panels=f"{watts} of panels", controller="", panels_a=0, controller_a=0
        )
        return [none]
    clipped = figures.energy.clipped if figures.energy else None
    found = []
    for unit, c in enumerate(p.controllers):
        share, lost = None, ""
        if clipped is not None and unit < len(clipped.lost_wh):
            share = clipped.share_frac[unit]
            if c.bright_a > c.limit_a or share:
                kwh = f"{clipped.lost_wh[unit] / 1000:,.0f} kWh ({show(share, 'frac', units, 1)})"
                lost = (
                    f", which costs {kwh} of a year's sun" if share >= NOTHING_FRAC else ", which costs next to nothing"
                )
        found.append(
            Charging(
                options=(*dict.fromkeys(g.panel_id for g in c.strings), *build.ids(SolarController, Battery)),
                panels=_panels(c),
                controller=c.strings[0].controller_name,
                panels_a=c.bright_a,
                controller_a=c.limit_a,
                lost_frac=share,
                lost=lost,
            )
        )
    # Equal controllers with equal panels are told once.
    return [x for i, x in enumerate(found) if x not in found[:i]]


def _panels(c: ControllerSun) -> str:
    return " and ".join(f"{g.layout.panel_count} × {g.panel_name}" for g in c.strings if not g.idle)


def judge(x: Charging) -> Holds | Softened:
    """Without controller it fails. A controller that clips the noon peak only loses a little."""
    if not x.controller:
        return Holds(False)
    little = x.lost_frac is not None and x.lost_frac <= LITTLE_FRAC
    return Softened(AtMost(x.panels_a, x.controller_a, "a", tight_from=JUST_ENOUGH), "ok" if little else "tight")


_TWO = {"panels": "2 × Panel", "controller": "Controller"}
RULE = Rule(
    code="solar-controller",
    title="Charge controller for the panels",
    topic="power",
    category="function",
    inputs=Charging,
    read=read,
    judge=judge,
    formula="P·kept·(1 + 20 K·γ)·η/U_battery (switching: kept·Σ I) ≤ output current, else clipped ≤ 1 % of a year",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{panels}: {measured} on a bright day; {controller} passes {limit}{lost}.",
        "tight": "{panels}: {measured} on a bright day; {controller} passes {limit}, the rest is lost at "
        "noon{lost}.",
        "fails": "{panels} have no charge controller, so nothing reaches the battery.",
    },
    remedy="Choose a charge controller with enough output current.",
    examples=lambda: (
        Example(_TWO | {"panels_a": 46.9, "controller_a": 60}, "ok", "47 A of 60 A"),
        Example(_TWO | {"panels_a": 50, "controller_a": 50}, "ok", "exactly at the limit"),
        Example(_TWO | {"panels_a": 62.5, "controller_a": 50}, "tight", "62 A of 50 A: clipped at noon"),
        Example(_TWO | {"panels_a": 53, "controller_a": 50, "lost_frac": 0.01}, "ok", "exactly 1 % of a year's sun"),
        Example(_TWO | {"panels_a": 60, "controller_a": 50, "lost_frac": 0.03,
                        "lost": ", which costs 15 kWh (3 %) of a year's sun"}, "tight", "3 % of a year's sun"),
        Example(_TWO | {"panels_a": 0, "controller_a": 0, "controller": ""}, "fails", "no controller"),
    ),
    offers="solar-controller",
    caution=cautions.PANELS,
)  # fmt: skip
