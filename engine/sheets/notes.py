"""A finding as a note in the margin, and where it stands."""

from __future__ import annotations

from decimal import Decimal
from functools import lru_cache
from typing import NamedTuple

from markupsafe import Markup

from engine.catalogue.quantities import SUFFIXES
from engine.rule import Fact, Finding
from engine.sheets.book import Book
from engine.sheets.templates import joined, render
from engine.sheets.view import GRAVITY, MARKS, SENTENCE_END
from engine.units import SYSTEMS, System, money, show

VEHICLE = "vehicle"
TRIP = "trip"
PRICE = "price"
LEFT_OUT = "left-out"
"""Places beside the catalogue's chapters where a note can stand."""

_POINTERS = 2
"""How many more of the options involved point to the note that stands beside the first."""

_THICK_BELOW_M = 0.1
"""Lengths below are told as thicknesses are: a bore of 8 mm, not of 0.01 m."""

ORIGINS = {
    "chosen": "your choice",
    "catalogue": "catalogue",
    "computed": "worked out",
    "assumed": "assumed",
    "regulation": "regulation",
}


class Margin(NamedTuple):
    """What stands beside one row or in the head of one chapter."""

    html: Markup = Markup('<div class="margin"></div>')
    """The element that holds the notes."""
    fine: Markup = Markup("")
    """The count of what is in order, with its list to unfold."""
    verdict: str = ""
    """The gravest of the notes; empty when there is none."""


EMPTY = Margin()


class _Home(NamedTuple):
    """Where a finding stands."""

    head: str
    """Chapter, or another head."""
    option: str = ""
    """The option that it stands beside; in the head itself when empty."""
    others: tuple[str, ...] = ()
    """Options that point to it."""


class Placing(NamedTuple):
    """Every note in its place."""

    beside: dict[str, Margin]
    """By option id."""
    heads: dict[str, Margin]
    """By chapter id, or "vehicle", "trip", "price"."""
    anchors: dict[str, str]
    """Id of the gravest note of each rule that has a visible one."""
    told: tuple[tuple[Finding, str], ...]
    """Every finding that has a note, with its id."""
    cautions: dict[str, str]
    """By chapter: what to be careful about in its subjects, each thing once."""


def fact_text(fact: Fact, system: System, currency: str) -> str:
    """A fact's value as a reader sees it."""
    value = fact.value
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str):
        return value
    if fact.unit == "money":
        return money(Decimal(str(value)), currency)
    if fact.unit in SYSTEMS[system]:
        small = fact.unit == "m" and abs(value) < _THICK_BELOW_M
        return show(value, "thick_m" if small else fact.unit, system)
    unit = SUFFIXES["_" + fact.unit][0] if fact.unit and "_" + fact.unit in SUFFIXES else ""
    number = f"{value:,.0f}" if abs(value) >= 1000 else f"{value:.4g}"
    return f"{number} {unit}".rstrip().replace("-", "\u2212")


@lru_cache(maxsize=8192)
def _note(finding: Finding, anchor: str, system: System, currency: str, caution: str, handbook: bool) -> Markup:
    return render(
        "note",
        f=finding,
        mark=MARKS[finding.verdict],
        anchor=anchor,
        facts=tuple((f.name, fact_text(f, system, currency), ORIGINS[f.origin]) for f in finding.facts),
        caution=caution,
        handbook=f"../handbook/{finding.rule}/" if handbook else "",
    )


@lru_cache(maxsize=4096)
def _pointer(title: str, verdict: str, anchor: str) -> Markup:
    return render("pointer", title=title, mark=MARKS[verdict], anchor=anchor)


@lru_cache(maxsize=4096)
def _fine(title: str, cause: str, rule: str, handbook: bool) -> Markup:
    return render("fine", title=title, cause=cause, handbook=f"../handbook/{rule}/" if handbook else "")


@lru_cache(maxsize=4096)
def _home(options: tuple[str, ...], lacks: str, offers: str, topic: str, book: Book) -> _Home:
    known = tuple(i for i in options if i in book.chapter_of)
    if lacks in book.offering:
        return _Home(book.offering[lacks], "", known[:_POINTERS])
    if known:
        return _Home(book.chapter_of[known[0]].id, known[0], known[1 : 1 + _POINTERS])
    if options:
        return _Home(LEFT_OUT)
    if offers in book.offering:
        return _Home(book.offering[offers])
    if topic in ("mass", "roof"):
        return _Home(VEHICLE)
    return _Home(PRICE if topic == "money" else TRIP)


@lru_cache(maxsize=1024)
def _merged(cautions: tuple[str, ...]) -> str:
    """Several cautions as one: a sentence that more than one of them has is said once."""
    return " ".join(dict.fromkeys(sentence for text in cautions for sentence in SENTENCE_END.split(text)))


class _Heap:
    """A margin while it is being filled."""

    __slots__ = ("fine", "notes", "pointers", "verdict")

    def __init__(self) -> None:
        self.notes: list[tuple[int, Markup]] = []
        self.pointers: dict[tuple[str, str], Markup] = {}
        """By rule and verdict: where a rule speaks several times, one pointer is enough."""
        self.fine: list[Markup] = []
        self.verdict = ""

    def done(self) -> Margin:
        self.notes.sort(key=lambda n: n[0])
        return _margin((*(n for _, n in self.notes), *self.pointers.values()), tuple(self.fine), self.verdict)


@lru_cache(maxsize=4096)
def _margin(notes: tuple[Markup, ...], fine: tuple[Markup, ...], verdict: str) -> Margin:
    inside = joined(notes)
    html = Markup('<div class="margin">\n{}\n</div>').format(inside) if notes else EMPTY.html
    count = f"{len(fine)} {'check' if len(fine) == 1 else 'checks'} fine"
    listed = render("fine_list", count=count, lines=joined(fine)) if fine else EMPTY.fine
    return Margin(html, listed, verdict)


_SETTLED = 4096


@lru_cache(maxsize=8)
def _settled(book: Book, handbook: bool) -> dict[int, tuple[Finding, _Home, str, Markup | None]]:
    """What is known of findings already seen, by identity: rules give the same object for the same inputs, and a
    lookup by value would read every fact of some hundred findings at each pick. Holds the findings, so that no other
    object can have their identity."""
    return {}


def place(findings: tuple[Finding, ...], book: Book, handbook: bool) -> Placing:
    """Each finding beside the first option it involves that the catalogue has, else in the head of a chapter.

    One on something that is missing stands in the head of the chapter that sells it, where the reader will look for
    it, and what wants it points there. What is in order is only counted, in the head of its chapter. One thing that
    several rules do not know at the same place has one note, and the others point to it.
    """
    lacking: dict[tuple[str, str, str], str] = {}
    beside: dict[str, _Heap] = {}
    heads: dict[str, _Heap] = {}
    anchors: dict[str, str] = {}
    gravest: dict[str, int] = {}
    cautions: dict[str, dict[str, None]] = {}
    seen: dict[str, int] = {}
    told: list[tuple[Finding, str]] = []
    settled = _settled(book, handbook)
    for f in findings:
        known_f = settled.get(id(f))
        if known_f is None or known_f[0] is not f:
            home = _home(f.options, f.lacks, f.offers, f.topic, book)
            fine = _fine(f.title, f.cause, f.rule, handbook) if f.verdict == "ok" else None
            if len(settled) > _SETTLED:
                settled.clear()
            known_f = settled[id(f)] = (f, home, book.cautions.get(f.rule, ""), fine)
        _, (head, beside_id, others), caution, fine = known_f
        if caution:
            cautions.setdefault(head, {})[caution] = None
        if fine is not None:
            heap = heads.get(head) or heads.setdefault(head, _Heap())
            heap.fine.append(fine)
            continue
        heap = beside.setdefault(beside_id, _Heap()) if beside_id else heads.setdefault(head, _Heap())
        said = (head, beside_id, f.cause)
        if f.verdict == "unknown" and said in lacking:
            anchor = lacking[said]
            heap.pointers.setdefault((f.rule, f.verdict), _pointer(f.title, f.verdict, anchor))
            told.append((f, anchor))
            if GRAVITY["unknown"] > gravest.get(f.rule, -1):
                gravest[f.rule], anchors[f.rule] = GRAVITY["unknown"], anchor
            continue
        seen[f.rule] = n = seen.get(f.rule, 0) + 1
        anchor = f"note-{f.rule}" if n == 1 else f"note-{f.rule}-{n}"
        note = _note(f, anchor, book.units, book.currency, caution, handbook)
        told.append((f, anchor))
        if f.verdict == "unknown":
            lacking[said] = anchor
        gravity = GRAVITY[f.verdict]
        if gravity > gravest.get(f.rule, -1):
            gravest[f.rule] = gravity
            anchors[f.rule] = anchor
        heap.notes.append((-gravity, note))
        if gravity > GRAVITY[heap.verdict]:
            heap.verdict = f.verdict
        if f.verdict != "note":
            for other in others:
                heap = beside.setdefault(other, _Heap())
                heap.pointers.setdefault((f.rule, f.verdict), _pointer(f.title, f.verdict, anchor))
    return Placing(
        {i: h.done() for i, h in beside.items()},
        {i: h.done() for i, h in heads.items()},
        anchors,
        tuple(told),
        {i: _merged(tuple(c)) for i, c in cautions.items()},
    )
