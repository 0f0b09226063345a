"""A published curve by its points, in whatever units it has."""

from itertools import pairwise
from math import exp, log

from engine.physics.ranges import within


class Curve(tuple[tuple[float, float], ...]):
    """Points from left to right."""

    __slots__ = ()

    def between(self, name: str, at: float) -> float:
        """Value in proportion between the two points next to ``at``.

        Raises OutOfRangeError, with this name, left of the first point and right of the last.

        >>> Curve(((0.0, 1.0), (10.0, 3.0))).between("x", 2.5)
        1.5
        """
        within(name, at, self[0][0], self[-1][0])
        for (x0, y0), (x1, y1) in pairwise(self):
            if at <= x1:
                return y0 + (y1 - y0) * (at - x0) / (x1 - x0)
        return self[-1][1]

    def between_logs(self, name: str, at: float) -> float:
        """As `between` on paper with logarithmic axes, where powers are straight; all values above 0.

        >>> round(Curve(((1.0, 100.0), (100.0, 1.0))).between_logs("x", 10.0), 9)
        10.0
        """
        within(name, at, self[0][0], self[-1][0])
        return exp(Curve((log(x), log(y)) for x, y in self).between(name, log(at)))

    def step(self, at: float) -> float:
        """Value of the last step that begins below ``at``; 0 below the first, and exactly on a step the one before.

        >>> warm = Curve(((0.0, 0.1), (5.0, 0.2)))
        >>> warm.step(5.0), warm.step(0.0)
        (0.1, 0.0)
        """
        return next((y for x, y in reversed(self) if at > x), 0.0)
