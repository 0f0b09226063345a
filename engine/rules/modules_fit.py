"""Everything that stands or hangs inside has a place of its own.

The engine arranges the chosen modules along the walls by a search that misses nothing: with doors and steps free, and
everything that opens or wants standing room too. When there is no arrangement it names a smallest set that cannot be
together: take out any one of them and the others fit. What the buyer moved stays where it was put.
"""

from engine.build import Build, Figures
from engine.build.plan_figures import Overlap
from engine.build.plan_people import ruled_out
from engine.catalogue.facets import FurnitureModule
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, Unknown, fact

_SWINGS = ("door", "drawer", "sliding-door")
USES = {"standing": "standing room", "lifted-bed": "room to lift its bed", "aisle": "room to pass"}


class Fit(Inputs):
    """What the plan says about one set of modules."""

    said: str = fact("what the plan shows", "computed")
    fits: bool = fact("everything has a place", "computed")


def _told(o: Overlap) -> str:
    if o.use == "solid":
        by = " when the beds are made" if o.state == "night" else ""
        return f"“{o.first}” stands in {f'“{o.second}”' if o.second_id else 'the ' + o.second}{by}."
    return f"“{o.first}” stands where “{o.second}” needs {USES[o.use]}."


def read(build: Build, figures: Figures) -> list[Fit | Unknown] | None:
    """One question for each set that cannot be together and each pair in one another's way; else one for all."""
    plan = figures.plan
    if not plan.day:
        return None
    found: list[Fit | Unknown] = []
    said: set[tuple[str, ...]] = set()
    for c in plan.conflicts:
        # Of two that rule each other out one has to go anyway, and that is said already.
        if c.option_ids in said or ruled_out(build, c.option_ids):
            continue
        said.add(c.option_ids)
        names = " and ".join(f"“{n}”" for n in c.names)
        words = "cannot be together in this room" if len(c.names) > 1 else "has no place in this room"
        more = "" if len(c.names) < 3 else " Without any one of them the others fit."
        found.append(Fit(options=c.option_ids, said=f"{names} {words}.{more}", fits=False))
    for o in plan.overlaps:
        if o.use not in _SWINGS:
            options = tuple(i for i in (o.first_id, o.second_id) if i)
            found.append(Fit(options=options, said=_told(o), fits=False))
    if not plan.proven and not all(p.fits for p in plan.day):
        ids = tuple(dict.fromkeys(p.option_id for p in plan.day if not p.fits))
        found.append(Unknown("whether every module has a place", "Take out some modules, or place some by hand.", ids))
    if not found and not plan.conflicts:
        count = len(plan.day)
        said_all = f"All {count} modules have a place." if count > 1 else "The one module has a place."
        found.append(Fit(options=build.ids(FurnitureModule), said=said_all, fits=True))
    return found


def judge(x: Fit) -> Holds:
    """Everything has a place, or not."""
    return Holds(x.fits)


RULE = Rule(
    code="modules-fit",
    title="Room for every module",
    topic="space",
    category="function",
    inputs=Fit,
    read=read,
    judge=judge,
    formula="no two boxes share space; doors, steps and what a module needs free stay free",
    sources=(COMMON_PRACTICE,),
    says={"ok": "{said}", "fails": "{said}"},
    remedy="Move one of them, choose a smaller one, or leave one out.",
    examples=lambda: (
        Example({"said": "All 6 modules have a place.", "fits": True}, "ok", "a kitchen, a bed and four more"),
        Example(
            {"said": "“Kitchen” and “Bed along” cannot be together in this room.", "fits": False},
            "fails",
            "2.1 m and 2.0 m in 3.9 m",
        ),
    ),
    offers="furniture",
)
