"""The way through the living space is wide enough at its narrowest place.

Of all arrangements the engine takes one with the widest aisle, up to 0.5 m; what the buyer moved stays put.
While something has no place, nobody knows what way it leaves.
"""

from engine.build import Build, Figures
from engine.build.plan import least_aisle_m
from engine.rule import COMMON_PRACTICE, AtLeast, Example, Inputs, Rule, Unknown, fact


class Aisle(Inputs):
    """The aisle."""

    aisle_m: float = fact("narrowest place of the way through", "computed", ge=0)
    wanted_m: float = fact("narrowest aisle that the workshop builds", "assumed", gt=0)
    between: str = fact("what stands there", "computed")


def read(build: Build, figures: Figures) -> Aisle | Unknown | None:
    """Nothing to ask while nothing stands on the floor, or a bed takes all of it."""
    plan = figures.plan
    if plan.aisle_wants:
        return Unknown("width of the aisle", "It is measured once everything has a place.", plan.aisle_wants)
    if plan.aisle_m is None:
        return None
    wanted_m = least_aisle_m(build.workshop)
    if plan.aisle_m < wanted_m and not plan.proven:
        return Unknown("whether a wider aisle is possible", "Take out some modules, or place some by hand.")
    names = [f"“{build.option_names[i]}”" for i in plan.aisle_ids]
    return Aisle(
        options=plan.aisle_ids,
        aisle_m=max(0.0, plan.aisle_m),
        wanted_m=wanted_m,
        between=" and ".join(names) if len(names) > 1 else f"{names[0]} and the wall" if names else "the walls",
    )


def judge(x: Aisle) -> AtLeast:
    """The narrowest place against what is wanted."""
    return AtLeast(x.aisle_m, x.wanted_m, "m")


_WAY = {"wanted_m": 0.4, "between": "“Kitchen” and “Wet room”"}
RULE = Rule(
    code="aisle-width",
    title="Width of the aisle",
    topic="space",
    category="comfort",
    inputs=Aisle,
    read=read,
    judge=judge,
    formula="clear width − what stands on both sides ≥ 0.40 m (16 in), or what the workshop states",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "The aisle is {measured} wide at its narrowest, between {between}; {limit:# is|# are} wanted.",
        "tight": "The aisle is {measured} wide at its narrowest, between {between}; {limit:# is|# are} wanted.",
        "fails": "The aisle is {measured} wide between {between}; {limit:# is|# are} wanted.",
    },
    remedy="Choose a shallower module for one side, or fewer modules, so that the two need not stand face to face.",
    examples=lambda: (
        Example(_WAY | {"aisle_m": 0.555}, "ok", "1.805 m less 0.53 m and 0.72 m"),
        Example(_WAY | {"aisle_m": 0.4}, "tight", "exactly what is wanted"),
        Example(_WAY | {"aisle_m": 0.39}, "fails", "1 cm less"),
    ),
    offers="furniture",
)
