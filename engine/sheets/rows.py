"""Rows of the sheet: base vehicles, options and what was left out."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple
from urllib.parse import quote

from markupsafe import Markup

from engine.build.model import Stray
from engine.catalogue.workshop import Contact
from engine.enquiry.door import MOST_BYTES
from engine.sheets import form
from engine.sheets.book import Book, Chapter, Offer
from engine.sheets.notes import EMPTY, Margin
from engine.sheets.templates import render
from engine.units import money, show


class Row(NamedTuple):
    """One option as it stands in the form right now."""

    offer: Offer
    control: str
    """ "check", "radio", "number", or two of them joined by "+"."""
    field: str
    number: int
    """How many are chosen."""
    disabled: bool
    stray: bool
    """It is chosen and left out of the sums."""
    margin: Markup
    noted: bool


@lru_cache(maxsize=8192)
def option_row(row: Row) -> Markup:
    """The row's element, ``opt-<id>``."""
    return render(
        "option_row",
        r=row,
        one=form.ONE,
        picked=form.PICKED,
        counted=form.COUNT,
        step=form.STEP,
        most=max(row.offer.most, row.number),
    )


def row_of(offer: Offer, chapter: Chapter, count: int, several: bool, stray: bool, margin: Margin) -> Row:
    """The row of an option.

    several: more than one option of a pick-one chapter is chosen (an old link can say so); check boxes then show
    what radio buttons could not.
    """
    many = offer.most > 1 or count > 1
    if chapter.pick_one and not several:
        control, field = ("radio+number" if many else "radio"), form.ONE + chapter.id
    elif chapter.pick_one:
        control, field = ("check+number" if many else "check"), form.PICKED
    else:
        control, field = ("number" if many else "check"), form.PICKED
    return Row(offer, control, field, count, not offer.fits and not count, stray, margin.html, bool(margin.verdict))


@lru_cache(maxsize=64)
def plain_rows(book: Book, vehicle_id: str) -> dict[str, Markup]:
    """The rows of all options, nothing chosen and nothing said."""
    offers = book.offers(vehicle_id)
    found: dict[str, Markup] = {}
    for chapter in book.chapters:
        for i in chapter.options:
            found[f"opt-{i}"] = option_row(row_of(offers[i], chapter, 0, False, False, EMPTY))
        if chapter.pick_one:
            found[f"none-{chapter.id}"] = none_row(chapter, True)
    return found


@lru_cache(maxsize=512)
def none_row(chapter: Chapter, chosen: bool) -> Markup:
    """The row that takes a choice back where one is picked, ``none-<chapter>``."""
    return render("none_row", chapter=chapter, field=form.ONE + chapter.id, chosen=chosen)


@lru_cache(maxsize=1024)
def _vehicle_row(values: tuple[str, ...], chosen: bool, margin: Margin) -> Markup:
    id_, name, summary, rating, free, price = values
    return render(
        "vehicle_row", id=id_, name=name, summary=summary, rating=rating, free=free, price=price, chosen=chosen,
        margin=margin, field=form.VEHICLE,
    )  # fmt: skip


def vehicle_rows(book: Book, chosen: str, margin: Margin) -> dict[str, Markup]:
    """The rows of the base vehicles; notes about the vehicle stand beside the chosen one."""
    rows = {}
    for values in _vehicle_values(book):
        is_chosen = values[0] == chosen
        rows[f"veh-{values[0]}"] = _vehicle_row(values, is_chosen, margin if is_chosen else EMPTY)
    return rows


@lru_cache(maxsize=8)
def _vehicle_values(book: Book) -> tuple[tuple[str, ...], ...]:
    found = []
    for v in book.catalogue.vehicles:
        m = v.masses
        free_kg = m.gross_kg - m.empty_front_kg - m.empty_rear_kg
        found.append(
            (
                v.id, v.name, v.summary, show(m.gross_kg, "kg", book.units), show(free_kg, "kg", book.units),
                "yours" if v.price is None else money(v.price, book.currency),
            )
        )  # fmt: skip
    return tuple(found)


@lru_cache(maxsize=256)
def left_out(strays: tuple[Stray, ...], margin: Margin) -> Markup:
    """Choices that the catalogue does not know any more, kept in the form, ``left-out``."""
    return render("left_out", strays=strays, margin=margin, counted=form.COUNT)


@lru_cache(maxsize=256)
def no_none_row(chapter_id: str) -> Markup:
    """The empty place of the row that takes a choice back, while several are chosen."""
    return render("no_none_row", id=chapter_id)


@lru_cache(maxsize=64)
def identity(title: str, workshop: str, dated: str, format_: int) -> Markup:
    """The build's name and what else the enquiry says of itself, ``identity``."""
    return render("identity", title=title, workshop=workshop, dated=dated, format=format_, title_field=form.TITLE)


MOST_MAILED = 1500
"""Characters of a link that a letter still takes: mail programs on Windows stop at some 2,000 (from memory)."""


@lru_cache(maxsize=64)
def share(shop: str, contact: Contact, title: str | None, link: str, file: str, name: str) -> Markup:
    """The build as a letter to the workshop, a link, a file to keep, and a place to open a kept one, ``share``.

    shop: the workshop's name; title: the buyer's name for the build; link: empty when the build is too long for one;
    file: the file's text; name: the file's name without its ending. The page writes its own address before the link.
    """
    by_mail = bool(link) and len(link) <= MOST_MAILED
    says = "This is my build:\r\n\r\n" if by_mail else "My build is in the file that I attach."
    letter = f"mailto:{quote(contact.email, safe='@')}?subject={quote(title or 'A build')}"
    return render(
        "share", shop=shop, phone=contact.phone, by_mail=by_mail, letter=letter, body=f"&body={quote(says)}",
        link=link, file=file, name=name, most=MOST_BYTES,
    )  # fmt: skip
