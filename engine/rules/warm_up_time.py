"""How long the heating takes from a vehicle that is cold through.

After a day of skiing or a week on the drive everything inside has the cold of outside: air, furniture, water. The hours
until it is warm say more about a heater than its watts. The floor stays the coldest place under your feet.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.warm_room import night_hours, warming, winter_air_degc
from engine.physics.condensation import surface_degc
from engine.physics.fuel import DIESEL_KWH_L
from engine.physics.room_heat import room_of
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, Softened, Source, fact

LONGEST_H = 4.0
"""Heating-up time of the test."""


class WarmingUp(Inputs):
    """From cold through to the warmth wanted, every main heater full on."""

    inside_degc: float = fact("warmth wanted inside", "chosen")
    outside_degc: float = fact("coldest hour of the chosen months", "catalogue")
    output_heat_w: float = fact("output of its main heaters", "catalogue", gt=0)
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
        lasting = "In such cold its store, three tenths full, gives no gas to speak of"
    return WarmingUp(
        options=figures.warmth.heater_ids,
        inside_degc=build.trip.inside_degc,
        outside_degc=figures.warmth.design_degc,
        output_heat_w=figures.warmth.output_w,
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


_ROOM = room_of(43.2, 7.0, 60, 15, 40, 250, 80)
"""A van that loses 50 W/K, with furniture and 80 L of water to warm."""

_INSIDE_DEGC, _SLIGHT_DEGC, _COLD_DEGC = 18.0, 17.0, -10.0


def _from(outside_degc: float, output_w: float) -> dict[str, float | str]:
    """That van with a diesel heater and 90 L of diesel."""
    takes_h, grade, needed_w = warming(_ROOM, outside_degc, _INSIDE_DEGC, output_w)
    air, loss_w_k = winter_air_degc(outside_degc), _ROOM.steady_w_k
    heat_wh = sum(min(output_w, loss_w_k * max(0.0, _INSIDE_DEGC - air[h])) for h in night_hours())
    diesel_l = heat_wh / 0.85 / 1000 / DIESEL_KWH_L
    nights = int(45 / diesel_l)
    return {
        "inside_degc": _INSIDE_DEGC, "outside_degc": outside_degc, "output_heat_w": output_w, "takes_h": takes_h or 0.0,
        "needed_heat_w": needed_w, "floor_degc": surface_degc(_INSIDE_DEGC, outside_degc, 0.85), "grade_count": grade,
        "night_heat_wh": heat_wh, "night_gas_kg": 0.0, "night_diesel_l": diesel_l,
        "night_battery_wh": 30 * heat_wh / output_w,
        "lasting": f"Half the diesel tank lasts {nights:,} such nights",
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
    examples=lambda: (
        Example(_from(_COLD_DEGC, 4000.0), "ok", "a heater with plenty in hand"),
        Example(_from(_SLIGHT_DEGC, 4000.0), "ok", "hardly any warmth to make up"),
        Example(
            _from(_COLD_DEGC, warming(_ROOM, _COLD_DEGC, _INSIDE_DEGC, 1.0)[2]) | {"takes_h": LONGEST_H},
            "tight",
            "exactly four hours",
        ),
        Example(_from(_COLD_DEGC, 1700.0), "note", "the heater hardly holds the warmth"),
    ),
    offers="space-heater",
    caution=f"{cautions.CARBON_MONOXIDE} Warm up with heaters that have a flue, never with a hob. "
    "Keep a hand's breadth free round a hot outlet.",
)
