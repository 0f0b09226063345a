"""Doors and drawers open without hitting anything.

Two doors that meet only when both are open are worth knowing, no more: one of them stays shut.
"""

from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, fact

_WHAT = {"door": "door", "drawer": "drawer", "sliding-door": "sliding door"}


class Swing(Inputs):
    """What a door or drawer meets."""

    said: str = fact("what the plan shows", "computed")
    blocked: bool = fact("something stands in its way", "computed")
    meets: bool = fact("another door or drawer reaches into its way", "computed")


def read(build: Build, figures: Figures) -> list[Swing] | None:
    """One question for each door or drawer that meets something; else one for all."""
    plan = figures.plan
    moving = [p for p in plan.day if p.fits and any(z.use in _WHAT for z in p.zones)]
    if not moving:
        return None
    found = [
        Swing(
            options=(o.first_id, o.second_id),
            said=f"“{o.first}” stands before the {_WHAT[o.use]} of “{o.second}”.",
            blocked=True,
            meets=False,
        )
        for o in plan.overlaps
        if o.use in _WHAT
    ]
    found += [
        Swing(
            options=(o.first_id, o.second_id),
            said=f"“{o.first}” and “{o.second}” cannot be open at once.",
            blocked=False,
            meets=True,
        )
        for o in plan.meets
    ]
    if not found:
        ids = tuple(dict.fromkeys(p.option_id for p in moving))
        found.append(Swing(options=ids, said="All doors and drawers open freely.", blocked=False, meets=False))
    return found


def judge(x: Swing) -> Holds:
    """Blocked fails; meeting another one is a note."""
    return Holds(False) if x.blocked else Holds(not x.meets, "note")


RULE = Rule(
    code="swing-clearance",
    title="Doors and drawers that open",
    topic="space",
    category="function",
    inputs=Swing,
    read=read,
    judge=judge,
    formula="no module stands in the swing of a door or the pull of a drawer",
    sources=(COMMON_PRACTICE,),
    says={"ok": "{said}", "note": "{said}", "fails": "{said}"},
    remedy="Move one of the two along its wall.",
    examples=lambda: (
        Example({"said": "All doors and drawers open freely.", "blocked": False, "meets": False}, "ok", "all free"),
        Example(
            {"said": "“Wet room” and “Fridge” cannot be open at once.", "blocked": False, "meets": True},
            "note",
            "two doors across the aisle",
        ),
        Example(
            {"said": "“Wardrobe” stands before the drawer of “Kitchen”.", "blocked": True, "meets": False},
            "fails",
            "the buyer moved the wardrobe",
        ),
    ),
    offers="furniture",
)
