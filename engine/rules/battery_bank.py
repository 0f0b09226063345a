"""The chosen number of batteries makes a bank of the house voltage.

Cells and batteries of a lower voltage are wired in series until they reach the house voltage: eight lithium iron
phosphate cells make 25.6 V, two batteries of 6 V make 12 V. A number that leaves some over makes no sound bank.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.catalogue.facets import Battery
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, fact


class Number(Inputs):
    """Batteries of one kind."""

    name: str = fact("the battery", "chosen")
    chosen_count: float = fact("how many are chosen", "chosen", ge=1)
    each_v: float = fact("nominal voltage of one", "catalogue", gt=0)
    bank_v: float = fact("voltage of the bank", "catalogue", gt=0)
    sound: bool = fact("whether they make whole strings", "computed")


def read(build: Build, figures: Figures) -> list[Number]:
    """One question for each kind that is wired in series, or that makes no bank."""
    odd = set(figures.power.bank.odd_ids)
    series = {g.option_id for g in figures.power.bank.groups if g.series > 1}
    return [
        Number(
            options=(p.option.id,),
            name=p.option.name,
            chosen_count=p.count,
            each_v=f.nominal_v,
            bank_v=f.bank_v or f.nominal_v,
            sound=p.option.id not in odd,
        )
        for p, f in build.facets(Battery)
        if p.option.id in odd or p.option.id in series
    ]


def judge(x: Number) -> Holds:
    """Holds when whole strings come out."""
    return Holds(x.sound)


_SIX = {"name": "Battery of 6 V", "each_v": 6, "bank_v": 12}
RULE = Rule(
    code="battery-bank",
    title="Number of batteries in the bank",
    topic="power",
    category="safety",
    inputs=Number,
    read=read,
    judge=judge,
    formula="number of batteries is a multiple of U_bank / U_battery",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{chosen_count} × {name}, {each_v} each, make a bank of {bank_v}.",
        "fails": "{chosen_count} × {name}, {each_v} each, {chosen_count:makes|make} no bank of {bank_v}.",
    },
    remedy="Choose a number of them that makes whole strings.",
    examples=lambda: (
        Example(_SIX | {"chosen_count": 4, "sound": True}, "ok", "two strings of two"),
        Example(_SIX | {"chosen_count": 3, "sound": False}, "fails", "one is left over"),
        Example(_SIX | {"chosen_count": 1, "sound": False}, "fails", "one by itself"),
    ),
    offers="battery",
    caution=cautions.BATTERY,
)
