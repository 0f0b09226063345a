"""The house battery can be charged on the coldest night's morning.

Lithium iron phosphate cells must not be charged at or below freezing. A battery inside the warm shell stays above it
while the vehicle is lived in; one outside takes the night's temperature unless it warms itself.
"""

from engine.build import Build, Figures
from engine.build.battery_cold import morning_degc, outside
from engine.catalogue.facets import Battery
from engine.rule import AtLeast, Example, Holds, Inputs, Rule, Source, fact


class ColdBattery(Inputs):
    """A battery's cells on the coldest morning."""

    name: str = fact("the battery", "chosen")
    where: str = fact("inside or outside the warm shell", "catalogue")
    cell_degc: float = fact("its cells on the coldest morning", "computed")
    least_degc: float = fact("coldest cell that may be charged", "catalogue")
    heated: bool = fact("whether it warms itself", "catalogue")


def read(build: Build, figures: Figures) -> list[ColdBattery]:
    """One question for each kind of battery."""
    return [
        ColdBattery(
            options=(p.option.id,),
            name=p.option.name,
            where="outside" if outside(p) else "inside",
            cell_degc=morning_degc(build, p),
            least_degc=f.min_charge_degc,
            heated=f.heated,
        )
        for p, f in build.facets(Battery)
    ]


def judge(x: ColdBattery) -> AtLeast | Holds:
    """A heated battery holds; any other must be warmer than its least."""
    if x.heated:
        return Holds(True)
    return AtLeast(x.cell_degc, x.least_degc, "degc", tight_from=1.0001)


_OUT = {"name": "Battery", "where": "outside", "least_degc": 0}
RULE = Rule(
    code="battery-cold-charge",
    title="Battery charging in the cold",
    topic="power",
    category="function",
    inputs=ColdBattery,
    read=read,
    judge=judge,
    formula="T_cell ≥ least charging temperature, or the battery warms itself",
    sources=(Source("Cell makers' guidelines", "no charge of lithium iron phosphate cells below 0 °C", "2026-11-25"),),
    says={
        "ok": "{name} ({where}) can be charged on the coldest morning.",
        "tight": "{name} ({where}) is at {measured} on the coldest morning, just enough to be charged.",
        "fails": "{name} ({where}) is at {measured} on the coldest morning and takes no charge, however much sun there "
        "is.",
    },
    remedy="Choose a battery that warms itself, or one that sits inside.",
    examples=(
        Example(_OUT | {"cell_degc": -15, "heated": False}, "fails", "unheated locker at −15 °C"),
        Example(_OUT | {"cell_degc": 15, "where": "inside", "heated": False}, "ok", "indoors"),
        Example(_OUT | {"cell_degc": -15, "heated": True}, "ok", "with its own heater"),
        Example(_OUT | {"cell_degc": 0, "heated": False}, "tight", "exactly at freezing"),
    ),
    offers="battery",
    caution="Charging frozen lithium cells ruins them and can make them a hazard. The air's temperature is not theirs.",
)
