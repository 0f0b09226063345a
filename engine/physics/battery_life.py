"""How many cycles and how many years a battery lasts."""

from engine.physics.battery_chemistry import Chemistry
from engine.physics.ranges import within


def cycles_count(chemistry: Chemistry, depth_frac: float) -> float:
    """Cycles of a depth until 80 % of the capacity is left.

    Between the chemistry's points along a power of the depth; below its least depth the charge that passes in a life
    stays the same, which is cautious. depth_frac: 0.01 to 1. Source: the chemistry's.

    >>> from engine.physics.battery_chemistry import AGM
    >>> round(cycles_count(AGM, 0.5)), round(cycles_count(AGM, 0.15))
    (600, 2400)
    """
    within("depth_frac", depth_frac, 0.01, 1)
    (least_frac, most), *_ = chemistry.cycles
    if depth_frac < least_frac:
        return most * least_frac / depth_frac
    return chemistry.cycles.between_logs("depth_frac", depth_frac)


def life_d(chemistry: Chemistry, depth_frac: float, per_day: float) -> float:
    """Days until 80 % of the capacity is left: by cycles, or by age when that comes first.

    depth_frac: 0.01 to 1. per_day: cycles a day, 0 to 10. Source: `cycles_count`; the sooner of both: common
    practice.

    >>> from engine.physics.battery_chemistry import AGM
    >>> round(life_d(AGM, 0.5, 1)), round(life_d(AGM, 0.5, 0.1)) == round(AGM.calendar_d)
    (600, True)
    """
    within("per_day", per_day, 0, 10)
    cycles = cycles_count(chemistry, depth_frac)
    return min(chemistry.calendar_d, cycles / per_day) if per_day else chemistry.calendar_d
