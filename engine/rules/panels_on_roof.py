"""Every chosen solar panel has its place on the roof.

Panels are rectangles, laid either way round within the roof's outline, clear of fans, hatches with their opened lids,
hot chimneys, racks, walkways and the roof's edge. A panel on brackets needs two ribs or rails under it where the roof
states its ribs; a glued one does not. A panel on a tilt frame takes the strip it shades too. The places are searched,
not compared by area: a roof with room for six panels by area may hold four.
"""

from pydantic import Field

from engine.build import Build, Figures
from engine.build.roof import RoofFigures
from engine.catalogue.facets import SolarPanel
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtMost, Example, Inputs, Rule, Unknown, fact

SIZE = "the size of the roof itself"
FEWER = "Choose fewer or smaller panels"
SMALLER = "Choose smaller panels"
CLEAR = ", or clear the roof of what is in the way"


class Panels(Inputs):
    """How many panels are wanted and how many find a place."""

    wanted_count: float = fact("panels chosen", "chosen", ge=1)
    placed_count: float = fact("panels that find a place", "computed", ge=0)
    placed_w: float = fact("their rated power", "computed", ge=0)
    how_many: str = fact("the same in words, with the limit proven", "computed", default="Not all")
    in_the_way: str = fact("what takes their room", "computed", default=SIZE)
    way: str = Field(default=FEWER, description="the way out")


def most_panels(build: Build, roof: RoofFigures) -> int:
    """How many of the panels wanted could at most find a place, from the power that no layout exceeds."""
    left, most = roof.packing.bound_w, 0
    for power_w, count in sorted((f.power_w, part.count) for part, f in build.facets(SolarPanel)):
        fit = min(count, int(left / power_w + 1e-9))
        most, left = most + fit, left - fit * power_w
    return most


def _way(build: Build, roof: RoofFigures) -> str:
    """Ways out that were tried: fewer panels only where some fit, and what goes with how many fit without it."""
    fewer = FEWER if roof.panels_placed else SMALLER
    if not roof.freed:
        return fewer + CLEAR if roof.blocking_ids else fewer
    most = roof.freed[0][1]
    counts = {p.option.id: p.count for p in build.parts}
    names = [
        f"{'one ' if counts.get(i, 1) > 1 else ''}“{build.option_names[i]}”" for i, fit in roof.freed if fit == most
    ]
    fit = "all of them would fit" if most == roof.panels_wanted else f"{most} would fit"
    return f"Without {' or '.join(names)} {fit}. {fewer}, or take that out"


def read(build: Build, figures: Figures) -> Panels | Unknown | None:
    """Nothing to ask without panels; not known when the search had to stop before it could prove its result."""
    roof = figures.roof
    if not roof.panels_wanted:
        return None
    ids = build.panel_ids
    if not roof.sure:
        return Unknown(
            f"whether more than {roof.panels_placed} of {roof.panels_wanted} panels fit",
            f"At least {roof.panels_placed} fit. The search stopped before it was sure of the rest. Choose fewer or "
            "other panels, or ask the workshop to draw it.",
            ids,
        )
    placed, most = roof.panels_placed, most_panels(build, roof)
    exact = roof.packing.proven or most <= placed
    return Panels(
        options=ids + roof.blocking_ids,
        wanted_count=float(roof.panels_wanted),
        placed_count=float(placed),
        placed_w=roof.packing.power_w,
        how_many=str(placed) if exact else f"at least {placed}, at most {most}",
        in_the_way=roof.blocking or SIZE,
        way=_way(build, roof),
    )


def judge(x: Panels) -> AtMost:
    """All of them, or it fails; a full roof is no reason for a warning."""
    return AtMost(x.wanted_count, x.placed_count, "count", tight_from=JUST_ENOUGH)


RULE = Rule(
    code="panels-on-roof",
    title="Solar panels on the roof",
    topic="roof",
    category="function",
    inputs=Panels,
    read=read,
    judge=judge,
    formula="rectangle packing, both orientations, around everything that stands on the roof and on two ribs each "
    "(exact search; where it stops early, with the limit it proved)",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{measured:The one panel has|All # panels have} a place on the roof ({placed_w}).",
        "fails": "Room on the roof for {how_many} of {measured:# panel|# panels} ({placed_w}). In the way: "
        "{in_the_way}.",
    },
    remedy="{way}.",
    examples=lambda: (
        Example({"wanted_count": 5, "placed_count": 5, "placed_w": 1500.0}, "ok", "five of five on a long bus"),
        Example(
            {"wanted_count": 4, "placed_count": 3, "placed_w": 600.0, "how_many": "3", "in_the_way": "Roof fan"}
            | {"way": "Without “Roof fan” all of them would fit. Choose fewer or smaller panels, or take that out"},
            "fails",
            "a fan",
        ),
        Example(
            {"wanted_count": 9, "placed_count": 6, "placed_w": 1090.0, "how_many": "at least 6, at most 7"},
            "fails",
            "three kinds together, search stopped with a limit proven",
        ),
    ),
    offers="solar-panel",
)
