"""Flues end away from windows that open and from where fuel is filled in.

Flue gas that comes in through a window carries carbon monoxide, and a hot flue beside a filler can light fuel. Chimneys
in the roof are looked at by a rule of their own as well.
"""

from typing import Literal

from pydantic import Field

from engine import cautions
from engine.build import Build, Figures
from engine.catalogue.facets import FlueTerminal, GasAppliance, RoofObject, SpaceHeater, WaterHeater
from engine.rule import ELSEWHERE, JUST_ENOUGH, AtLeast, Example, Holds, Inputs, Rule, Softened, Source, fact, listed

OPENING_M, FILLER_M = 0.3, 0.5
FILLER_US_M = 0.9144
"""From a flue to what opens and to a fuel filler, and to a filler where 3 ft are asked for; sources in the rule."""

TOO_NEAR_FRAC = 0.5
"""Nearer than this share of what is wanted, nobody's rules allow it (assumption)."""


def keeps_clear(distance_m: float, least_m: float, binds: bool) -> AtLeast | Softened:
    """A distance against the least one: short of a standard of the workshop's region it fails, short of what only
    others or makers ask for it is a warning down to half of it."""
    found = AtLeast(distance_m, least_m, "m", tight_from=JUST_ENOUGH)
    half = AtLeast(distance_m, TOO_NEAR_FRAC * least_m, "m")
    return found if binds or half.verdict() == "fails" else Softened(found, "tight")


class Flue(Inputs):
    """A flue and the nearest thing of one kind."""

    stated: bool = fact("whether the distance is stated", "catalogue")
    where: Literal["wall", "roof", "floor"] = fact("where the flue ends", "catalogue")
    to: Literal["window, hatch or vent that opens", "fuel filler or tank vent"] = fact("measured to", "computed")
    distance_m: float = fact("distance", "catalogue", default=0.0, ge=0)
    least_m: float = fact("distance wanted", "regulation", gt=0)
    binds: bool = fact("whether a standard of the region asks for it", "regulation", default=True)
    name: str = Field(default="a heater", description="what has flues that nobody measured")
    opening_m: float = Field(default=OPENING_M, description="distance from what opens, for the note on both")


def _unmeasured(build: Build) -> dict[str, str]:
    """Id and name of what has a flue of which no distance is stated. What hangs on the loop of another heater has none
    of its own, and of a chimney in the roof another rule asks."""
    burners = [(p, f.flue) for p, f in build.facets(SpaceHeater) if f.burns]
    burners += [(p, f.flue) for p, f in build.facets(WaterHeater) if f.burns]
    burners += [(p, a.flue) for p, a in build.facets(GasAppliance)]
    flues = {p.option.id for p, _ in build.facets(FlueTerminal)}
    silent = {p.option.id for p, f in build.facets(FlueTerminal) if f.to_opening_m is None and f.to_filler_m is None}
    known = flues - silent | {p.option.id for p, r in build.facets(RoofObject) if r.what == "chimney"}
    return {
        p.option.id: p.option.name
        for p, flue in burners
        if flue != "none" and p.option.id not in known and not any(r.option in flues for r in p.option.requires)
    }


def read(build: Build, figures: Figures) -> list[Flue]:
    """The nearest of each kind; one note on flues that nobody measured."""
    region = build.workshop.region
    filler = FILLER_US_M if region == "us" else FILLER_M
    flues = build.facets(FlueTerminal)
    found = [
        Flue(options=(p.option.id,), stated=True, where=f.where, to="window, hatch or vent that opens",
             distance_m=f.to_opening_m, least_m=OPENING_M, binds=region in ("eu", "uk"))
        for p, f in flues if f.to_opening_m is not None and not f.closes_window
    ]  # fmt: skip
    found += [
        Flue(options=(p.option.id,), stated=True, where=f.where, to="fuel filler or tank vent",
             distance_m=f.to_filler_m, least_m=filler, binds=region != "au")
        for p, f in flues if f.to_filler_m is not None
    ]  # fmt: skip
    if silent := _unmeasured(build):
        found.append(
            Flue(options=tuple(silent), stated=False, where="wall", to="fuel filler or tank vent", distance_m=0,
                 least_m=filler, name=listed(silent.values()))
        )  # fmt: skip
    return found


def judge(x: Flue) -> AtLeast | Softened | Holds:
    """Against the least distance; the maker's instructions come first."""
    if not x.stated:
        return Holds(False, "note")
    return keeps_clear(x.distance_m, x.least_m, x.binds)


_WINDOW = {"stated": True, "where": "wall", "to": "window, hatch or vent that opens", "least_m": OPENING_M}
_UNBOUND = _WINDOW | {"binds": False}
_FILLER = {"stated": True, "where": "wall", "to": "fuel filler or tank vent", "least_m": FILLER_M}
_FILLER_US = _FILLER | {"least_m": FILLER_US_M}
_UNMEASURED = {"stated": False, "name": "Gas heater"}
RULE = Rule(
    code="flue-clearance",
    title="Flues, windows and fillers",
    topic="warmth",
    category="safety",
    inputs=Flue,
    read=read,
    judge=judge,
    formula="distance ≥ 0.3 m to what opens, 0.5 m (United States 3 ft) to a filler",
    sources=(
        Source("EN 1949", "0.3 m to windows without a switch, 0.5 m to fillers (from memory); makers may ask for more"),
        Source("NFPA 1192", "3 ft to fuel fillers (from memory)"),
    ),
    says={
        "ok": "The flue in the {where} ends {measured} from the nearest {to}; {limit:# is|# are} wanted.",
        "tight": "The flue in the {where} ends only {measured} from the nearest {to}; {limit:# is|# are} wanted.",
        "fails": "The flue in the {where} ends only {measured} from the nearest {to}; {limit:# is|# are} wanted.",
        "note": "How far flues end from windows and from the fuel filler is not stated of: {name}. Ask the workshop; "
        "{opening_m} and {least_m} are wanted.",
    },
    remedy="Move the flue, or let a switch stop the burner while that window is open.",
    examples=lambda: (
        Example(_WINDOW | {"distance_m": 0.6}, "ok", "below the floor"),
        Example(_WINDOW | {"distance_m": 0.3}, "ok", "exactly"),
        Example(_WINDOW | {"distance_m": 0.29}, "fails", "under the kitchen window", "eu uk"),
        Example(_UNBOUND | {"distance_m": 0.2}, "tight", "where no standard of the region has it", "us au"),
        Example(_UNBOUND | {"distance_m": 0.15}, "tight", "exactly half", "us au"),
        Example(_UNBOUND | {"distance_m": 0.14}, "fails", "nearer than half of it", "us au"),
        Example(_FILLER_US | {"distance_m": 0.9144}, "ok", "exactly 3 ft from the filler", "us"),
        Example(_FILLER_US | {"distance_m": 0.905}, "fails", "hardly short of 3 ft", "us"),
        Example(_FILLER | {"distance_m": 0.5}, "ok", "exactly, from the filler", ELSEWHERE),
        Example(_FILLER | {"distance_m": 0.45}, "fails", "too near the filler", "eu uk"),
        Example(_FILLER | {"distance_m": 0.45, "binds": False}, "tight", "rather near the filler", "au"),
        Example(_FILLER_US | _UNMEASURED, "note", "nobody measured", "us"),
        Example(_FILLER | _UNMEASURED, "note", "nobody measured", ELSEWHERE),
    ),
    offers="flue-terminal",
    caution=f"{cautions.CARBON_MONOXIDE} {cautions.GAS}",
)
