"""Telling the person at the terminal how far a long job is, without tying the jobs to a terminal library."""

from __future__ import annotations

from collections.abc import Callable

Progress = Callable[[str], None]
"""Called with one short sentence when a step begins."""


class SiteProblem(Exception):  # noqa: N818 (it is the reader's to solve, not a fault of the program)
    """The site cannot be built; the message says what was found and what to do about it."""


def silent(_step: str) -> None:
    """A `Progress` for callers that do not want to hear of steps."""
