"""Regulator and appliances are made for one and the same gas pressure.

Appliances for 30 mbar on 50 burn too large a flame, on 28 too small a one; both make carbon monoxide.
"""

from engine.build import Build, Figures
from engine.build.gas_rate import SAME_KPA
from engine.rule import Example, Holds, Inputs, Rule, Source, fact, listed


def _told(kpa: float) -> str:
    return f"{kpa * 10:.0f} mbar ({kpa / 0.249089:.0f} in of water)"


class Pressure(Inputs):
    """Pressures behind the regulator."""

    outlet: str = fact("pressure behind the regulator", "catalogue")
    usual: str = fact("pressure of new vehicles in the region", "regulation")
    odd: str = fact("what is made for another pressure", "catalogue", default="")
    of_region: bool = fact("whether the regulator gives the region's pressure", "computed")


def read(build: Build, figures: Figures) -> Pressure | None:
    """Nothing to ask where no regulator is stated."""
    g = figures.gas_pipe
    if g is None or g.outlet_kpa is None:
        return None
    return Pressure(
        options=g.regulator_ids,
        outlet=_told(g.outlet_kpa),
        usual=_told(g.region_kpa),
        odd=listed(f"{name} ({_told(kpa)})" for name, kpa in g.odd_kpa),
        of_region=abs(g.outlet_kpa - g.region_kpa) <= SAME_KPA,
    )


def judge(x: Pressure) -> Holds:
    """Another pressure than the region's is worth a note where all that burns is made for it."""
    return Holds(False) if x.odd else Holds(x.of_region, "note")


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
        Source("EN 1949", "30 mbar; older vehicles 28/37 or 50 mbar (from memory)"),
        Source("NFPA 1192", "11 inches of water (from memory)"),
        Source("AS/NZS 5601.2", "2.75 kPa (from memory)"),
    ),
    says={
        "ok": "The gas regulator gives {outlet}, and nothing stated here is made for another pressure.",
        "note": "The gas regulator gives {outlet}; new vehicles here have {usual}. Appliances must suit it.",
        "fails": "The gas regulator gives {outlet}; made for another pressure: {odd}.",
    },
    remedy="Let the gas fitter match regulator and appliances; never turn a regulator up or down.",
    examples=(
        Example({"outlet": _told(3.0), "usual": _told(3.0), "of_region": True}, "ok", "30 mbar throughout"),
        Example({"outlet": _told(5.0), "usual": _told(3.0), "of_region": False}, "note", "an older vehicle"),
        Example(
            {"outlet": _told(5.0), "usual": _told(3.0), "of_region": False, "odd": "Hob (30 mbar)"},
            "fails",
            "a new hob",
        ),
    ),
    offers="gas-regulator",
    caution="Gas, flues and fuel lines are fitted and tested by licensed people under the local code. Carbon monoxide "
    "kills, and an alarm is a must.",
)
