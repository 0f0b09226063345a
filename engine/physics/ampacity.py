"""What a conductor may carry for long, by published tables.

Tables hold for conductors in air of 30 °C. Heat around them and other loaded conductors beside them take from that.
"""

from functools import lru_cache
from math import sqrt
from typing import NamedTuple

from engine.physics.conductor import AWG, CLASS_5
from engine.physics.ranges import within

TABLE_DEGC = 30.0
"""Air temperature that every table here takes for granted."""


ENGINE_SPACE_DEGC = 50.0
"""Air in an engine's space, as boat rules take it (33 CFR 183.425 and its guideline)."""


class AmpacityTable(NamedTuple):
    """A published table."""

    code: str
    source: str
    sizes: tuple[str, ...]
    """Labels of conductors, from thin to thick."""
    columns_a: tuple[tuple[int, tuple[float, ...]], ...]
    """Insulation's highest temperature in °C, and amperes for each size."""
    engine_frac: tuple[tuple[int, float], ...]
    """Insulation's temperature, and what is left in an engine's space; empty where the table has no such factor."""
    bundle_frac: tuple[tuple[int, float], ...]
    """From how many loaded conductors together, and what is left of each."""
    least: str
    """Smallest conductor that may run by itself outside a sheath."""
    fuse_caps_a: tuple[tuple[str, int], ...] = ()
    """Largest fuse on a small conductor, where the source limits it below its ampacity."""


_AWG_LABELS = tuple(conductor.label for conductor in AWG)
_METRIC_LABELS = tuple(conductor.label for conductor in CLASS_5)

BOATS_US = AmpacityTable(
    code="boats-us",
    source="33 CFR 183.425, table 5, as published (the values for 105 °C are those of ABYC E-11); factors for engine "
    "spaces from memory, for 105 °C compared in print; factors for bundles from a guideline of the US Coast Guard for "
    "50 V and more, as a marine cable catalogue reproduces it, and taken here for lower voltages too",
    sizes=_AWG_LABELS,
    columns_a=(
        (60, (10, 15, 20, 25, 40, 55, 80, 105, 120, 140, 165, 195, 225, 260, 300)),
        (75, (10, 15, 20, 25, 40, 65, 95, 125, 145, 170, 195, 230, 265, 310, 360)),
        (80, (15, 20, 25, 35, 50, 70, 100, 130, 150, 175, 210, 245, 285, 330, 385)),
        (90, (20, 25, 30, 40, 55, 70, 100, 135, 155, 180, 210, 245, 285, 330, 385)),
        (105, (20, 25, 35, 45, 60, 80, 120, 160, 180, 210, 245, 285, 330, 385, 445)),
        (125, (25, 30, 40, 50, 70, 90, 125, 170, 195, 225, 265, 305, 355, 410, 475)),
        (200, (25, 35, 45, 55, 70, 100, 135, 180, 210, 240, 280, 325, 370, 430, 510)),
    ),
    engine_frac=((60, 0.58), (75, 0.75), (80, 0.78), (90, 0.82), (105, 0.85), (125, 0.89), (200, 1.0)),
    bundle_frac=((3, 0.70), (4, 0.60), (7, 0.50), (25, 0.40)),
    least="16 AWG",
)

BOATS_METRIC = AmpacityTable(
    code="boats-metric",
    source="ISO 13297:2020, annex A (formerly ISO 10133), from memory; that 1 mm² is the least outside a sheath was "
    "read in an excerpt of ISO 10133:2012, 7.7",
    sizes=_METRIC_LABELS,
    columns_a=(
        (70, (10, 14, 18, 25, 35, 45, 65, 90, 120, 160, 210, 265, 310, 360, 380)),
        (105, (16, 20, 25, 35, 45, 60, 90, 130, 170, 210, 270, 330, 390, 450, 475)),
    ),
    engine_frac=((70, 0.75), (105, 0.86)),
    bundle_frac=((4, 0.70), (7, 0.60), (25, 0.50)),
    least="1 mm²",
)  # fmt: skip

BUILDINGS_US = AmpacityTable(
    code="buildings-us",
    source="NFPA 70 (NEC) 2023, table 310.16, copper, with 310.15(C)(1) for bundles and 240.4(D) for fuses on small "
    "conductors (each compared in two reproductions)",
    sizes=_AWG_LABELS[2:],
    columns_a=(
        (60, (15, 20, 30, 40, 55, 70, 85, 95, 110, 125, 145, 165, 195)),
        (75, (20, 25, 35, 50, 65, 85, 100, 115, 130, 150, 175, 200, 230)),
        (90, (25, 30, 40, 55, 75, 95, 115, 130, 145, 170, 195, 225, 260)),
    ),
    engine_frac=(),
    bundle_frac=((4, 0.80), (7, 0.70), (10, 0.50), (21, 0.45), (31, 0.40), (41, 0.35)),
    least="14 AWG",
    fuse_caps_a=(("14 AWG", 15), ("12 AWG", 20), ("10 AWG", 30)),
)

BUILDINGS_METRIC = AmpacityTable(
    code="buildings-metric",
    source="IEC 60364-5-52:2009, table B.52.2, PVC, two loaded copper conductors, method A2: a sheathed cable in an "
    "insulated wall, as in a leisure vehicle's; with table B.52.17 for bundles (both from memory; of the sister table "
    "for three conductors two columns were compared in a maker's manual)",
    sizes=_METRIC_LABELS[2:],
    columns_a=((70, (14, 18.5, 25, 32, 43, 57, 75, 92, 110, 139, 167, 192, 219)),),
    engine_frac=(),
    bundle_frac=((4, 0.80), (6, 0.70), (8, 0.65), (10, 0.60), (12, 0.57)),
    least="1.5 mm²",
)

TABLES = {t.code: t for t in (BOATS_US, BOATS_METRIC, BUILDINGS_US, BUILDINGS_METRIC)}


def ambient_frac(insulation_degc: float, ambient_degc: float) -> float:
    """What hot air leaves of an ampacity that holds at 30 °C; more than 1 in cooler air.

    √((θ_max − θ)/(θ_max − 30)). insulation_degc: 60 to 200. ambient_degc: −50 to 5 K below the insulation's.

    Source: NFPA 70 (NEC), 310.15(B)(2), equation; its table 310.15(B)(1) lists the same rounded.

    >>> round(ambient_frac(90, 40), 2), round(ambient_frac(75, 50), 2), round(ambient_frac(105, 50), 2)
    (0.91, 0.75, 0.86)
    """
    within("insulation_degc", insulation_degc, 60, 200)
    within("ambient_degc", ambient_degc, -50, insulation_degc - 5)
    return sqrt((insulation_degc - ambient_degc) / (insulation_degc - TABLE_DEGC))


def bundled_frac(table: AmpacityTable, bundled_count: int) -> float:
    """What is left of an ampacity among that many loaded conductors that lie together, 1 to 1000.

    Source: the table.

    >>> bundled_frac(BUILDINGS_US, 4), bundled_frac(BOATS_US, 2)
    (0.8, 1.0)
    """
    within("bundled_count", bundled_count, 1, 1000)
    return min((frac for least, frac in table.bundle_frac if bundled_count >= least), default=1.0)


@lru_cache(maxsize=4096)
def ampacity_a(
    table: AmpacityTable,
    label: str,
    insulation_degc: int,
    bundled_count: int = 1,
    engine_space: bool = False,
    ambient_degc: float = TABLE_DEGC,
) -> float:
    """Current that a conductor may carry for long.

    Table value · bundle · heat. In an engine's space the table's own factor counts (where it has none, air of 50 °C),
    or the air when that is worse; cool air gives nothing extra. ValueError for a size or an insulation that the table
    lacks.

    Source: the table.

    >>> ampacity_a(BOATS_US, "4 AWG", 105), ampacity_a(BOATS_US, "6 AWG", 105, engine_space=True)
    (160.0, 102.0)
    >>> ampacity_a(BUILDINGS_US, "10 AWG", 90, bundled_count=4)
    32.0
    """
    within("ambient_degc", ambient_degc, -50, 100)
    column = dict(table.columns_a).get(insulation_degc)
    if column is None or label not in table.sizes:
        raise ValueError(f"{table.code} has no {label} with insulation for {insulation_degc} °C")
    heat = min(1.0, ambient_frac(insulation_degc, ambient_degc))
    if engine_space:
        hot = ambient_frac(insulation_degc, ENGINE_SPACE_DEGC)
        heat = min(heat, dict(table.engine_frac).get(insulation_degc, hot))
    return column[table.sizes.index(label)] * bundled_frac(table, bundled_count) * heat


def fuse_cap_a(table: AmpacityTable, label: str) -> float:
    """Largest fuse that a table allows on a small conductor whatever its ampacity; infinite where it sets none.

    Source: the table.

    >>> fuse_cap_a(BUILDINGS_US, "12 AWG"), fuse_cap_a(BOATS_US, "12 AWG")
    (20.0, inf)
    """
    return float(dict(table.fuse_caps_a).get(label, float("inf")))
