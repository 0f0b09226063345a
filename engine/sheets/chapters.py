"""Heads of the chapters and the list to jump to them."""

from __future__ import annotations

from decimal import Decimal
from functools import lru_cache

from markupsafe import Markup

from engine.sheets.book import Book, Chapter, summed
from engine.sheets.notes import Margin, Placing
from engine.sheets.templates import render
from engine.sheets.view import GRAVITY, MARKS, Scene
from engine.units import money

_NOTHING = Decimal(0)


@lru_cache(maxsize=4096)
def head(chapter: Chapter, margin: Margin, caution: str) -> Markup:
    """A chapter's title, its own notes and the count of what is fine, ``head-<chapter>``."""
    return render("head", c=chapter, margin=margin, caution=caution)


@lru_cache(maxsize=4096)
def fold(chapter_id: str, text: str, verdict: str) -> Markup:
    """What is chosen in a chapter and the gravest verdict there, ``fold-<chapter>``; seen while it is folded too."""
    return render("fold", id=chapter_id, text=text, mark=MARKS[verdict])


@lru_cache(maxsize=1024)
def _index(lines: tuple[tuple[str, str, str, str], ...]) -> Markup:
    return render("index", lines=tuple((i, n, t, MARKS[v]) for i, n, t, v in lines))


def index(chapters: tuple[Chapter, ...], verdicts: dict[str, str]) -> Markup:
    """Every chapter with the gravest verdict in it, ``index``."""
    return _index(tuple((c.id, c.number, c.title, verdicts[c.id]) for c in chapters))


def gravest_by_chapter(book: Book, placing: Placing) -> dict[str, str]:
    """The gravest verdict of the notes in each chapter; empty where there is none."""
    found = {c.id: placing.heads[c.id].verdict if c.id in placing.heads else "" for c in book.chapters}
    for option_id, margin in placing.beside.items():
        chapter = book.chapter_of[option_id].id
        if GRAVITY[margin.verdict] > GRAVITY[found[chapter]]:
            found[chapter] = margin.verdict
    return found


def chosen_by_chapter(scene: Scene, book: Book) -> dict[str, str]:
    """What the chosen options of each chapter come to, such as "3 chosen, 42 kg, £1,200"."""
    sums: dict[str, tuple[int, float, bool, Decimal]] = {}
    for p in scene.build.parts:
        n, kg, whole, price = sums.get(p.section_id, (0, 0.0, True, _NOTHING))
        sums[p.section_id] = (n + 1, kg + (p.mass_kg or 0.0), whole and p.mass_kg is not None, price + p.price)
    return {
        c: f"{n} chosen, {summed(kg, whole, book.units)}, {money(price, book.currency)}"
        for c, (n, kg, whole, price) in sums.items()
    }
