"""What is wrong with an enquiry from outside, told so that its sender can put it right."""

from collections.abc import Iterable
from typing import NamedTuple, Self

MOST_SHOWN = 40
"""Problems beyond this number are only counted: somebody may send nonsense by the thousand."""


class EnquiryProblem(NamedTuple):
    """One thing to put right."""

    where: str
    """Its place, as ``trip.months[2]`` (counted from 0, as JSON does); "file" or "link" for the whole."""
    text: str
    """What was found and what is accepted, in plain words. Plain text: whoever puts it into HTML escapes it."""

    def __str__(self) -> str:
        return f"{self.where}: {self.text}"


class EnquiryProblems(Exception):  # noqa: N818 (what it carries is its point)
    """An enquiry cannot be used as it is. ``problems`` has everything found, in the order of the fields."""

    def __init__(self, problems: Iterable[EnquiryProblem]) -> None:
        every = tuple(dict.fromkeys(problems))
        more = len(every) - MOST_SHOWN
        if more > 0:
            every = (*every[:MOST_SHOWN], EnquiryProblem("file", f"{more} more problems are not listed."))
        self.problems = every
        super().__init__(f"{len(every)} problems in the enquiry")

    @classmethod
    def one(cls, where: str, text: str) -> Self:
        """A single problem."""
        return cls([EnquiryProblem(where, text)])

    def __str__(self) -> str:
        return "\n".join(map(str, self.problems))


def quoted(text: str, most: int = 40) -> str:
    """Text from outside as it may be repeated: in quotes, shortened, invisible characters spelled out."""
    cut = text if len(text) <= most else text[: most - 1] + "…"
    return '"' + "".join(c if c.isprintable() and c not in '"\\' else _spelled(c) for c in cut) + '"'


def _spelled(c: str) -> str:
    if c in '"\\':
        return "\\" + c
    return f"\\u{ord(c):04x}" if ord(c) < 0x10000 else f"\\U{ord(c):08x}"
