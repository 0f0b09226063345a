"""Hand-written pages in their reader's spelling and units; what stands in them as code, comment or address stays."""

from __future__ import annotations

import re

from engine.spelling import spelled
from engine.units import System

_KEPT = re.compile(
    r"(^```.*?^```|`(?:[^`\n]|\n(?!\n))+`|<!--.*?-->|\]\([^)]*\)|https?://[^\s)>]+)", re.DOTALL | re.MULTILINE
)


def regional(page: str, system: System) -> str:
    """A page of Markdown, written in British spelling with both systems' units, as its reader has it.

    >>> regional("A tyre 28 cm (11 in) wide, see `tyres = 4`", "us")
    'A tire 11 in wide, see `tyres = 4`'
    >>> regional("8 W/(m²·K) (1.4 BTU/h·ft²·°F) at −80 °C (−112 °F)", "metric")
    '8 W/(m²·K) at −80 °C'
    """
    parts = _KEPT.split(page)
    return "".join(part if i % 2 else spelled(part, system) for i, part in enumerate(parts))
