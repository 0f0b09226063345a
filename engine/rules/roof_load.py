"""What stands on the roof stays within what the roof carries while driving.

The bare roof's rating, plus what a chosen reinforcement adds, less the weight of racks, which the rating includes. A
bare box body without a rating and without reinforcement is not known to carry anything.
"""

from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, Unknown, fact


class RoofLoad(Inputs):
    """Mass on the roof against what it carries."""

    roof_kg: float = fact("everything on the roof but racks", "computed", ge=0)
    allowed_kg: float = fact("what the roof carries while driving, less the racks themselves", "catalogue", ge=0)


def read(build: Build, figures: Figures) -> RoofLoad | Unknown | None:
    """Nothing to ask when the roof is empty; not known when nobody rated it."""
    ids = tuple(p.option.id for p in build.parts if p.option.place == "roof")
    if not ids:
        return None
    load = figures.roof_load
    if load.allowed_kg is None:
        return Unknown(
            f"roof load rating of the {build.vehicle.name}",
            "Ask the body's maker for the roof load while driving, or choose a roof reinforcement.",
            ids,
        )
    return RoofLoad(options=ids, roof_kg=load.load_kg, allowed_kg=load.allowed_kg)


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
    formula="mass on the roof without racks ≤ roof rating + what the reinforcement carries − racks",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{measured} on the roof of {limit} it carries; {margin} are left.",
        "tight": "{measured} on the roof of {limit} it carries; only {margin} are left.",
        "fails": "{measured} on the roof, {over} more than the {limit} it carries while driving.",
    },
    remedy="Take something off the roof, or add a reinforcement that carries it.",
    examples=(
        Example({"roof_kg": 100, "allowed_kg": 112}, "ok", "89 %"),
        Example({"roof_kg": 102, "allowed_kg": 112}, "tight", "91 %: panels, brackets and awning"),
        Example({"roof_kg": 112, "allowed_kg": 112}, "tight", "exactly at the rating"),
        Example({"roof_kg": 132, "allowed_kg": 112}, "fails", "with a box on top: 20 kg over"),
    ),
    offers="structure",
    caution="Things on a roof can come off at speed. Let the body's maker confirm what it carries.",
)
