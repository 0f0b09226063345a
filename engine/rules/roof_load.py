"""What stands on the roof stays within what the weakest link carries while driving.

Two links carry it: the roof, rated with the rack that stands on it, so that a rack's own weight comes off; and the
rack, which has a rating of its own. A strong rack on a weak roof carries what the roof does. A reinforcement adds
what its maker states. A bare box body without a rating and without reinforcement is not known to carry anything.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, Source, Unknown, fact, if_all_weighed


class RoofLoad(Inputs):
    """Mass on the weakest link against what it carries."""

    roof_kg: float = fact("everything on the roof but racks, or what rides on the rack", "computed", ge=0)
    allowed_kg: float = fact("what the weakest link carries while driving", "catalogue", ge=0)
    link: str = fact("which link that is", "computed", default="the roof")


def read(build: Build, figures: Figures) -> Inputs | Unknown | list[Inputs | Unknown] | None:
    """Nothing to ask when the roof is empty; not known when nobody rated it or weighed what stands on it."""
    ids = tuple(p.option.id for p in build.parts if p.option.place == "roof")
    if not ids:
        return None
    load = figures.roof_load
    choose = "choose a stronger" if load.strengthened else "choose a"
    unknown = Unknown(
        f"roof load rating of the {build.vehicle.name}",
        f"Ask the body's maker for the roof load while driving, or {choose} roof reinforcement.",
        ids,
    )
    if load.allowed_kg is None:
        if load.rack_rating_kg is None:
            return unknown
        rack = RoofLoad(options=ids, roof_kg=load.on_racks_kg, allowed_kg=load.rack_rating_kg, link="the rack")
        return [rack, unknown] if judge(rack).verdict() == "fails" else unknown
    link = "the roof"
    if load.rack_is_weakest:
        link = "the rack"
    elif load.racks_kg:
        link = "the roof under its rack"
    found = RoofLoad(options=ids, roof_kg=load.load_kg, allowed_kg=load.allowed_kg, link=link)
    if not load.rated and not load.rack_is_weakest and judge(found).verdict() == "fails":
        return unknown  # more than the reinforcement adds; nobody said what the roof itself carries
    if load.on_racks_kg and load.rack_rating_kg is None and not load.not_stated:
        unrated = Unknown("what the rack carries", "Read it from the rack's sheet.", load.rack_ids)
        return [found, unrated] if judge(found).verdict() == "fails" else unrated
    return if_all_weighed(build, found, judge(found), load.not_stated)


def judge(x: RoofLoad) -> AtMost:
    """Warns from 90 % of the rating."""
    return AtMost(x.roof_kg, x.allowed_kg, "kg")


RULE = Rule(
    code="roof-load",
    title="Load on the roof",
    topic="roof",
    category="safety",
    inputs=RoofLoad,
    read=read,
    judge=judge,
    formula="mass without racks ≤ roof rating + reinforcement − racks; mass on the rack ≤ the rack's rating",
    sources=(COMMON_PRACTICE, Source("ISO 11154", "roof load carriers of cars and light vans (from memory)")),
    says={
        "ok": "{measured} on the roof of {limit} that {link} carries; {margin:nothing is|# is|# are} left.",
        "tight": "{measured} on the roof of {limit} that {link} carries; {margin:nothing is|only # is|only # are} "
        "left.",
        "fails": "{measured} on the roof, {over} more than the {limit} that {link} carries while driving.",
    },
    remedy="Take something off the roof, or add a reinforcement that carries it.",
    examples=lambda: (
        Example({"roof_kg": 100, "allowed_kg": 112}, "ok", "89 %"),
        Example({"roof_kg": 102, "allowed_kg": 112}, "tight", "91 %: panels, brackets and awning"),
        Example({"roof_kg": 112, "allowed_kg": 112}, "tight", "exactly at the rating"),
        Example({"roof_kg": 132, "allowed_kg": 112}, "fails", "with a box on top: 20 kg over"),
        Example({"roof_kg": 80, "allowed_kg": 75, "link": "the rack"}, "fails", "a light rack on a strong roof"),
    ),
    offers="structure",
    caution=f"{cautions.ROOF} Things on a roof can come off at speed.",
)
