"""Current of solar panels in parallel, and the fuse of each string."""

from engine.physics.overcurrent import CONTINUOUS, RATINGS_SOLAR
from engine.physics.ranges import within

BRIGHT = 1.25
"""Bright clouds and cold clear noons drive a panel above its label (NEC 690.8(A)(1))."""


def source_a(short_circuit_a: float, parallel: int = 1) -> float:
    """Highest current of strings in parallel: 1.25 · I_sc · n. short_circuit_a: 0 to 40. parallel: 1 to 100.

    Source: NFPA 70 (NEC) 2023, 690.8(A)(1).

    >>> source_a(11.4)
    14.25
    """
    within("short_circuit_a", short_circuit_a, 0, 40)
    return BRIGHT * short_circuit_a * within("parallel", parallel, 1, 100)


def conductor_a(short_circuit_a: float, parallel: int = 1) -> float:
    """What the conductors and fuse of strings in parallel must carry: 1.5625 · I_sc · n. Ranges as for `source_a`.

    Source: NFPA 70 (NEC) 2023, 690.8(B) and 690.9(B): 1.25 more for current that lasts hours.

    >>> conductor_a(11.4)
    17.8125
    """
    return CONTINUOUS * source_a(short_circuit_a, parallel)


def reverse_a(short_circuit_a: float, parallel: int) -> float:
    """Current that the other strings drive backward through a faulty one: 1.25 · I_sc · (n − 1).

    Ranges as for `source_a`. Source: NFPA 70 (NEC) 690.9(A), reasoning as trade papers give it.

    >>> reverse_a(5, 3)
    12.5
    """
    within("parallel", parallel, 1, 100)
    return source_a(short_circuit_a, parallel - 1) if parallel > 1 else 0.0


def needs_fuse(
    short_circuit_a: float, parallel: int, series_fuse_a: float | None, beside_a: float = 0.0, beside_count: int = 0
) -> bool:
    """Whether each string needs a fuse: what the others drive through a faulty string is more than a panel stands.

    One or two equal strings never do. Where the panel's largest series fuse is not known, three strings and more do.
    series_fuse_a: 1 to 100. beside_a: short-circuit current of unlike strings on the same controller, 0 to 4000, and
    how many they are: of two unlike ones the larger may be too much for the smaller. Source: as for `reverse_a`; three
    and more without a rating is common practice.

    >>> needs_fuse(5, 3, 15), needs_fuse(9.5, 3, 20), needs_fuse(9.5, 2, 10), needs_fuse(5, 3, None)
    (False, True, False, True)
    >>> needs_fuse(6, 1, 10, 10.5, 1), needs_fuse(6, 1, 15, 10.5, 1), needs_fuse(6, 1, None, 21, 2)
    (True, False, True)
    """
    if series_fuse_a is not None:
        within("series_fuse_a", series_fuse_a, 1, 100)
    if parallel <= 2 and not beside_count:
        return False
    back_a = reverse_a(short_circuit_a, parallel) + BRIGHT * within("beside_a", beside_a, 0, 4000)
    return parallel + beside_count > 2 if series_fuse_a is None else back_a > series_fuse_a


def string_fuse_a(short_circuit_a: float, series_fuse_a: float | None) -> float | None:
    """Smallest usual fuse for one string: at least 1.5625 · I_sc, at most the panel's largest series fuse.

    None when there is none between. Ranges as for `needs_fuse`. Source: NFPA 70 (NEC) 2023, 690.9(B).

    >>> string_fuse_a(9.5, 20), string_fuse_a(7.2, 12), string_fuse_a(13.5, 20) is None
    (15, 12, True)
    """
    if series_fuse_a is not None:
        within("series_fuse_a", series_fuse_a, 1, 100)
    need_a = conductor_a(short_circuit_a)
    rating = next((r for r in RATINGS_SOLAR if r >= need_a * (1 - 1e-12)), None)
    if rating is None or (series_fuse_a is not None and rating > series_fuse_a):
        return None
    return rating
