"""From every bed there are two ways out: two doors, or a door and a window or hatch to climb through.

Fire and gas can block one way. The way to a door has to be free with all beds made up; a rear door at the bed's own
end counts when there is room to crawl out over the mattress. The way to the cab is a way out, but no door of the living
space. Where windows are cut in is not known here.
"""

from engine.build import Build, Figures
from engine.build.plan_escape import WINDOW_M, least_opening_m, ways_out
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtLeast, Example, Inputs, Rule, Source, Unknown, fact
from engine.units import show

_WINDOW = "Add a window or hatch to climb through near the bed"
_SECOND = "free the way to a second door"


def _helps(build: Build, doors_count: int, others_count: int) -> str:
    """What this bed lacks: a window or the way to the cab makes up for a second door, but not for the first."""
    small, large = (show(x, "m", build.workshop.units) for x in least_opening_m(build))
    opens = f"a window or hatch that opens at least {small} × {large} near the bed"
    if doors_count:
        return f"Add {opens}, or {_SECOND}"
    there = any(o.escape and o.kind != "pass-through" for o in build.plan.openings)
    first = "Free the way from the bed to a door" if there else "Choose a door"
    return first if others_count else f"{first}, and add {opens} or {_SECOND if there else 'a second door'}"


class Escape(Inputs):
    """A bed and its ways out."""

    name: str = fact("the bed", "chosen")
    doors_count: float = fact("doors that can be reached at night", "computed", ge=0)
    windows_count: float = fact("windows and hatches large enough to climb through", "computed", ge=0)
    cab: bool = fact("whether the way to the cab can be reached at night", "computed", default=False)
    small_m: float = fact("short side of an opening to climb through", "assumed", default=WINDOW_M[0])
    large_m: float = fact("long side of an opening to climb through", "assumed", default=WINDOW_M[1])
    helps: str = fact("what helps", "computed", default=f"{_WINDOW}, or {_SECOND}")

    @property
    def also(self) -> str:
        """Words on the way to the cab."""
        return " The way to the cab is one more, and no door of the living space." if self.cab else ""


def read(build: Build, figures: Figures) -> list[Escape | Unknown] | Unknown | None:
    """One question for each bed; not known of one without a module, nor while the vehicle does not say where its doors
    are."""
    ways = ways_out(build)
    if not ways:
        return None
    if build.vehicle.interior is None:
        return Unknown(
            "where the vehicle's doors are",
            "Ask the workshop for the doors of this vehicle.",
            tuple(w.option_id for w in ways),
        )
    small_m, large_m = least_opening_m(build)
    return [
        Escape(
            options=(w.option_id,),
            name=w.name,
            doors_count=float(len(w.doors)),
            windows_count=float(w.windows),
            cab=w.cab,
            small_m=small_m,
            large_m=large_m,
            helps=_helps(build, len(w.doors), w.windows + w.cab),
        )
        if w.placed
        else Unknown(f"where {w.name} stands, and its ways out at night", "Ask the workshop.", (w.option_id,))
        for w in ways
    ]


def judge(x: Escape) -> AtLeast:
    """Two ways at least, one of them a door."""
    ways = x.doors_count + x.windows_count + x.cab if x.doors_count else 0.0
    return AtLeast(ways, 2.0, "count", tight_from=JUST_ENOUGH)


_BED = {"name": "Bed across"}
RULE = Rule(
    code="escape-route",
    title="Ways out at night",
    topic="space",
    category="safety",
    inputs=Escape,
    read=read,
    judge=judge,
    formula="doors reached through at least 0.28 m, and openings of at least 0.43 m · 0.60 m (United States 17 in · "
    "24 in), with the way to the cab: two or more, one a door",
    sources=(
        Source(
            "NFPA 1192 (2018)",
            "6.2.1.2, two unobstructed paths from each sleeping area, as quoted by others; sizes from memory",
        ),
        COMMON_PRACTICE,
    ),
    says={
        "ok": "{name}: {measured:# way|# ways} out at night, "
        "{doors_count:none of them a door|one of them a door|# of them doors}.",
        "fails": "{name}: two ways out at night are wanted, one of them a door. Doors that can be reached then: "
        "{doors_count}. Windows large enough: {windows_count}.{also}",
    },
    remedy="{helps}.",
    examples=lambda: (
        Example(_BED | {"doors_count": 2, "windows_count": 1}, "ok", "sliding door, rear doors, one window"),
        Example(_BED | {"doors_count": 1, "windows_count": 1}, "ok", "exactly two: a door and a window"),
        Example(_BED | {"doors_count": 1, "windows_count": 0}, "fails", "one door only"),
        Example(_BED | {"doors_count": 1, "windows_count": 0, "cab": True}, "ok", "exactly two: a door and the cab"),
        Example(
            _BED | {"doors_count": 0, "windows_count": 1, "cab": True, "helps": "Choose a door"},
            "fails",
            "only through the cab or a window",
        ),
        Example(
            _BED | {"doors_count": 0, "windows_count": 3, "helps": "Free the way from the bed to a door"},
            "fails",
            "windows only",
        ),
    ),
    offers="window",
    caution="Rules for emergency exits differ by country. Check yours, and try each way out in the dark.",
)
