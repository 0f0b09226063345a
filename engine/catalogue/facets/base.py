"""What every facet shares."""

from typing import ClassVar, Literal, Self

from pydantic import model_validator

from engine.catalogue.quantities import Entry

Surface = Literal["walls", "roof", "floor"]
Habit = Literal["always", "cooking", "computers", "showers", "evenings", "media", "cooling", "heating", "outdoors"]
"""What a load's hours follow: the clock, or one of the traveller's habits."""

Running = Literal["steady", "cycling", "now-and-then"]
"""How a load runs: without a break, switched by its own thermostat, or when somebody wants it."""


Flue = Literal["room-sealed", "open-flued", "none"]
"""Where what burns leaves its gas: outside, with air from outside too; outside, with the room's air; or in the room."""


class Facet(Entry):
    """One technical side of an option. Each subclass has a ``kind`` that tells it apart in a shop file."""

    not_above: ClassVar[tuple[tuple[str, str], ...]] = ()
    """Pairs of fields of which the first, by what they mean, is never more than the second."""

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        for less, more in self.not_above:
            low, high = getattr(self, less), getattr(self, more)
            if low is not None and high is not None and low > high:
                keys = [type(self).model_fields[name].alias or name for name in (less, more)]
                raise ValueError(f"the {keys[0]} is more than the {keys[1]}; the two may be mixed up")
        return self
