"""Bulky things in the form: a count for each, and one box of the buyer's own.

Every line carries its box's exact sizes, so a form nobody touched gives back the very boxes it was made from.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping
from functools import cache
from typing import Any, NamedTuple

from engine.catalogue.trip import CargoBox
from engine.units import INCH_M, System, show

COUNT = "box."
"""Followed by a line's number: how many."""
IS = "box-is."
"""Followed by a line's number: the box in JSON, sizes in SI."""
OWN = "box-own."
"""Followed by name, length, width, height or turn: the buyer's own box; by add: the button that takes it."""

ADD = OWN + "add"
SIZES = ("length", "width", "height")

MOST_KINDS = 8
MOST_OF_ONE = 8

COMMON = (
    CargoBox(name="Bicycle, handlebar turned", length_m=1.8, width_m=0.35, height_m=1.05),
    CargoBox(name="Paddle board, packed", length_m=0.95, width_m=0.4, height_m=0.3, any_way_up=True),
    CargoBox(name="Large bag", length_m=0.8, width_m=0.45, height_m=0.4, any_way_up=True),
)
"""What travels most (sizes are common practice)."""


def _to_the_inch(box: CargoBox) -> CargoBox:
    sizes = ("length_m", "width_m", "height_m")
    return box.model_copy(update={k: round(round(getattr(box, k) / INCH_M) * INCH_M, 4) for k in sizes})


COMMON_IN: dict[System, tuple[CargoBox, ...]] = {"metric": COMMON, "us": tuple(map(_to_the_inch, COMMON))}
"""The same as each reader measures it: nobody's bicycle is 70.9 inches long."""

_OWN_NAME = "Own box"

MOST_TYPED = 60
"""Characters of what is typed for the own box that are kept in its field."""


class OwnBox(NamedTuple):
    """The own box as far as it is typed, before it is added: no part of an enquiry yet."""

    name: str = ""
    length: str = ""
    width: str = ""
    height: str = ""
    turn: str = ""
    trouble: str = ""
    """Why it could not be added as it is."""


UNTYPED = OwnBox()


def own_from_form(pairs: Iterable[tuple[str, str]]) -> OwnBox:
    """What is typed in the fields of the own box."""
    typed = {name.removeprefix(OWN): value[:MOST_TYPED] for name, value in pairs if name.startswith(OWN)}
    return OwnBox(*(typed.get(key, "") for key in ("name", *SIZES, "turn")))


class Line(NamedTuple):
    """One kind of box as it stands in the form."""

    number: int
    label: str
    size: str
    how_many: int
    exact: str


def _same(a: CargoBox, b: CargoBox) -> bool:
    return a.model_copy(update={"count": 1}) == b.model_copy(update={"count": 1})


def _exact(box: CargoBox) -> str:
    return json.dumps(box.model_dump(exclude={"count"}, exclude_none=True), ensure_ascii=False, sort_keys=True)


def lines(boxes: tuple[CargoBox, ...], system: System) -> tuple[Line, ...]:
    """The trip's boxes, then the common ones that are not among them."""
    more = tuple(c for c in COMMON_IN[system] if not any(_same(c, b) for b in boxes))
    return tuple(
        Line(
            n,
            box.name,
            " × ".join(show(s, "m", system) for s in (box.length_m, box.width_m, box.height_m)),
            box.count if n < len(boxes) else 0,
            _exact(box),
        )
        for n, box in enumerate((*boxes, *more))
    )


@cache
def own_unit(system: System) -> tuple[str, float]:
    """The unit in which the own box is typed, and its length in metres."""
    return ("in", INCH_M) if system == "us" else ("cm", 0.01)


class BoxError(ValueError):
    """An entry of the boxes that cannot be read: the field's name in the form, and a sentence for the buyer."""

    def __init__(self, field: str, text: str) -> None:
        super().__init__(text)
        self.field = field


Number = Callable[[str, str, str], float]
"""Reads a typed number: field, label and text."""


def boxes_from_form(
    counts: Mapping[str, str], exact: Mapping[str, str], own: Mapping[str, str], system: System, number: Number
) -> list[dict[str, Any]]:
    """The boxes of a form's entries, in SI. Raises BoxError for the first that cannot be read."""
    found: list[dict[str, Any]] = []
    for n in sorted(exact, key=lambda k: (len(k), k)):
        count = _count(COUNT + n, counts.get(n, "") or "0", number)
        if count:
            found.append(_box(IS + n, exact[n]) | {"count": count})
    if unknown := set(counts) - set(exact):
        raise BoxError(COUNT + min(unknown), "This kind of box is not known to the page.")
    # Nothing but the button tells that a size is typed to its last digit.
    if own.get("add"):
        found.append(_own(own, system, number))
    if len(found) > MOST_KINDS:
        raise BoxError(OWN + "length", f"Bulky things: at most {MOST_KINDS} kinds can be packed.")
    return found


def _count(field: str, text: str, number: Number) -> int:
    value = number(field, "How many", text)
    if value != int(value) or not 0 <= value <= MOST_OF_ONE:
        raise BoxError(field, f"How many: please enter a whole number from 0 to {MOST_OF_ONE}.")
    return int(value)


def _box(field: str, text: str) -> dict[str, Any]:
    try:
        box = json.loads(text)
    except (ValueError, RecursionError):
        box = None
    if not isinstance(box, dict) or len(text) > 1000:
        raise BoxError(field, "This kind of box is not known to the page.")
    return box


def _own(own: Mapping[str, str], system: System, number: Number) -> dict[str, Any]:
    _, metre = own_unit(system)
    box: dict[str, Any] = {"name": own.get("name", "").strip()[:160] or _OWN_NAME, "count": 1}
    for key in SIZES:
        field = CargoBox.model_fields[f"{key}_m"]
        low = next(float(m.gt) for m in field.metadata if hasattr(m, "gt"))
        high = next(float(m.le) for m in field.metadata if hasattr(m, "le"))
        label = f"Own box, {key}"
        value = float(f"{number(OWN + key, label, own.get(key, '').strip()) * metre:.12g}")
        if not low < value <= high:
            words = f"more than {low / metre:.3g} and at most {high / metre:.3g}"
            raise BoxError(OWN + key, f"{label}: {words} {own_unit(system)[0]} can be packed.")
        box[f"{key}_m"] = value
    if own.get("turn"):
        box["any_way_up"] = True
    return box
