"""The air that passes through carries off the water that people and flames give it.

Each sleeper breathes out some 45 g (1.6 oz) an hour. A gas heater without a flue adds more than several people do.
Without enough fresh air the humidity climbs until water runs down the coldest surface.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.catalogue.facets import VentFan
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, Source, fact
from engine.spelling import begun

MOST_M3_H = 2000.0
"""More air than this is as good as no amount that does it."""

MILD_DEGC = 10.0
"""Above this mean windows stand open and walls are warm: then damp is asked of heaters without a flue alone."""

FAN = "Choose a heater with a flue, fit a fan that can run slowly all night or take fewer people"


class Air(Inputs):
    """Fresh air needed on an ordinary night of the coldest month against what passes through."""

    outside_degc: float = fact("mean outside in the coldest chosen month", "catalogue")
    outside_frac: float = fact("mean humidity outside then", "catalogue", ge=0, le=1)
    water_kg_h: float = fact("water from people and flames in an hour", "computed", ge=0)
    flueless_kg_h: float = fact("of it from heaters without a flue", "computed", ge=0)
    humidity_frac: float = fact("humidity inside that would come of it", "computed", ge=0)
    wanted_frac: float = fact("humidity inside to stay below", "assumed", ge=0, le=1)
    need_m3_h: float = fact("fresh air that holds it", "computed", ge=0)
    air_m3_h: float = fact("fresh air for people, or through leaks", "computed", gt=0)
    fan_m3_h: float = fact("what fans add at their usual speed", "catalogue", ge=0)
    way: str = fact("what helps", "computed", default=FAN)


def read(build: Build, figures: Figures) -> Air | None:
    """Nothing to ask on trips without cold, or where outside air is itself too damp to dry anything: in a room without
    heat, where no amount of air keeps it dry, another rule tells where water settles."""
    d = figures.damp
    if d is None or not figures.warmth.output_w:
        return None
    needed_m3_h = MOST_M3_H if d.needed_m3_h is None else d.needed_m3_h
    if not d.flueless_ids and (d.needed_m3_h is None or d.mean_degc > MILD_DEGC):
        return None
    return Air(
        options=d.flueless_ids + build.ids(VentFan),
        outside_degc=d.mean_degc, outside_frac=d.mean_frac, water_kg_h=d.people_kg_h + d.flueless_kg_h,
        flueless_kg_h=d.flueless_kg_h, humidity_frac=d.mean_night_frac, wanted_frac=d.wanted_frac,
        need_m3_h=min(MOST_M3_H, needed_m3_h), air_m3_h=d.air_m3_h, fan_m3_h=d.fan_m3_h,
        way=_way(build, d.flueless_kg_h > 0, d.air_m3_h + d.fan_m3_h >= needed_m3_h, d.fan_m3_h > 0),
    )  # fmt: skip


def _way(build: Build, flueless: bool, enough: bool, runs: bool) -> str:
    """What helps, by what is there already."""
    ways = ["choose a heater with a flue"] * flueless
    if not build.ids(VentFan):
        ways.append("fit a fan that can run slowly all night")
    elif not runs:
        ways.append("give the fan a battery")
    else:
        ways.append("let the fan run slowly at night" if enough else "fit one more fan")
    ways += ["take fewer people"] * (build.trip.people > 1)
    told = ", ".join(ways[:-1]) + (" or " if len(ways) > 1 else "") + ways[-1]
    return begun(told)


def judge(x: Air) -> AtMost:
    """Air needed against air there is, fans running; tight as soon as they must run."""
    most = x.air_m3_h + x.fan_m3_h
    return AtMost(x.need_m3_h, most, "m3_h", tight_from=min(1.0, (x.air_m3_h + 1e-6) / most))


def _night(
    water_kg_h: float, flueless_kg_h: float, need_m3_h: float, humidity_frac: float, fan_m3_h: float = 0.0
) -> dict[str, float]:
    return {
        "outside_degc": 0.0, "outside_frac": 0.9, "water_kg_h": water_kg_h, "flueless_kg_h": flueless_kg_h,
        "need_m3_h": need_m3_h, "air_m3_h": 25.0, "humidity_frac": humidity_frac, "fan_m3_h": fan_m3_h,
        "wanted_frac": 0.6,
    }  # fmt: skip


RULE = Rule(
    code="fresh-air-humidity",
    title="Fresh air against damp",
    topic="warmth",
    category="comfort",
    inputs=Air,
    read=read,
    judge=judge,
    formula="water / (v_inside at 60 % − v_outside) ≤ fresh air, with v the water in as much air",
    sources=(
        Source("C₃H₈ + 5 O₂ → 3 CO₂ + 4 H₂O", "1.634 kg of water from a kilogram of propane", "2026-11-25"),
        Source("BS 5250", "40 g of water an hour from a sleeper; 45 taken here (from memory)"),
        COMMON_PRACTICE,
    ),
    says={
        "ok": "At {outside_degc} outside {measured} of fresh air hold {wanted_frac} at night; {air_m3_h} pass.",
        "tight": "At {outside_degc} outside it takes {measured} of fresh air to hold {wanted_frac}; {air_m3_h} pass "
        "by themselves, so a fan must run slowly or a window stand ajar. Count on more heat then.",
        "fails": "At {outside_degc} outside it takes {measured} of fresh air to hold {wanted_frac}; {limit} is all "
        "there is. The air would reach {humidity_frac}, and water runs down the coldest places.",
    },
    remedy="{way}.",
    examples=lambda: (
        Example(_night(0.090, 0, 19, 0.52), "ok", "two sleepers: 19 m³/h of 25 m³/h"),
        Example(_night(0.297, 0.207, 61, 1.06), "fails", "a 6,000 BTU/h heater without a flue: 61 m³/h of 25 m³/h"),
        Example(
            _night(0.297, 0.207, 61, 1.06, 150) | {"way": "Let the fan run slowly at night"},
            "tight",
            "the same with a roof fan",
        ),
        Example(_night(0.121, 0, 25, 0.6), "tight", "exactly what passes through"),
    ),
    offers="vent-fan",
    caution="A flame without a flue makes carbon monoxide where air is short: never sleep with one burning, and keep "
    f"fixed openings open. {cautions.CARBON_MONOXIDE} {cautions.GAS}",
)
