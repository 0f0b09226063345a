"""Gas struts hold a lifted bed or lid open.

Whoever looks for something under the bed has it over the head. Struts carry it when their force, with the lever they
have in that position, balances its weight. They should do so with a tenth to spare: gas loses 1 % of its pressure for
each 3 °C (5 °F) below the 20 °C (68 °F) at which struts are rated, and seals a little every year. A heavier mattress
counts.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.moving import struts_words
from engine.physics.strut import WEAKEST_FRAC, Arc, Hinge, Struts, lifting_arc, recommended
from engine.rule import COMMON_PRACTICE, AtLeast, Example, Inputs, Rule, Unknown, fact, mass_unknown


class Held(Inputs):
    """A lifted bed, forces as felt at the hand."""

    name: str = fact("what is lifted", "chosen")
    moved_kg: float = fact("all that moves", "computed", gt=0)
    struts_count: float = fact("struts", "catalogue", ge=1)
    force_n: float = fact("rating of one strut", "catalogue", gt=0)
    held_n: float = fact("what the struts carry when it is open", "computed")
    weight_n: float = fact("its weight when it is open", "computed", ge=0)
    instead: str = fact("struts that would do", "computed")


def read(build: Build, figures: Figures) -> list[Held | Unknown]:
    """One question for each lift; what rides on it must state its mass."""
    return [
        mass_unknown(build, lift.not_stated, lift.option_ids)
        if lift.not_stated
        else Held(
            options=lift.option_ids,
            name=lift.name,
            moved_kg=lift.moved_kg,
            struts_count=float(lift.struts.number),
            force_n=lift.struts.force_n,
            held_n=lift.arc.open_struts_n,
            # Once it leans back beyond the hinge it stays open by itself.
            weight_n=max(0.0, lift.arc.open_weight_n),
            instead=lift.instead,
        )
        for lift in figures.moving.lifts
    ]


def judge(x: Held) -> AtLeast:
    """What the struts carry against the weight; tight without a tenth to spare."""
    return AtLeast(x.held_n, x.weight_n, "n", tight_from=WEAKEST_FRAC)


def lifted(moved_kg: float, force_n: float) -> tuple[Arc, str]:
    """An example: a bed of 1.9 m without a catch that opens by 70° on two struts, and struts that would do."""
    bed = Hinge(moved_kg, 0.95, 0.0, 1.9, 0.6, 0.0, 0.2, -0.3, 70.0)
    return lifting_arc(bed, Struts(2, force_n)), struts_words(recommended(bed), "metric")


def _bed(moved_kg: float, force_n: float = 300.0) -> dict[str, str | float]:
    arc, instead = lifted(moved_kg, force_n)
    return {
        "name": "Bed over the garage", "moved_kg": moved_kg, "struts_count": 2, "force_n": force_n, "instead": instead,
        "held_n": arc.open_struts_n, "weight_n": arc.open_weight_n,
    }  # fmt: skip


_BALANCED_KG = 32 * lifted(32, 300)[0].open_struts_n / lifted(32, 300)[0].open_weight_n
RULE = Rule(
    code="strut-force",
    title="Gas struts hold it open",
    topic="space",
    category="safety",
    inputs=Held,
    read=read,
    judge=judge,
    formula="n·F(L)·r / h ≥ m·g·(a·cos θ − b·sin θ) / h, bed open",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{name}: open, its struts carry {measured} at the hand; it weighs {limit} there.",
        "tight": "{name}: open, its struts carry {measured} at the hand, hardly more than the {limit} that it weighs. "
        "In frost or after some winters it may come down.",
        "fails": "{name}: open, its struts carry {measured} at the hand, {over} less than the {limit} that it weighs "
        "with {moved_kg} moving: it comes down.",
    },
    remedy="Struts that would do: {instead}. Or make what moves lighter.",
    examples=lambda: (
        Example(_bed(32), "ok", "a fifth to spare"),
        Example(_bed(36), "tight", "without a tenth to spare"),
        Example(_bed(_BALANCED_KG), "tight", "exactly balanced"),
        Example(_bed(40), "fails", "a heavier mattress"),
    ),
    offers="gas-strut-lift",
    caution=cautions.LIFTED_BED,
)
