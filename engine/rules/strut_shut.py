"""Gas struts let a bed or lid stay shut.

Struts that are too strong lift it by themselves: on the road, with nobody lying on it, or into the face of whoever
opens the catch. Without a catch its own weight has to keep it down.
"""

from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtMost, Example, Holds, Inputs, Rule, fact
from engine.rules.strut_force import lifted


class Shut(Inputs):
    """A shut bed, forces as felt at the hand."""

    name: str = fact("what is lifted", "chosen")
    lifted_n: float = fact("what the struts lift of it when it is shut", "computed")
    weight_n: float = fact("its weight when it is shut", "computed", gt=0)
    moved_kg: float = fact("all that moves", "computed", gt=0)
    struts_count: float = fact("struts", "catalogue", ge=1)
    force_n: float = fact("rating of one strut", "catalogue", gt=0)
    catch: bool = fact("a catch holds it shut", "catalogue")
    kept_by: str = fact("what keeps it shut", "computed")
    instead: str = fact("struts that would do", "computed")


def read(build: Build, figures: Figures) -> list[Shut]:
    """One question for each lift of which all masses are known."""
    return [
        Shut(
            options=lift.option_ids,
            name=lift.name,
            moved_kg=lift.moved_kg,
            lifted_n=lift.arc.shut_struts_n,
            weight_n=lift.arc.shut_weight_n,
            struts_count=float(lift.struts.number),
            force_n=lift.struts.force_n,
            catch=lift.catch,
            kept_by="its catch" if lift.catch else "its own weight",
            instead=lift.instead,
        )
        for lift in figures.moving.lifts
        if not lift.not_stated and lift.arc.shut_weight_n > 0
    ]


def judge(x: Shut) -> AtMost | Holds:
    """A catch settles it; otherwise lift against weight. Close to balance is what makes a bed light, so never tight."""
    if x.catch:
        return Holds(True)
    return AtMost(x.lifted_n, x.weight_n, "n", tight_from=JUST_ENOUGH)


def _bed(moved_kg: float, catch: bool = False) -> dict[str, str | float | bool]:
    """A bed on two struts of 300 N."""
    arc, instead = lifted(moved_kg, 300)
    return {
        "name": "Bed over the garage", "moved_kg": moved_kg, "struts_count": 2, "force_n": 300, "instead": instead,
        "lifted_n": arc.shut_struts_n, "weight_n": arc.shut_weight_n, "catch": catch,
        "kept_by": "its catch" if catch else "its own weight",
    }  # fmt: skip


_BALANCED_KG = 32 * lifted(32, 300)[0].shut_struts_n / lifted(32, 300)[0].shut_weight_n
RULE = Rule(
    code="strut-shut",
    title="Gas struts let it stay shut",
    topic="space",
    category="function",
    inputs=Shut,
    read=read,
    judge=judge,
    formula="n·F(L)·r / h ≤ m·g·a / h, bed shut, or a catch",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{name}: shut, it weighs {weight_n} at the hand and its struts lift with {lifted_n}: "
        "{kept_by} keeps it down.",
        "fails": "{name}: shut, its struts lift {measured} at the hand, {over} more than the {limit} that it weighs: "
        "it rises by itself, and nothing holds it down.",
    },
    remedy="Struts that would do: {instead}. Or fit a catch.",
    examples=lambda: (
        Example(_bed(32), "ok", "heavy enough"),
        Example(_bed(_BALANCED_KG), "ok", "exactly balanced"),
        Example(_bed(26), "fails", "too light for its struts"),
        Example(_bed(26, catch=True), "ok", "the same with a catch"),
    ),
    offers="gas-strut-lift",
    caution="What springs open strikes the face over its catch: lean away from it, and lift by the handle.",
)
