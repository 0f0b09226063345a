"""House batteries share one voltage, and inverter and chargers are made for it."""

from engine import cautions
from engine.build import Build, Figures
from engine.build.converting import made_for
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, Source, fact


class Voltages(Inputs):
    """Voltage of the battery and of one thing joined to it."""

    name: str = fact("what is joined to the battery", "chosen")
    battery_v: float = fact("nominal battery voltage", "catalogue", gt=0)
    made_for_v: float = fact("voltage it is made for", "catalogue", gt=0)


def read(build: Build, figures: Figures) -> list[Voltages]:
    """One question for each further battery, inverter and charger."""
    power = figures.power
    return [
        Voltages(
            options=(j.option_id, power.bank.groups[0].option_id),
            name=j.name,
            battery_v=power.bank.groups[0].nominal_v,
            made_for_v=j.made_for_v,
        )
        for j in power.joined
    ]


def judge(x: Voltages) -> Holds:
    """Holds when both belong to the same system voltage."""
    return Holds(made_for(x.made_for_v, x.battery_v))


RULE = Rule(
    code="battery-voltage",
    title="Voltage of battery, inverter and chargers",
    topic="power",
    category="safety",
    inputs=Voltages,
    read=read,
    judge=judge,
    formula="both of 12, of 24, of 36 or of 48 V; |U_device − U_battery| ≤ 25 % of U_battery",
    sources=(COMMON_PRACTICE, Source("IEC 60038", "nominal direct voltages, among them 12, 24 and 48 V (from memory)")),
    says={
        "ok": "{name} is made for the {battery_v} battery.",
        "fails": "{name} is made for {made_for_v}; the house battery has {battery_v}.",
    },
    remedy="Choose battery, inverter and chargers of one voltage.",
    examples=lambda: (
        Example({"name": "Inverter", "battery_v": 12.8, "made_for_v": 12}, "ok", "both belong to a 12 V system"),
        Example(
            {"name": "Inverter", "battery_v": 25.6, "made_for_v": 24}, "ok", "eight cells in series: a 24 V system"
        ),
        Example({"name": "Inverter", "battery_v": 12.8, "made_for_v": 24}, "fails", "24 V inverter, 12 V battery"),
    ),
    caution=cautions.BATTERY,
)
