"""The trip's numbers as the form asks for them: label, unit, limits, and the way from what is typed to SI and back."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from engine.catalogue.trip import Trip
from engine.units import FOOT_M, INCH_M, POUND_KG, System

_MOST_MONEY = 9_999_999_999.99  # what an amount of twelve digits holds


class TripField(NamedTuple):
    """A number of the trip as it is asked for."""

    name: str
    label: str
    unit: str
    """Word behind the entry."""
    factor: float = 1.0
    offset: float = 0.0
    decimals: int = 1
    whole: bool = False
    low: float = 0.0
    high: float = 0.0
    above: bool = False
    """Whether the lowest value is itself excluded."""
    optional: bool = False

    def shown(self, si: float) -> str:
        """The entry's text for an SI value."""
        text = f"{si * self.factor + self.offset:.{self.decimals}f}"
        return text.rstrip("0").rstrip(".") if "." in text else text

    def si(self, typed: float) -> float:
        """The SI value of a typed number."""
        return (typed - self.offset) / self.factor


_METRIC: tuple[tuple[str, str, str, float, float, int], ...] = (
    ("adults", "Grown-ups", "", 1, 0, 0),
    ("children", "Children", "", 1, 0, 0),
    ("pets", "Dogs and the like", "", 1, 0, 0),
    ("tallest_m", "Tallest person", "m", 1, 0, 2),
    ("adult_kg", "Mass of each grown-up", "kg", 1, 0, 0),
    ("baggage_kg", "Baggage", "kg", 1, 0, 0),
    ("cupboards_kg", "Food and clothes in cupboards", "kg", 1, 0, 0),
    ("nose_kg", "Nose load of a trailer", "kg", 1, 0, 0),
    ("days_between_fills_d", "Between water fills", "days", 1, 0, 1),
    ("days_off_grid_d", "Between hook-ups", "days", 1, 0, 1),
    ("driving_h", "Driving on a usual day", "hours", 1, 0, 1),
    ("showers_per_day", "Showers for each person", "a day", 1, 0, 2),
    ("shower_minutes", "Water runs for a shower", "minutes", 1, 0, 1),
    ("hot_meals_per_day", "Cooked meals for all", "a day", 1, 0, 2),
    ("computer_h", "Work on computers, all together", "hours a day", 1, 0, 1),
    ("inside_degc", "Warmth inside at night", "°C", 1, 0, 1),
    ("budget", "Budget with tax", "", 1, 0, 2),
    ("height_limit_m", "Lowest garage or bridge", "m", 1, 0, 2),
    ("hookup_a", "Breaker of the hook-up", "A", 1, 0, 0),
)
FEET = "ft, in"
"""Word behind a height that is typed in feet and inches."""
_US = {
    "tallest_m": (FEET, 1 / INCH_M, 0.0, 1),
    "height_limit_m": (FEET, 1 / INCH_M, 0.0, 1),
    "adult_kg": ("lb", 1 / POUND_KG, 0.0, 0),
    "baggage_kg": ("lb", 1 / POUND_KG, 0.0, 0),
    "cupboards_kg": ("lb", 1 / POUND_KG, 0.0, 0),
    "nose_kg": ("lb", 1 / POUND_KG, 0.0, 0),
    "inside_degc": ("°F", 1.8, 32.0, 0),
}


@cache
def trip_fields(system: System, currency: str) -> dict[str, TripField]:
    """Every number of the trip by name, with its limits from the trip's own model."""
    fields: dict[str, TripField] = {}
    for name, label, unit, factor, offset, decimals in _METRIC:
        if system == "us" and name in _US:
            unit, factor, offset, decimals = _US[name]
        low, high, above = 0.0, _MOST_MONEY, False
        for limit in Trip.model_fields[name].metadata:
            low = float(getattr(limit, "ge", low))
            high = float(getattr(limit, "le", high))
            if hasattr(limit, "gt"):
                low, above = float(limit.gt), True
        fields[name] = TripField(
            name, label, currency if name == "budget" else unit, factor, offset, decimals,
            whole=name in ("adults", "children", "pets"), low=low, high=high, above=above,
            optional=name in ("budget", "height_limit_m", "hookup_a", "adult_kg"),
        )  # fmt: skip
    return fields


def feet_and_inches(metres: float) -> tuple[str, str]:
    """A height as Americans say it: whole feet, and inches to a tenth."""
    tenths = round(metres / INCH_M * 10)
    feet, rest = divmod(tenths, 120)
    return str(feet), f"{rest / 10:g}"


def metres_of(feet: float, inches: float) -> float:
    """A height said in feet and inches."""
    return feet * FOOT_M + inches * INCH_M


def shown_alike(field: TripField, si: float, typed: tuple[str, ...]) -> bool:
    """Whether these entries are just what the sheet shows for the value."""
    return typed == (feet_and_inches(si) if len(typed) == 2 else (field.shown(si),))
