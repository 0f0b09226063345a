"""Batteries in the cold: whether they take a charge at all, and what warming themselves costs."""

from engine.build.habits import coldest_degc
from engine.build.model import Build, Part
from engine.catalogue.facets import Battery
from engine.physics.battery_temperature import warming_wh

OUTSIDE = ("underfloor-front", "underfloor-rear", "rear-wall", "roof")
"""Places beyond the warm shell."""

INDOORS_DEGC = 10.0
"""Least temperature of a battery inside a shell that is lived in (assumption)."""

WARMED_ABOVE_K = 5.0
"""How far above its least charging temperature a battery warms itself (common practice)."""


def outside(part: Part) -> bool:
    """Whether a battery sits beyond the warm shell."""
    return part.option.place in OUTSIDE


def morning_degc(build: Build, part: Part) -> float:
    """A battery's cells on the coldest morning of the trip."""
    night = coldest_degc(build)
    return night if outside(part) else max(night, INDOORS_DEGC)


def day_degc(build: Build, part: Part, month: int) -> float:
    # A battery is heavy: over days its cells follow the month's mean, not the hour.
    mean = build.climate.mean_degc[month - 1]
    return mean if outside(part) else max(mean, INDOORS_DEGC)


def takes_charge(build: Build, month: int) -> bool:
    """Whether any battery can be charged on a mean day of a month; True without a battery."""
    batteries = build.facets(Battery)
    return not batteries or any(f.heated or day_degc(build, p, month) >= f.min_charge_degc for p, f in batteries)


def warming_wh_d(build: Build, month: int) -> list[tuple[Part, float]]:
    """What each battery that warms itself takes for that on a mean day of a month, before losses.

    Once a day from the day's temperature to a little above its least charging temperature. A battery whose mass is not
    stated is left out here; the mass rules name it.
    """
    found = []
    for part, f in build.facets(Battery):
        cells = day_degc(build, part, month)
        if f.heated and part.mass_kg is not None and cells < f.min_charge_degc:
            found.append((part, warming_wh(part.mass_kg, cells, f.min_charge_degc + WARMED_ABOVE_K)))
    return found
