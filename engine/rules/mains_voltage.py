"""Appliances at mains voltage are made for the voltage that inverter and hook-up give.

Asked for appliances whose voltage the catalogue states; the others are for the region's mains, and are told of where an
inverter or a generator makes another voltage. A split-phase inverter gives its voltage on each leg and twice that
between them.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.catalogue.facets import Generator
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, fact

SAME_FRAC = 0.12
"""Mains voltages of one system differ by less than this (230 and 240, 110 and 120)."""


class MainsVoltage(Inputs):
    """An appliance and the voltage that feeds it."""

    name: str = fact("the appliance", "chosen")
    made_for_v: float = fact("voltage it is made for", "catalogue", gt=0)
    gives_v: float = fact("voltage of the inverter, or of the hook-up", "catalogue", gt=0)
    legs_count: float = fact("legs of the supply", "catalogue", ge=1, le=2)


def read(build: Build, figures: Figures) -> list[MainsVoltage]:
    """One question for each appliance whose voltage is stated, or that would get another than the region's."""
    p, mains_v = figures.power, build.workshop.mains_v
    found = []
    for x in p.all_loads:
        if not x.mains:
            continue
        behind = p.inverter if not x.shore_only else None
        legs = behind.legs if behind else (p.shore.legs if p.shore else 1)
        asked = MainsVoltage(
            options=(x.option_id, *(behind.ids if behind else ())),
            name=x.name,
            made_for_v=x.supply_v or mains_v,
            gives_v=behind.output_v if behind else mains_v,
            legs_count=legs,
        )
        if x.supply_v is not None or not judge(asked).holds:
            found.append(asked)
    for part, f in build.facets(Generator):
        name = f"What hangs on {part.option.name}"
        asked = MainsVoltage(options=(part.option.id,), name=name, made_for_v=mains_v, gives_v=f.output_v, legs_count=1)
        if not judge(asked).holds:
            found.append(asked)
    return found


def judge(x: MainsVoltage) -> Holds:
    """Holds when one leg or both together give that voltage."""
    return Holds(
        any(abs(x.made_for_v - n * x.gives_v) <= SAME_FRAC * x.made_for_v for n in range(1, int(x.legs_count) + 1))
    )


RULE = Rule(
    code="mains-voltage",
    title="Voltage of mains appliances",
    topic="power",
    category="safety",
    inputs=MainsVoltage,
    read=read,
    judge=judge,
    formula="|U_appliance − n·U_leg| ≤ 12 % of U_appliance, n = 1, with two legs also 2",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{name} is made for {made_for_v} and gets it.",
        "fails": "{name} is made for {made_for_v}; it would get {gives_v}.",
    },
    remedy="Choose an appliance for {gives_v}, or an inverter or generator that makes {made_for_v}.",
    examples=lambda: (
        Example({"name": "Hob", "made_for_v": 230, "gives_v": 230, "legs_count": 1}, "ok", "the same"),
        Example({"name": "Hob", "made_for_v": 240, "gives_v": 120, "legs_count": 2}, "ok", "between two legs"),
        Example({"name": "Hob", "made_for_v": 240, "gives_v": 120, "legs_count": 1}, "fails", "one leg only"),
    ),
    offers="inverter",
    caution=cautions.MAINS,
)
