"""The house battery survives the largest start.

A compressor takes several times its running power for a moment. All of it comes from the battery, through the inverter.
"""

from engine.build import Build, Figures
from engine.build.loads import softer
from engine.catalogue.facets import Battery
from engine.physics.direct_current import battery_current_a
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, fact


class Peak(Inputs):
    """The largest start with everything else running."""

    starter: str = fact("what starts", "catalogue")
    softer: str = fact("what helps against the start", "computed", default="choose a motor with a soft start")
    start_va: float = fact("apparent power while it starts, others running", "computed", ge=0)
    dc_w: float = fact("power of loads at battery voltage", "computed", ge=0)
    efficiency_frac: float = fact("inverter efficiency", "catalogue", gt=0, le=1)
    battery_v: float = fact("nominal battery voltage", "catalogue", gt=0)
    peak_a: float = fact("what all batteries give for the time of the start", "catalogue", gt=0)
    beyond: str = fact("what the limit of the battery means", "assumed", default="its protection trips above")


def read(build: Build, figures: Figures) -> Peak | None:
    """Nothing to ask without battery, inverter and something behind it that starts with more than it runs on."""
    p = figures.power
    if p.battery_v is None or not p.inverter_w or p.demand.start is None:
        return None
    return Peak(
        options=(*build.ids(Battery), p.demand.start.option_id),
        starter=p.demand.start.name,
        softer=softer(p.demand.start),
        start_va=p.demand.start_va,
        dc_w=p.demand.dc_w,
        efficiency_frac=p.efficiency_frac,
        battery_v=p.battery_v,
        # A limit that lasts less than the start is no help.
        beyond="its protection trips above" if p.bank.protected else "it is made for no more than",
        peak_a=p.bank.peak_a if p.bank.peak_s >= p.demand.start.start_s else p.bank.continuous_a,
    )


def judge(x: Peak) -> AtMost:
    """Peak current against the peak limit. Counting volt-amperes as watts is on the safe side."""
    return AtMost(battery_current_a(x.start_va, x.efficiency_frac, x.dc_w, x.battery_v), x.peak_a, "a")


_START = {"starter": "Air conditioner", "start_va": 4800, "dc_w": 0, "efficiency_frac": 0.9, "battery_v": 12.8}
RULE = Rule(
    code="battery-peak",
    title="Battery at the largest start",
    topic="power",
    category="function",
    inputs=Peak,
    read=read,
    judge=judge,
    formula="I = (S_start/η + P_dc) / U_battery ≤ Σ peak discharge limits",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "When {starter} starts the battery gives {measured} of {limit} it can give for a moment.",
        "tight": "When {starter} starts the battery gives {measured} of {limit} it can give for a moment.",
        "fails": "When {starter} starts the battery would have to give {measured}; {beyond} {limit}.",
    },
    remedy="Add a battery in parallel, or {softer}.",
    examples=lambda: (
        Example(_START | {"peak_a": 600}, "ok", "417 A of 600 A"),
        Example(_START | {"peak_a": 450}, "tight", "93 %"),
        Example(_START | {"start_va": 4608, "peak_a": 400}, "tight", "exactly at the limit"),
        Example(_START | {"peak_a": 400}, "fails", "417 A of 400 A"),
    ),
    offers="battery",
    caution="Battery currents can weld metal and start fires. Wiring and protection belong in trained hands.",
)
