"""Places for the numbers in a drawing: none on another, each on its part or tied to it by a line.

A label stands in the middle of its part when there is room, else elsewhere on it, else as near as there is room, with
a leader line. The order of labels decides who comes first, so the same build always looks the same.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from math import hypot
from typing import NamedTuple

_DIGIT_EM = 0.74
"""Widest bold figure or capital of the usual sans-serif fonts."""
_LINE_EM = 1.3
_APART_EM = 0.4
"""Between two numbers side by side: closer they would read as one."""
_STEP_EM = 0.5
_REACH = 30
"""How many steps away from its part a label may stand."""
_TRIES = 60
"""After so many free places whose line would run through other words, the line may."""


class Area(NamedTuple):
    """A rectangle of the drawing, metres, y downwards."""

    left_m: float
    top_m: float
    right_m: float
    bottom_m: float

    @property
    def middle(self) -> tuple[float, float]:
        """Its middle."""
        return (self.left_m + self.right_m) / 2, (self.top_m + self.bottom_m) / 2

    def meets(self, other: Area) -> bool:
        """Whether the two share more than an edge."""
        return (
            self.left_m < other.right_m
            and other.left_m < self.right_m
            and self.top_m < other.bottom_m
            and other.top_m < self.bottom_m
        )

    def holds(self, other: Area) -> bool:
        """Whether the other lies wholly in this one."""
        return (
            self.left_m <= other.left_m
            and other.right_m <= self.right_m
            and self.top_m <= other.top_m
            and other.bottom_m <= self.bottom_m
        )


class Wanted(NamedTuple):
    """A label to be placed and the part it names."""

    text: str
    part: Area


class Label(NamedTuple):
    """A label in its place: the middle of its text, and where its leader line ends when it needs one."""

    text: str
    x_m: float
    y_m: float
    to: tuple[float, float] | None


def text_area(text: str, x_m: float, y_m: float, em_m: float) -> Area:
    """The room a text takes whose middle is there, a little more than it needs."""
    half_width, half_height = len(text) * _DIGIT_EM * em_m / 2 + 0.06 * em_m, _LINE_EM * em_m / 2
    return Area(x_m - half_width, y_m - half_height, x_m + half_width, y_m + half_height)


@lru_cache(maxsize=1)
def _offsets() -> tuple[tuple[int, int], ...]:
    """Steps away from a point, near ones first; upwards and to the left before the rest."""
    square = range(-_REACH, _REACH + 1)
    return tuple(sorted(((x, y) for x in square for y in square), key=lambda p: (hypot(*p), p[1], p[0])))


def _at_home(part: Area, size: Area, step_m: float) -> Iterator[tuple[float, float]]:
    """Places on the part itself where the whole text fits: the middle, then outwards along its longer side."""
    x_m, y_m = part.middle
    spare_x = (part.right_m - part.left_m) - (size.right_m - size.left_m)
    spare_y = (part.bottom_m - part.top_m) - (size.bottom_m - size.top_m)
    if spare_x < 0 or spare_y < 0:
        return
    yield x_m, y_m
    for n in range(1, 1 + int(max(spare_x, spare_y) / 2 / step_m)):
        for sign in (-1, 1):
            if spare_x >= spare_y:
                yield x_m + sign * n * step_m, y_m
            else:
                yield x_m, y_m + sign * n * step_m


def _crosses(start: tuple[float, float], end: tuple[float, float], area: Area) -> bool:
    """Whether a line runs through an area: what is left of it after cutting at each side (Liang and Barsky's way)."""
    begin, rest = 0.0, 1.0
    for at, to, low, high in (
        (start[0], end[0], area.left_m, area.right_m),
        (start[1], end[1], area.top_m, area.bottom_m),
    ):
        if at == to:
            if not low < at < high:
                return False
            continue
        first, last = sorted(((low - at) / (to - at), (high - at) / (to - at)))
        begin, rest = max(begin, first), min(rest, last)
        if begin >= rest:
            return False
    return True


def place_labels(
    wanted: Sequence[Wanted], taken: Sequence[Area], bounds: Area, em_m: float, shun: Sequence[Area] = ()
) -> tuple[Label, ...]:
    """A place for every label.

    taken: where other words stand. bounds: where labels may stand. em_m: size of letters in the drawing.
    shun: small parts that no other part's label should cover, if that can be had.
    """
    full = list(taken)
    placed = []
    for label in wanted:
        found = _place(label, full, bounds, em_m, shun)
        room = text_area(label.text, found.x_m, found.y_m, em_m)
        apart_m = _APART_EM * em_m
        full.append(room._replace(left_m=room.left_m - apart_m, right_m=room.right_m + apart_m))
        placed.append(found)
    return tuple(placed)


def _place(label: Wanted, full: Sequence[Area], bounds: Area, em_m: float, shun: Sequence[Area]) -> Label:
    size = text_area(label.text, 0.0, 0.0, em_m)
    half_x, half_y = size.right_m, size.bottom_m
    step_m = _STEP_EM * em_m
    left, right = bounds.left_m + half_x, bounds.right_m - half_x
    top, bottom = bounds.top_m + half_y, bounds.bottom_m - half_y

    def grown(areas: Sequence[Area]) -> list[tuple[float, float, float, float]]:
        """Where the middle of this text cannot be."""
        return [(a.left_m - half_x, a.right_m + half_x, a.top_m - half_y, a.bottom_m + half_y) for a in areas]

    def free(x: float, y: float, closed: list[tuple[float, float, float, float]]) -> bool:
        if not (left <= x <= right and top <= y <= bottom):
            return False
        return not any(a < x < b and c < y < d for a, b, c, d in closed)

    words = grown(full)
    others = grown([a for a in shun if a != label.part])
    own = grown([label.part])
    for closed in (words + others, words):
        for x_m, y_m in _at_home(label.part, size, step_m):
            if free(x_m, y_m, closed):
                return Label(label.text, x_m, y_m, None)
    middle_x, middle_y = label.part.middle
    lesser = None
    for closed in (words + others + own, words + own, words):
        tries = 0
        for dx, dy in _offsets():
            x_m, y_m = middle_x + dx * step_m, middle_y + dy * step_m
            if not free(x_m, y_m, closed):
                continue
            end = _nearest(label.part, x_m, y_m)
            # A part that lies under another's number cannot be reached without touching that.
            if not any(_crosses((x_m, y_m), end, o) for o in full if not _within(end, o)):
                return Label(label.text, x_m, y_m, end)
            lesser = lesser or Label(label.text, x_m, y_m, end)
            tries += 1
            if tries == _TRIES:
                break
    return lesser or Label(label.text, middle_x, middle_y, None)


def _within(point: tuple[float, float], area: Area) -> bool:
    return area.left_m < point[0] < area.right_m and area.top_m < point[1] < area.bottom_m


def _nearest(part: Area, x_m: float, y_m: float) -> tuple[float, float]:
    """The point a leader line ends at: on the part, a little inside its edge."""
    inside_x, inside_y = (min(0.08, side / 2) for side in (part.right_m - part.left_m, part.bottom_m - part.top_m))
    return (
        min(max(x_m, part.left_m + inside_x), part.right_m - inside_x),
        min(max(y_m, part.top_m + inside_y), part.bottom_m - inside_y),
    )
