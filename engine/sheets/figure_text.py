"""Figures in words, the same on the page, on a finished vehicle's page and in the terminal."""

from typing import NamedTuple

from engine.build.power import PowerFigures
from engine.build.warmth import WarmthFigures
from engine.document import FIGURES, figures_document
from engine.sheets.view import Scene
from engine.units import System, money, show

_NONE = {
    "fresh_water_d": "no tank",
    "grey_water_d": "no tank",
    "toilet_d": "no toilet",
    "gas_d": "none used",
    "battery_usable_wh": "not known",
}
"""What a figure without a number means."""

_HEAT = ("design_loss_w",)
"""Figures in W that are heat, and so read in a unit of heat."""


class Night(NamedTuple):
    """The coldest night that the heating holds, and what it is to be compared with."""

    value: str
    detail: str

    def __str__(self) -> str:
        return f"{self.value} ({self.detail})"


def night_held(warmth: WarmthFigures, system: System) -> Night:
    """Told down to the coldest hour of the place's typical year: no table reaches further, and neither do the words."""
    if warmth.held_degc is not None and warmth.held_degc <= warmth.year_coldest_degc:
        return Night("any night", f"coldest here {show(warmth.year_coldest_degc, 'degc', system)}")
    held = without_heat(warmth) if warmth.held_degc is None else show(warmth.held_degc, "degc", system)
    return Night(held, f"coldest {show(warmth.design_degc, 'degc', system)}")


def without_heat(warmth: WarmthFigures) -> str:
    """What to say where no heat counts: there may be a heater all the same."""
    return "no main heater" if warmth.uncounted else "no heater"


def days_off_grid(power: PowerFigures, system: System) -> str:
    """Days between hook-ups; without a battery no number, and none where the day's gain covers the day's use."""
    if power.usable_wh is None:
        return "not known"
    if power.usable_wh <= 0:
        return "no battery"
    return "no end" if power.days is None else show(power.days, "d", system)


def figure_texts(scene: Scene) -> dict[str, str]:
    """Every published figure as a reader sees it, by its key."""
    shop, figures = scene.build.workshop, scene.figures
    found: dict[str, str] = {}
    for key, figure in figures_document(figures).items():
        value, unit = figure["value"], "heat_w" if key in _HEAT else FIGURES[key][0]
        if value is None:
            found[key] = _NONE.get(key, "none")
        elif unit == "money":
            found[key] = money(figures.money.total, shop.currency)
        else:
            found[key] = show(value, unit, shop.units)
    said = {
        "held_degc": str(night_held(figures.warmth, shop.units)),
        "off_grid_d": days_off_grid(figures.power, shop.units),
    }
    return found | said
