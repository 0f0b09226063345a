"""Fuses: the rating between a load and its conductor, and the fault current that a fuse can break."""

from functools import lru_cache
from typing import NamedTuple

from engine.physics.ranges import within

CONTINUOUS = 1.25
"""A fuse carries a load that lasts hours only when rated a quarter above it (NEC 210.20(A) and 215.3; a fuse at its
rating grows hot and ages)."""

RATINGS_US = (15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400,
              450, 500, 600, 700, 800)  # fmt: skip
"""Source: NFPA 70 (NEC) 2023, 240.6(A), up to 800 A (compared in three reproductions)."""

RATINGS_SMALL_US = (1, 3, 6, 10, *RATINGS_US)
"""With the ratings that 240.6(A) adds for fuses alone."""

RATINGS_VEHICLE = (1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 35, 40, 50, 60, 70, 80, 100, 125, 150, 175, 200, 225, 250,
                   300, 350, 400, 450, 500)  # fmt: skip
"""Ratings of blade fuses and bolted fuses for vehicles (ISO 8820 sizes as commonly sold, from memory)."""

RATINGS_SOLAR = (1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 16, 20, 25, 30, 32, 40, 50, 63)
"""Ratings of cylindrical fuses for strings of solar panels (gPV, IEC 60269-6 and UL 248-19, as commonly sold, from
memory)."""

NEXT_SIZE_UP_FRAC = 1.5
"""ABYC E-11 lets the next rating above a conductor's ampacity stand up to this share of it."""


class FuseKind(NamedTuple):
    """A kind of fuse with the fault current it breaks at direct voltage."""

    code: str
    title: str
    breaks: tuple[tuple[int, int], ...]
    """Up to how many volts, and amperes it breaks there."""
    least_a: float
    most_a: float
    source: str


FUSE_KINDS = (
    FuseKind("blade", "blade fuse", ((32, 1_000),), 1, 40, "supplier's page; ratings common practice"),
    FuseKind("maxi", "large blade fuse", ((32, 1_000),), 20, 100, "from memory"),
    FuseKind("midi", "small bolted strip fuse", ((32, 1_000),), 23, 200, "supplier's page; ratings from memory"),
    FuseKind("mega", "bolted strip fuse", ((32, 2_000),), 40, 500, "two suppliers' pages; ratings from memory"),
    FuseKind("anl", "ANL fuse", ((32, 6_000),), 35, 750, "from memory"),
    FuseKind("mrbf", "terminal fuse (MRBF)", ((14, 10_000), (32, 5_000), (58, 2_000)), 30, 300, "from memory"),
    FuseKind("nh", "NH fuse for direct current", ((250, 25_000),), 6, 630, "supplier's page; ratings from memory"),
    FuseKind("class-t", "class T fuse", ((125, 20_000),), 1, 800, "from memory; a forum quotes ABYC E-11 for it"),
)
"""Common values. A maker's datasheet decides: the same shape is sold with other ratings, and many have none for direct
current."""


class Fuse(NamedTuple):
    """The rating found, and the two limits it lies between."""

    rating_a: float | None
    """None when no standard rating lies between the load and the conductor."""
    least_a: float
    """What the load asks for."""
    most_a: float
    """What the conductor allows."""
    above_conductor: bool = False
    """The rating is above the conductor's ampacity, by the rule of the next size up."""


def least_fuse_a(load_a: float, ratings_a: tuple[float, ...], continuous: bool = True) -> float | None:
    """Smallest standard rating for a load; None beyond the list. load_a: 0 to 5000.

    Source: NEC 210.20(A): 125 % of what runs for three hours and more.

    >>> least_fuse_a(207, RATINGS_US), least_fuse_a(189, RATINGS_US), least_fuse_a(9, RATINGS_VEHICLE)
    (300, 250, 15)
    """
    need_a = within("load_a", load_a, 0, 5000) * (CONTINUOUS if continuous else 1.0)
    return next((r for r in ratings_a if r >= need_a * (1 - 1e-12)), None)


def fuse_for(
    load_a: float,
    ampacity_a: float,
    ratings_a: tuple[float, ...],
    continuous: bool = True,
    next_size_up: bool = False,
    cap_a: float = float("inf"),
) -> Fuse:
    """Smallest standard rating that carries the load and still protects the conductor.

    1.25·I ≤ rating ≤ ampacity (1.0·I when not continuous). With ``next_size_up`` the first rating above the ampacity
    will do too, up to 150 % of it. Never above cap_a. load_a: 0 to 5000. ampacity_a: 0.1 to 5000.

    Source: NEC 210.20(A) and 240.4, ABYC E-11 (next size up), as reproduced.

    >>> fuse_for(189, 330, RATINGS_US).rating_a
    250
    >>> fuse_for(189, 160, RATINGS_US).rating_a is None  # 4 AWG is too thin
    True
    >>> fuse_for(103.3, 160, RATINGS_US).rating_a  # two in parallel, each with its own fuse
    150
    """
    within("ampacity_a", ampacity_a, 0.1, 5000)
    least_a = within("load_a", load_a, 0, 5000) * (CONTINUOUS if continuous else 1.0)
    most_a = min(ampacity_a, cap_a)
    rating = least_fuse_a(load_a, ratings_a, continuous)
    if rating is None or rating > cap_a:
        return Fuse(None, least_a, most_a)
    if rating <= most_a * (1 + 1e-12):
        return Fuse(rating, least_a, most_a)
    first_above = next((r for r in ratings_a if r > ampacity_a), None)
    if next_size_up and rating == first_above and rating <= NEXT_SIZE_UP_FRAC * ampacity_a and load_a <= ampacity_a:
        return Fuse(rating, least_a, most_a, above_conductor=True)
    return Fuse(None, least_a, most_a)


def breaks_a(kind: FuseKind, system_v: float) -> float:
    """Fault current that a kind of fuse breaks at a voltage; 0 above the highest it is made for. system_v: 5 to 600.

    Source: the kind.

    >>> mrbf = next(k for k in FUSE_KINDS if k.code == "mrbf")
    >>> breaks_a(mrbf, 13.3), breaks_a(mrbf, 26.6), breaks_a(mrbf, 100)
    (10000.0, 5000.0, 0.0)
    """
    within("system_v", system_v, 5, 600)
    return _breaks_a(kind, system_v)


@lru_cache(maxsize=1024)
def kinds_that_break(prospective_a: float, system_v: float, rating_a: float) -> tuple[FuseKind, ...]:
    """Kinds of fuse that are made in a rating and break a prospective short-circuit current, weakest first.

    prospective_a: 0 to 1 MA. system_v: 5 to 600. rating_a: 0.5 to 5000. Source: ``FUSE_KINDS``.

    >>> [k.code for k in kinds_that_break(6650, 13.3, 300)]
    ['mrbf', 'class-t', 'nh']
    """
    within("prospective_a", prospective_a, 0, 1e6)
    within("system_v", system_v, 5, 600)
    within("rating_a", rating_a, 0.5, 5000)
    fit = [(_breaks_a(k, system_v), k) for k in FUSE_KINDS if k.least_a <= rating_a <= k.most_a]
    return tuple(k for amps, k in sorted(fit, key=lambda f: f[0]) if amps >= prospective_a)


def _breaks_a(kind: FuseKind, system_v: float) -> float:
    return float(next((amps for volts, amps in kind.breaks if system_v <= volts), 0))


def through_fuse_w(fuse_a: float, battery_v: float, efficiency_frac: float) -> float:
    """Load behind an inverter that a fuse on its battery side lets through.

    P = I·U·η. fuse_a: 0 to 5000. battery_v: 8 to 70. efficiency_frac: 0.5 to 1. Source: power balance.

    >>> round(through_fuse_w(20, 12, 0.88))
    211
    """
    within("fuse_a", fuse_a, 0, 5000)
    within("battery_v", battery_v, 8, 70)
    return fuse_a * battery_v * within("efficiency_frac", efficiency_frac, 0.5, 1)
