"""Loads that follow warmth, added up to one bent line."""

from bisect import bisect_right
from itertools import pairwise
from typing import NamedTuple

from engine.physics.energy_system import WarmthLoad


class BentLine(NamedTuple):
    """Watts over temperature: between bends ``offset_w[i] + slope_w_k[i]·T``."""

    bends_degc: tuple[float, ...]
    offset_w: tuple[float, ...]
    slope_w_k: tuple[float, ...]


def load_w(load: WarmthLoad, air_degc: float) -> float:
    """Mean power of one load in air of a temperature. Source: definition of ``WarmthLoad``.

    >>> load_w(WarmthLoad(50.0, 20.0, 0.5, 0.025), 30.0)
    37.5
    """
    room = max(air_degc, load.least_degc)
    duty = load.duty_frac + load.duty_frac_k * (room - load.at_degc)
    return load.power_w * max(load.least_frac, min(load.most_frac, duty))


def bent_line(loads: tuple[WarmthLoad, ...]) -> BentLine:
    """All loads together as one line with a bend wherever any of them has one; exact.

    >>> line = bent_line((WarmthLoad(50.0, 20.0, 0.4, 0.02),))
    >>> line.bends_degc, line.slope_w_k
    ((-70.0, 0.0, 50.0), (0.0, 0.0, 1.0, 0.0))
    """
    bends = set()
    for load in loads:
        bends.add(load.least_degc)
        if load.duty_frac_k:
            bends |= {
                load.at_degc + (share - load.duty_frac) / load.duty_frac_k
                for share in (load.least_frac, load.most_frac)
            }
    # Beyond these the air never is; a bend there would only cost accuracy.
    inner = sorted(b for b in bends if -80 < b < 80)
    ends = [-81.0, *inner, 81.0]
    offset, slope = [], []
    for low, high in pairwise(ends):
        middle = (low + high) / 2
        rise = sum(_slope(load, middle) for load in loads)
        slope.append(rise)
        offset.append(sum(load_w(load, middle) for load in loads) - rise * middle)
    return BentLine(tuple(inner), tuple(offset), tuple(slope))


def _slope(load: WarmthLoad, degc: float) -> float:
    duty = load.duty_frac + load.duty_frac_k * (degc - load.at_degc)
    bends = degc > load.least_degc and load.least_frac < duty < load.most_frac
    return load.power_w * load.duty_frac_k if bends else 0.0


def segment(line: BentLine, air_degc: float) -> int:
    """Index of the piece of the line that holds at a temperature.

    >>> segment(bent_line((WarmthLoad(50.0, 20.0, 0.4, 0.02),)), 60.0)
    3
    """
    return bisect_right(line.bends_degc, air_degc)
