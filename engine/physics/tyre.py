"""What tyres carry, by the load index on their sidewall."""

from typing import NamedTuple

from engine.physics.ranges import within

FIRST_INDEX = 75
LOAD_KG = (
    387, 400, 412, 425, 437, 450, 462, 475, 487, 500, 515, 530, 545, 560, 580, 600, 615, 630, 650, 670, 690, 710, 730,
    750, 775, 800, 825, 850, 875, 900, 925, 950, 975, 1000, 1030, 1060, 1090, 1120, 1150, 1180, 1215, 1250, 1285, 1320,
    1360, 1400, 1450, 1500, 1550, 1600, 1650, 1700, 1750, 1800, 1850, 1900, 1950, 2000, 2060, 2120, 2190, 2240, 2300,
    2360, 2430, 2500, 2575, 2650, 2725, 2800, 2900, 3000, 3075, 3150, 3250, 3350,
)  # fmt: skip
"""Kilograms per tyre for load indices 75 to 150. Source: load indices of ISO 4000-1 and the ETRTO standards manual, as
tyre makers print them (75 to 119 compared in three printed tables, 120 to 150 in one, 2026-01)."""

LAST_INDEX = FIRST_INDEX + len(LOAD_KG) - 1


class Marking(NamedTuple):
    """The load index of a tyre, for single wheels and, where it is made for that, for twin wheels."""

    single_count: int
    twin_count: int | None


def marking(text: str) -> Marking:
    """The load index as it stands on the sidewall, without the speed symbol: ``"121/119"`` or ``"104"``.

    Raises ValueError for any other text.

    >>> marking("121/119")
    Marking(single_count=121, twin_count=119)
    """
    single, _, twin = text.partition("/")
    return Marking(int(single), int(twin) if twin or "/" in text else None)


def tyre_kg(index_count: int) -> float:
    """What one tyre of a load index carries. Raises OutOfRangeError outside 75 to 150.

    >>> tyre_kg(121)
    1450.0
    """
    within("load index", index_count, FIRST_INDEX, LAST_INDEX)
    return float(LOAD_KG[index_count - FIRST_INDEX])


def axle_end_kg(tyre: Marking, twin: bool) -> float:
    """What the tyres of one end of an axle carry: one tyre, or two at the index for twin wheels.

    Raises ValueError for twin wheels on a tyre without an index for them, OutOfRangeError outside the table.

    >>> axle_end_kg(marking("121/119"), twin=False), axle_end_kg(marking("121/119"), twin=True)
    (1450.0, 2720.0)
    """
    if not twin:
        return tyre_kg(tyre.single_count)
    if tyre.twin_count is None:
        raise ValueError("twin wheels need the second load index, such as the 119 of 121/119")
    return 2 * tyre_kg(tyre.twin_count)
