"""The house battery survives the largest start.

A compressor takes several times its running power for a moment. All of it comes from the battery: through the inverter,
or straight where a motor at battery voltage starts.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.demand import Start
from engine.build.loads import softer
from engine.catalogue.facets import Battery
from engine.physics.direct_current import battery_current_a
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, fact


class Peak(Inputs):
    """The largest start with everything else running."""

    starter: str = fact("what starts", "catalogue")
    softer: str = fact("what helps against the start", "computed", default="choose a motor with a soft start")
    ac_va: float = fact("apparent power behind the inverter at that moment", "computed", ge=0)
    dc_w: float = fact("power of loads at battery voltage at that moment", "computed", ge=0)
    efficiency_frac: float = fact("inverter efficiency", "catalogue", gt=0, le=1)
    battery_v: float = fact("nominal battery voltage", "catalogue", gt=0)
    peak_a: float = fact("what all batteries give for the time of the start", "catalogue", gt=0)
    beyond: str = fact("what the limit of the battery means", "assumed", default="its protection trips above")


def read(build: Build, figures: Figures) -> Peak | None:
    """The start nearest to what the battery gives for so long; nothing to ask without battery, or where nothing on it
    starts with more than it runs on."""
    p = figures.power
    if p.battery_v is None:
        return None
    ac_w = p.demand.ac_w if p.inverter_w else 0.0
    moments = [_peak(build, figures, x, x.start_va, p.demand.dc_w) for x in p.demand.starts if p.inverter_w]
    moments += [_peak(build, figures, x, ac_w, x.start_va) for x in p.demand.dc_starts]
    if p.current_a is not None and p.current_a > p.bank.continuous_a:
        # What runs for long is too much by itself; a start that lasts long is no cause of that.
        moments = [x for x in moments if x.peak_a > p.bank.continuous_a]
    return max(moments, key=lambda x: _current_a(x) / x.peak_a, default=None)


def _peak(build: Build, figures: Figures, start: Start, ac_va: float, dc_w: float) -> Peak:
    p = figures.power
    assert p.battery_v is not None  # held by the caller
    return Peak(
        options=(*build.ids(Battery), start.load.option_id),
        starter=start.load.name,
        softer=softer(start.load),
        ac_va=ac_va,
        dc_w=dc_w,
        efficiency_frac=p.efficiency_frac,
        battery_v=p.battery_v,
        # A limit that lasts less than the start is no help.
        peak_a=p.bank.peak_a if p.bank.peak_s >= start.load.start_s else p.bank.continuous_a,
        beyond="its protection trips above" if p.bank.protected else "it is made for no more than",
    )


def _current_a(x: Peak) -> float:
    return battery_current_a(x.ac_va, x.efficiency_frac, x.dc_w, x.battery_v)


def judge(x: Peak) -> AtMost:
    """Peak current against the peak limit. Counting volt-amperes as watts is on the safe side."""
    return AtMost(_current_a(x), x.peak_a, "a")


_START = {"starter": "Air conditioner", "ac_va": 4800, "dc_w": 0, "efficiency_frac": 0.9, "battery_v": 12.8}
RULE = Rule(
    code="battery-peak",
    title="Battery at the largest start",
    topic="power",
    category="function",
    inputs=Peak,
    read=read,
    judge=judge,
    formula="I = (S_ac/η + P_dc) / U_battery ≤ Σ peak discharge limits, one load starting",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "When {starter} starts the battery gives {measured} of {limit} it can give for so long.",
        "tight": "When {starter} starts the battery gives {measured} of {limit} it can give for so long.",
        "fails": "When {starter} starts the battery would have to give {measured}; {beyond} {limit}.",
    },
    remedy="Add a battery in parallel, or {softer}.",
    examples=lambda: (
        Example(_START | {"peak_a": 600}, "ok", "417 A of 600 A"),
        Example(_START | {"peak_a": 450}, "tight", "93 %"),
        Example(_START | {"ac_va": 4608, "peak_a": 400}, "tight", "exactly at the limit"),
        Example(_START | {"peak_a": 400}, "fails", "417 A of 400 A"),
        Example(
            _START | {"starter": "Winch", "ac_va": 0, "dc_w": 3000, "peak_a": 200}, "fails", "234 A straight from 200 A"
        ),
    ),
    offers="battery",
    caution=cautions.BATTERY,
)
