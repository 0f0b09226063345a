"""The house battery can be charged on the coldest night's morning.

Lithium iron phosphate cells must not be charged at or below freezing. A battery inside a room that is heated stays
above it; without enough heat its cells follow the coldest day, a little warmed by the people aboard. One outside takes
the night's temperature, unless it warms itself.
"""

from engine.build import Build, Figures, Part
from engine.build.battery_cold import morning_degc, outside
from engine.build.room import ERROR_K, INDOORS_DEGC, why_cold
from engine.catalogue.facets import Battery
from engine.rule import JUST_ENOUGH, AtLeast, Example, Holds, Inputs, Rule, Source, fact

_ROOM = "Heat the room, or choose a battery that warms itself"
_PLACE = "Choose a battery that warms itself, or one that sits inside"


class ColdBattery(Inputs):
    """A battery's cells on the coldest morning."""

    name: str = fact("the battery", "chosen")
    where: str = fact("inside or outside the warm shell", "catalogue")
    cell_degc: float = fact("its cells on the coldest morning", "computed")
    least_degc: float = fact("coldest cell that may be charged", "catalogue")
    heated: bool = fact("whether it warms itself", "catalogue")
    error_k: float | None = fact("how far off a cold room's temperature may be", "assumed", default=None, ge=0)
    helps: str = fact("what helps", "computed", default=_PLACE)


def _asked(build: Build, figures: Figures, part: Part, f: Battery) -> ColdBattery:
    cells = morning_degc(build, figures.warmth, part)
    cold_room = not outside(part) and cells < INDOORS_DEGC
    return ColdBattery(
        options=(part.option.id,),
        name=part.option.name,
        where="outside" if outside(part) else f"inside, {why_cold(figures.warmth)}" if cold_room else "inside",
        cell_degc=cells,
        least_degc=f.min_charge_degc,
        heated=f.heated,
        error_k=ERROR_K if cold_room else None,
        helps=_ROOM if cold_room else _PLACE,
    )


def read(build: Build, figures: Figures) -> list[ColdBattery]:
    """One question for each kind of battery."""
    return [_asked(build, figures, p, f) for p, f in build.facets(Battery)]


def judge(x: ColdBattery) -> AtLeast | Holds:
    """A heated battery holds; any other must be warmer than its least."""
    if x.heated:
        return Holds(True)
    error_k = x.error_k or 0.0
    low, high = x.cell_degc - error_k, x.cell_degc + error_k
    return AtLeast(x.cell_degc, x.least_degc, "degc", tight_from=JUST_ENOUGH, low=low, high=high)


_OUT = {"name": "Battery", "where": "outside", "least_degc": 0}
_COLD_ROOM = _OUT | {
    "where": "inside, where nothing heats", "heated": False, "error_k": ERROR_K, "helps": _ROOM,
}  # fmt: skip
RULE = Rule(
    code="battery-cold-charge",
    title="Battery charging in the cold",
    topic="power",
    category="function",
    inputs=ColdBattery,
    read=read,
    judge=judge,
    formula="T_cell ≥ least charging temperature, or the battery warms itself",
    sources=(
        Source("Cell makers' guidelines", "no charge of lithium iron phosphate cells below 0 °C", "2026-11-25"),
        Source(
            "Common practice", "70 W from each person aboard; heavy things follow the coldest day's mean, good to 2 K"
        ),
    ),
    says={
        "ok": "{name} ({where}) can be charged on the coldest morning.",
        "tight": "{name} ({where}) is at {measured}{band} on the coldest morning, just enough to be charged.",
        "fails": "{name} ({where}) is at {measured} on the coldest morning and takes no charge, however much sun there "
        "is.",
    },
    remedy="{helps}.",
    examples=lambda: (
        Example(_OUT | {"cell_degc": -15, "heated": False}, "fails", "unheated locker at −15 °C"),
        Example(_OUT | {"cell_degc": 15, "where": "inside", "heated": False}, "ok", "indoors"),
        Example(_OUT | {"cell_degc": -15, "heated": True}, "ok", "with its own heater"),
        Example(_OUT | {"cell_degc": 0, "heated": False}, "tight", "exactly at freezing"),
        Example(_COLD_ROOM | {"cell_degc": -11}, "fails", "inside a van without heat on a night of −18 °C"),
        Example(_COLD_ROOM | {"cell_degc": 2}, "ok", "as far above freezing as such a room is known"),
        Example(_COLD_ROOM | {"cell_degc": 1.5}, "tight", "closer than such a room is known"),
    ),
    offers="battery",
    caution="Charging frozen lithium cells ruins them and can make them a hazard. The air's temperature is not theirs.",
)
