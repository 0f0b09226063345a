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
from engine.spelling import in_a_row

_SWINGS = ("door", "drawer", "sliding-door")
USES = {"standing": "standing room", "lifted-bed": "room to lift its bed", "aisle": "room to pass"}


class Fit(Inputs):
    """What the plan says about one set of modules."""

    said: str = fact("what the plan shows", "computed")
    fits: bool = fact("everything has a place", "computed")
    too_deep_m: float = fact("how much deeper it is than the room is wide", "computed", default=0, ge=0)
    too_long_m: float = fact("how much longer it is than the room", "computed", default=0, ge=0)


def _told(o: Overlap) -> str:
    if o.use == "solid":
        by = " when the beds are made" if o.state == "night" else ""
        return f"“{o.first}” stands in {f'“{o.second}”' if o.second_id else 'the ' + o.second}{by}."
    return f"“{o.first}” stands where “{o.second}” needs {USES[o.use]}."


def _over(build: Build, figures: Figures, option_ids: tuple[str, ...]) -> tuple[float, float]:
    """How much deeper and longer a module is than the room between its linings, at its widest."""
    inside = figures.plan.inside
    wide_m = max(inside.floor_width_m, inside.width_m, inside.shoulder_width_m)
    sizes = [(f.depth_m, f.length_m) for part, f in build.facets(FurnitureModule) if part.option.id in option_ids]
    return max(0.0, *(depth - wide_m for depth, _ in sizes)), max(
        0.0, *(length - inside.length_m for _, length in sizes)
    )


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
        names = in_a_row(f"“{n}”" for n in c.names)
        words = "cannot be together in this room" if len(c.names) > 1 else "has no place in this room"
        more = "" if len(c.names) < 3 else " Without any one of them the others fit."
        deep_m, long_m = _over(build, figures, c.option_ids) if len(c.names) == 1 else (0.0, 0.0)
        said_all = f"{names} {words}.{more}"
        found.append(Fit(options=c.option_ids, said=said_all, fits=False, too_deep_m=deep_m, too_long_m=long_m))
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
    says={
        "ok": "{said}",
        "fails": "{said}"
        "{too_deep_m:| It is # too deep.| It is # too deep.}"
        "{too_long_m:| It is # too long.| It is # too long.}",
    },
    remedy="Choose a smaller one, move one of them, or leave one out.",
    examples=lambda: (
        Example({"said": "All 6 modules have a place.", "fits": True}, "ok", "a kitchen, a bed and four more"),
        Example(
            {"said": "“Kitchen” and “Bed along” cannot be together in this room.", "fits": False},
            "fails",
            "2.1 m and 2.0 m in 3.9 m",
        ),
        Example(
            {"said": "“Bed across” has no place in this room.", "fits": False, "too_deep_m": 0.11},
            "fails",
            "1.86 m between linings that leave 1.75 m",
        ),
    ),
    offers="furniture",
)
