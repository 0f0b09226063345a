"""The tallest person can stand upright where people stand: in the shower and before the kitchen.

Insulation, ceiling and floor take their share of the bare height; a shower tray takes a little more.
"""

from engine.build import Build, Figures
from engine.build.plan_inside import reached_m
from engine.catalogue.facets import FurnitureModule
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtLeast, Example, Inputs, Rule, Softened, fact

STOOP_M = 0.03
"""Short by no more than this is a bowed head, not a stoop (choice)."""


class Standing(Inputs):
    """A place to stand and the tallest person."""

    name: str = fact("where people stand", "chosen")
    bare_m: float = fact("bare inside height", "catalogue", gt=0)
    taken_m: float = fact("taken by roof, floor and tray", "computed", ge=0)
    wanted_m: float = fact("height wanted: the tallest person, or what the catalogue states", "chosen", gt=0)


def read(build: Build, figures: Figures) -> list[Standing]:
    """One question for each kind of module that people stand in or before."""
    inside = figures.plan.inside
    return [
        Standing(
            options=(p.option.id,),
            name=p.option.name,
            bare_m=inside.bare_headroom_m,
            taken_m=inside.roof_m + inside.floor_m + (f.tray_m if f.standing == "inside" else 0.0),
            wanted_m=build.trip.tallest_m if f.headroom_m is None else f.headroom_m,
        )
        for p, f in build.facets(FurnitureModule)
        if f.standing is not None
    ]


def judge(x: Standing) -> AtLeast | Softened:
    """Clear height against the traveller; a bowed head is only tight."""
    height = AtLeast(reached_m(max(0.0, x.bare_m - x.taken_m), x.wanted_m), x.wanted_m, "m", tight_from=JUST_ENOUGH)
    return Softened(height, "tight") if 0 < -height.margin <= STOOP_M else height


_SHOWER = {"name": "Wet room", "bare_m": 1.95}
RULE = Rule(
    code="standing-headroom",
    title="Height to stand upright",
    topic="space",
    category="comfort",
    inputs=Standing,
    read=read,
    judge=judge,
    formula="bare height − roof and floor layers − tray ≥ tallest person",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{name}: {measured} to stand in; {limit:# is|# are} wanted.",
        "tight": "{name}: {measured} to stand in, {over} less than the tallest person wants. A bowed head will do.",
        "fails": "{name}: {measured} to stand in, {over} less than wanted. Roof, floor and tray take {taken_m}.",
    },
    remedy="Choose thinner insulation in roof or floor, or a higher vehicle.",
    examples=lambda: (
        Example(_SHOWER | {"taken_m": 0.134, "wanted_m": 1.74}, "ok", "1.816 m in the shower"),
        Example(_SHOWER | {"taken_m": 0.15, "wanted_m": 1.8}, "ok", "exactly that person's height"),
        Example(_SHOWER | {"taken_m": 0.17, "wanted_m": 1.8}, "tight", "2 cm short"),
        Example(_SHOWER | {"taken_m": 0.25, "wanted_m": 1.8}, "fails", "10 cm short"),
    ),
    offers="furniture",
)
