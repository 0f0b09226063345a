"""A drawer's slides carry it with all it is meant to hold, drawn out.

Makers rate a pair of slides at its full extension; a longer pair of the same section carries less. On a rough road a
load weighs about twice what it does at rest, so a heavy drawer belongs shut and latched while driving, on something
that takes it off its slides.
"""

from engine.build import Build, Figures
from engine.build.moving import ROUGH_ROAD
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, Unknown, fact


class Slides(Inputs):
    """A drawer and its pair of slides."""

    name: str = fact("the drawer", "chosen")
    load_kg: float = fact("drawer and what it is meant to hold", "catalogue", ge=0)
    rating_kg: float = fact("what the pair of slides carries, drawn out", "catalogue", gt=0)
    extension_m: float = fact("how far it comes out", "catalogue", gt=0)
    rough_kg: float = fact("what the load of a drawer weighs on a rough road", "assumed", ge=0)


def read(build: Build, figures: Figures) -> list[Slides | Unknown]:
    """One question for each kind of drawer."""
    return [
        Unknown(
            f"slide rating of {d.name}",
            "Copy what the pair carries at that extension from its data sheet.",
            (d.option_id,),
        )
        if d.rating_kg is None
        else Slides(
            options=(d.option_id,),
            name=d.name,
            load_kg=d.load_kg,
            rating_kg=d.rating_kg,
            extension_m=d.extension_m,
            rough_kg=d.rough_kg,
        )
        for d in figures.moving.drawers
    ]


def judge(x: Slides) -> AtMost:
    """The load at rest against the rating of the pair."""
    return AtMost(x.load_kg, x.rating_kg, "kg")


_TRAY = {"name": "Garage drawer", "rating_kg": 227, "extension_m": 1.1}
RULE = Rule(
    code="drawer-slide-load",
    title="Load on drawer slides",
    topic="space",
    category="function",
    inputs=Slides,
    read=read,
    judge=judge,
    formula="drawer + content ≤ rating of the pair at its extension",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{name}: {measured} on slides for {limit}. On a rough road that weighs up to {rough_kg}: latch it shut.",
        "tight": "{name}: {measured} on slides for {limit}, drawn out {extension_m}. On a rough road that weighs up to "
        "{rough_kg}: latch it shut.",
        "fails": "{name}: {measured} on slides for {limit}, drawn out {extension_m}: {over} too much. They bend, and "
        "the drawer jams or falls out.",
    },
    remedy="Choose stronger slides, a shorter extension, or put less into it.",
    examples=lambda: (
        Example(_TRAY | {"load_kg": 148, "rough_kg": 148 * ROUGH_ROAD}, "ok", "120 kg of tools in a drawer of 28 kg"),
        Example(_TRAY | {"load_kg": 204.3, "rough_kg": 204.3 * ROUGH_ROAD}, "tight", "exactly 90 %"),
        Example(_TRAY | {"load_kg": 227, "rough_kg": 227 * ROUGH_ROAD}, "tight", "exactly the rating"),
        Example(_TRAY | {"load_kg": 230, "rough_kg": 230 * ROUGH_ROAD}, "fails", "3 kg too much"),
    ),
    offers="drawer",
    caution="A heavy drawer that runs out in a bend breaks legs. Lock it shut before driving and open before loading.",
)
