"""Heads of the chapters and the list to jump to them."""

from __future__ import annotations

from functools import lru_cache

from markupsafe import Markup

from engine.sheets.book import Chapter
from engine.sheets.notes import Margin, Placing
from engine.sheets.templates import render
from engine.sheets.view import GRAVITY, MARKS


@lru_cache(maxsize=4096)
def head(chapter: Chapter, margin: Margin, cautions: tuple[str, ...]) -> Markup:
    """A chapter's title, its own notes and the count of what is fine, ``head-<chapter>``."""
    return render("head", c=chapter, margin=margin, cautions=cautions)


@lru_cache(maxsize=1024)
def _index(lines: tuple[tuple[str, str, str, str], ...]) -> Markup:
    return render("index", lines=tuple((i, n, t, MARKS[v]) for i, n, t, v in lines))


def index(chapters: tuple[Chapter, ...], placing: Placing) -> Markup:
    """Every chapter with the gravest verdict in it, ``index``."""
    lines = []
    for c in chapters:
        verdicts = [placing.beside[i].verdict for i in c.options if i in placing.beside]
        if c.id in placing.heads:
            verdicts.append(placing.heads[c.id].verdict)
        lines.append((c.id, c.number, c.title, max(verdicts, key=GRAVITY.__getitem__, default="")))
    return _index(tuple(lines))
