"""What heating takes from the battery: fans and pumps of the heaters, and warmth made of electricity.

A heater's fan and pump take little, but all night. Warmth made from the battery itself takes many times as much: as
the only heat a floor of 120 W empties a small battery in half a day. Beside another heater it is a comfort for a while.
"""

from engine.build import Build, Figures
from engine.build.loads import COMFORT_H
from engine.catalogue.facets import Battery, DcLoad, SpaceHeater
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtMost, Example, Inputs, Rule, Softened, fact

MOST_FRAC = 0.5
"""Share of the battery above which a day's heating is worth a word (common practice)."""


class Electricity(Inputs):
    """A mean day of the darkest chosen month, as all figures of the battery."""

    heating_wh: float = fact("taken for heating in a day", "computed", gt=0)
    warmth_wh: float = fact("of it turned into warmth itself", "computed", ge=0)
    battery_wh: float = fact("usable part of the full battery", "computed", gt=0)
    share_frac: float = fact("of the full battery", "computed", ge=0)
    comfort_h: float | None = fact("how long a day comfort is warmed from the battery", "assumed", default=None)


def _assumed(build: Build, figures: Figures) -> bool:
    """Whether anything warms for comfort whose hours nobody states, on a day when it is wanted."""
    stated = build.ids(DcLoad)
    comforts = {p.option.id for p, f in build.facets(SpaceHeater) if figures.warmth.comforts(f)}.difference(stated)
    return any(x.option_id in comforts and x.energy_wh_d for x in figures.power.loads)


def read(build: Build, figures: Figures) -> Electricity | None:
    """Nothing to ask where no heater takes power, or the battery's content is not known."""
    power = figures.power
    warm = {p.option.id for p, f in build.facets(SpaceHeater) if f.fuel == "battery"}
    ids = build.ids(SpaceHeater)
    takes = {i: sum(x.energy_wh_d for x in power.loads if x.option_id == i) for i in ids}
    total = sum(takes.values())
    if not total or not power.usable_wh:
        return None
    return Electricity(
        options=(*(i for i in ids if takes[i]), *build.ids(Battery)),
        heating_wh=total,
        warmth_wh=sum(wh for i, wh in takes.items() if i in warm),
        battery_wh=power.usable_wh,
        share_frac=total / power.usable_wh,
        comfort_h=COMFORT_H if _assumed(build, figures) else None,
    )


def judge(x: Electricity) -> Softened:
    """A day's electricity against half the battery; more is worth knowing, for the balance of energy judges it."""
    return Softened(AtMost(x.heating_wh, MOST_FRAC * x.battery_wh, "wh", tight_from=JUST_ENOUGH), "note")


def _day(heating_wh: float, battery_wh: float, warmth_wh: float = 0.0) -> dict[str, float]:
    return {
        "heating_wh": heating_wh, "warmth_wh": warmth_wh, "battery_wh": battery_wh,
        "share_frac": heating_wh / battery_wh,
    }  # fmt: skip


RULE = Rule(
    code="heating-electricity",
    title="Heating from the battery",
    topic="warmth",
    category="comfort",
    inputs=Electricity,
    read=read,
    judge=judge,
    formula="heaters' power · hours of the darkest month's mean day ≤ 50 % of the usable energy",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "Heating takes {measured} a day from the battery, {share_frac} of what it holds.",
        "note": "Heating takes {measured} a day from the battery, {share_frac} of what it holds."
        "{warmth_wh:| Warmth made of electricity: #.| Warmth made of electricity: #.}",
    },
    remedy="Warm the floor on a hook-up or while driving, and burn fuel for the rest.",
    examples=lambda: (
        Example(_day(200, 2304), "ok", "fan of a diesel heater"),
        Example(_day(1152, 2304), "ok", "exactly half"),
        Example(_day(1600, 2304, 1400), "note", "heated floor of 120 W as the only heat, half the day"),
    ),
    offers="space-heater",
    follows=("battery-bank",),
)
