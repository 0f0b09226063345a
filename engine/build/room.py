"""How cold the living space gets where heaters do not hold it: for tanks, pipes, batteries and damp alike."""

from engine.build.habits import coldest_degc
from engine.build.model import Build
from engine.build.warmth import WarmthFigures
from engine.physics.cooling import PERSON_SENSIBLE_W

INDOORS_DEGC = 10.0
"""Least temperature of things inside a shell that is lived in and kept warm (assumption)."""

LAG_K = 2.0
"""What a room has stored keeps its coldest hour so far above that outside (assumption)."""

ERROR_K = 2.0
"""How far off such a room's temperature may be: people go out, sun and cooking warm it (assumption)."""


def above_outside_k(build: Build, warmth: WarmthFigures) -> float:
    """How much warmer than outside the heaters that count, at full, and the people aboard hold the room."""
    return (warmth.output_w + PERSON_SENSIBLE_W * build.trip.people) / warmth.total_w_k


def room_degc(build: Build, warmth: WarmthFigures, outside_degc: float) -> float:
    """The room at a mean outside temperature: no warmer than wanted, unless it is so outside."""
    return min(max(build.trip.inside_degc, outside_degc), outside_degc + above_outside_k(build, warmth))


def night_room_degc(build: Build, warmth: WarmthFigures) -> float:
    """The same in the coldest hour of the trip."""
    return room_degc(build, warmth, coldest_degc(build) + LAG_K)


def why_cold(warmth: WarmthFigures) -> str:
    """Why a room inside is cold, said of a place in it."""
    if warmth.output_w:
        return "where the heating gives too little"
    return "where no heater counts" if warmth.uncounted else "where nothing heats"
