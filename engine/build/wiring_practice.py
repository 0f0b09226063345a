"""How a region wires, and what its workshop changes about that: sizes, tables, ratings.

United States: gauges and single cables with 105 °C insulation after the boat rules' table, because vehicle and marine
cable is sold to it; mains after the building code's column for 60 °C. Elsewhere: square millimetres of plain
70 °C insulation after the small craft standard; mains as a sheathed cable in an insulated wall after IEC 60364-5-52,
with breakers to IEC 60898. Direct-current fuses are those of vehicles everywhere. Copper is taken at 20 °C and at its
printed size; fine-stranded cable may lose up to 15 % more.
"""

from functools import lru_cache
from typing import NamedTuple

from engine.build.model import Build
from engine.physics.ampacity import BOATS_METRIC, BOATS_US, BUILDINGS_METRIC, BUILDINGS_US, AmpacityTable
from engine.physics.conductor import AWG, WORKSHOP_METRIC, Conductor
from engine.physics.conductor_choice import Practice
from engine.physics.overcurrent import RATINGS_US, RATINGS_VEHICLE

BREAKERS_IEC = (6, 10, 16, 20, 25, 32, 40, 50, 63)
"""Ratings of circuit breakers (IEC 60898-1, preferred values)."""

MAINS_INSULATION_DEGC = {"us": 60, "metric": 70}
"""As above: the building code's column for 60 °C, and plain insulation elsewhere."""


class Lay(NamedTuple):
    """What a practice follows from."""

    metric: bool
    insulation_degc: float | None
    """As the workshop states it; None: usual in the region."""
    parallel_most: int
    stocked: tuple[str, ...]
    mains: bool = False


def lay_of(build: Build) -> Lay:
    """How the build's workshop wires at battery voltage."""
    shop = build.workshop
    metric = shop.wiring.sizes == "metric" if shop.wiring.sizes else shop.region != "us"
    return Lay(metric, shop.wiring.insulation_degc, shop.wiring.parallel_most, shop.wiring.stocked)


@lru_cache(maxsize=128)
def practice(lay: Lay, label: str | None = None) -> Practice:
    """The practice, or that for a conductor which somebody states, whatever system its size is from."""
    metric = lay.metric if label is None else label.endswith("mm²")
    series: tuple[Conductor, ...] = WORKSHOP_METRIC if metric else AWG
    if lay.mains:
        table = BUILDINGS_METRIC if metric else BUILDINGS_US
        insulation = MAINS_INSULATION_DEGC["metric" if metric else "us"]
        ratings: tuple[float, ...] = BREAKERS_IEC if lay.metric else RATINGS_US
    else:
        table = BOATS_METRIC if metric else BOATS_US
        insulation = _column(table, lay.insulation_degc or (70 if metric else 105))
        ratings = RATINGS_VEHICLE
    if label is None and lay.stocked:
        kept = tuple(c for c in series if c.label in lay.stocked)
        at_least = next(c for c in series if c.label == table.least)
        kept = tuple(c for c in kept if c.area_m2 >= at_least.area_m2)
        if kept:
            series, table = kept, table._replace(least=kept[0].label)
    return Practice(
        series, table, insulation, tuple(float(r) for r in ratings), parallel_most=1 if lay.mains else lay.parallel_most
    )


def _column(table: AmpacityTable, insulation_degc: float) -> int:
    """The table's warmest column that this insulation stands."""
    fit = [degc for degc, _ in table.columns_a if degc <= insulation_degc]
    return max(fit, default=min(degc for degc, _ in table.columns_a))
