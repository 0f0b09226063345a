"""The gas regulator passes all that may burn at once.

One that is too small lets the pressure fall when everything burns, and flames turn yellow or go out.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.rule import AtMost, Example, Holds, Inputs, Rule, Source, fact


class Regulator(Inputs):
    """Everything at full flame against the regulator."""

    stated: bool = fact("whether a regulator is stated", "catalogue")
    burnt_kg_h: float = fact("gas with everything at full flame", "computed", gt=0)
    passes_kg_h: float = fact("what the regulator passes", "catalogue", ge=0)


def read(build: Build, figures: Figures) -> Regulator | None:
    """Nothing to ask without a store and something that burns."""
    g = figures.gas_pipe
    if g is None or not g.burnt_kg_h:
        return None
    known = g.regulator_kg_h is not None
    return Regulator(
        options=g.regulator_ids, stated=known, burnt_kg_h=g.burnt_kg_h, passes_kg_h=g.regulator_kg_h or 0.0
    )


def judge(x: Regulator) -> AtMost | Holds:
    """All of it at once; where no regulator is stated, the sum is worth a note."""
    return AtMost(x.burnt_kg_h, x.passes_kg_h, "kg_h") if x.stated else Holds(False, "note")


RULE = Rule(
    code="gas-regulator",
    title="Capacity of the gas regulator",
    topic="gas",
    category="function",
    inputs=Regulator,
    read=read,
    judge=judge,
    formula="Σ (plate input / 13.98 kWh/kg + heater output / η / 12.87 kWh/kg) ≤ regulator",
    sources=(
        Source("EN 1949 and EN 16129", "regulators for all appliances together (from memory)"),
        Source("NFPA 58", "regulator capacity not less than the demand (from memory)"),
    ),
    says={
        "ok": "All at full flame burns {measured}; the gas regulator passes {limit}.",
        "tight": "All at full flame burns {measured}, close to the {limit} that the gas regulator passes.",
        "fails": "All at full flame burns {measured}; the gas regulator passes only {limit}.",
        "note": "All at full flame burns {burnt_kg_h}. What the gas regulator passes is not stated; ask the workshop.",
    },
    remedy="Choose a larger regulator, or one appliance less on gas.",
    examples=lambda: (
        Example({"stated": True, "burnt_kg_h": 0.7, "passes_kg_h": 1.5}, "ok", "heater and hob"),
        Example({"stated": True, "burnt_kg_h": 1.5, "passes_kg_h": 1.5}, "tight", "exactly all"),
        Example({"stated": True, "burnt_kg_h": 1.6, "passes_kg_h": 1.5}, "fails", "with an instant water heater"),
        Example({"stated": False, "burnt_kg_h": 0.7, "passes_kg_h": 0}, "note", "nobody says"),
    ),
    offers="gas-regulator",
    caution=cautions.GAS,
)
