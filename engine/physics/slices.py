"""Long reckonings done in slices: generators that rest now and then and return the result at the end."""

from collections.abc import Generator
from typing import TypeVar

T = TypeVar("T")


def drained(slices: Generator[object, None, T]) -> T:
    """Run a sliced reckoning to its end, without rests. Source: definition.

    >>> def two():
    ...     yield
    ...     return 2
    >>> drained(two())
    2
    """
    while True:
        try:
            next(slices)
        except StopIteration as done:
            result: T = done.value
            return result
