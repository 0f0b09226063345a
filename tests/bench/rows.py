"""One line of the bench's table."""

from typing import NamedTuple


class Row(NamedTuple):
    """A measured value with its target; without one it is only told."""

    name: str
    value: float
    target: float | None
    made_of: str

    @property
    def met(self) -> bool:
        """Exactly at the target is met."""
        return self.target is None or self.value <= self.target

    @property
    def word(self) -> str:
        """For the table."""
        return "" if self.target is None else "met" if self.met else "MISSED"
