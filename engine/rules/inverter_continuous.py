"""The inverter can feed everything that plausibly runs together.

What runs by itself (a fridge at mains voltage, air conditioning on a hot day) and the two largest things that people
switch on. A workshop can declare an interlock for loads that it wires so that only one of them can be on. In the heat
an inverter gives less; where its sheet states what, the hottest hour of the trip counts.
"""

from engine.build import Build, Figures
from engine.catalogue.facets import Inverter
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, fact, listed


class Feed(Inputs):
    """Loads at mains voltage running together, and the inverter."""

    loads: str = fact("loads that plausibly run together on the inverter", "assumed")
    together_va: float = fact("their apparent power", "computed", ge=0)
    rating_w: float = fact("what the inverter gives for long, on the hottest hour", "catalogue", gt=0)
    hottest_degc: float = fact("hottest hour of the trip", "computed", default=25.0)


def read(build: Build, figures: Figures) -> Feed | None:
    """Nothing to ask without an inverter or without loads behind it."""
    p = figures.power
    if p.inverter is None or not p.demand.together:
        return None
    together = p.demand.together
    return Feed(
        options=tuple(dict.fromkeys(build.ids(Inverter) + tuple(r.option_id for r in together[:3]))),
        loads=listed(r.name for r in together[:4]),
        together_va=p.demand.ac_va,
        rating_w=p.inverter_w,
        hottest_degc=p.inverter.ambient_degc,
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
        "fails": "On the hottest hour ({hottest_degc}) the inverter gives {limit}, and {measured} are asked of it "
        "while these run: {loads}.",
    },
    remedy="Choose a larger inverter, wire two of the loads so that only one can be on, or run them one after another.",
    examples=(
        Example({"loads": "Hob", "together_va": 1400, "rating_w": 2000}, "ok", "70 %"),
        Example({"loads": "Microwave", "together_va": 1800, "rating_w": 2000}, "tight", "exactly 90 %"),
        Example({"loads": "Microwave", "together_va": 2000, "rating_w": 2000}, "tight", "exactly at the rating"),
        Example({"loads": "Microwave, kettle", "together_va": 3300, "rating_w": 2000}, "fails", "two at once"),
        Example({"loads": "Pump", "together_va": 1080, "rating_w": 2000}, "ok", "half-horsepower motor running: 54 %"),
    ),
    offers="inverter",
    caution="Mains voltage kills: a licensed electrician installs and tests it under the local code.",
)
