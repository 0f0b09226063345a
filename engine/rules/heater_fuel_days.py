"""Diesel for heating lasts, with half the vehicle's tank kept for the road."""

from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, AtLeast, Example, Inputs, Rule, Unknown, fact

MOST_D = 365.0


class Diesel(Inputs):
    """Diesel burnt for warmth on a mean day of the coldest month."""

    use_l: float = fact("diesel burnt a day", "computed", ge=0)
    available_d: float = fact("days that half a tank lasts", "computed", ge=0)
    wanted_d: float = fact("days from one hook-up to the next", "chosen", gt=0)


def read(build: Build, figures: Figures) -> Diesel | Unknown | None:
    """Nothing to ask when no diesel is burnt; not known when the vehicle carries none."""
    g = figures.gas
    if not g.diesel_l_d:
        return None
    if build.vehicle.engine.fuel != "diesel" or not build.vehicle.engine.fuel_l:
        return Unknown(
            "where the heater's diesel comes from",
            "This vehicle has no diesel tank: add one, or choose a heater that burns something else.",
            figures.warmth.heater_ids,
        )
    return Diesel(
        options=figures.warmth.heater_ids,
        use_l=g.diesel_l_d,
        available_d=min(MOST_D, g.diesel_days or 0.0),
        wanted_d=build.trip.days_off_grid_d,
    )


def judge(x: Diesel) -> AtLeast:
    """Days of diesel against days wanted."""
    return AtLeast(x.available_d, x.wanted_d, "d")


RULE = Rule(
    code="heater-fuel-days",
    title="Days of diesel for heating",
    topic="warmth",
    category="function",
    inputs=Diesel,
    read=read,
    judge=judge,
    formula="days = half the tank / (daily heat / η / 9.95 kWh/L)",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "Heating burns {use_l} of diesel a day; half a tank lasts {measured}.",
        "tight": "Heating burns {use_l} of diesel a day; half a tank lasts {measured}, close to the {limit} wanted.",
        "fails": "Heating burns {use_l} of diesel a day; half a tank lasts {measured}, not {limit}.",
    },
    remedy="Insulate more, carry more fuel, or refuel sooner.",
    examples=(
        Example({"use_l": 4, "available_d": 10, "wanted_d": 4}, "ok", "40 L for heating"),
        Example({"use_l": 4, "available_d": 4, "wanted_d": 4}, "tight", "exactly enough"),
        Example({"use_l": 12, "available_d": 3.3, "wanted_d": 4}, "fails", "bare van in deep winter"),
    ),
    offers="space-heater",
)
