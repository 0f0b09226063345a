"""The choice of the day that is shown by the hour: two lists in the form, which are no part of an enquiry."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

from markupsafe import Markup

from engine.build.energy_figures import Kind, Look
from engine.sheets.form import LOOK, FormError
from engine.sheets.templates import render
from engine.units import MONTHS

MONTH, KIND = LOOK + "month", LOOK + "kind"

WORDS: dict[Kind, str] = {"usual": "usual day", "dull": "dull day", "bright": "bright day"}
MEANING: dict[Kind, str] = {
    "usual": "half of the days are brighter",
    "dull": "one day in ten is as dull",
    "bright": "one day in ten is as bright",
}

_KINDS: dict[str, Kind] = {k: k for k in WORDS}
_MONTHS = {str(n): n for n in range(13)}


def look_from_form(pairs: Iterable[tuple[str, str]]) -> Look:
    """The chosen day among the form's entries. Raises FormError for a day that nobody knows."""
    look = Look()
    for name, value in pairs:
        if name == MONTH and value in _MONTHS:
            look = look._replace(month=_MONTHS[value])
        elif name == KIND and value in _KINDS:
            look = look._replace(kind=_KINDS[value])
        elif name in (MONTH, KIND):
            raise FormError(name, "Which day: please choose one of the list.")
    return look


@lru_cache(maxsize=64)
def day_choice(look: Look, hardest: int) -> Markup:
    """The two lists, to stand below the chart of a day."""
    months = (f"{MONTHS[hardest - 1]}, hardest", *MONTHS)
    return render(
        "day_choice", month_name=MONTH, kind_name=KIND, look=look, months=tuple(enumerate(months)),
        kinds=tuple((k, w) for k, w in WORDS.items()),
    )  # fmt: skip
