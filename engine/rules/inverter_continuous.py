"""The inverter can feed everything that plausibly runs together.

What runs by itself (a fridge at mains voltage, air conditioning on a hot day) and the two largest things that people
switch on. A workshop can declare an interlock for loads that it wires so that only one of them can be on. In the heat
an inverter gives less; where its sheet states what, the hottest hour of the trip counts.
"""

from pydantic import Field

from engine import cautions
from engine.build import Build, Figures
from engine.catalogue.facets import Inverter
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, each_once, fact, listed
from engine.units import show

APART = "Choose a larger inverter, wire two of the loads so that only one can be on, or run them one after another"
SMALLER = "Choose a larger inverter, or something smaller to run on it"


class Feed(Inputs):
    """Loads at mains voltage running together, and the inverter."""

    loads: str = fact("loads that plausibly run together on the inverter", "assumed")
    together_va: float = fact("their apparent power", "computed", ge=0)
    rating_w: float = fact("what the inverter gives for long, on the hottest hour", "catalogue", gt=0)
    hottest_degc: float = fact("hottest hour of the trip", "computed", default=25.0)
    heat: str = Field(default="", description="when heat takes from it, as a part of a sentence")
    way: str = Field(default=APART, description="the way out")


def read(build: Build, figures: Figures) -> Feed | None:
    """Nothing to ask without an inverter or without loads behind it."""
    p = figures.power
    if p.inverter is None or not p.demand.together:
        return None
    together = p.demand.together
    derated = p.inverter.continuous_w < p.inverter.rated_w
    return Feed(
        options=tuple(dict.fromkeys(build.ids(Inverter) + tuple(r.option_id for r in together[:3]))),
        loads=listed(each_once(r.name for r in together[:4])),
        together_va=p.demand.ac_va,
        rating_w=p.inverter_w,
        hottest_degc=p.inverter.ambient_degc,
        heat=f" on the hottest hour ({show(p.inverter.ambient_degc, 'degc', build.workshop.units)})" if derated else "",
        way=APART if len(together) > 1 else SMALLER,
    )


def judge(x: Feed) -> AtMost:
    """Apparent power against the continuous rating."""
    return AtMost(x.together_va, x.rating_w, "va")


RULE = Rule(
    code="inverter-continuous",
    title="Inverter with everything running",
    topic="power",
    category="function",
    inputs=Feed,
    read=read,
    judge=judge,
    formula="Σ (P/cos φ) of the loads that run together ≤ continuous rating",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "Of the inverter's {limit}, {measured} are taken while these run: {loads}.",
        "tight": "Of the inverter's {limit}, {margin:nothing is|only # is|only # are} left while these run: {loads}.",
        "fails": "The inverter gives {limit}{heat}, and {measured} are asked of it while these run: {loads}.",
    },
    remedy="{way}.",
    examples=lambda: (
        Example({"loads": "Hob", "together_va": 1400, "rating_w": 2000}, "ok", "70 %"),
        Example({"loads": "Microwave", "together_va": 1800, "rating_w": 2000}, "tight", "exactly 90 %"),
        Example({"loads": "Microwave", "together_va": 2000, "rating_w": 2000}, "tight", "exactly at the rating"),
        Example({"loads": "Microwave, kettle", "together_va": 3300, "rating_w": 2000}, "fails", "two at once"),
        Example(
            {"loads": "Hob", "together_va": 3600, "rating_w": 2000, "way": SMALLER}, "fails", "one that is too large"
        ),
        Example({"loads": "Pump", "together_va": 1080, "rating_w": 2000}, "ok", "half-horsepower motor running: 54 %"),
    ),
    offers="inverter",
    caution=cautions.MAINS,
)
