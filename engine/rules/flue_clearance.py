"""Flues end away from windows that open and from where fuel is filled in.

Flue gas that comes in through a window carries carbon monoxide, and a hot flue beside a filler can light fuel. Chimneys
in the roof are looked at by a rule of their own as well.
"""

from typing import Literal

from engine.build import Build, Figures
from engine.catalogue.facets import FlueTerminal, GasAppliance, SpaceHeater, WaterHeater
from engine.rule import AtLeast, Example, Holds, Inputs, Rule, Softened, Source, fact

OPENING_M, FILLER_M = 0.3, 0.5
FILLER_US_M = 0.9144


class Flue(Inputs):
    """A flue and the nearest thing of one kind."""

    stated: bool = fact("whether the distance is stated", "catalogue")
    where: Literal["wall", "roof", "floor"] = fact("where the flue ends", "catalogue")
    to: Literal["window, hatch or vent that opens", "fuel filler or tank vent"] = fact("measured to", "computed")
    distance_m: float = fact("distance", "catalogue", ge=0)
    least_m: float = fact("distance wanted", "regulation", gt=0)


def _with_flue(build: Build) -> tuple[str, ...]:
    found = [p.option.id for p, h in build.facets(SpaceHeater) if h.fuel in ("gas", "diesel") and not h.flueless]
    found += [p.option.id for p, w in build.facets(WaterHeater) if w.energy in ("gas", "diesel")]
    found += [p.option.id for p, a in build.facets(GasAppliance) if a.flue != "none"]
    return tuple(dict.fromkeys(found))


def read(build: Build, figures: Figures) -> list[Flue]:
    """The nearest of each kind; one note where a flue is there and nobody measured."""
    flues = list(build.facets(FlueTerminal))
    filler = FILLER_US_M if build.workshop.region == "us" else FILLER_M
    found = [
        Flue(options=(p.option.id,), stated=True, where=f.where, to="window, hatch or vent that opens",
             distance_m=f.to_opening_m, least_m=OPENING_M)
        for p, f in flues if f.to_opening_m is not None and not f.closes_window
    ]  # fmt: skip
    found += [
        Flue(options=(p.option.id,), stated=True, where=f.where, to="fuel filler or tank vent",
             distance_m=f.to_filler_m, least_m=filler)
        for p, f in flues if f.to_filler_m is not None
    ]  # fmt: skip
    if found or flues:
        return found
    ids = _with_flue(build)
    none = Flue(options=ids, stated=False, where="wall", to="fuel filler or tank vent", distance_m=0, least_m=filler)
    return [none] if ids else []


def judge(x: Flue) -> Softened | Holds:
    """Makers and codes differ, so less than wanted is a warning; the maker's instructions come first."""
    if not x.stated:
        return Holds(False, "note")
    return Softened(AtLeast(x.distance_m, x.least_m, "m", tight_from=1.0001), "tight")


_WINDOW = {"stated": True, "where": "wall", "to": "window, hatch or vent that opens", "least_m": OPENING_M}
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
        Source("EN 1949 and makers' instructions", "0.3 m to windows without a switch, 0.5 m to fillers (from memory)"),
        Source("NFPA 1192", "3 ft to fuel fillers (from memory)"),
    ),
    says={
        "ok": "The flue in the {where} ends {measured} from the nearest {to}; {limit:# is|# are} wanted.",
        "tight": "The flue in the {where} ends only {measured} from the nearest {to}; {limit:# is|# are} wanted.",
        "note": "How far flues end from windows and from the fuel filler is not stated. Ask the workshop; 0.3 m "
        "(12 in) and {least_m} are wanted.",
    },
    remedy="Move the flue, or let a switch stop the burner while that window is open.",
    examples=(
        Example(_WINDOW | {"distance_m": 0.6}, "ok", "below the floor"),
        Example(_WINDOW | {"distance_m": 0.3}, "ok", "exactly"),
        Example(_WINDOW | {"distance_m": 0.2}, "tight", "under the kitchen window"),
        Example(_WINDOW | {"stated": False, "distance_m": 0}, "note", "nobody measured"),
    ),
    offers="flue-terminal",
    caution="Carbon monoxide kills, and an alarm is a must. Gas, flues and fuel lines are fitted and tested by "
    "licensed people under the local code.",
)
