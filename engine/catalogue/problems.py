"""What is wrong with a shop folder, told so that its author can put it right."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, order=True)
class Problem:
    """One thing to put right: where it is, what was found, what to write instead."""

    file: str
    """Path inside the shop folder, with forward slashes; "" for the folder itself."""
    line: int
    """Line in that file from 1; 0 when the problem has none."""
    column: int = 0
    """Column from 1; 0 when the whole line is meant."""
    of: str = ""
    """The thing it belongs to, as "option lithium-200"."""
    key: str = ""
    """The key, with the tables it lies in, as "facet battery › capacity"."""
    said: str = ""
    """What was found and what is wrong with it."""
    instead: str = ""
    """What to write instead."""

    def __post_init__(self) -> None:
        # Words from a file reach terminals and pages: control and direction characters are shown, not sent.
        for name in ("file", "of", "key", "said", "instead"):
            text = getattr(self, name)
            if not text.isprintable():
                object.__setattr__(self, name, "".join(map(_visible, text)))

    @property
    def place(self) -> str:
        """ "sections/power.toml:14", as editors and terminals understand it."""
        return ":".join([self.file or ".", *(str(n) for n in (self.line, self.column) if n)])

    def __str__(self) -> str:
        head = f"{self.place}: " + ", ".join(part for part in (self.of, self.key) if part)
        return "\n".join(
            part for part in (head.rstrip(": "), f"  {self.said}", self.instead and f"  {self.instead}") if part
        )


def _visible(character: str) -> str:
    return character if character.isprintable() else character.encode("unicode_escape", "surrogatepass").decode()


class ShopProblems(Exception):  # noqa: N818 (it tells several)
    """A shop folder cannot be used as it is. ``problems`` has everything found, by file and line."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(sorted(set(problems)))
        super().__init__(f"{len(self.problems)} problems in the shop folder")

    def __str__(self) -> str:
        return "\n\n".join(map(str, self.problems))
