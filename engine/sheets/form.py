"""The form's field names, and the way from what a buyer typed to an enquiry.

Buyers type in their workshop's units. A number that is shown rounded travels with its exact value in a hidden
``exact.`` field, so that a form nobody touched gives back the very enquiry it was made from.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import isfinite
from typing import Any

from engine.catalogue import Catalogue
from engine.sheets import by_hand, cargo_form
from engine.sheets.trip_fields import FEET, TripField, feet_and_inches, metres_of, shown_alike, trip_fields
from engine.units import System

VEHICLE = "vehicle"
TITLE = "title"
PICKED = "opt"
"""Check boxes: one value for each chosen option."""
ONE = "one."
"""Followed by a chapter's id: radio buttons of a chapter from which one is picked."""
COUNT = "count."
"""Followed by an option's id: how many."""
STEP = "step."
"""Followed by an option's id: so many more or less of it, from its buttons."""
TRIP = "trip."
"""Followed by a field of the trip."""
EXACT = "exact."
"""Followed by a field of the trip: its exact value in SI."""
MONTH = "trip.months"
LOOK = "look."
"""What the reader wants to look at: no part of the enquiry, see ``day_form``."""
HIDDEN = ("format", "workshop", "catalogue_dated")

MOST = 20
"""Most pieces of one option that an enquiry can name."""

_STEPS = frozenset(map(str, range(1, 200)))
_MONTH_TEXTS = tuple(map(str, range(1, 13)))


class FormError(ValueError):
    """An entry that cannot be read: the field's name in the form, and a sentence for the buyer."""

    def __init__(self, field: str, text: str) -> None:
        super().__init__(text)
        self.field = field
        self.text = text


class _Entries:
    """The form's pairs, each taken once; what is left over at the end is nobody's."""

    def __init__(self, pairs: Iterable[tuple[str, str]]) -> None:
        self._of: dict[str, list[str]] = {}
        for name, value in pairs:
            self._of.setdefault(name, []).append(value)

    def many(self, name: str) -> list[str]:
        return self._of.pop(name, [])

    def one(self, name: str) -> str | None:
        values = self._of.pop(name, [])
        if len(set(values)) > 1:
            raise FormError(name, "This entry came twice with different values.")
        return values[0].strip() if values else None

    def starting(self, prefix: str) -> dict[str, str]:
        names = [n for n in self._of if n.startswith(prefix)]
        return {n.removeprefix(prefix): self.one(n) or "" for n in names}

    def left(self) -> list[str]:
        return list(self._of)


def _number(field: str, label: str, text: str) -> float:
    try:
        value = float(text.replace("\u2212", "-"))
    except ValueError:
        value = float("nan")
    if not isfinite(value) or len(text) > 30 or "_" in text:
        raise FormError(field, f"{label}: please enter a number, with a point for decimals.")
    return value


def _trip_number(field: TripField, entries: _Entries) -> float | int | None:
    name = TRIP + field.name
    exact = entries.one(EXACT + field.name)
    in_feet = field.unit == FEET
    typed = tuple(entries.one(n) or "" for n in ((name + ".ft", name + ".in") if in_feet else (name,)))
    if not any(typed):
        if field.optional:
            return None
        raise FormError(name, f"{field.label}: please enter a number.")
    if exact:
        value = _number(name, field.label, exact)
        if shown_alike(field, value, typed):
            return _within(field, name, value)
    if in_feet:
        feet, inches = (_number(name, field.label, t or "0") for t in typed)
        if feet < 0 or inches < 0:
            raise FormError(name, f"{field.label}: feet and inches cannot be less than 0.")
        return _within(field, name, metres_of(feet, inches))
    number = _number(name, field.label, typed[0])
    if field.whole and number != int(number):
        raise FormError(name, f"{field.label}: please enter a whole number.")
    return _within(field, name, int(number) if field.whole else field.si(number))


def _within(field: TripField, name: str, value: float) -> float:
    # Twelve figures: a limit typed in feet or °F is exactly the limit again.
    near = float(f"{value:.12g}")
    if near > field.high or near < field.low or (field.above and near <= field.low):
        feet = field.unit == FEET
        low, high = (
            (" ft ".join(feet_and_inches(v)) + " in" if feet else field.shown(v)) for v in (field.low, field.high)
        )
        unit = "" if feet else f" {field.unit}".rstrip()
        if not field.above:
            raise FormError(name, f"{field.label}: from {low} to {high}{unit} can be worked out.")
        words = f"more than {low}{unit} is needed" if near <= field.low else f"at most {high}{unit} can be worked out"
        raise FormError(name, f"{field.label}: {words}.")
    return int(value) if field.whole else value


def _count(catalogue: Catalogue, option_id: str, text: str) -> int:
    known = catalogue.options_by_id.get(option_id)
    label = f"How many of “{known[1].name}”" if known else "How many"
    value = _number(COUNT + option_id, label, text or "0")
    if value != int(value) or not 0 <= value <= MOST:
        raise FormError(COUNT + option_id, f"{label}: please enter a whole number from 0 to {MOST}.")
    return int(value)


def _options(catalogue: Catalogue, entries: _Entries) -> dict[str, int]:
    picked = dict.fromkeys(entries.many(PICKED), 1)
    picked |= dict.fromkeys((i for i in entries.starting(ONE).values() if i), 1)
    for option_id, text in entries.starting(COUNT).items():
        known = catalogue.options_by_id.get(option_id)
        if option_id in picked:
            picked[option_id] = max(1, _count(catalogue, option_id, text))
        elif known is None or known[0].pick != "one":
            # In a chapter of which one is picked, a number beside an option that is not picked means nothing.
            picked[option_id] = _count(catalogue, option_id, text)
    for option_id, text in entries.starting(STEP).items():
        _step(catalogue, picked, option_id, text)
    return {i: n for i, n in picked.items() if n}


def _step(catalogue: Catalogue, picked: dict[str, int], option_id: str, text: str) -> None:
    """More or less by so many presses of the button beside a number."""
    if text.removeprefix("-") not in _STEPS:
        raise FormError(STEP + option_id, "A button adds one or takes one away.")
    now = picked.get(option_id, 0)
    known = catalogue.options_by_id.get(option_id)
    most = MOST if known is None else max(now, known[1].most)
    if known is not None and known[0].pick == "one":
        if not now:  # the button picks it, in place of what was picked
            for other in known[0].options:
                picked.pop(other.id, None)
            picked[option_id] = min(most, max(1, int(text)))
            return
        picked[option_id] = min(most, max(1, now + int(text)))
        return
    picked[option_id] = min(most, max(0, now + int(text)))


def _months(entries: _Entries) -> tuple[int, ...]:
    """In the order of the year, or in the order they came in when nobody changed them."""
    texts = entries.many(MONTH)
    before = entries.one(EXACT + "months") or ""
    if not texts:
        raise FormError(MONTH, "Months: please choose at least one.")
    if not all(t in _MONTH_TEXTS for t in texts):
        raise FormError(MONTH, "Months: numbers from 1 to 12 are needed.")
    kept = before.split(",")
    if len(kept) == len(texts) and set(kept) == set(texts):
        texts = kept
    else:
        texts.sort(key=int)
    return tuple(dict.fromkeys(map(int, texts)))


def _moves(
    catalogue: Catalogue, entries: _Entries, vehicle_id: str, options: dict[str, int]
) -> dict[str, dict[str, Any]]:
    vehicle = catalogue.vehicles_by_id.get(vehicle_id)
    width_m = 0.0 if vehicle is None else vehicle.cabin.width_m
    moved, stands, shift, drop = (
        entries.starting(n) for n in (by_hand.MOVED, by_hand.STANDS, by_hand.SHIFT, by_hand.DROP)
    )
    try:
        return by_hand.moves_from_form(moved, stands, shift, drop, options, width_m, catalogue.workshop.units)
    except by_hand.MoveError as error:
        raise FormError(error.field, str(error)) from None


def _boxes(entries: _Entries, system: System) -> list[dict[str, Any]]:
    counts, exact, own = (entries.starting(n) for n in (cargo_form.COUNT, cargo_form.IS, cargo_form.OWN))
    try:
        return cargo_form.boxes_from_form(counts, exact, own, system, _number)
    except cargo_form.BoxError as error:
        raise FormError(error.field, str(error)) from None


def enquiry_from_form(catalogue: Catalogue, pairs: Iterable[tuple[str, str]]) -> dict[str, Any]:
    """A form's entries as a plain enquiry in SI, ready for ``Enquiry.model_validate``.

    Raises FormError for the first entry that cannot be read.
    """
    entries = _Entries(pairs)
    vehicle = entries.one(VEHICLE)
    if not vehicle:
        raise FormError(VEHICLE, "Please choose a base vehicle.")
    title = entries.one(TITLE) or None
    if title and len(title) > 160:
        raise FormError(TITLE, "Name of this build: at most 160 characters.")
    shop = catalogue.workshop
    trip: dict[str, Any] = {
        "place": entries.one(TRIP + "place") or "",
        "months": _months(entries),
        "cooling": entries.one(TRIP + "cooling") is not None,
    }
    if not trip["place"]:
        raise FormError(TRIP + "place", "Please choose a place.")
    for name, field in trip_fields(shop.units, shop.currency).items():
        trip[name] = _trip_number(field, entries)
    if trip["budget"] is not None:
        trip["budget"] = f"{trip['budget']:.2f}"
    if boxes := _boxes(entries, shop.units):
        trip["boxes"] = boxes
    fixed = {name: entries.one(name) for name in HIDDEN}
    options = _options(catalogue, entries)
    moves = _moves(catalogue, entries, vehicle, options)
    entries.starting(LOOK)
    if left := entries.left():
        raise FormError(left[0], f"The form has an entry that this page does not know: {left[0][:60]}.")
    return {
        "format": int(_number("format", "Format", fixed["format"] or "1")),
        "workshop": fixed["workshop"] or None,
        "vehicle": vehicle,
        "options": options,
        "trip": trip,
        "moves": moves,
        "title": title,
        "catalogue_dated": fixed["catalogue_dated"] or None,
    }
