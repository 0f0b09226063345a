"""Solar panels charge through a controller, and one that can carry them.

More panels than a controller passes lose only the top of bright days. What that comes to in a year is taken from the
hours of ten years of the place's weather, all controllers together. A tracking controller makes current of the panels'
spare voltage; a switching (PWM) one passes the panels' own current.
"""

from engine.build import Build, Figures
from engine.catalogue.facets import Battery, SolarController
from engine.rule import COMMON_PRACTICE, AtMost, Example, Holds, Inputs, Rule, Softened, fact
from engine.units import show


class Charging(Inputs):
    """Panels and controllers."""

    panels_w: float = fact("rated power of the panels on the roof", "computed", gt=0)
    panels_a: float = fact("current into the battery at that power", "computed", gt=0)
    controllers_a: float = fact("output limit of all controllers", "catalogue", ge=0)
    lost: str = fact("what is lost in a year, once it is worked out", "computed", default="")


def read(build: Build, figures: Figures) -> Charging | None:
    """Nothing to ask without panels on the roof or without one battery voltage."""
    p = figures.power
    if not p.panel_w or p.panels_a is None:
        return None
    return Charging(
        options=build.panel_ids + build.ids(SolarController, Battery),
        panels_w=p.panel_w,
        panels_a=p.panels_a,
        controllers_a=sum(f.max_output_a * part.count for part, f in build.facets(SolarController)),
        lost=_lost(build, figures),
    )


def _lost(build: Build, figures: Figures) -> str:
    """Words on the year's loss; none until it is known."""
    clipped = figures.energy.clipped if figures.energy else None
    if clipped is None:
        return ""
    share = show(clipped.share_frac, "frac", build.workshop.units, 1)
    return f", {clipped.lost_wh / 1000:,.0f} kWh ({share}) of a year's sun"


def judge(x: Charging) -> Holds | Softened:
    """Without controller it fails. A controller that clips the noon peak only loses a little."""
    if not x.controllers_a:
        return Holds(False)
    return Softened(AtMost(x.panels_a, x.controllers_a, "a", tight_from=1.0001), "tight")


RULE = Rule(
    code="solar-controller",
    title="Charge controller for the panels",
    topic="power",
    category="function",
    inputs=Charging,
    read=read,
    judge=judge,
    formula="P_panels / U_battery (switching: Σ I_mp of the strings) ≤ Σ controller output currents",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{panels_w} of panels give the controller at most {measured} of the {limit} it passes.",
        "tight": "{panels_w} of panels could give {measured}; the controller passes {limit}, the rest is lost at "
        "noon{lost}.",
        "fails": "{panels_w} of panels have no charge controller, so nothing reaches the battery.",
    },
    remedy="Choose a charge controller with enough output current.",
    examples=(
        Example({"panels_w": 600, "panels_a": 46.875, "controllers_a": 60}, "ok", "47 A of 60 A"),
        Example({"panels_w": 640, "panels_a": 50, "controllers_a": 50}, "ok", "exactly at the limit"),
        Example({"panels_w": 800, "panels_a": 62.5, "controllers_a": 50}, "tight", "62 A of 50 A: clipped at noon"),
        Example({"panels_w": 600, "panels_a": 46.875, "controllers_a": 0}, "fails", "no controller"),
    ),
    offers="solar-controller",
    caution="Panels in series reach dangerous voltages in any light. Wiring and protection belong in trained hands.",
)
