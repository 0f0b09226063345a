"""Everybody who travels has a seat with a belt."""

from pydantic import Field

from engine import cautions
from engine.build import Build, Figures
from engine.build.plan_people import belted_places, without_place
from engine.catalogue.facets import Seat
from engine.rule import COMMON_PRACTICE, ELSEWHERE, JUST_ENOUGH, AtLeast, Example, Inputs, Rule, Source, fact, listed

ADD = "Choose seats with belts for the living space"
PLACE = "Make room in the plan for the seats that are not counted"


class Belts(Inputs):
    """Belts and people."""

    belts_count: float = fact("seats with belts, cab and living space", "catalogue", ge=0)
    people_count: float = fact("people aboard", "chosen", ge=1)
    lost: str = Field(default="", description="chosen seats that have no place in the plan, as a sentence")
    way: str = Field(default=ADD, description="the way out")


def read(build: Build, figures: Figures) -> Belts:
    """Seats of the vehicle and of the fit-out, those that have a place, against the people."""
    lost = without_place(build, Seat)
    return Belts(
        options=build.ids(Seat),
        belts_count=float(belted_places(build)),
        people_count=float(build.trip.people),
        lost=f" Not counted, without a free place in the plan: {listed(lost)}." if lost else "",
        way=PLACE if lost else ADD,
    )


def judge(x: Belts) -> AtLeast:
    """A belt for each; exactly enough is fine."""
    return AtLeast(x.belts_count, x.people_count, "count", tight_from=JUST_ENOUGH)


RULE = Rule(
    code="belted-seats",
    title="Belted seats",
    topic="space",
    category="safety",
    inputs=Belts,
    read=read,
    judge=judge,
    formula="belted seats ≥ people aboard",
    sources=(
        COMMON_PRACTICE,
        Source("49 CFR 571.207 to 571.210", "seats, belts and their anchorages (from memory)", region="us"),
        Source("UNECE Regulations 14 and 16", "belts and their anchorages (from memory)", region=ELSEWHERE),
    ),
    says={
        "ok": "{measured:# belted seat|# belted seats} for {limit:# person|# people}.",
        "fails": "{measured:No belted seat|# belted seat|# belted seats} for {limit:# person|# people}: somebody "
        "would ride without a belt.{lost}",
    },
    remedy="{way}, or travel with fewer people.",
    examples=lambda: (
        Example({"belts_count": 3, "people_count": 2}, "ok", "one to spare"),
        Example({"belts_count": 2, "people_count": 2}, "ok", "exactly enough"),
        Example({"belts_count": 2, "people_count": 4}, "fails", "two children without a belt"),
        Example(
            {"belts_count": 2, "people_count": 4, "way": PLACE}
            | {"lost": " Not counted, without a free place in the plan: “Two belted seats”."},
            "fails",
            "a pair of seats is chosen, but the bed stands there",
        ),
    ),
    offers="seat",
    caution=f"{cautions.AUTHORITY} Belts and their anchors need approval.",
)
