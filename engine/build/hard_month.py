"""The chosen month that asks most of the battery: the darkest, or with a cooler a hot one."""

from dataclasses import replace
from math import inf

from engine.build.habits import cools_in
from engine.build.model import Build
from engine.build.power import PowerFigures, power_figures
from engine.build.roof import RoofFigures
from engine.build.standstill import running_coolers
from engine.build.warmth import warmth_figures
from engine.build.water import WaterFigures


def power_in(build: Build, roof: RoofFigures, water: WaterFigures, month: int) -> PowerFigures:
    """The electric side of a build, were the whole trip made in one month."""
    moved = replace(build, trip=build.trip.model_copy(update={"months": (month,)}))
    return power_figures(moved, roof, warmth_figures(moved), water)


def hardest_power(build: Build, roof: RoofFigures, water: WaterFigures, darkest: PowerFigures) -> PowerFigures:
    """The electric side in the month in which the battery is empty soonest, by its mean day.

    What heats takes most where the sun is low, so that the darkest month is the hardest. A cooler alone takes most
    where the sun is high, and may take more than the sun brings.
    """
    if darkest.usable_wh is None or not running_coolers(build):
        return darkest
    hot = [m for m in sorted(build.trip.months) if m != darkest.sun_month and cools_in(build, m)]
    return min([darkest, *(power_in(build, roof, water, m) for m in hot)], key=_soonest)


def _soonest(power: PowerFigures) -> tuple[float, float]:
    """Days until empty, and where it never is, what a day has to spare."""
    spare_wh = power.sun_wh_d + power.driving_wh_d - power.use_wh_d
    return (inf, spare_wh) if power.days is None else (power.days, spare_wh)
