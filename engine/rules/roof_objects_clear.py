"""Nothing on the roof stands in something else, or over its edge."""

from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, fact


class Clash(Inputs):
    """Two things that want the same piece of roof, or one that leaves it."""

    name: str = fact("what stands on the roof", "chosen")
    other: str = fact("what it meets", "computed")
    clear: bool = fact("whether both have room", "computed")


def read(build: Build, figures: Figures) -> list[Clash]:
    """One question for each pair that meets, each thing over the edge, and one good word when all is clear."""
    roof = figures.roof
    found = [
        Clash(options=tuple(i for i in (a.option_id, b.option_id) if i), name=a.name, other=b.name, clear=False)
        for a, b in roof.clashes
    ]
    found += [
        Clash(options=(o.option_id,) if o.option_id else (), name=o.name, other="the roof's edge", clear=False)
        for o in roof.outside
    ]
    if not found and len(roof.obstacles) > 1:
        ids = tuple(dict.fromkeys(o.option_id for o in roof.obstacles if o.option_id))
        found.append(Clash(options=ids, name=f"{len(roof.obstacles)} things on the roof", other="nothing", clear=True))
    return found


def judge(x: Clash) -> Holds:
    """Holds when there is room."""
    return Holds(x.clear)


RULE = Rule(
    code="roof-objects-clear",
    title="Room between things on the roof",
    topic="roof",
    category="function",
    inputs=Clash,
    read=read,
    judge=judge,
    formula="no two rectangles overlap; none reaches over the usable roof",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{name}, none in the way of another.",
        "fails": "{name} and {other} want the same piece of roof.",
    },
    remedy="Leave out one of them, or ask the workshop for another spot.",
    examples=lambda: (
        Example({"name": "4 things on the roof", "other": "nothing", "clear": True}, "ok", "all apart"),
        Example({"name": "Rack", "other": "Roof fan", "clear": False}, "fails", "the rack covers the fan"),
    ),
)
