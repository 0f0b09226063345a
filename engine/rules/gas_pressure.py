"""Regulator and appliances are made for one and the same gas pressure.

On a higher pressure than they are made for appliances burn too large a flame, on a lower one too small a one; both make
carbon monoxide.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.gas_rate import OUTLET_KPA, SAME_KPA
from engine.rule import Example, Holds, Inputs, Rule, Source, fact, listed
from engine.units import show


class Pressure(Inputs):
    """Pressures behind the regulator."""

    outlet_gas_kpa: float = fact("pressure behind the regulator", "catalogue")
    usual_gas_kpa: float = fact("pressure of new vehicles in the region", "regulation")
    odd: str = fact("what is made for another pressure", "catalogue", default="")
    of_region: bool = fact("whether the regulator gives the region's pressure", "computed")


def read(build: Build, figures: Figures) -> Pressure | None:
    """Nothing to ask where no regulator is stated."""
    g = figures.gas_pipe
    if g is None or g.outlet_kpa is None:
        return None
    return Pressure(
        options=g.regulator_ids,
        outlet_gas_kpa=g.outlet_kpa,
        usual_gas_kpa=g.region_kpa,
        odd=listed(f"{name} ({show(kpa, 'gas_kpa', build.workshop.units)})" for name, kpa in g.odd_kpa),
        of_region=abs(g.outlet_kpa - g.region_kpa) <= SAME_KPA,
    )


def judge(x: Pressure) -> Holds:
    """Another pressure than the region's is worth a note where all that burns is made for it."""
    return Holds(False) if x.odd else Holds(x.of_region, "note")


def _at(outlet_kpa: float, region: str, odd: str = "") -> dict[str, float | bool | str]:
    usual = OUTLET_KPA[region]
    return {
        "outlet_gas_kpa": outlet_kpa, "usual_gas_kpa": usual, "of_region": abs(outlet_kpa - usual) <= SAME_KPA,
        "odd": odd,
    }  # fmt: skip


RULE = Rule(
    code="gas-pressure",
    title="Gas pressure",
    topic="gas",
    category="safety",
    inputs=Pressure,
    read=read,
    judge=judge,
    formula="appliance pressure = regulator pressure",
    sources=(
        Source("EN 1949", "30 mbar; older vehicles 28/37 or 50 mbar (from memory)", region="eu uk"),
        Source("NFPA 1192", "11 inches of water (from memory)", region="us"),
        Source("AS/NZS 5601.2", "2.75 kPa (from memory)", region="au"),
    ),
    says={
        "ok": "The gas regulator gives {outlet_gas_kpa}, and nothing stated here is made for another pressure.",
        "note": "The gas regulator gives {outlet_gas_kpa}; new vehicles here have {usual_gas_kpa}, and "
        "appliances must suit what it gives.",
        "fails": "The gas regulator gives {outlet_gas_kpa}; made for another pressure: {odd}.",
    },
    remedy="Let the gas fitter match regulator and appliances; never turn a regulator up or down.",
    examples=lambda: (
        Example(_at(OUTLET_KPA["us"], "us"), "ok", "the same throughout", "us"),
        Example(_at(3.0, "us"), "note", "an imported regulator, all that burns made for it", "us"),
        Example(_at(3.0, "us", "Hob (11 in w.c.)"), "fails", "an imported regulator and a hob from here", "us"),
        Example(_at(3.0, "eu"), "ok", "the same throughout", "eu uk"),
        Example(_at(5.0, "eu"), "note", "an older vehicle", "eu uk"),
        Example(_at(5.0, "eu", "Hob (30 mbar)"), "fails", "an older vehicle, a new hob", "eu uk"),
        Example(_at(2.75, "au"), "ok", "the same throughout", "au"),
        Example(_at(3.7, "au"), "note", "an imported regulator", "au"),
        Example(_at(3.7, "au", "Hob (27.5 mbar)"), "fails", "an imported regulator and a hob from here", "au"),
    ),
    offers="gas-regulator",
    caution=f"{cautions.GAS} {cautions.CARBON_MONOXIDE}",
)
