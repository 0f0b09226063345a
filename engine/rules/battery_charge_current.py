"""No charger brings more current than the house battery takes.

A battery has a largest charging current. A charger that gives more can mostly be turned down; one that is not
shortens the battery's life, or its protection switches off.
"""

from engine.build import Build, Figures
from engine.catalogue.facets import AlternatorCharger, Battery, ShoreCharger, SolarController
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, Softened, fact


class Charge(Inputs):
    """The strongest charger, and the battery."""

    charger: str = fact("the strongest kind of charger", "chosen")
    charger_a: float = fact("current it can bring", "catalogue", gt=0)
    battery_a: float = fact("charging current limit of all batteries", "catalogue", gt=0)


def read(build: Build, figures: Figures) -> Charge | None:
    """Nothing to ask without a sound bank or without a charger."""
    bank = figures.power.bank
    if bank.nominal_v is None:
        return None
    found = [(f.output_a * p.count, p.option) for p, f in build.facets(ShoreCharger)]
    found += [(f.output_a * p.count, p.option) for p, f in build.facets(AlternatorCharger)]
    for p, f in build.facets(SolarController):
        on_it = [c for c in figures.power.controllers if c.strings[0].controller_id == p.option.id]
        found.append((sum(min(c.full_a, f.max_output_a) for c in on_it), p.option))
    found = [(amps, option) for amps, option in found if amps > 0]  # panels of too low a voltage bring nothing
    if not found:
        return None
    amps, option = max(found, key=lambda x: (x[0], x[1].id))
    return Charge(
        options=(option.id, *build.ids(Battery)), charger=option.name, charger_a=amps, battery_a=bank.charge_a
    )


def judge(x: Charge) -> Softened:
    """More than the battery takes means turning the charger down, so it is no more than tight."""
    return Softened(AtMost(x.charger_a, x.battery_a, "a", tight_from=1.0001), "tight")


RULE = Rule(
    code="battery-charge-current",
    title="Charging current of the battery",
    topic="power",
    category="function",
    inputs=Charge,
    read=read,
    judge=judge,
    formula="output current of each charger ≤ Σ charging limits",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{charger} brings at most {measured}; the battery takes {limit}.",
        "tight": "{charger} can bring {measured}; the battery takes {limit}, so it has to be turned down to that.",
    },
    remedy="Add a battery in parallel, choose a smaller charger, or one that can be turned down.",
    examples=lambda: (
        Example({"charger": "Hook-up charger", "charger_a": 80, "battery_a": 120}, "ok", "80 A of 120 A"),
        Example({"charger": "Hook-up charger", "charger_a": 50, "battery_a": 50}, "ok", "exactly what it takes"),
        Example({"charger": "Hook-up charger", "charger_a": 60, "battery_a": 50}, "tight", "turned down to 50 A"),
    ),
    offers="battery",
    caution="Battery currents can weld metal and start fires. Wiring and protection belong in trained hands.",
)
