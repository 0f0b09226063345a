"""Axle loads by moments about the front axle."""

from collections.abc import Iterable
from typing import NamedTuple

from engine.physics.ranges import within


class AxleLoads(NamedTuple):
    """Load on each axle, measured where the tyres stand."""

    front_kg: float
    rear_kg: float

    @property
    def total_kg(self) -> float:
        """Everything together."""
        return self.front_kg + self.rear_kg


class PointLoad(NamedTuple):
    """A mass at a distance behind the front axle (negative ahead of it)."""

    mass_kg: float
    x_m: float


def axle_loads(loads: Iterable[PointLoad], wheelbase_m: float) -> AxleLoads:
    """Loads on both axles of a beam on two supports.

    R_rear = Σ(m·x)/L, R_front = Σm − R_rear. A load behind the rear axle takes load off the front.

    wheelbase_m: 1 to 12. All masses together: 0 to 20,000 t, more than the longest list of choices can weigh.
    Source: statics, balance of moments (any mechanics text).

    >>> axle_loads([PointLoad(100, 5.0)], 3.5)
    AxleLoads(front_kg=-42.85714285714286, rear_kg=142.85714285714286)
    """
    within("wheelbase_m", wheelbase_m, 1, 12)
    total_kg = moment_kgm = 0.0
    for load in loads:
        total_kg += load.mass_kg
        moment_kgm += load.mass_kg * load.x_m
    # One look at the sums finds a NaN or an infinity in any of the loads.
    within("total_kg", total_kg, 0, 2e7)
    rear_kg = within("moment_kgm", moment_kgm, -3e8, 3e8) / wheelbase_m
    return AxleLoads(total_kg - rear_kg, rear_kg)
