"""How long an empty house battery takes to fill, from each source by itself.

Full current first, then a tail that dies away near full. Less than a charger can give comes in where the battery
takes less, where the alternator has less to spare or where the hook-up is small. Cold cells take less, or nothing.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.charging import ChargeTime
from engine.catalogue.facets import AlternatorCharger, Battery, Generator, ShoreCharger
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, fact
from engine.units import System, show

LONG_NIGHT_H = 14.0
"""Hours from an evening's arrival to the next morning (assumption)."""


class Hours(Inputs):
    """Charges from empty to full."""

    times: str = fact("hours by source", "computed")
    quickest_h: float = fact("hours by the quickest of them; 0 when none fills it", "computed", ge=0)


def read(build: Build, figures: Figures) -> Hours | None:
    """Nothing to ask without a sound bank or without a charger beside the sun."""
    times = figures.power.charges
    if not times:
        return None
    told = [
        f"{c.source} {_hours(c.full_h, build.workshop.units)} at {c.charge_a:.0f} A{_fuel(c, build.workshop.units)}"
        if c.full_h is not None
        else f"{c.source} not in such cold"
        for c in times
    ]
    return Hours(
        options=build.ids(AlternatorCharger, ShoreCharger, Generator, Battery),
        times=", ".join(told),
        quickest_h=min((c.full_h for c in times if c.full_h is not None), default=0.0),
    )


def _hours(full_h: float, units: System) -> str:
    """Whole hours; less than one as it is."""
    return show(full_h if full_h < 1 else round(full_h), "h", units)


def _fuel(c: ChargeTime, units: System) -> str:
    return "" if c.fuel_l is None else f" with {show(c.fuel_l, 'l', units, 1)} of fuel"


def judge(x: Hours) -> Holds:
    """More than a long night is worth a note; how long is too long is the traveller's own matter."""
    return Holds(0 < x.quickest_h <= LONG_NIGHT_H, "note")


RULE = Rule(
    code="charge-hours",
    title="Hours from empty to full",
    topic="power",
    category="comfort",
    inputs=Hours,
    read=read,
    judge=judge,
    formula="t = Q_constant / I + tail;  I = min(charger, battery, source)",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "From empty to full with nothing else running: {times}.",
        "note": "From empty to full with nothing else running: {times}. No source fills it in a night.",
    },
    remedy="A stronger charger fills it sooner, as far as battery, alternator and hook-up allow.",
    examples=lambda: (
        Example({"times": "driving 4 h at 50 A, hook-up 3 h at 80 A", "quickest_h": 3}, "ok", "230 Ah, lithium"),
        Example({"times": "hook-up 14 h at 40 A", "quickest_h": 14}, "ok", "just a night"),
        Example({"times": "driving 18 h at 30 A", "quickest_h": 18}, "note", "a small charger and a large battery"),
        Example({"times": "hook-up not in such cold", "quickest_h": 0}, "note", "frozen cells"),
    ),
    offers="shore-charger",
    caution=cautions.BATTERY,
)
