"""Options as far as references need them, read from files as written."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from engine.catalogue.folder import Page
from engine.catalogue.positions import Path
from engine.catalogue.problems import Problem
from engine.catalogue.spots import names


@dataclass
class Option:
    """An option as far as references need it."""

    page: Page
    index: int
    data: dict[str, Any]
    id: str
    requires: list[str] = field(default_factory=list)
    excludes: list[str] = field(default_factory=list)

    def path(self, *rest: str | int) -> Path:
        """A place inside this option."""
        return ("option", self.index, *rest)


def problem(page: Page, path: Path, said: str, instead: str = "") -> Problem:
    """A problem at a place in a page."""
    of, chain = names(page, path)
    return Problem(page.file, page.line(*path), of=of, key=" › ".join(chain), said=said, instead=instead)


def text_of(value: Any) -> str | None:
    """The value when it is a text."""
    return value if isinstance(value, str) else None


def tables_of(value: Any) -> Iterator[tuple[int, dict[str, Any]]]:
    """The tables of a list of tables with their places; nothing for any other value."""
    for index, item in enumerate(value if isinstance(value, tuple) else ()):
        if isinstance(item, dict):
            yield index, item


def options_of(page: Page) -> Iterator[Option]:
    """The options of a section file that have an id."""
    for index, data in tables_of(page.data.get("option")):
        if id_ := text_of(data.get("id")):
            option = Option(page, index, data, id_)
            option.requires = [o for _, r in tables_of(data.get("requires")) if (o := text_of(r.get("option")))]
            option.excludes = [o for _, r in tables_of(data.get("excludes")) if (o := text_of(r.get("option")))]
            yield option
