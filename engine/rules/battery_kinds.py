"""Batteries that stand in parallel are of one kind.

Lithium and lead-acid batteries, or two kinds of either, rest at different voltages and want different charging. In
parallel one works on the other all day, and one of them is charged wrongly.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.circuit_asks import class_v
from engine.physics.battery_chemistry import CHEMISTRIES
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, fact


class Kinds(Inputs):
    """Two batteries of one system voltage."""

    first: str = fact("one battery", "chosen")
    first_kind: str = fact("its chemistry", "catalogue")
    second: str = fact("another beside it", "chosen")
    second_kind: str = fact("its chemistry", "catalogue")
    alike: bool = fact("whether both are of one chemistry", "catalogue")


def read(build: Build, figures: Figures) -> list[Kinds]:
    """One question for each further kind of battery; those of another system voltage are told of by their voltage."""
    groups = figures.power.bank.groups
    return [
        Kinds(
            options=(groups[0].option_id, g.option_id),
            first=groups[0].name,
            first_kind=CHEMISTRIES[groups[0].chemistry].title,
            second=g.name,
            second_kind=CHEMISTRIES[g.chemistry].title,
            alike=g.chemistry == groups[0].chemistry,
        )
        for g in groups[1:]
        if class_v(g.nominal_v) == class_v(groups[0].nominal_v)
    ]


def judge(x: Kinds) -> Holds:
    """Holds for two of one chemistry."""
    return Holds(x.alike)


_PAIR = {"first": "Lithium battery 230 Ah", "first_kind": "lithium iron phosphate"}
_AGM = _PAIR | {"second": "AGM battery", "second_kind": "lead-acid with glass mat"}
_SMALL = _PAIR | {"second": "Lithium battery 100 Ah", "second_kind": "lithium iron phosphate"}
RULE = Rule(
    code="battery-kinds",
    title="Batteries of one kind",
    topic="power",
    category="safety",
    inputs=Kinds,
    read=read,
    judge=judge,
    formula="one chemistry in one bank",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{first} and {second} are of one chemistry, {first_kind}. Batteries in parallel should also be of one "
        "size and age: ask the workshop.",
        "fails": "{first} ({first_kind}) and {second} ({second_kind}) do not go together in one bank: they rest at "
        "different voltages and want different charging.",
    },
    remedy="Choose batteries of one kind.",
    examples=lambda: (
        Example(_AGM | {"alike": False}, "fails", "both of the 12 V class"),
        Example(_SMALL | {"alike": True}, "ok", "two sizes"),
    ),
    offers="battery",
    caution=cautions.BATTERY,
)
