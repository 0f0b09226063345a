"""Loads of one direct voltage on a battery of another, through a converter."""

from functools import lru_cache
from typing import NamedTuple

from engine.physics.ranges import within


class Converter(NamedTuple):
    """A DC-DC converter as on its label."""

    output_v: float
    output_a: float
    """For long."""
    efficiency_frac: float = 0.9
    idle_w: float = 0.0
    """What it takes with nothing switched on."""


class Conversion(NamedTuple):
    """What loads do to a converter and to the battery behind it."""

    output_a: float
    share_frac: float
    """Of its rating; more than 1 is too much."""
    input_w: float
    input_a: float


@lru_cache(maxsize=1024)
def converted(load_w: float, converter: Converter, battery_v: float) -> Conversion:
    """Loads on a converter's output, and what the battery gives for them.

    I_out = P/U_out; P_in = P/η + idle. load_w: 0 to 1e6. output_v, battery_v: 5 to 70. output_a: 0.1 to 10 000.
    efficiency_frac: 0.5 to 1. idle_w: 0 to 100. Source: power balance.

    >>> c = converted(300, Converter(12.5, 30, 0.9), 25.6)
    >>> c.output_a, c.share_frac, round(c.input_a, 1)
    (24.0, 0.8, 13.0)
    """
    within("load_w", load_w, 0, 1e6)
    within("output_v", converter.output_v, 5, 70)
    within("output_a", converter.output_a, 0.1, 1e4)
    within("efficiency_frac", converter.efficiency_frac, 0.5, 1)
    within("idle_w", converter.idle_w, 0, 100)
    within("battery_v", battery_v, 5, 70)
    output_a = load_w / converter.output_v
    input_w = load_w / converter.efficiency_frac + converter.idle_w
    return Conversion(output_a, output_a / converter.output_a, input_w, input_w / battery_v)
