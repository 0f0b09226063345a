"""How long the heating takes from a vehicle that is cold through.

After a day of skiing or a week on the drive everything inside has the cold of outside: air, furniture, water. The hours
until it is warm say more about a heater than its watts. The floor stays the coldest place under your feet.
"""

from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, Softened, Source, fact

LONGEST_H = 4.0
"""Heating-up time of the test."""


class WarmingUp(Inputs):
    """From cold through to the warmth wanted, every main heater full on."""

    inside_degc: float = fact("warmth wanted inside", "chosen")
    outside_degc: float = fact("coldest hour of the chosen months", "catalogue")
    takes_h: float = fact("hours until the air is that warm", "computed", ge=0)
    needed_heat_w: float = fact("output that would do it in four hours", "computed", ge=0)
    floor_degc: float = fact("floor then, in a room that is warm", "computed")
    night_heat_wh: float = fact("heat of the coldest night, from six in the evening to nine", "computed", ge=0)
    night_gas_kg: float = fact("gas for it", "computed", ge=0)
    night_diesel_l: float = fact("diesel for it", "computed", ge=0)
    night_battery_wh: float = fact("electricity for it from the battery", "computed", ge=0)
    lasting: str = fact("how long a fill lasts, of diesel half the tank", "computed", default="")
    grade_count: int = fact("heating grade of EN 1646-1 it would meet by these sums", "computed", ge=1, le=3)


def read(build: Build, figures: Figures) -> WarmingUp | None:
    """Nothing to ask where the heating cannot hold that warmth at all: another rule says so."""
    w = figures.warm_up
    if w is None or w.warm_up_h is None:
        return None
    nights = int(w.fuel.nights_count or 0)
    lasting = f"{w.fuel.lasting} lasts {nights:,} such night{'s' if nights > 1 else ''}" if nights else ""
    if w.fuel.gas_kg and figures.gas_rate and figures.gas_rate.frozen:
        lasting = "In such cold its store gives no gas to speak of"
    return WarmingUp(
        options=figures.warmth.heater_ids,
        inside_degc=build.trip.inside_degc,
        outside_degc=figures.warmth.design_degc,
        takes_h=w.warm_up_h,
        needed_heat_w=w.needed_w,
        floor_degc=w.floor_degc,
        grade_count=w.grade_count,
        night_heat_wh=w.fuel.heat_wh,
        night_gas_kg=w.fuel.gas_kg,
        night_diesel_l=w.fuel.diesel_l,
        night_battery_wh=w.fuel.battery_wh,
        lasting=lasting,
    )


def judge(x: WarmingUp) -> AtMost | Softened:
    """Hours against the test's four; longer is worth knowing, no more."""
    of = AtMost(x.takes_h, LONGEST_H, "h", tight_from=1.0)
    return Softened(of, "note") if of.verdict() == "fails" else of


def _cold(takes_h: float) -> dict[str, float | str]:
    return {
        "inside_degc": 18.0, "outside_degc": -10.0, "takes_h": takes_h, "needed_heat_w": 2000.0,
        "floor_degc": 12.0, "grade_count": 3,
        "night_heat_wh": 18000.0, "night_gas_kg": 0.0, "night_diesel_l": 2.3, "night_battery_wh": 150.0,
        "lasting": "Half the diesel tank lasts 17 such nights",
    }  # fmt: skip


_REST = (
    " The floor gets to {floor_degc}. By these sums the heating meets grade {grade_count} of 3 of EN 1646-1. "
    "The night takes {night_heat_wh} of heat{night_gas_kg:|, # gas|, # gas}{night_diesel_l:|, # diesel|, # diesel}"
    "{night_battery_wh:|, # electricity|, # electricity}."
    "{lasting:|| #.}"
)

RULE = Rule(
    code="warm-up-time",
    title="Warming up from cold",
    topic="warmth",
    category="comfort",
    inputs=WarmingUp,
    read=read,
    judge=judge,
    formula="air and light things as one store of heat, lining, furniture and a quarter of the fresh water as another",
    sources=(
        Source("EN 1646-1", "clause 9, ten hours in the cold, then four to warm up (as described; not seen)"),
        Source("ISO 52016-1:2017", "its hourly balance of two stores"),
        COMMON_PRACTICE,
    ),
    says={
        "ok": "From {outside_degc} cold through it is {inside_degc} {measured:at once|after #|after #}." + _REST,
        "tight": "From {outside_degc} cold through it is {inside_degc} after {measured}." + _REST,
        "note": "From {outside_degc} cold through it takes {measured} to {inside_degc}; {limit} are usual, with some "
        "{needed_heat_w}." + _REST,
    },
    remedy="A larger heater, or one more beside it, warms up faster; insulation keeps it warm.",
    examples=(
        Example(_cold(1.13), "ok", "4 kW in a van that loses 50 W/K"),
        Example(_cold(0.01), "ok", "one degree to make up"),
        Example(_cold(4), "tight", "exactly four hours"),
        Example(_cold(6.5), "note", "the heater hardly holds the warmth"),
    ),
    offers="space-heater",
    caution="Carbon monoxide kills, and an alarm is a must. Warm up with heaters that have a flue, never with a hob. "
    "Keep a hand's breadth free round a hot outlet.",
)
