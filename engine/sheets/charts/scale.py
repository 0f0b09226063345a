"""Scales: from values to places in a chart, with round ticks in the reader's unit."""

from __future__ import annotations

from itertools import pairwise
from math import ceil, floor, log10
from typing import NamedTuple

from engine.units import plain

EM = 11.0
"""Size of letters, in units of the drawing; a chart is shown about as wide as it is drawn."""

LINE_GAP = EM * 1.25
"""From one line of words to the next."""

_WIDE_EM = 0.58
"""Mean width of a letter or figure of the usual sans-serif fonts."""


def text_width(text: str, size: float = EM) -> float:
    """About how wide a text stands."""
    return len(text) * _WIDE_EM * size


def round_step(span: float, most: int) -> float:
    """The smallest step of 1, 2 or 5 times a power of ten that cuts ``span`` into at most ``most`` parts."""
    if span <= 0:
        return 1.0
    rough = span / most
    power = 10.0 ** floor(log10(rough))
    return next(f * power for f in (1, 2, 5, 10, 20) if f * power >= rough * (1 - 1e-9))


class Scale(NamedTuple):
    """Values ``low`` to ``high`` on a line from ``start`` to ``end``."""

    low: float
    high: float
    start: float
    end: float

    def at(self, value: float) -> float:
        """Where a value stands."""
        return self.start + (value - self.low) / (self.high - self.low) * (self.end - self.start)

    def ticks(self, most: int) -> tuple[float, ...]:
        """Round values from ``low`` to ``high``, both ends included where they are round."""
        step = round_step(self.high - self.low, most)
        first = ceil(self.low / step - 1e-9)
        last = floor(self.high / step + 1e-9)
        return tuple(i * step for i in range(first, last + 1))


class Energy(NamedTuple):
    """How energies or powers are written along an axis: in thousands from two thousand on."""

    unit: str
    factor: float

    def text(self, value: float) -> str:
        """A value without its unit."""
        number = value * self.factor
        return plain(number, 2 if abs(number) < 100 else 0)


def energy_unit(most: float, unit: str = "Wh") -> Energy:
    """The unit for an axis that reaches to ``most`` watt-hours or watts."""
    return Energy(f"k{unit}", 0.001) if most >= 2000 else Energy(unit, 1.0)


def spaced(places: list[tuple[float, str]], gap: float = 4.0, size: float = EM) -> list[tuple[float, str]]:
    """Of texts that stand side by side, centred on their places, those that have room: the first and every k-th."""
    for k in range(1, len(places) + 1):
        kept = places[::k]
        ends = [(x - text_width(t, size) / 2, x + text_width(t, size) / 2) for x, t in kept]
        if all(b[0] - a[1] >= gap for a, b in pairwise(ends)):
            return kept
    return places[:1]
