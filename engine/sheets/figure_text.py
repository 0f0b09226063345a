"""Figures in words, the same on the page, on a finished vehicle's page and in the terminal."""

from typing import NamedTuple

from engine.build import Figures
from engine.build.energy_figures import EnergyFigures
from engine.build.energy_inputs import days_looked_at
from engine.build.warmth import WarmthFigures
from engine.document import FIGURES, figures_document
from engine.sheets.view import Scene
from engine.units import System, lifetime, money, show

WORKING = "working it out …"
"""Stands where slow figures are still to come."""

_NONE = {
    "fresh_water_d": "no tank",
    "grey_water_d": "no tank",
    "toilet_d": "no toilet",
    "gas_d": "none used",
    "battery_usable_wh": "not known",
}
"""What a figure without a number means."""

_LEFT = ("payload_left_kg", "front_axle_left_kg", "rear_axle_left_kg")
"""Figures of what may still be added."""

_UNITS = {"design_loss_w": "heat_w", "labour_h": "work_h"}
"""Figures that readers know in another unit than the document has: heat, and hours of work."""


def mass_left(left_kg: float, system: System) -> str:
    """What may still be added, or in words that it is too much already."""
    return show(left_kg, "kg", system) if left_kg >= 0 else f"{show(-left_kg, 'kg', system)} over"


class Night(NamedTuple):
    """The coldest night that the heating holds, and what it is to be compared with."""

    value: str
    detail: str

    def __str__(self) -> str:
        return f"{self.value} ({self.detail})"


def night_held(warmth: WarmthFigures, system: System) -> Night:
    """Told down to the coldest hour of the place's typical year: no table reaches further, and neither do the words."""
    if warmth.held_degc is not None and warmth.held_degc <= warmth.year_coldest_degc:
        return Night("any night", f"year's coldest {show(warmth.year_coldest_degc, 'degc', system)}")
    if warmth.held_degc is None and warmth.for_battery:
        return Night("no heat", "needs a battery")
    held = without_heat(warmth) if warmth.held_degc is None else show(warmth.held_degc, "degc", system)
    return Night(held, f"coldest {show(warmth.design_degc, 'degc', system)}")


def without_heat(warmth: WarmthFigures) -> str:
    """What to say where no heat counts: there may be a heater all the same."""
    if warmth.for_battery:
        return "no battery for the heater"
    return "no main heater" if warmth.uncounted else "no heater"


class OffGrid(NamedTuple):
    """Days between hook-ups in the usual year, and what is to be added."""

    value: str
    detail: str

    def __str__(self) -> str:
        return f"{self.value} ({self.detail})" if self.detail else self.value


def days_off_grid(figures: Figures, wanted_d: float, system: System) -> OffGrid:
    """Days until the battery is empty, by the mean day until the hours are worked out; no number without loads."""
    power, energy = figures.hardest, figures.energy
    if power.usable_wh is None:
        return OffGrid("not known", "battery too cold")
    if power.usable_wh <= 0:
        return OffGrid("no battery", "")
    if not power.use_wh_d:
        return OffGrid("no loads", "nothing to feed")
    if energy is None:
        seen = days_looked_at(wanted_d)
        value = f"over {seen} days" if power.days is None or power.days > seen else show(power.days, "d", system)
        value = value if value.startswith(("over", "about")) else f"about {value}"
        return OffGrid(value, WORKING)
    usual, poor = energy.trip.median_empty_d, energy.trip.poor_empty_d
    value = f"over {energy.days_count} days" if usual is None else show(usual, "d", system)
    if poor is None:
        return OffGrid(value, "poor years too")
    return OffGrid(value, f"poor year {show(poor, 'd', system)}")


def _beyond(energy: EnergyFigures | None, days: float | None, system: System) -> str:
    """Days until empty; where the battery never gets empty, how far was looked."""
    if energy is None:
        return "none"
    return f"over {energy.days_count} days" if days is None else show(days, "d", system)


def figure_texts(scene: Scene) -> dict[str, str]:
    """Every published figure as a reader sees it, by its key."""
    shop, figures = scene.build.workshop, scene.figures
    found: dict[str, str] = {}
    for key, figure in figures_document(figures).items():
        value, unit = figure["value"], _UNITS.get(key, FIGURES[key][0])
        if value is None:
            found[key] = _NONE.get(key, "none")
        elif key in _LEFT:
            found[key] = mass_left(value, shop.units)
        elif unit == "money":
            found[key] = money(figures.money.total, shop.currency)
        else:
            found[key] = show(value, unit, shop.units)
    said = {
        "held_degc": str(night_held(figures.warmth, shop.units)),
        "off_grid_d": str(days_off_grid(figures, scene.build.trip.days_off_grid_d, shop.units)),
        "off_grid_poor_d": _beyond(figures.energy, figures.energy and figures.energy.trip.poor_empty_d, shop.units),
    }
    if figures.power.life_d is not None:
        said["battery_life_d"] = f"about {lifetime(figures.power.life_d)}"
    if figures.water.grey_l and not figures.water.fresh_l:
        said["grey_water_d"] = "no fresh water"
    if figures.gas.gas_days == 0:
        said["gas_d"] = "no cylinder"
    return found | said
