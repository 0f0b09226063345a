"""A bed or lid on gas struts is light enough for an ordinary hand, upward and down again.

Weight and struts change their levers all along the arc, and a strut gives more the further it is pressed in. The force
at the hand is worked out over the whole way: the most that has to be pushed to lift it, and the most that has to be
pulled to shut it.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.physics.strut import HAND_N
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, fact
from engine.rules.strut_force import lifted


class Hand(Inputs):
    """Greatest force at the hand, either way."""

    name: str = fact("what is lifted", "chosen")
    way: str = fact("which way", "computed")
    force_n: float = fact("greatest force at the hand", "computed", ge=0)
    at_deg: float = fact("angle at which it is greatest", "computed", ge=0)
    hand_n: float = fact("most force of an ordinary hand", "assumed", gt=0)
    moved_kg: float = fact("all that moves", "computed", gt=0)
    struts_count: float = fact("struts", "catalogue", ge=1)
    hand_along_m: float = fact("from the hinge to the hand", "catalogue", gt=0)
    rating_n: float = fact("rating of one strut", "catalogue", gt=0)
    instead: str = fact("struts that would do", "computed")


def read(build: Build, figures: Figures) -> list[Hand]:
    """The harder way of each lift of which all masses are known."""
    found = []
    for lift in figures.moving.lifts:
        if lift.not_stated:
            continue
        up = lift.arc.push_n >= lift.arc.pull_n
        found.append(
            Hand(
                options=lift.option_ids,
                name=lift.name,
                way="to lift it" if up else "to pull it down",
                force_n=lift.arc.push_n if up else lift.arc.pull_n,
                at_deg=lift.arc.push_deg if up else lift.arc.pull_deg,
                hand_n=HAND_N,
                moved_kg=lift.moved_kg,
                struts_count=float(lift.struts.number),
                hand_along_m=lift.hand_along_m,
                rating_n=lift.struts.force_n,
                instead=lift.instead,
            )
        )
    return found


def judge(x: Hand) -> AtMost:
    """The greatest force on the way against an ordinary hand."""
    return AtMost(x.force_n, x.hand_n, "n")


def _bed(moved_kg: float, rating_n: float, wanted_n: float = 0.0) -> dict[str, str | float]:
    """A bed on two struts, taken hold of at its end, or so near the hinge that it takes a wanted force."""
    arc, instead = lifted(moved_kg, rating_n)
    up = arc.push_n >= arc.pull_n
    force_n = arc.push_n if up else arc.pull_n
    return {
        "name": "Bed over the garage", "way": "to lift it" if up else "to pull it down", "moved_kg": moved_kg,
        "struts_count": 2, "rating_n": rating_n, "hand_n": HAND_N, "force_n": wanted_n or force_n,
        "hand_along_m": 1.9 * force_n / wanted_n if wanted_n else 1.9,
        "at_deg": arc.push_deg if up else arc.pull_deg, "instead": instead,
    }  # fmt: skip


RULE = Rule(
    code="strut-hand-force",
    title="Force at the hand of a lifted bed",
    topic="space",
    category="comfort",
    inputs=Hand,
    read=read,
    judge=judge,
    formula="max over the arc of |m·g·(a·cos θ − b·sin θ) − n·F(L)·r| / h ≤ 200 N",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{name}: it takes {measured} {way}, at most; {limit} are easy enough.",
        "tight": "{name}: it takes {measured} {way}, near the {limit} that most people care to give.",
        "fails": "{name}: it takes {measured} {way}, at {at_deg}; most people give {limit}.",
    },
    remedy="Struts that would do: {instead}. Or take hold further from the hinge.",
    examples=lambda: (
        Example(_bed(32, 300), "ok", "a light bed"),
        Example(_bed(60, 250, wanted_n=0.9 * HAND_N), "tight", "a heavy one, exactly 90 %"),
        Example(_bed(60, 250, wanted_n=HAND_N), "tight", "exactly what a hand gives"),
        Example(_bed(75, 250), "fails", "a heavier one yet"),
        Example(_bed(30, 800), "fails", "struts far too strong"),
    ),
    offers="gas-strut-lift",
    caution=cautions.LIFTED_BED,
)
