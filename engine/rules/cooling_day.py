"""What the cooler does on the hottest day of the trip, and what that costs the battery.

Sun on roof and glass, people and outside air bring heat in all day; a cooler gives less the hotter it is outside and
takes more power for it. Shade on glass and roof is the cheapest cooling there is.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.standstill import running_fans
from engine.catalogue.facets import AirConditioner
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, Softened, Source, fact
from engine.rules.hot_day import AIRED, ANIMALS_DEGC

MOST_DEGC = 28.0
"""Bearable inside with a cooler (common practice)."""


class HotDay(Inputs):
    """The hottest day with the cooler on, everybody aboard."""

    outside_degc: float = fact("hottest hour of the chosen months", "catalogue")
    warmest_degc: float = fact("warmest hour inside, with the cooler", "computed")
    alone_degc: float = fact("warmest hour inside without it", "computed")
    running_h: float = fact("hours it runs, as at full power", "computed", ge=0)
    electric_wh: float = fact("power it takes in the day", "computed", ge=0)
    week_wh: float = fact("power it takes on a mean day of the month's hottest week", "computed", ge=0)
    shade_degc: float = fact("warmest hour inside in the shade and aired", "computed")
    aired: str = fact("how it is aired", "chosen")
    largest: str = fact("what brings most heat", "computed")
    pets_count: int = fact("animals aboard", "chosen", default=0, ge=0)


def read(build: Build, figures: Figures) -> HotDay | None:
    """Nothing to ask without a cooler in use, or without heat."""
    d = figures.cool_day
    if d is None or not d.running_h:
        return None
    return HotDay(
        options=build.ids(AirConditioner), outside_degc=d.hottest_degc, warmest_degc=d.warmest_degc,
        alone_degc=d.alone_degc, running_h=d.running_h, electric_wh=d.electric_wh_d,
        week_wh=d.week_wh_d, shade_degc=d.shade_degc, largest=d.largest, pets_count=build.trip.pets,
        aired=AIRED[bool(running_fans(build))],
    )  # fmt: skip


def judge(x: HotDay) -> AtMost | Softened:
    """Warmth inside against what is bearable; more is worth knowing, and for animals aboard a warning."""
    of = AtMost(x.warmest_degc, MOST_DEGC, "degc", tight_from=1.0)
    if x.pets_count and x.warmest_degc > ANIMALS_DEGC:
        return Softened(of, "tight")
    return Softened(of, "note") if of.verdict() == "fails" else of


def _day(outside_degc: float, warmest_degc: float) -> dict[str, float | str]:
    return {
        "outside_degc": outside_degc, "warmest_degc": warmest_degc, "alone_degc": outside_degc + 4.0,
        "running_h": 11.0, "electric_wh": 7000.0,
        "week_wh": 5000.0, "shade_degc": outside_degc + 1.0, "aired": "windows open", "largest": "sun through glass",
    }  # fmt: skip


_COST = (
    " It runs {running_h} as at full power and takes {electric_wh}; on a mean day of the hottest week "
    "about {week_wh}. "
    "Without it {alone_degc} inside, in the shade with {aired} {shade_degc}. Most heat: {largest}."
    "{pets_count:| For # animal aboard fit an alert that calls.| For # animals aboard fit an alert that calls.}"
)

RULE = Rule(
    code="cooling-day",
    title="Cooling on the hottest day",
    topic="warmth",
    category="comfort",
    inputs=HotDay,
    read=read,
    judge=judge,
    formula="hourly heat balance of a cloudless day; capacity and power by outside temperature; warmest hour ≤ 28 °C",
    sources=(
        Source("EnergyPlus example files", "curves of capacity and power by outside temperature"),
        Source("ASHRAE Handbook Fundamentals 2013", "chapter 18, heat of people, air through the day (from memory)"),
        COMMON_PRACTICE,
    ),
    says={
        "ok": "At {outside_degc} outside it gets no warmer than {measured} inside." + _COST,
        "tight": "At {outside_degc} outside it gets {measured} warm inside." + _COST,
        "note": "At {outside_degc} outside it gets {measured} warm inside, above {limit}: the cooler cannot keep up."
        + _COST,
    },
    remedy="Shade glass and roof, stand under trees, air the cabin at night, or choose a larger cooler.",
    examples=lambda: (
        Example(_day(36, 26), "ok", "it holds what it is set to"),
        Example(_day(40, 28), "tight", "exactly 28 °C"),
        Example(_day(43, 31), "note", "too small for the bus in the desert"),
        Example(_day(43, 31) | {"pets_count": 2}, "tight", "the same with two dogs"),
    ),
    offers="air-conditioner",
    caution=f"{cautions.HEAT} A cooler stands still once its power is gone.",
)
