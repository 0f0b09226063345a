"""People and loads on the parked vehicle's roof stay within what it carries standing still.

A roof carries more standing still than on the road, where bumps multiply the load; makers state both. Asked when a
chosen option brings people or loads onto the parked roof. Snow counts as a load too, and nobody can choose it: clear it
off.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, Unknown, fact, if_all_weighed


class ParkedLoad(Inputs):
    """Mass on the parked roof against its rating."""

    parked_kg: float = fact("everything on the roof, racks and people included", "computed", ge=0)
    brought_kg: float = fact("people and loads there while parked only", "catalogue", ge=0)
    allowed_kg: float = fact("what the roof carries parked", "catalogue", ge=0)


def read(build: Build, figures: Figures) -> Inputs | Unknown | list[Inputs | Unknown] | None:
    """Nothing to ask of a roof that carries no more when parked than on the road; not known when nobody rated it, or
    weighed what stands on it."""
    load = figures.roof_load
    if not load.brought_kg:
        return None
    ids = tuple(p.option.id for p in build.parts if p.option.place == "roof")
    unknown = Unknown(
        f"parked roof load rating of the {build.vehicle.name}",
        "Ask the body's maker for the roof load while parked before anybody steps on it.",
        ids,
    )
    if load.parked_allowed_kg is None:
        return unknown
    found = ParkedLoad(
        options=ids, parked_kg=load.parked_kg, brought_kg=load.brought_kg, allowed_kg=load.parked_allowed_kg
    )
    if build.vehicle.roof.static_rating_kg is None and judge(found).verdict() == "fails":
        return unknown  # more than the reinforcement adds; nobody said what the roof itself carries
    return if_all_weighed(build, found, judge(found), load.not_stated)


def judge(x: ParkedLoad) -> AtMost:
    """Warns from 90 % of the rating."""
    return AtMost(x.parked_kg, x.allowed_kg, "kg")


RULE = Rule(
    code="roof-load-parked",
    title="Load on the parked roof",
    topic="roof",
    category="safety",
    inputs=ParkedLoad,
    read=read,
    judge=judge,
    formula="mass on the roof + people and loads brought onto it ≤ rating while parked",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{measured} on the parked roof, {brought_kg} of it people and loads, of {limit} it carries.",
        "tight": "{measured} on the parked roof, {brought_kg} of it people and loads, of {limit} it carries; "
        "{margin:nothing is|only # is|only # are} left.",
        "fails": "{measured} on the parked roof, {brought_kg} of it people and loads: {over} more than the {limit} "
        "it carries.",
    },
    remedy="Keep people off the roof, take something off it, or add a reinforcement that carries it.",
    examples=lambda: (
        Example({"parked_kg": 180, "brought_kg": 100, "allowed_kg": 300}, "ok", "one person on the walkway"),
        Example({"parked_kg": 270, "brought_kg": 200, "allowed_kg": 300}, "tight", "90 %: two people"),
        Example({"parked_kg": 300, "brought_kg": 200, "allowed_kg": 300}, "tight", "exactly at the rating"),
        Example({"parked_kg": 330, "brought_kg": 200, "allowed_kg": 300}, "fails", "30 kg over"),
    ),
    offers="structure",
    caution=f"{cautions.ROOF} A roof is slippery and high; clear snow off.",
)
