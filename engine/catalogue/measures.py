"""Quantities as people write them ("60 lb", "67 3/4 in", "12000 BTU/h", "68 °F") to SI floats.

The text is taken apart here, against a closed list of unit words; pint only ever sees names from that list, so that
no text can make it evaluate, hang or guess. Author's side only: the browser never imports this file.
"""

from __future__ import annotations

import difflib
import math
import re
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from pydantic_core import PydanticCustomError

from engine.catalogue.unit_words import COMPOUND, KINDS, PHRASES, REFUSED, WORDS

if TYPE_CHECKING:
    import pint

LONGEST = 48
"""A quantity in a shop file has at most this many characters."""

_TIDY = str.maketrans({"−": "-", "\u00a0": " ", "\u202f": " ", "⋅": "·", "º": "°", "µ": "μ"})
_ALLOWED = re.compile(r"[A-Za-z0-9.+\-/·*^()%°²³ ]+")
_NUMBER = (
    r"[+-]?(?:\d{1,9} \d{1,3}/\d{1,3}|\d{1,9}/\d{1,3}|(?:\d{1,12}(?:\.\d{0,12})?|\.\d{1,12})(?:[eE][+-]?\d{1,2})?)"
)
_WHOLE = re.compile(rf"(?P<number>{_NUMBER})\s*(?P<unit>(?![\d.,/\s]|[eE][+-]?\d).*)", re.ASCII)
_TWO_PART = re.compile(
    rf"(?P<a>\d{{1,6}})\s*(?P<ua>ft|foot|feet|lb|lbs)\s+(?P<b>{_NUMBER})\s*(?P<ub>in|inch|inches|oz)", re.ASCII
)
_FACTOR = re.compile(r"\s*(?P<sep>[/·*])?\s*(?P<word>[A-Za-z]+|°[CF]?|%|1(?=/|$))(?:\^|\*\*)?(?P<power>[23²³])?")
_PER = re.compile(r"\s+per\s+")
_POWERS = {None: 1, "2": 2, "3": 3, "²": 2, "³": 3}
_TEMPERATURES = {"degC", "°C", "degF", "°F"}
_DAYS = {"d", "day", "days", "week", "weeks"}


class UnreadableError(ValueError):
    """A quantity that cannot be read: ``said`` is what is wrong, ``hint`` what to do beyond the field's example."""

    def __init__(self, said: str, hint: str = "") -> None:
        super().__init__(said)
        self.said = said
        self.hint = hint


def parse_quantity(value: Any, unit: str, example: str) -> float:
    """The number of ``unit`` (one of quantities.SUFFIXES) that ``value`` states, to 12 significant digits.

    Raises PydanticCustomError of type "quantity"; its context has ``said`` (what was wrong) and ``hint``.
    """
    try:
        if isinstance(value, (int, float, Decimal)) and not isinstance(value, bool):
            raise UnreadableError(f"{_short(value)} has no unit.", "Write the unit too, in quotes.")
        if not isinstance(value, str):
            raise UnreadableError(f"This wants {KINDS[unit][0]} with its unit, in quotes.")
        return read_text(value, unit)
    except UnreadableError as problem:
        raise PydanticCustomError(
            "quantity", "{said}", {"said": problem.said, "hint": problem.hint, "example": example, "unit": unit}
        ) from None


@lru_cache(maxsize=4096)
def read_text(text: str, unit: str) -> float:
    """The number of ``unit`` that a text states. Raises UnreadableError."""
    kind, choices = KINDS[unit]
    if len(text) > LONGEST:
        raise UnreadableError(f"This text has {len(text)} characters; a quantity has at most {LONGEST}.")
    tidy = " ".join(text.translate(_TIDY).split(" ")).strip()
    if two := _TWO_PART.fullmatch(tidy):
        return _round(
            _convert(_number(two["a"]), two["ua"], unit, kind, choices)
            + _convert(_number(two["b"]), two["ub"], unit, kind, choices)
        )
    if re.match(r"[+-]?\d+,\d", tidy, re.ASCII):
        raise UnreadableError(f'"{text}" has a comma.', "Write a point for decimals and nothing between thousands.")
    if not tidy:
        raise UnreadableError("The text is empty.", f"This wants {kind} ({choices}).")
    if strange := sorted({c for c in tidy if not _ALLOWED.fullmatch(c)}):
        raise UnreadableError(
            f"{_short(text)} has characters that no quantity has: {' '.join(map(repr, strange[:5]))}."
        )
    match = _WHOLE.fullmatch(tidy)
    if match is None:
        raise UnreadableError(f"{_short(text)} does not start with a plain number.", f"This wants {kind} ({choices}).")
    if not match["unit"]:
        raise UnreadableError(f'"{text}" has no unit.', f"This wants {kind} ({choices}).")
    return _round(_convert(_number(match["number"]), match["unit"], unit, kind, choices))


def _number(text: str) -> float:
    """A decimal number, a fraction ("3/4") or a number with a fraction ("67 3/4")."""
    sign = -1.0 if text.startswith("-") else 1.0
    try:
        if "/" in text:
            return sign * float(sum(Fraction(part) for part in text.lstrip("+-").split()))
        return float(text)
    except ZeroDivisionError:
        raise UnreadableError(f'"{text}" divides by zero.') from None


def _convert(number: float, unit_text: str, target: str, kind: str, choices: str) -> float:
    words = _factors(unit_text, kind, choices)
    if target == "h" and any(word in _DAYS for word, _ in words):
        raise UnreadableError("A working day is not 24 hours.", "Write working hours.")
    if target == "W" and any(word in {"VA", "kVA"} for word, _ in words):
        raise UnreadableError(
            "VA is apparent power; this wants real power.", "Write watts (volt-amperes x power factor)."
        )
    wanted = _pint_unit(tuple(_factors(target, kind, choices)), target == "°C")
    given = _pint_unit(tuple(words), target == "°C")
    degree = _registry().Unit("degree")  # pint counts angles and shares alike as dimensionless
    if given.dimensionality != wanted.dimensionality or (given == degree) != (wanted == degree):
        raise UnreadableError(f'"{unit_text}" measures {_kind_of(given)}; this wants {kind} ({choices}).')
    value = float(_registry().Quantity(number, given).to(wanted).magnitude)
    # Subtracting 273.15 leaves bits that would make 32 °F a hair above freezing.
    return round(value, 9) if target == "°C" else value


def _factors(text: str, kind: str, choices: str) -> list[tuple[str, int]]:
    """Unit words with their powers. All that follows the first "/" divides, as in W/m²K and W/m²·K."""
    for phrase, word in PHRASES.items():
        text = text.replace(phrase, word)
    text = _PER.sub("/", f"1 {text}" if text.startswith("per ") else text)
    flat = text.replace("(", " ").replace(")", " ").strip()
    found: list[tuple[str, int]] = []
    place, below = 0, False
    while place < len(flat):
        match = _FACTOR.match(flat, place)
        if match is None or (match["word"] == "1" and place > 0):
            raise UnreadableError(f'The unit "{text}" cannot be read.', f"This wants {kind} ({choices}).")
        below = below or match["sep"] == "/"
        found.append(
            (_known(match["word"], kind, choices), -_POWERS[match["power"]] if below else _POWERS[match["power"]])
        )
        place = match.end()
    if not found or len(found) > 6:
        raise UnreadableError(f'The unit "{text}" cannot be read.', f"This wants {kind} ({choices}).")
    return found


def _known(word: str, kind: str, choices: str) -> str:
    if word in REFUSED:
        raise UnreadableError(f'The unit "{word}" is not read.', REFUSED[word])
    if word in WORDS:
        return word
    same = [w for w in WORDS if w.lower() == word.lower()]
    near = same or difflib.get_close_matches(word, [w for w in WORDS if len(w) > 1 and _of_kind(w, choices)], n=1)
    guess = f'Did you mean "{near[0]}"? ' if near else ""
    raise UnreadableError(f'The unit "{word}" is not known.', f"{guess}This wants {kind} ({choices}).")


def _of_kind(word: str, choices: str) -> bool:
    """Whether a unit measures the same as one of those that a message offers, or a part of one."""
    offered = {w for w in re.findall(r"[^\W\d_]+|%|°\w?", choices) if w in WORDS}
    return any(
        _pint_unit(((word, 1),), False).dimensionality == _pint_unit(((w, 1),), False).dimensionality for w in offered
    )


@lru_cache(maxsize=1)
def _registry() -> pint.UnitRegistry[float]:
    # Half a second to load: only when the first quantity is read.
    import pint

    return pint.UnitRegistry()


@lru_cache(maxsize=512)
def _pint_unit(factors: tuple[tuple[str, int], ...], absolute: bool) -> pint.Unit:
    """The pint unit of a product. Degrees are absolute when they stand alone and a temperature is wanted."""
    registry = _registry()
    whole = registry.Unit("dimensionless")
    for word, power in factors:
        name = WORDS[word]
        if word in _TEMPERATURES:
            if absolute and factors == ((word, 1),):
                return registry.Unit(name)
            name = f"delta_{name}"
        whole *= registry.Unit(COMPOUND.get(name, name)) ** power
    return whole


def _kind_of(unit: pint.Unit) -> str:
    for name, (kind, choices) in KINDS.items():
        if _pint_unit(tuple(_factors(name, kind, choices)), True).dimensionality == unit.dimensionality:
            return "a share or an angle" if name in {"1", "°"} else kind
    return "something else"


def _round(value: float) -> float:
    """Twelve digits: what an author means, without the last bits that a conversion leaves."""
    if not math.isfinite(value):
        raise UnreadableError("The number is too large.")
    return float(f"{value:.12g}")


def _short(value: object) -> str:
    text = f'"{value}"' if isinstance(value, str) else str(value)
    return text if len(text) <= 40 else text[:36] + ' …"'
