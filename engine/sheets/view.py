"""What a sheet is made from, and the words that verdicts have on it."""

import re
from typing import NamedTuple

from markupsafe import Markup

from engine.build import Build, Figures
from engine.build.energy_figures import USUAL, Look
from engine.catalogue import Catalogue
from engine.enquiry import Enquiry
from engine.rule import Finding
from engine.sheets.cargo_form import UNTYPED, OwnBox
from engine.units import System, show


class Scene(NamedTuple):
    """Everything one sheet shows. ``link`` is the text after the # of a link to this build."""

    catalogue: Catalogue
    enquiry: Enquiry
    build: Build
    figures: Figures
    findings: tuple[Finding, ...]
    link: str
    look: Look = USUAL
    """The day to be shown by the hour."""
    own: OwnBox = UNTYPED
    """What is typed of a box that is not added yet."""


class Mark(NamedTuple):
    """How a verdict looks: colour by ``css``, symbol and word, so that colour never stands alone."""

    css: str
    symbol: str
    word: str

    @property
    def badge(self) -> Markup:
        """The mark as it stands in a line of text."""
        return _BADGES[self.css]


MARKS: dict[str, Mark] = {
    "ok": Mark("ok", "✓", "ok"),
    "tight": Mark("tight", "△", "tight"),
    "fails": Mark("fails", "✕", "fails"),
    "unknown": Mark("unknown", "?", "not known"),
    "note": Mark("note", "i", "note"),
    "": Mark("none", "·", ""),
}

_BADGES = {
    m.css: Markup('<span class="mark v-{}"><b aria-hidden="true">{}</b> {}</span>').format(m.css, m.symbol, m.word)
    for m in MARKS.values()
}

GRAVITY: dict[str, int] = {"": -1, "ok": 0, "note": 1, "tight": 2, "unknown": 3, "fails": 4}
"""Worse verdicts have larger numbers. Not known is worse than tight: nobody can promise anything."""

SENTENCE_END = re.compile(r"(?<=[.!?]) ")
"""Between two sentences."""


NOT_STATED = "not stated"


def mass_text(mass_kg: float | None, system: System) -> str:
    """A mass as a reader sees it, or that nobody states it."""
    return NOT_STATED if mass_kg is None else show(mass_kg, "kg", system)
