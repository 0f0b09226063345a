"""What every facet shares."""

from typing import Literal

from engine.catalogue.quantities import Entry

Surface = Literal["walls", "roof", "floor"]
Habit = Literal["always", "cooking", "computers", "showers", "evenings", "media", "cooling", "heating", "outdoors"]
"""What a load's hours follow: the clock, or one of the traveller's habits."""

Running = Literal["steady", "cycling", "now-and-then"]
"""How a load runs: without a break, switched by its own thermostat, or when somebody wants it."""


class Facet(Entry):
    """One technical side of an option. Each subclass has a ``kind`` that tells it apart in a shop file."""
