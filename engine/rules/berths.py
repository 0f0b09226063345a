"""Everybody who travels has a place to sleep."""

from pydantic import Field

from engine.build import Build, Figures
from engine.build.plan_people import beds_share, sleeping_places, without_place
from engine.catalogue.facets import Berth
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtLeast, Example, Inputs, Rule, fact, listed

ADD = "Add a bed, or seats that become one"
PLACE = "Make room in the plan for what is not counted, or choose another bed"


class Beds(Inputs):
    """Sleeping places and people."""

    places_count: float = fact("sleeping places", "catalogue", ge=0)
    people_count: float = fact("people aboard", "chosen", ge=1)
    lost: str = Field(default="", description="chosen beds that are not counted, as sentences")
    way: str = Field(default=ADD, description="the way out")


def read(build: Build, figures: Figures) -> Beds:
    """Berths that can be made up at once, against the people; a bed without a place does not count."""
    lost = without_place(build, Berth)
    said = f" Not counted, without a free place in the plan: {listed(lost)}." if lost else ""
    if beds_share(build):
        said += " Of beds that take the same place or rule each other out, one counts."
    return Beds(
        options=build.ids(Berth),
        places_count=float(sleeping_places(build)),
        people_count=float(build.trip.people),
        lost=said,
        way=PLACE if lost else ADD,
    )


def judge(x: Beds) -> AtLeast:
    """A place for each; exactly enough is fine."""
    return AtLeast(x.places_count, x.people_count, "count", tight_from=JUST_ENOUGH)


RULE = Rule(
    code="berths",
    title="Places to sleep",
    topic="space",
    category="comfort",
    inputs=Beds,
    read=read,
    judge=judge,
    formula="Σ sleeping places ≥ people aboard",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{measured:# sleeping place|# sleeping places} for {limit:# person|# people}.",
        "fails": "{measured:No sleeping place|# sleeping place|# sleeping places} for {limit:# person|# people}.{lost}",
    },
    remedy="{way}.",
    examples=lambda: (
        Example({"places_count": 4, "people_count": 2}, "ok", "a guest bed too"),
        Example({"places_count": 2, "people_count": 2}, "ok", "exactly enough"),
        Example({"places_count": 2, "people_count": 3}, "fails", "a child without a bed"),
        Example(
            {"places_count": 2, "people_count": 4, "way": PLACE}
            | {"lost": " Not counted, without a free place in the plan: 2 × “Fold-up bunk”."},
            "fails",
            "two bunks are chosen, but nothing is free below them",
        ),
    ),
    offers="berth",
)
