"""Hand-written pages in their reader's spelling and units; what stands in them as code, comment or address stays."""

from __future__ import annotations

import re

from engine.spelling import spelled
from engine.units import System

_KEPT = re.compile(
    r"(^```.*?^```|`(?:[^`\n]|\n(?!\n))+`|<!--.*?-->|\]\([^)]*\)|https?://[^\s)>]+)", re.DOTALL | re.MULTILINE
)

_NUMBER = r"[-−]?[\d.,]+(?:/\d+)?(?: to [\d.,]+)?"
_PAIR = re.compile(
    rf"({_NUMBER}\s(?:mm|cm|m|m²|m³|K|°C|Pa|W/\(m²·K\)))\s\(({_NUMBER}\s(?:in|ft|ft²|ft³|°F|in w\.c\.|BTU/h·ft²·°F))\)"
)
"""A quantity in metric units with the same in US customary ones behind it; a line may end within it."""


def regional(page: str, system: System) -> str:
    """A page of Markdown, written in British spelling with both systems' units, as its reader has it.

    >>> regional("A tyre 28 cm (11 in) wide, see `tyres = 4`", "us")
    'A tire 11 in wide, see `tyres = 4`'
    >>> regional("8 W/(m²·K) (1.4 BTU/h·ft²·°F) at −80 °C (−112 °F)", "metric")
    '8 W/(m²·K) at −80 °C'
    """
    parts = _KEPT.split(page)
    own = r"\2" if system == "us" else r"\1"
    return "".join(part if i % 2 else spelled(_PAIR.sub(own, part), system) for i, part in enumerate(parts))
