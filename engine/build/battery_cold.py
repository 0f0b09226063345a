"""Batteries in the cold: whether they take a charge at all, and what warming themselves costs."""

from engine.build.habits import HALF_DAY_K, coldest_degc
from engine.build.model import Build, Part
from engine.build.room import INDOORS_DEGC, above_outside_k, night_room_degc, room_degc
from engine.build.warmth import WarmthFigures
from engine.catalogue.facets import Battery
from engine.physics.battery_temperature import warming_wh

OUTSIDE = ("underfloor-front", "underfloor-rear", "rear-wall", "roof")
"""Places beyond the warm shell."""

MOST_WARMER_K = 100.0
"""More than that over the air outside needs no telling."""

WARMED_ABOVE_K = 5.0
"""How far above its least charging temperature a battery warms itself (common practice)."""


def outside(part: Part) -> bool:
    """Whether a battery sits beyond the warm shell."""
    return part.option.place in OUTSIDE


def morning_degc(build: Build, warmth: WarmthFigures, part: Part) -> float:
    """A battery's cells on the coldest morning of the trip."""
    night = coldest_degc(build)
    # What is heavy follows the coldest day's mean.
    return night if outside(part) else max(night, _held_degc(build, warmth, night + HALF_DAY_K))


def day_degc(build: Build, warmth: WarmthFigures, part: Part, month: int) -> float:
    """A battery's cells on a mean day of a month: heavy as it is, it follows the month's mean, not the hour."""
    mean = build.climate.mean_degc[month - 1]
    return mean if outside(part) else max(mean, _held_degc(build, warmth, mean))


def _held_degc(build: Build, warmth: WarmthFigures, outside_degc: float) -> float:
    """Cells in a room that is lived in, colder where heaters and people do not hold that."""
    return min(INDOORS_DEGC, room_degc(build, warmth, outside_degc))


def cells_about(build: Build, warmth: WarmthFigures) -> tuple[float, float]:
    """(least temperature of all cells, how much warmer than the air outside they are) through the trip's hours.

    One kind of battery outside speaks for all.
    """
    if any(outside(p) for p, _ in build.facets(Battery)):
        return -70.0, 0.0
    held = night_room_degc(build, warmth) >= INDOORS_DEGC
    return (INDOORS_DEGC, 0.0) if held else (-70.0, min(MOST_WARMER_K, above_outside_k(build, warmth)))


def takes_charge(build: Build, warmth: WarmthFigures, month: int) -> bool:
    """Whether any battery can be charged on a mean day of a month; True without a battery."""
    batteries = build.facets(Battery)
    return not batteries or any(
        f.heated or day_degc(build, warmth, p, month) >= f.min_charge_degc for p, f in batteries
    )


def warming_wh_d(build: Build, warmth: WarmthFigures, month: int) -> list[tuple[Part, float]]:
    """What each battery that warms itself takes for that on a mean day of a month, before losses.

    Once a day from the day's temperature to a little above its least charging temperature. A battery whose mass is not
    stated is left out here; the mass rules name it.
    """
    found = []
    for part, f in build.facets(Battery):
        cells = day_degc(build, warmth, part, month)
        if f.heated and part.mass_kg is not None and cells < f.min_charge_degc:
            found.append((part, warming_wh(part.mass_kg, cells, f.min_charge_degc + WARMED_ABOVE_K)))
    return found
