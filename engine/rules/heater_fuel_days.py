"""Diesel for heating and hot water lasts, with half the vehicle's tank kept for the road.

Who stands still must make do with it; who drives fills up on the way. Diesel that clogs in the cold of the trip's
nights is told however much of it there is.
"""

from typing import Any, Literal

from pydantic import Field

from engine.build import Build, Figures
from engine.build.gas import diesel_for_heat_l
from engine.catalogue.facets import SpaceHeater, WaterHeater
from engine.rule import COMMON_PRACTICE, AtLeast, Example, Inputs, Noted, Rule, Softened, Source, Unknown, fact
from engine.rules.fresh_water_days import lasts
from engine.units import show

CLOGS_DEGC = -20.0
"""Frost from which on ordinary winter diesel clogs filters: EN 590, class F (from memory)."""

MOST_D = 365.0
"""A year and longer is told as such, and no further."""


class Diesel(Inputs):
    """Diesel burnt on a mean day of the coldest month, driving apart."""

    burnt_for: Literal["Heating", "Hot water", "Heating and hot water"] = fact("what burns it", "computed")
    use_l: float = fact("diesel burnt a day", "computed", ge=0)
    half_tank_l: float = fact("half the vehicle's tank", "catalogue", gt=0)
    available_d: float = fact("days that half a tank lasts", "computed", ge=0)
    wanted_d: float = fact("days from one hook-up to the next", "chosen", gt=0)
    driving_h: float = fact("driving a day", "chosen", default=0.0, ge=0)
    clogs: str = Field(default="", description="what to say of diesel in such cold, with its space before it")

    @property
    def short_count(self) -> float:
        """Whether it lasts shorter than wanted: 1 or 0."""
        return float(self.available_d < self.wanted_d)


def read(build: Build, figures: Figures) -> Diesel | Unknown | None:
    """Nothing to ask when no diesel is burnt; not known when the vehicle carries none."""
    g = figures.gas
    if not g.diesel_l_d:
        return None
    half_tank_l = diesel_for_heat_l(build)
    heating, water = g.diesel_heating_l_d > 0, g.diesel_l_d > g.diesel_heating_l_d
    heaters = tuple(p.option.id for p, f in build.facets(SpaceHeater) if f.fuel == "diesel")
    boilers = tuple(p.option.id for p, f in build.facets(WaterHeater) if f.energy == "diesel")
    ids = tuple(dict.fromkeys((heaters if heating else ()) + (boilers if water else ())))
    if not half_tank_l:
        return Unknown(
            "where the heater's diesel comes from",
            "This vehicle has no diesel tank: add one, or choose a heater that burns something else.",
            ids,
        )
    frost = show(CLOGS_DEGC, "degc", build.workshop.units)
    return Diesel(
        options=ids,
        clogs=f" Colder than {frost} ordinary winter diesel clogs: fill arctic diesel before such a night."
        if figures.warmth.design_degc < CLOGS_DEGC
        else "",
        burnt_for="Heating and hot water" if heating and water else "Heating" if heating else "Hot water",
        use_l=g.diesel_l_d,
        half_tank_l=half_tank_l,
        available_d=min(MOST_D, g.diesel_days or 0.0),
        wanted_d=build.trip.days_off_grid_d,
        driving_h=build.trip.driving_h,
    )


def judge(x: Diesel) -> AtLeast | Softened | Noted:
    """Days of diesel against days wanted. Whoever drives on fills up, so that it is only worth knowing then; so it is
    that diesel clogs, where there is enough."""
    days = lasts(x.available_d, x.wanted_d)
    if x.driving_h > 0:
        days = Softened(AtLeast(x.available_d, x.wanted_d, "d", tight_from=1.0), "note")
    return Noted(days) if x.clogs else days


_CLOGS = " In such cold ordinary winter diesel clogs: fill arctic diesel before such a night."


def _diesel(use_l: float, half_tank_l: float, **more: float | str) -> dict[str, Any]:
    return {
        "burnt_for": "Heating and hot water", "use_l": use_l, "half_tank_l": half_tank_l,
        "available_d": min(MOST_D, half_tank_l / use_l),
        "wanted_d": 4.0,
    } | more  # fmt: skip


RULE = Rule(
    code="heater-fuel-days",
    title="Days of diesel for warmth",
    topic="warmth",
    category="function",
    inputs=Diesel,
    read=read,
    judge=judge,
    formula="days = half the tank / (daily heat and hot water / η / 9.95 kWh/L)",
    sources=(COMMON_PRACTICE, Source("EN 590", "winter and arctic grades (from memory)")),
    says={
        "ok": "{burnt_for}: {use_l} of diesel a day; half a tank lasts {measured}.",
        "note": "{burnt_for}: {use_l} of diesel a day; half a tank lasts {measured}{short_count:| of the {limit} "
        "wanted, and with {driving_h} of driving a day it is filled on the way|}.{clogs}",
        "tight": "{burnt_for}: {use_l} of diesel a day; half a tank lasts {measured}, close to the {limit} wanted."
        "{clogs}",
        "fails": "{burnt_for}: {use_l} of diesel a day; half a tank lasts {measured}, not {limit}.{clogs}",
    },
    remedy="Insulate more, carry more fuel, or refuel sooner.",
    examples=lambda: (
        Example(_diesel(4, 40), "ok", "40 L for heating"),
        Example(_diesel(0.1, 40, burnt_for="Hot water"), "ok", "a summer of showers"),
        Example(_diesel(4, 16), "tight", "a small tank, exactly enough"),
        Example(_diesel(12, 40), "fails", "bare van in deep winter"),
        Example(_diesel(1.5, 50, wanted_d=60.0, driving_h=1.5), "note", "on the road"),
        Example(_diesel(4, 40, clogs=_CLOGS), "note", "enough of it, in deep frost"),
    ),
    offers="space-heater",
)
