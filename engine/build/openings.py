"""Openings that cannot be shut, and what burns the room's own air."""

from typing import NamedTuple

from engine.build.model import Build, Part
from engine.build.standstill import running_fans
from engine.catalogue.facets import FixedVent, GasAppliance, SpaceHeater, WaterHeater, Window
from engine.physics.fixed_vents import fixed_vents, flame_opening_m2

SEEN_M2 = 10.0
"""Floor up to which the standard's areas are known. Beyond it they are carried on by the floor's area (assumption: so
they grow from row to row of the table), and only what falls short of the last row fails."""


class Breather(NamedTuple):
    """An appliance that burns the room's air, hobs and ovens apart."""

    option_id: str
    name: str
    gas: bool
    flueless: bool
    input_w: float


class OpeningFigures(NamedTuple):
    """Free areas wanted and had."""

    breathers: tuple[Breather, ...]
    cookers: tuple[Breather, ...]
    """Hobs and ovens, which do it while somebody stands there."""
    airs: bool
    """A window opens, or a fan is there, to cook beside."""
    fan_only: bool
    """A fan, and no window that opens."""
    sealed: tuple[tuple[str, str], ...]
    """Heaters and the like that take their air from outside, by id and name."""
    unstated: tuple[tuple[str, str], ...]
    """Heaters with a flame of which nobody says where they take it."""
    vent_ids: tuple[str, ...]
    high_m2: float
    low_m2: float
    want_high_m2: float
    want_low_m2: float
    sure_high_m2: float
    sure_low_m2: float
    """The same by the last row of the table: less where the floor is larger."""
    together: bool
    """High and low areas count as one, as for flames in the United States."""


def opening_figures(build: Build) -> OpeningFigures:
    """What the build's appliances and floor ask for, and the fixed vents it has."""
    breathers: list[Breather] = []
    cookers: list[Breather] = []
    sealed: list[tuple[str, str]] = []
    unstated: list[tuple[str, str]] = []
    burners: list[tuple[Part, SpaceHeater | WaterHeater, bool, float]] = []
    burners += [(p, h, h.fuel == "gas", h.output_w) for p, h in build.facets(SpaceHeater) if h.burns]
    burners += [(p, w, w.energy == "gas", w.heat_w) for p, w in build.facets(WaterHeater) if w.burns]
    for part, f, gas, heat_w in burners:
        option_id, name = part.option.id, part.option.name
        if f.flue in (None, "room-sealed"):
            (sealed if f.flue else unstated).append((option_id, name))
        else:
            watts = heat_w / f.efficiency_frac * part.count
            breathers.append(Breather(option_id, name, gas, f.flue == "none", watts))
    for part, a in build.facets(GasAppliance):
        if a.outdoors:
            continue
        if a.flue == "room-sealed":
            sealed.append((part.option.id, part.option.name))
        else:
            found = cookers if a.habit == "cooking" else breathers
            flueless, watts = a.flue == "none", a.input_w * part.count
            found.append(Breather(part.option.id, part.option.name, True, flueless, watts))
    cabin = build.vehicle.cabin
    floor = max(0.1, cabin.length_m * cabin.width_m)
    beyond = max(1.0, floor / SEEN_M2)
    # EN 721 is Europe's; in the United States a flame is asked for its own area, wherever the openings lie, and a hob
    # for a window or fan beside it.
    us = build.workshop.region == "us"
    together = bool(breathers) and us
    want = fixed_vents(min(SEEN_M2, floor), bool(breathers or cookers) and not us)
    flames = flame_opening_m2(min(5e4, sum(b.input_w for b in breathers)))
    vents = build.facets(FixedVent)
    fan, window = bool(running_fans(build)), any(w.opens for _, w in build.facets(Window))
    return OpeningFigures(
        breathers=tuple(breathers),
        cookers=tuple(cookers),
        airs=fan or window,
        fan_only=fan and not window,
        sealed=tuple(dict.fromkeys(sealed)),
        unstated=tuple(dict.fromkeys(unstated)),
        vent_ids=build.ids(FixedVent),
        high_m2=sum(f.high_m2 * p.count for p, f in vents),
        low_m2=sum(f.low_m2 * p.count for p, f in vents),
        want_high_m2=max(want.roof_m2 * (1.0 if together else beyond), flames),
        want_low_m2=want.low_m2 * beyond,
        sure_high_m2=max(want.roof_m2, flames),
        sure_low_m2=want.low_m2,
        together=together,
    )
