"""Every chosen solar panel has its place on the roof.

Panels are rectangles, laid either way round, clear of fans, hatches, chimneys, racks and the roof's edge. The places
are searched, not compared by area: a roof with room for six panels by area may hold four.
"""

from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, Unknown, fact


class Panels(Inputs):
    """How many panels are wanted and how many find a place."""

    wanted_count: float = fact("panels chosen", "chosen", ge=1)
    placed_count: float = fact("panels that find a place", "computed", ge=0)
    placed_w: float = fact("their rated power", "computed", ge=0)
    in_the_way: str = fact("what takes their room", "computed", default="the size of the roof itself")


def read(build: Build, figures: Figures) -> Panels | Unknown | None:
    """Nothing to ask without panels; not known when the search had to stop before it could prove its result."""
    roof = figures.roof
    if not roof.panels_wanted:
        return None
    ids = build.panel_ids
    if not roof.sure:
        return Unknown(
            f"whether more than {roof.panels_placed} of {roof.panels_wanted} panels fit",
            "The search stopped before it was sure. Choose fewer or other panels, or ask the workshop to draw it.",
            ids,
        )
    return Panels(
        options=ids + roof.blocking_ids,
        wanted_count=float(roof.panels_wanted),
        placed_count=float(roof.panels_placed),
        placed_w=roof.packing.power_w,
        in_the_way=roof.blocking,
    )


def judge(x: Panels) -> AtMost:
    """All of them, or it fails; a full roof is no reason for a warning."""
    return AtMost(x.wanted_count, x.placed_count, "count", tight_from=1.01)


RULE = Rule(
    code="panels-on-roof",
    title="Solar panels on the roof",
    topic="roof",
    category="function",
    inputs=Panels,
    read=read,
    judge=judge,
    formula="rectangle packing, both orientations, around everything that stands on the roof (exact search)",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "All {measured} panels have a place on the roof ({placed_w}).",
        "fails": "{limit} of {measured} panels have a place on the roof ({placed_w}). In the way: {in_the_way}.",
    },
    remedy="Choose fewer or smaller panels, or clear the roof of what is in the way.",
    examples=(
        Example({"wanted_count": 5, "placed_count": 5, "placed_w": 1500.0}, "ok", "five of five on a long bus"),
        Example({"wanted_count": 4, "placed_count": 3, "placed_w": 600.0, "in_the_way": "Roof fan"}, "fails", "a fan"),
    ),
    offers="solar-panel",
)
