"""Sentences are written in British spelling and both systems' units; each reader gets his own of both."""

import re
from collections.abc import Iterable
from functools import lru_cache

from engine.units import System

AMERICAN = {
    "centre": "center",
    "colour": "color",
    "draught": "draft",
    "fibre": "fiber",
    "grey": "gray",
    "hob": "cooktop",
    "honoured": "honored",
    "kerb": "curb",
    "labelled": "labeled",
    "labour": "labor",
    "licence": "license",
    "litre": "liter",
    "metre": "meter",
    "modelled": "modeled",
    "mould": "mold",
    "programme": "program",
    "spanner": "wrench",
    "traveller": "traveler",
    "tyre": "tire",
    "vapour": "vapor",
    "windscreen": "windshield",
}
"""Words that the engine's sentences use; endings follow by themselves."""

TERMS = {
    "mains appliances": "line-voltage appliances",
    "mains cable": "line-voltage cable",
    "mains earth": "equipment ground",
    "mains voltage": "line voltage",
    "neutral to earth": "neutral to ground",
    "residual-current device": "ground-fault device",
    "residual-current protection": "ground-fault protection",
    "socket": "outlet",
    "towards": "toward",
}
"""What a trade across the ocean calls by another name; a plural's s follows by itself."""

_EITHER_CASE = {form: new for old, us in AMERICAN.items() for form, new in ((old, us), (old.title(), us.title()))}
_TERMS = {form: new for old, us in TERMS.items() for form, new in ((old, us), (old.capitalize(), us.capitalize()))}

_ABROAD = _EITHER_CASE | _TERMS
_BY_LETTER = {w[0]: "|".join(x[1:] for x in _ABROAD if x[0] == w[0]) for w in _ABROAD}
_BRITISH = re.compile(rf"(?:{'|'.join(f'{first}(?:{rest})' for first, rest in _BY_LETTER.items())})(?=s?\b)")
"""Wherever a word ends so: centimetres are in it. By first letters, for the engine of these patterns tries them in
turn."""

_NUMBER = r"[-−]?[\d.,]+(?:/\d+)?(?: to [\d.,]+)?"
_METRIC = r"kg/L|kg|g|mm|cm|m|m²|m³|L|°C|K|Pa|kW|W/\(m²·K\)"
_CUSTOMARY = r"lb/gal|lb|oz|in|ft|ft²|ft³|gal|°F|in w\.c\.|BTU/h|BTU/h·ft²·°F"
BOTH = re.compile(rf"({_NUMBER}\s(?:{_METRIC}))\s\(({_NUMBER}\s(?:{_CUSTOMARY}))\)")
"""A quantity in metric units with the same in US customary ones behind it; a line of a page may end within it."""


def begun(words: str) -> str:
    """Words as a sentence or a heading begins.

    >>> begun("shared by fridge and TV"), begun("")
    ('Shared by fridge and TV', '')
    """
    return words[:1].upper() + words[1:]


def in_a_row(words: Iterable[str]) -> str:
    """Words as a sentence names them one after the other.

    >>> in_a_row(["A"]), in_a_row(["A", "B", "C"])
    ('A', 'A, B and C')
    """
    *most, last = words
    return f"{', '.join(most)} and {last}" if most else last


@lru_cache(maxsize=16384)
def spelled(text: str, system: System) -> str:
    """A sentence of the engine in its reader's spelling; names and words of a workshop's own are not for this.

    >>> spelled("Grey water: 40 litres, 12 centimetres below the tyres", "us")
    'Gray water: 40 liters, 12 centimeters below the tires'
    >>> spelled("Grey water", "metric")
    'Grey water'
    >>> [spelled("Fuse within 18 cm (7 in)", s) for s in ("us", "metric")]
    ['Fuse within 7 in', 'Fuse within 18 cm']
    >>> spelled("Down to −18 °C (0 °F)", "us")
    'Down to 0 °F'
    >>> spelled("Sockets outside: a residual-current device guards mains voltage", "us")
    'Outlets outside: a ground-fault device guards line voltage'
    """
    if "(" in text:
        text = BOTH.sub(r"\2" if system == "us" else r"\1", text)
    return _BRITISH.sub(lambda found: _ABROAD[found[0]], text) if system == "us" else text
