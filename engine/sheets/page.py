"""The whole sheet: fragments for the page that changes, the page itself, and one document for paper."""

from __future__ import annotations

import re
from functools import cache
from typing import NamedTuple

from markupsafe import Markup

from engine.enquiry.climate import load_places
from engine.enquiry.door import write_enquiry
from engine.sheets import form, rows, summary, trip
from engine.sheets.bar import alarm, bar, cells, verdict, verdicts_by_rule, whole
from engine.sheets.book import Book, book_of, summed
from engine.sheets.chapters import chosen_by_chapter, fold, gravest_by_chapter, head, index
from engine.sheets.energy import energy
from engine.sheets.notes import EMPTY, LEFT_OUT, PRICE, TRIP, VEHICLE, Placing, place
from engine.sheets.sheet_drawings import drawings
from engine.sheets.supplies import supplies
from engine.sheets.templates import render
from engine.sheets.view import Scene
from engine.sheets.warmth import warmth
from engine.sheets.wiring import wiring, wiring_fold
from engine.units import day_words, money, show


class _Drawn(NamedTuple):
    """A sheet's parts, and which rows matter on paper."""

    parts: dict[str, Markup]
    kept: frozenset[str]
    spoken: frozenset[str]
    """Chapters with a note that no option of them causes."""
    book: Book


def _option_rows(scene: Scene, book: Book, placing: Placing, parts: dict[str, Markup]) -> set[str]:
    """Every option's row. Rows that nothing is said about come as they are; returns those that paper needs."""
    build, chosen = scene.build, scene.enquiry.options
    offers = book.offers(build.vehicle.id)
    parts |= rows.plain_rows(book, build.vehicle.id)
    strays = {s.option_id for s in build.strays}
    touched = dict.fromkeys(i for i in (*chosen, *placing.beside) if i in book.chapter_of)
    picks: dict[str, int] = {}
    for option_id in chosen:
        chapter = book.chapter_of.get(option_id)
        if chapter is not None and chapter.pick_one:
            picks[chapter.id] = picks.get(chapter.id, 0) + 1
            if picks[chapter.id] == 1:
                parts[f"none-{chapter.id}"] = rows.none_row(chapter, False)
            elif picks[chapter.id] == 2:
                parts[f"none-{chapter.id}"] = rows.no_none_row(chapter.id)
                touched |= dict.fromkeys(chapter.options)
    kept = set()
    for option_id in touched:
        chapter = book.chapter_of[option_id]
        margin = placing.beside.get(option_id, EMPTY)
        count = chosen.get(option_id, 0)
        several = picks.get(chapter.id, 0) > 1
        name = f"opt-{option_id}"
        offer = book.offer(build.vehicle.id, option_id, build.chosen) if count else offers[option_id]
        parts[name] = rows.option_row(rows.row_of(offer, chapter, count, several, option_id in strays, margin))
        if count or margin.verdict:
            kept.add(name)
    return kept


def _drawn(scene: Scene, handbook: bool) -> _Drawn:
    build, figures, units = scene.build, scene.figures, scene.build.workshop.units
    book = book_of(scene.catalogue, build.climate)
    placing = place(scene.findings, book, handbook)
    by_rule = verdicts_by_rule(scene.findings)
    heads = placing.heads
    gravest = gravest_by_chapter(book, placing)
    chosen = chosen_by_chapter(scene, book)
    verdicts = whole(scene.findings, placing.told)
    if not handbook:  # nobody unfolds what is on paper
        verdicts = verdicts._replace(links=verdicts.links + verdicts.more, more=())
    parts: dict[str, Markup] = {
        "form-error": _no_error(),
        "identity": rows.identity(
            scene.enquiry.title or "",
            scene.enquiry.workshop or "",
            scene.enquiry.catalogue_dated or "",
            scene.enquiry.format,
        ),
        "bar": bar(cells(scene, by_rule, placing.anchors), alarm(scene.findings)),
        "verdict": verdict(verdicts),
        **energy(scene),
        "index": index(book.chapters, gravest),
        "trip-form": trip.trip_form(build.trip, _places(), units, book.currency, scene.own),
        "trip-out": trip.trip_out(trip.asked(scene), trip.summary(scene), heads.get(TRIP, EMPTY)),
        "left-out": rows.left_out(
            tuple(s for s in build.strays if s.option_id not in book.chapter_of), heads.get(LEFT_OUT, EMPTY)
        ),
    }
    parts |= rows.vehicle_rows(book, build.vehicle.id, heads.get(VEHICLE, EMPTY))
    for chapter in book.chapters:
        parts[f"head-{chapter.id}"] = head(chapter, heads.get(chapter.id, EMPTY), placing.cautions.get(chapter.id, ""))
        parts[f"fold-{chapter.id}"] = fold(chapter.id, chosen.get(chapter.id, "none chosen"), gravest[chapter.id])
    kept = _option_rows(scene, book, placing, parts)
    parts["price"] = summary.price(
        summary.price_lines(scene), show(figures.money.lead_time_d, "d", units), heads.get(PRICE, EMPTY)
    )
    kept.add(f"veh-{build.vehicle.id}")
    spoken = frozenset(c for c, margin in heads.items() if margin.verdict)
    return _Drawn(parts, frozenset(kept), spoken, book)


def _reference(scene: Scene, movable: bool) -> dict[str, Markup]:
    """Drawings, lists and plans: long parts to look things up in, which no verdict stands in."""
    build, figures, units = scene.build, scene.figures, scene.build.workshop.units
    book = book_of(scene.catalogue, build.climate)
    mass, cash = figures.mass, figures.money
    return {
        **drawings(scene, verdicts_by_rule(scene.findings), movable),
        **supplies(scene, book),
        **warmth(scene, book),
        "parts": summary.parts(
            summary.part_rows(scene, book),
            summed(mass.fit_out_kg, all(p.mass_kg is not None for p in build.parts), units),
            show(cash.labour_h, "work_h", units),
            money(cash.parts, book.currency),
        ),
        "wiring-count": wiring_fold(scene),
        "wiring-plan": wiring(scene),
        "assumed": summary.assumptions(summary.assumed(scene, book), build.vehicle.assumed),
        "share": rows.share(
            build.workshop.name, build.workshop.contact, scene.enquiry.title,
            scene.link, write_enquiry(scene.enquiry), file_name(scene),
        ),
    }  # fmt: skip


def file_name(scene: Scene) -> str:
    """What a saved build is called: the buyer's own name for it, else the workshop's and the vehicle's."""
    words = scene.enquiry.title or f"{scene.catalogue.workshop.id} {scene.build.vehicle.id}"
    return "-".join(re.findall(r"\w+", words.casefold()))[:60] or "build"


@cache
def _no_error() -> Markup:
    return form_error(None)


@cache
def _places() -> trip.Places:
    """The places on offer never change while a page lives."""
    return trip.places(tuple((c.id, c.name, c.region) for c in load_places().values()))


def form_error(error: form.FormError | None) -> Markup:
    """The line ``form-error``: empty, or what could not be read."""
    return render("form_error", field=error.field if error else "", text=error.text if error else "")


def answer_fragments(scene: Scene) -> dict[str, str]:
    """What answers a choice: verdicts, figures, notes and rows. Element id to the element's whole HTML."""
    return dict(_drawn(scene, handbook=True).parts)


def reference_fragments(scene: Scene) -> dict[str, str]:
    """The other parts that a choice can change: drawings, lists, plans, the saved file.

    Modules of the floor plan can be moved here, because whoever asks for fragments also answers moves.
    """
    return dict(_reference(scene, movable=True))


def fragments(scene: Scene) -> dict[str, str]:
    """Every part of the configurator that a choice can change.

    The ids are the same for every enquiry of one catalogue. Parts that stay the same come from memory.
    """
    return answer_fragments(scene) | reference_fragments(scene)


def configurator_html(scene: Scene) -> str:
    """The form ``configurator`` with all fragments in it, complete and readable as it stands.

    Its floor plan is a picture: nothing would answer a move before the engine runs.
    """
    drawn = _drawn(scene, handbook=True)
    parts = drawn.parts | _reference(scene, movable=False)
    return render(
        "configurator", f=parts, book=drawn.book, shop=scene.catalogue.workshop, dated=scene.catalogue.dated,
        day=day_words(scene.catalogue.dated, scene.catalogue.workshop.units),
        vehicles=tuple(v.id for v in scene.catalogue.vehicles),
    )  # fmt: skip


def report_html(scene: Scene, css: str) -> str:
    """One document for paper and hand-over: what is chosen and what is to be said about it. Needs no other file."""
    drawn = _drawn(scene, handbook=False)
    rows_kept = ((c, tuple(f"opt-{i}" for i in c.options if f"opt-{i}" in drawn.kept)) for c in drawn.book.chapters)
    # A chapter of which nothing is chosen stays out, unless something is to be said about that.
    chapters = tuple((c, kept) for c, kept in rows_kept if kept or c.id in drawn.spoken)
    parts = drawn.parts | _reference(scene, movable=False)
    return render(
        "report", f=parts, chapters=chapters, book=drawn.book, shop=scene.catalogue.workshop,
        day=day_words(scene.catalogue.dated, scene.catalogue.workshop.units),
        vehicle=f"veh-{scene.build.vehicle.id}", title=scene.enquiry.title or "",
        css=Markup(css.replace("</", "<\\/")),
    )  # fmt: skip
