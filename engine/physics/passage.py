"""The narrowest place of the way through a room that has things standing in it."""

from collections.abc import Sequence
from typing import NamedTuple


class Standing(NamedTuple):
    """A thing on the floor as seen from above."""

    key: str
    x_from_m: float
    x_to_m: float
    y_from_m: float
    y_to_m: float
    ends: str = ""
    """front or rear: nobody walks past it, so the way ends at it toward that end of the room."""


class Narrowest(NamedTuple):
    """The narrowest place, and what stands on its two sides (empty for a wall)."""

    width_m: float
    x_m: float
    keys: tuple[str, ...]


def narrowest(
    outline_m: Sequence[tuple[float, float, float]], things: Sequence[Standing], x_from_m: float, x_to_m: float
) -> Narrowest | None:
    """Widest gap at each cross-section, the least of them over a stretch; None when the stretch holds no way at all.

    ``outline_m`` has (x, left y, right y) of the room, straight between. Where nothing stands the way is the room's
    whole width. Pure geometry.

    >>> room = ((0, 0, 2), (4, 0, 2))
    >>> narrowest(room, (Standing("a", 1, 2, 0, 0.5), Standing("b", 1.5, 3, 1.25, 2)), 0, 4)
    Narrowest(width_m=0.75, x_m=1.5, keys=('a', 'b'))
    """
    begin, end = x_from_m, x_to_m
    for t in things:
        if t.ends == "rear":
            end = min(end, t.x_from_m)
        elif t.ends == "front":
            begin = max(begin, t.x_to_m)
    if end - begin < 1e-6:
        return None
    cuts = {begin, end, *(x for x, _, _ in outline_m)}
    passed = [t for t in things if not t.ends]
    for t in passed:
        cuts |= {t.x_from_m, t.x_to_m}
    xs = sorted(x for x in cuts if begin <= x <= end)
    best: Narrowest | None = None
    for a, b in zip(xs, xs[1:], strict=False):  # noqa: RUF007
        if b - a < 1e-6:
            continue
        left, right = _walls(outline_m, a, b)
        here = sorted((t.y_from_m, t.y_to_m, t.key) for t in passed if t.x_from_m < b - 1e-7 and t.x_to_m > a + 1e-7)
        widest = _widest(left, right, here, a)
        if best is None or widest.width_m < best.width_m - 1e-9:
            best = widest
    return best


def _walls(outline: Sequence[tuple[float, float, float]], a: float, b: float) -> tuple[float, float]:
    ends = [_wall(outline, a), _wall(outline, b)]
    return max(y for y, _ in ends), min(y for _, y in ends)


def _wall(outline: Sequence[tuple[float, float, float]], x_m: float) -> tuple[float, float]:
    before = outline[0]
    for point in outline:
        if point[0] >= x_m:
            if point[0] == before[0]:
                return point[1], point[2]
            share = (x_m - before[0]) / (point[0] - before[0])
            return before[1] + share * (point[1] - before[1]), before[2] + share * (point[2] - before[2])
        before = point
    return before[1], before[2]


def _widest(left: float, right: float, here: Sequence[tuple[float, float, str]], x_m: float) -> Narrowest:
    best = Narrowest(0.0, x_m, ())
    edge, beside = left, ""
    for y_from, y_to, key in (*here, (right, right, "")):
        if y_from - edge > best.width_m:
            best = Narrowest(y_from - edge, x_m, tuple(k for k in (beside, key) if k))
        if y_to > edge:
            edge, beside = y_to, key
    if not best.keys and here:
        best = best._replace(keys=tuple(dict.fromkeys(k for _, _, k in here)))
    return best
