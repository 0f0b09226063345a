"""Gas struts that lift a hinged bed: the force at the hand over the whole arc, and which struts to take.

The hinge is the origin. The first coordinate runs along the shut bed from the hinge, the second straight up; the bed
turns upward. Forces at the hand are square to the bed: above nothing somebody lifts, below nothing somebody pulls down.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import lru_cache
from math import atan2, cos, hypot, pi, radians, sin
from typing import NamedTuple

from engine.physics.ranges import within

GRAVITY_M_S2 = 9.80665
"""Standard gravity (ISO 80000-3)."""

SERIES_N = (*range(100, 800, 50), *range(800, 1201, 100))
"""Ratings that struts are commonly sold in (common practice)."""

COUNTS = (2, 4)
"""Struts come in pairs: a single one twists the bed's frame (common practice)."""

HAND_N = 200.0
"""More than most people care to push or pull at a bed (common practice)."""

WEAKEST_FRAC = 0.9
"""What is left of a strut's rating after some winters, or in frost: gas loses 1 % of its pressure for each 3 K
(ideal gas), and seals a little each year (common practice)."""

_SAMPLES = 60


class Hinge(NamedTuple):
    """A bed on a hinge, with the places where its struts are fixed."""

    moved_kg: float
    centre_along_m: float
    centre_up_m: float
    """Centre of mass of all that moves, from the hinge, with the bed shut."""
    hand_along_m: float
    """From the hinge to where the hand takes hold."""
    on_bed_along_m: float
    on_bed_up_m: float
    """Strut's eye on the bed, with the bed shut."""
    on_body_along_m: float
    on_body_up_m: float
    """Strut's eye on the body."""
    open_deg: float
    """How far the bed turns."""


class Struts(NamedTuple):
    """Struts of one kind. ``force_n`` is the rating, given by the strut drawn out; pressed in it gives more."""

    number: int
    force_n: float
    rise_frac: float = 0.25
    """By how much the force is greater with the whole stroke pressed in; gas struts are sold with 0.2 to 0.4."""
    long_m: float | None = None
    stroke_m: float | None = None
    """Length eye to eye when drawn out, and stroke; when absent, just what the arc needs."""


class Arc(NamedTuple):
    """Forces at the hand and lengths of the struts from shut to open."""

    push_n: float
    """Most that must be pushed upward on the way; 0 when the struts do it all."""
    push_deg: float
    pull_n: float
    """Most that must be pulled down to shut it again; 0 when it comes down by itself."""
    pull_deg: float
    shut_weight_n: float
    """Weight of the shut bed, as a force at the hand."""
    shut_struts_n: float
    """What the struts lift of it; more than the weight, and the bed rises by itself."""
    open_weight_n: float
    """Weight of the open bed, as a force at the hand; below 0 once it leans back beyond the hinge."""
    open_struts_n: float
    """What the struts carry of it; less than the weight, and the bed comes down."""
    shortest_m: float
    longest_m: float

    @property
    def shut_n(self) -> float:
        """Force at the hand that starts to lift the shut bed; below 0 it lifts by itself."""
        return self.shut_weight_n - self.shut_struts_n

    @property
    def open_n(self) -> float:
        """Force at the hand that would hold the open bed; at most 0 when the struts do."""
        return self.open_weight_n - self.open_struts_n

    @property
    def travel_m(self) -> float:
        """How much longer the struts grow from their shortest to their longest."""
        return self.longest_m - self.shortest_m


def strut_length_m(hinge: Hinge, angle_deg: float) -> float:
    """Distance between both eyes of a strut with the bed turned by an angle of 0 to 150°.

    Source: plane geometry.

    >>> h = Hinge(40, 0.95, 0.0, 1.9, 0.6, 0.0, 0.3, -0.4, 60)
    >>> round(strut_length_m(h, 0), 4)
    0.5
    """
    within("angle_deg", angle_deg, 0, 150)
    along_m, up_m = _turned(hinge.on_bed_along_m, hinge.on_bed_up_m, radians(angle_deg))
    return hypot(along_m - hinge.on_body_along_m, up_m - hinge.on_body_up_m)


def strut_span_m(hinge: Hinge) -> tuple[float, float]:
    """Shortest and longest distance of the eyes over the arc: at its ends, or where hinge and eyes are in line.

    Source: plane geometry.

    >>> h = Hinge(40, 0.95, 0.0, 1.9, 0.6, 0.0, 0.3, -0.4, 60)
    >>> [round(x, 4) for x in strut_span_m(h)]
    [0.5, 0.9196]
    """
    body = atan2(hinge.on_body_up_m, hinge.on_body_along_m)
    bed = atan2(hinge.on_bed_up_m, hinge.on_bed_along_m)
    found = [strut_length_m(hinge, 0), strut_length_m(hinge, hinge.open_deg)]
    for turn in (body - bed, body - bed + pi):
        angle_rad = turn % (2 * pi)
        if angle_rad < radians(hinge.open_deg):
            along_m, up_m = _turned(hinge.on_bed_along_m, hinge.on_bed_up_m, angle_rad)
            found.append(hypot(along_m - hinge.on_body_along_m, up_m - hinge.on_body_up_m))
    return min(found), max(found)


def hand_n(hinge: Hinge, struts: Struts, angle_deg: float) -> float:
    """Force at the hand that balances the bed at an angle of 0 to 150°: positive must be lifted.

    P = (m·g·(a·cos θ − b·sin θ) − n·F(L)·r) / h, with a and b the centre's place, r = |A × B| / L the strut's lever
    (A its eye on the body, B that on the turned bed, L = |B − A|) and F(L) = F₁·(1 + k·(L₁ − L)/s), L₁ the length drawn
    out and s the stroke. Friction, which helps to hold the bed wherever it stands, is left out.

    Source: balance of moments (any mechanics text); the rise of a gas strut's force taken as even over its stroke
    (common practice). Valid for 1 kg to 1,000 t (more than any list of choices can put on a bed), levers of 0.05 to 3 m
    and 1 to 8 struts of 10 to 3000 N.

    >>> h = Hinge(40, 0.95, 0.0, 1.9, 0.6, 0.0, 0.3, -0.4, 60)
    >>> round(hand_n(h, Struts(2, 300, 0.0), 0), 2)  # 40·9.80665·0.95/1.9 − 2·300·(0.4·0.6/0.5)/1.9
    44.55
    """
    _check(hinge, struts)
    weight_n, relief = _at(hinge, struts, strut_span_m(hinge), within("angle_deg", angle_deg, 0, 150))
    return weight_n - struts.number * struts.force_n * relief


@lru_cache(maxsize=1024)
def lifting_arc(hinge: Hinge, struts: Struts) -> Arc:
    """Forces over the whole arc: sampled, then the extremes narrowed down between the samples next to them.

    Source: as for `hand_n`.

    ValueError (OutOfRangeError) outside the ranges of `hand_n`, and for an opening beyond 10 to 150°.

    >>> h = Hinge(40, 0.95, 0.0, 1.9, 0.6, 0.0, 0.3, -0.4, 60)
    >>> arc = lifting_arc(h, Struts(2, 300, 0.0))
    >>> round(arc.shut_n, 1), round(arc.push_n, 1), round(arc.push_deg), round(arc.travel_m, 3)
    (44.6, 48.1, 13, 0.42)
    """
    _check(hinge, struts)
    ends = shortest_m, longest_m = strut_span_m(hinge)
    all_n = struts.number * struts.force_n

    def force(angle_deg: float) -> float:
        weight_n, relief = _at(hinge, struts, ends, angle_deg)
        return weight_n - all_n * relief

    angles = _angles(hinge)
    forces = list(map(force, angles))
    push_deg = _narrowed(force, angles, max(range(len(angles)), key=forces.__getitem__))
    pull_deg = _narrowed(lambda a: -force(a), angles, min(range(len(angles)), key=forces.__getitem__))
    shut_n, open_n = (_at(hinge, struts, ends, angle_deg)[0] for angle_deg in (0, hinge.open_deg))
    return Arc(
        push_n=max(0.0, force(push_deg)),
        push_deg=push_deg,
        pull_n=max(0.0, -force(pull_deg)),
        pull_deg=pull_deg,
        shut_weight_n=shut_n,
        shut_struts_n=shut_n - forces[0],
        open_weight_n=open_n,
        open_struts_n=open_n - forces[-1],
        shortest_m=shortest_m,
        longest_m=longest_m,
    )


@lru_cache(maxsize=256)
def recommended(
    hinge: Hinge, rise_frac: float = 0.25, hand_limit_n: float = HAND_N, catch: bool = False
) -> Struts | None:
    """Struts of the usual ratings that leave the bed shut, hold it open and ask least of the hand in between.

    They still hold it open when only ``WEAKEST_FRAC`` of their rating is left; with a ``catch`` they may lift the shut
    bed by themselves. As few struts as will do, then the smallest greatest force at the hand, both ways; None when no
    rating of the series stays below ``hand_limit_n``. rise_frac: 0 to 0.6. hand_limit_n: 20 to 500.

    Source: balance of moments, as for `hand_n`.

    >>> h = Hinge(40, 0.95, 0.0, 1.9, 0.6, 0.0, 0.3, -0.4, 60)
    >>> recommended(h, 0.0)[:2]
    (2, 350)
    """
    within("hand_limit_n", hand_limit_n, 20, 500)
    alone = Struts(1, SERIES_N[0], rise_frac)
    _check(hinge, alone)
    ends = strut_span_m(hinge)
    # The hand's force falls evenly with the rating, so the arc is gone through once for all ratings.
    arc = [_at(hinge, alone, ends, angle_deg) for angle_deg in _angles(hinge)]
    open_weight_n, open_relief = arc[-1]
    for count in COUNTS:
        found = []
        for force_n in SERIES_N:
            forces = [weight_n - count * force_n * relief for weight_n, relief in arc]
            hand = max(max(forces), -min(forces))
            holds = WEAKEST_FRAC * count * force_n * open_relief >= open_weight_n
            if (catch or forces[0] >= 0) and holds and hand <= hand_limit_n:
                found.append((hand, force_n))
        if found:
            return Struts(count, min(found)[1], rise_frac)
    return None


def _angles(hinge: Hinge) -> list[float]:
    return [hinge.open_deg * i / _SAMPLES for i in range(_SAMPLES + 1)]


def _turned(along_m: float, up_m: float, angle_rad: float) -> tuple[float, float]:
    c, s = cos(angle_rad), sin(angle_rad)
    return along_m * c - up_m * s, along_m * s + up_m * c


def _at(hinge: Hinge, struts: Struts, ends: tuple[float, float], angle_deg: float) -> tuple[float, float]:
    """(the bed's weight as a force at the hand, what one newton of one strut's rating takes off it)."""
    angle_rad = radians(angle_deg)
    centre_m, _ = _turned(hinge.centre_along_m, hinge.centre_up_m, angle_rad)
    along_m, up_m = _turned(hinge.on_bed_along_m, hinge.on_bed_up_m, angle_rad)
    length_m = hypot(along_m - hinge.on_body_along_m, up_m - hinge.on_body_up_m)
    cross = hinge.on_body_along_m * up_m - hinge.on_body_up_m * along_m
    long_m = struts.long_m if struts.long_m is not None else ends[1]
    stroke_m = struts.stroke_m if struts.stroke_m is not None else max(1e-6, ends[1] - ends[0])
    rise = 1 + struts.rise_frac * (long_m - length_m) / stroke_m
    weight_n = hinge.moved_kg * GRAVITY_M_S2 * centre_m / hinge.hand_along_m
    return weight_n, rise * cross / length_m / hinge.hand_along_m


def _narrowed(force: Callable[[float], float], angles: Sequence[float], most: int) -> float:
    """Angle of the greatest force near the sample that has most, to a thousandth of a degree; an end stays an end."""
    low, high = angles[max(0, most - 1)], angles[min(len(angles) - 1, most + 1)]
    while high - low > 1e-3:
        third = (high - low) / 3
        if force(low + third) < force(high - third):
            low += third
        else:
            high -= third
    return max(angles[most], (low + high) / 2, key=force)


def _check(hinge: Hinge, struts: Struts) -> None:
    within("moved_kg", hinge.moved_kg, 1, 1e6)
    within("centre_along_m", hinge.centre_along_m, 0.05, 3)
    within("centre_up_m", hinge.centre_up_m, -0.5, 0.5)
    within("hand_along_m", hinge.hand_along_m, 0.05, 3)
    within("open_deg", hinge.open_deg, 10, 150)
    within("on_bed_along_m", hinge.on_bed_along_m, -1, 3)
    within("on_bed_up_m", hinge.on_bed_up_m, -1, 1)
    within("on_body_along_m", hinge.on_body_along_m, -3, 3)
    within("on_body_up_m", hinge.on_body_up_m, -2, 2)
    within("number", struts.number, 1, 8)
    within("force_n", struts.force_n, 10, 3000)
    within("rise_frac", struts.rise_frac, 0, 0.6)
    # A strut whose eyes meet has no length to give its force a direction.
    within("shortest_m", strut_span_m(hinge)[0], 0.02, 5)
    if struts.stroke_m is not None:
        within("stroke_m", struts.stroke_m, 0.02, 2)
    if struts.long_m is not None:
        within("long_m", struts.long_m, 0.05, 5)
