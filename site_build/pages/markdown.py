"""Text from shop files and rules on its way into Markdown, where it must stay text."""

from __future__ import annotations

import html
import re
from collections.abc import Iterable, Sequence

_SPECIAL = re.compile(r"([\\`*_{}\[\]()#+!|])")
_FENCES = str.maketrans({c: f"&#{ord(c)};" for c in "~^="})
"""Characters that open a block or a style somewhere, and before which a backslash would itself be seen."""

_OPENS = re.compile(r"^[-:?]|^(\d+)\.(?=\s|$)")
"""What opens a list, a definition or a fold at the start of a line."""

_NUMBER = re.compile(r"\W*\d|\W*$|by area")
"""How a cell of a column of numbers begins."""


def text(words: str) -> str:
    """Words as they are: no mark-up of theirs takes effect, and line breaks become spaces."""
    line = _SPECIAL.sub(r"\\\1", html.escape(" ".join(words.split()), quote=False)).translate(_FENCES)
    return _OPENS.sub(lambda m: f"{m[1]}&#46;" if m[1] else f"&#{ord(m[0])};", line)


def paragraphs(words: str) -> str:
    """Words with their empty lines kept as breaks between paragraphs."""
    return "\n\n".join(text(part) for part in re.split(r"\n\s*\n", words.strip()))


def table(head: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """A table of cells that are Markdown already; columns of numbers stand to the right, words to the left."""
    rows = [tuple(row) for row in rows]
    sides = ("--:" if rows and all(map(_NUMBER.match, column)) else "---" for column in zip(*rows, strict=True))
    lines = [head, tuple(sides) or ("---",) * len(head), *rows]
    return "\n".join(f"| {' | '.join(row)} |" for row in lines)


def front(words: str, **more: object) -> str:
    """The lines that open a page: its title for the browser's tab, and what else the theme is told."""
    lines = [f"title: {_quoted(title(words))}"]
    for name, value in more.items():
        if isinstance(value, (list, tuple)):
            lines.append(f"{name}:")
            lines += [f"  - {item}" for item in value]
        elif isinstance(value, dict):
            lines.append(f"{name}:")
            lines += [f"  {key}: {item}" for key, item in value.items()]
        else:
            lines.append(f"{name}: {value}")
    return "---\n" + "\n".join(lines) + "\n---\n\n"


_READ_AS_MARKUP = re.compile(r"[<>]|&(?=#|\w+;)")


def title(words: str) -> str:
    """A name as the theme takes it: it writes titles as they are, and some of them with ``&`` escaped once more.

    >>> title("Smith & Sons, 5' < 6'"), title("&lt; is <")
    ("Smith & Sons, 5' &lt; 6'", '&amp;lt; is &lt;')
    """
    return _READ_AS_MARKUP.sub(lambda found: html.escape(found[0]), words)


def _quoted(words: str) -> str:
    return '"' + words.replace("\\", "\\\\").replace('"', '\\"') + '"'
