"""Axle and wheel loads by moments."""

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


class WheelLoads(NamedTuple):
    """Load on each end of each axle; twin wheels count together."""

    front_left_kg: float
    front_right_kg: float
    rear_left_kg: float
    rear_right_kg: float


class PointLoad(NamedTuple):
    """A mass at a distance behind the front axle (negative ahead of it) and right of the centre line."""

    mass_kg: float
    x_m: float
    y_m: float = 0.0


def axle_loads(loads: Iterable[PointLoad], wheelbase_m: float) -> AxleLoads:
    """Loads on both axles of a beam on two supports.

    R_rear = Σ(m·x)/L, R_front = Σm − R_rear. A load behind the rear axle takes load off the front.

    wheelbase_m: 1 to 12. All masses together: 0 to 20,000 t, more than the longest list of choices can weigh.
    Source: statics, balance of moments (any mechanics text).

    >>> axle_loads([PointLoad(100, 5.0)], 3.5)
    AxleLoads(front_kg=-42.85714285714286, rear_kg=142.85714285714286)
    """
    total_kg = moment_kgm = 0.0
    for load in loads:
        total_kg += load.mass_kg
        moment_kgm += load.mass_kg * load.x_m
    return axles_under(total_kg, moment_kgm, wheelbase_m)


def axles_under(total_kg: float, moment_kgm: float, wheelbase_m: float) -> AxleLoads:
    """Loads on both axles from the masses' sum and their moment about the front axle.

    Ranges and source as for ``axle_loads``. Source: statics, balance of moments.

    >>> axles_under(100, 500, 3.5)
    AxleLoads(front_kg=-42.85714285714286, rear_kg=142.85714285714286)
    """
    within("wheelbase_m", wheelbase_m, 1, 12)
    # One look at the sums finds a NaN or an infinity in any of the loads.
    within("total_kg", total_kg, 0, 2e7)
    rear_kg = within("moment_kgm", moment_kgm, -3e8, 3e8) / wheelbase_m
    return AxleLoads(total_kg - rear_kg, rear_kg)


def wheel_loads(
    loads: Iterable[PointLoad], wheelbase_m: float, front_track_m: float, rear_track_m: float
) -> WheelLoads:
    """Loads on the four axle ends.

    Each mass is shared between the axles by the lever rule, and each share between left and right by its distance
    from the centre line: R_right = Σ r·(1/2 + y/t). Four supports are one more than statics can tell apart, so this
    takes the frame to be soft in twist: no axle takes up what stands askew on the other.

    wheelbase_m: 1 to 12. Tracks, middle of the left wheels to middle of the right ones: 1 to 2.6.
    Source: statics, balance of moments; a frame soft in twist is the usual idealisation of a ladder frame.

    >>> wheel_loads([PointLoad(100, 0.0, 0.4)], 3.5, 1.6, 1.6)
    WheelLoads(front_left_kg=25.0, front_right_kg=75.0, rear_left_kg=0.0, rear_right_kg=0.0)
    """
    within("wheelbase_m", wheelbase_m, 1, 12)
    within("front_track_m", front_track_m, 1, 2.6)
    within("rear_track_m", rear_track_m, 1, 2.6)
    front_kg = rear_kg = front_kgm = rear_kgm = 0.0
    for load in loads:
        share_kg = load.mass_kg * load.x_m / wheelbase_m
        rear_kg += share_kg
        rear_kgm += share_kg * load.y_m
        front_kg += load.mass_kg - share_kg
        front_kgm += (load.mass_kg - share_kg) * load.y_m
    within("total_kg", front_kg + rear_kg, 0, 2e7)
    front_right_kg = front_kg / 2 + within("front_kgm", front_kgm, -3e8, 3e8) / front_track_m
    rear_right_kg = rear_kg / 2 + within("rear_kgm", rear_kgm, -3e8, 3e8) / rear_track_m
    return WheelLoads(front_kg - front_right_kg, front_right_kg, rear_kg - rear_right_kg, rear_right_kg)
