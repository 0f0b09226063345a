"""How many years the house battery lasts, used as on this trip.

A battery wears by cycles and by age, whichever comes first. Deep cycles wear it more than shallow ones. It counts as
worn when four fifths of its capacity are left. The figure takes the trip's use for every day of its months.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.catalogue.facets import Battery
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, fact
from engine.units import lifetime

SHORT_D = 5 * 365.25
"""A battery that is worn sooner is worth a remark (assumption)."""


class Life(Inputs):
    """Use and wear of a battery."""

    life_d: float = fact("days until four fifths of the capacity are left", "computed", gt=0)
    years: str = fact("the same in words", "computed")
    depth_frac: float = fact("share of the capacity taken out each day of the trip", "computed", ge=0, le=1)
    months: str = fact("months a year on the road", "chosen")


def read(build: Build, figures: Figures) -> Life | None:
    """Nothing to ask without one sound bank or without loads."""
    p = figures.power
    if p.life_d is None or not p.usable_wh:
        return None
    return Life(
        options=build.ids(Battery),
        life_d=p.life_d,
        years=lifetime(p.life_d),
        depth_frac=min(1.0, min(p.use_wh_d, p.usable_wh) / p.capacity_wh),
        months=f"{len(build.trip.months)} months" if len(build.trip.months) > 1 else "one month",
    )


def judge(x: Life) -> Holds:
    """Less than five years is worth a note; no limit says how long a battery has to last."""
    return Holds(x.life_d >= SHORT_D, "note")


RULE = Rule(
    code="battery-life",
    title="Years until the battery is worn",
    topic="power",
    category="comfort",
    inputs=Life,
    read=read,
    judge=judge,
    formula="years = min(cycles(depth) / cycles a year, calendar life)",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "Used as on this trip ({depth_frac} of it a day, {months} a year), the battery has four fifths of its "
        "capacity left after some {years}, give or take a half.",
        "note": "Used as on this trip ({depth_frac} of it a day, {months} a year), the battery is worn after some "
        "{years}, "
        "give or take a half.",
    },
    remedy="A larger battery is emptied less deep and lasts longer.",
    examples=lambda: (
        Example(
            {"life_d": 5479, "years": "15 years", "depth_frac": 0.35, "months": "7 months"},
            "ok",
            "lithium, worn by age",
        ),
        Example({"life_d": 1826.25, "years": "5 years", "depth_frac": 0.5, "months": "4 months"}, "ok", "five years"),
        Example(
            {"life_d": 600, "years": "20 months", "depth_frac": 0.5, "months": "12 months"},
            "note",
            "lead-acid, half emptied every day of the year",
        ),
    ),
    offers="battery",
    caution=cautions.BATTERY,
)
