"""Everybody who travels has a place to sleep."""

from engine.build import Build, Figures
from engine.build.plan_people import sleeping_places
from engine.catalogue.facets import Berth
from engine.rule import COMMON_PRACTICE, AtLeast, Example, Inputs, Rule, fact


class Beds(Inputs):
    """Sleeping places and people."""

    places_count: float = fact("sleeping places", "catalogue", ge=0)
    people_count: float = fact("people aboard", "chosen", ge=1)


def read(build: Build, figures: Figures) -> Beds:
    """Berths that can be made up at once, against the people; a bed without a place does not count."""
    places = sleeping_places(build)
    return Beds(options=build.ids(Berth), places_count=float(places), people_count=float(build.trip.people))


def judge(x: Beds) -> AtLeast:
    """A place for each; exactly enough is fine."""
    return AtLeast(x.places_count, x.people_count, "count", tight_from=1.01)


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
        "fails": "{measured:No sleeping place|# sleeping place|# sleeping places} for {limit:# person|# people}.",
    },
    remedy="Add a bed, or seats that become one.",
    examples=(
        Example({"places_count": 4, "people_count": 2}, "ok", "a guest bed too"),
        Example({"places_count": 2, "people_count": 2}, "ok", "exactly enough"),
        Example({"places_count": 2, "people_count": 3}, "fails", "a child without a bed"),
    ),
    offers="berth",
)
