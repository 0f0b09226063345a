"""No charger brings more current than the house battery takes.

A battery has a largest charging current. A charger that gives more can mostly be turned down; one that is not
shortens the battery's life, or its protection switches off. Chargers on one source, hook-up, engine or sun, work at the
same time and add up.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.converting import made_for
from engine.catalogue.facets import AlternatorCharger, Battery, ShoreCharger, SolarController
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtMost, Example, Inputs, Rule, Softened, fact, listed


class Charge(Inputs):
    """The strongest charger, and the battery."""

    charger: str = fact("chargers on the source that brings most: hook-up, engine or sun", "chosen")
    chargers_count: float = fact("kinds of chargers on it", "chosen", default=1, ge=1)
    charger_a: float = fact("current they can bring together", "catalogue", gt=0)
    battery_a: float = fact("charging current limit of all batteries", "catalogue", gt=0)


def read(build: Build, figures: Figures) -> Charge | None:
    """Nothing to ask without a sound bank or without a charger."""
    bank = figures.power.bank
    if bank.nominal_v is None:
        return None
    controllers = figures.power.controllers

    def sun_a(id_: str, most_a: float) -> float:
        return sum(min(c.full_a, most_a) for c in controllers if c.strings[0].controller_id == id_)

    # What one source feeds charges at once; what is made for another voltage charges nothing.
    v = bank.nominal_v
    sources = (
        [(f.output_a * p.count, p.option) for p, f in build.facets(ShoreCharger) if made_for(f.output_v, v)],
        [(f.output_a * p.count, p.option) for p, f in build.facets(AlternatorCharger) if made_for(f.output_v, v)],
        [(sun_a(p.option.id, f.max_output_a), p.option) for p, f in build.facets(SolarController)],
    )
    # Panels of too low a voltage bring nothing.
    charging = [on for on in ([x for x in source if x[0] > 0] for source in sources) if on]
    if not charging:
        return None
    strongest = max(charging, key=lambda on: sum(amps for amps, _ in on))
    return Charge(
        options=(*(option.id for _, option in strongest), *build.ids(Battery)),
        charger=listed(option.name for _, option in strongest),
        chargers_count=float(len(strongest)),
        charger_a=sum(amps for amps, _ in strongest),
        battery_a=bank.charge_a,
    )


def judge(x: Charge) -> Softened:
    """More than the battery takes means turning the charger down, so it is no more than tight."""
    return Softened(AtMost(x.charger_a, x.battery_a, "a", tight_from=JUST_ENOUGH), "tight")


RULE = Rule(
    code="battery-charge-current",
    title="Charging current of the battery",
    topic="power",
    category="function",
    inputs=Charge,
    read=read,
    judge=judge,
    formula="Σ output currents of the chargers on one source ≤ Σ charging limits",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{charger} {chargers_count:brings|together bring} at most {measured}; the battery takes {limit}.",
        "tight": "{charger} can bring {measured}{chargers_count:| together}; the battery takes {limit}, so "
        "{chargers_count:it has|they have} to be turned down to that.",
    },
    remedy="Add a battery in parallel, choose a smaller charger, or one that can be turned down.",
    examples=lambda: (
        Example({"charger": "Hook-up charger", "charger_a": 80, "battery_a": 120}, "ok", "80 A of 120 A"),
        Example({"charger": "Hook-up charger", "charger_a": 50, "battery_a": 50}, "ok", "exactly what it takes"),
        Example({"charger": "Hook-up charger", "charger_a": 60, "battery_a": 50}, "tight", "turned down to 50 A"),
        Example(
            {"charger": "Inverter-charger, Charger", "chargers_count": 2, "charger_a": 110, "battery_a": 100},
            "tight",
            "two on one hook-up",
        ),
    ),
    offers="battery",
    caution=cautions.BATTERY,
)
