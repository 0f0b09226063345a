"""Small turns of phrase that every message uses."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from typing import Any


def near(word: str, known: Iterable[str], cutoff: float = 0.6) -> str | None:
    """The known word that somebody most likely meant, or None."""
    found = difflib.get_close_matches(word.lower()[:80], list(known), n=1, cutoff=cutoff)
    return found[0] if found else None


def listed(words: Iterable[str], most: int = 40) -> str:
    """Words for a sentence, cut off where nobody would read on."""
    all_words = list(words)
    tail = f" … ({len(all_words)} in all)" if len(all_words) > most else ""
    return ", ".join(all_words[:most]) + tail


def shown(value: Any) -> str:
    """A value as it stands in the file, cut to a readable length."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return f'"{value}"' if len(value) <= 60 else f'"{value[:56]} …"'
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, tuple):
        return f"a list of {len(value)}"
    text = str(value)
    return text if len(text) <= 40 else text[:36] + " …"


def in_unit(value: Any, unit: str) -> str:
    """An SI value in words a person would write; shares in percent."""
    if unit in {"1", "1/K"}:
        return f"{float(value) * 100:.6g} %{unit[1:]}"
    if unit == "1/m²":
        return f"{float(value):.2f} per m²"
    return f"{float(value):.6g} {'days' if unit == 'day' and value != 1 else unit}".strip()
