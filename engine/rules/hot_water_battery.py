"""A full battery can heat one filling of the water heater.

Heating water is among the largest things a battery is ever asked for: six gallons from cold to hot take more than a
kilowatt-hour.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.water import COLD_DEGC
from engine.catalogue.facets import Battery
from engine.physics.hot_water import heat_up_wh
from engine.rule import AtMost, Example, Inputs, Rule, Source, fact


class Filling(Inputs):
    """Energy of a filling against the battery."""

    name: str = fact("water heater", "chosen")
    need_wh: float = fact("taken from the battery by one filling, from cold", "computed", gt=0)
    battery_wh: float = fact("usable part of the full battery", "computed", gt=0)
    heating_h: float = fact("hours it takes", "computed", gt=0)


def read(build: Build, figures: Figures) -> list[Filling] | None:
    """Nothing to ask where no battery heats water, or none is there."""
    usable = figures.power.usable_wh
    if not usable:
        return None
    return [
        Filling(
            options=(x.option_id, *build.ids(Battery)),
            name=x.name,
            need_wh=x.battery_wh,
            battery_wh=usable,
            heating_h=x.heat_up_h,
        )
        for x in figures.hot_water.from_battery
    ]


def judge(x: Filling) -> AtMost:
    """A filling against all that the battery has."""
    return AtMost(x.need_wh, x.battery_wh, "wh")


def _six(heat_w: float, efficiency_frac: float, battery_wh: float = 0.0) -> dict[str, str | float]:
    """A filling of six gallons to 130 °F; by default from a battery that has just so much."""
    heat_wh = heat_up_wh(22.7, COLD_DEGC, 54.4)
    need_wh = heat_wh / efficiency_frac
    return {
        "name": "Electric heater, 6 gal", "need_wh": need_wh, "battery_wh": battery_wh or need_wh,
        "heating_h": heat_wh / heat_w,
    }  # fmt: skip


RULE = Rule(
    code="hot-water-battery",
    title="Hot water from the battery",
    topic="water",
    category="function",
    inputs=Filling,
    read=read,
    judge=judge,
    formula="V · 1.163 Wh/(L·K) · (θ_hot − 10 °C) / (η_heater · η_inverter) ≤ usable energy",
    sources=(Source("Heat balance of water", "1.163 Wh/(L·K), IAPWS-95"),),
    says={
        "ok": "{name}: a filling takes {measured} of the {limit} that the full battery has, in {heating_h}.",
        "tight": "{name}: a filling takes {measured}, nearly all of the {limit} that the full battery has.",
        "fails": "{name}: a filling takes {measured}; the full battery has {limit}, and nothing else has run yet.",
    },
    remedy="Heat water with gas, diesel or the engine, choose a smaller store, or a larger battery.",
    examples=lambda: (
        Example(_six(700, 1.0, 7373), "ok", "a boat's bank at 51.2 V: 16 %"),
        Example(_six(700, 1.0), "tight", "exactly all it has"),
        Example(_six(1440, 0.88, 1152), "fails", "100 Ah of lithium through an inverter: 116 %"),
    ),
    offers="water-heater",
    follows=("battery-bank",),
    caution=cautions.BATTERY,
)
