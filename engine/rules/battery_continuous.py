"""The house battery can feed everything that plausibly runs together.

A lithium battery's protection switches off above its continuous limit; lead has none, and sags and wears. Watts
behind the inverter count with the inverter's loss, and an appliance counts with what it takes, not with what its label
says it gives. The battery, not the inverter, is often the part that gives out first.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.catalogue.facets import Battery, Inverter
from engine.physics.direct_current import battery_current_a
from engine.physics.inverter import largest_ac_w
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, Unknown, each_once, fact, listed
from engine.units import show


class Drain(Inputs):
    """Loads running together, and the battery."""

    loads: str = fact("loads that plausibly draw on the battery together", "assumed")
    ac_w: float = fact("their power behind the inverter", "computed", ge=0)
    dc_w: float = fact("power of loads at battery voltage", "computed", ge=0)
    efficiency_frac: float = fact("inverter efficiency", "catalogue", gt=0, le=1)
    battery_v: float = fact("nominal battery voltage", "catalogue", gt=0)
    limit_a: float = fact("continuous discharge limit of all batteries", "catalogue", gt=0)
    beyond: str = fact("what the limit of the battery means", "assumed", default="it switches off above")
    largest_w: float | None = fact("mains load that it can feed for long", "computed", default=None, ge=0)

    @property
    def feeds(self) -> str:
        """What it can feed, as the end of a sentence; nothing where no mains load is left to feed."""
        if not self.largest_w:
            return ""
        return f": as it is, the battery feeds {show(self.largest_w, 'w', 'metric')} of mains loads"


def read(build: Build, figures: Figures) -> Drain | Unknown | None:
    """Nothing to ask without battery; not known while batteries that make no one bank are mixed."""
    p = figures.power
    if not p.bank.groups:
        return None
    ids = build.ids(Battery, Inverter)
    if p.battery_v is None:
        return Unknown("battery current while unlike batteries are mixed", "Choose batteries of one kind.", ids)
    behind = p.inverter_w > 0
    drawn = [(x.power_w / p.efficiency_frac, x) for x in p.demand.together] if behind else []
    drawn += [(x.power_w, x) for x in p.demand.dc_together]
    together = [x for _, x in sorted(drawn, key=lambda on: (-on[0], on[1].option_id))]
    return Drain(
        options=tuple(dict.fromkeys(ids + tuple(r.option_id for r in together[:3]))),
        loads=listed(each_once(r.name for r in together[:4])) or "nothing",
        ac_w=p.demand.ac_w if behind else 0.0,
        dc_w=p.demand.dc_w,
        efficiency_frac=p.efficiency_frac,
        battery_v=p.battery_v,
        limit_a=p.bank.continuous_a,
        beyond="it switches off above" if p.bank.protected else "it is made for no more than",
        largest_w=p.largest_ac_w if behind else None,
    )


def judge(x: Drain) -> AtMost:
    """Battery current against the continuous limit."""
    return AtMost(battery_current_a(x.ac_w, x.efficiency_frac, x.dc_w, x.battery_v), x.limit_a, "a")


def _fed(loads: str, ac_w: float, efficiency_frac: float, limit_a: float) -> dict[str, str | float]:
    """One mains load behind an inverter, on a 12 V lithium battery of that limit."""
    return {
        "loads": loads, "ac_w": ac_w, "dc_w": 0, "efficiency_frac": efficiency_frac, "battery_v": 12.8,
        "limit_a": limit_a, "largest_w": largest_ac_w(limit_a, 12.8, efficiency_frac, 0.0),
    }  # fmt: skip


RULE = Rule(
    code="battery-continuous",
    title="Battery with everything running",
    topic="power",
    category="function",
    inputs=Drain,
    read=read,
    judge=judge,
    formula="I = (P_ac/η + P_dc) / U_battery ≤ Σ continuous discharge limits",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "With {loads} running the battery gives {measured} of {limit}.",
        "tight": "With {loads} running the battery gives {measured} of {limit}; "
        "{margin:nothing is|only # is|only # are} left.",
        "fails": "With {loads} running the battery would have to give {measured}; {beyond} {limit}.",
    },
    remedy="Add a battery in parallel, choose one with a higher discharge limit, or run fewer things at once{feeds}.",
    examples=lambda: (
        Example(_fed("Microwave", 1800, 0.88, 100), "fails", "one 100 A battery: 160 A is 160 % of it"),
        Example(_fed("Microwave", 1800, 0.88, 200), "ok", "two of them: 80 %"),
        Example(_fed("Hob", 1400, 0.9, 200), "ok", "induction hob on a 200 A battery: 122 A"),
        Example(_fed("Hob", 1152, 0.9, 100), "tight", "exactly at the limit"),
        Example(_fed("Hob", 1037, 0.9, 100), "tight", "just over 90 %"),
    ),
    offers="battery",
    caution=cautions.BATTERY,
)
