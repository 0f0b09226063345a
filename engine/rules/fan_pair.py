"""Two roof fans, one blowing in and one drawing out, with the bed between them.

One fan alone in a shut room soon stands still against the air it would have to draw through leaks. It needs an open
window, or a second fan.
"""

from engine.build import Build, Figures
from engine.build.fan_air import LEAKS_M2, STALL_KPA, WINDOW_M2
from engine.build.standstill import running_fans
from engine.physics.air_change import Fan, fan_m3_h, fan_pair
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, Source, fact

PAIR = "Two roof fans, one in and one out, with the bed between them move"
ALONE = "One fan alone, {}, with a window open moves"
STILL = " Without a house battery {} still."


class Fans(Inputs):
    """Air at full speed."""

    pair: bool = fact("whether two fans have the bed between them", "computed")
    why: str = fact("what moves the air, or what is missing", "computed")
    moved_m3_h: float = fact("two fans, everything shut (one: with a window open)", "computed", ge=0)
    alone_m3_h: float = fact("one fan, everything shut", "computed", ge=0)
    still: str = fact("what keeps them from running", "computed", default="")
    room_space_l: float = fact("air inside", "catalogue", gt=0)
    changes_count: int = fact("times an hour the air inside is changed by that", "computed", ge=0)


def read(build: Build, figures: Figures) -> Fans | None:
    """Nothing to ask without a fan in the roof."""
    f = figures.fans
    if f is None:
        return None
    moved = f.window_m3_h if f.pair_m3_h is None else f.pair_m3_h
    if f.pair_m3_h is None:
        why = ALONE.format(f.strongest)
    elif f.past_bed:
        why = PAIR
    else:
        why = "No bed lies between the roof fans, so sleepers get little of what they move:"
    return Fans(
        options=f.ids,
        pair=f.pair_m3_h is not None and f.past_bed,
        why=why,
        still="" if running_fans(build) else STILL.format("it stands" if f.pair_m3_h is None else "they stand"),
        moved_m3_h=moved,
        alone_m3_h=f.alone_m3_h,
        room_space_l=1000 * f.room_m3,
        changes_count=min(1000, round(moved / f.room_m3)),
    )


def judge(x: Fans) -> Holds:
    """A pair round the bed that something feeds, or a note."""
    return Holds(x.pair and not x.still, "note")


def _fans(count: int, still: str = "") -> dict[str, str | float | bool]:
    """One or two fans of 1,500 m³/h in a van of 12.5 m³."""
    fan, pair = Fan(1500.0, STALL_KPA), count == 2
    moved = fan_pair(fan, fan, LEAKS_M2).air_m3_h if pair else fan_m3_h(fan, WINDOW_M2)
    return {
        "pair": pair, "why": PAIR if pair else ALONE.format("Roof fan"), "still": still, "moved_m3_h": moved,
        "alone_m3_h": fan_m3_h(fan, LEAKS_M2), "room_space_l": 12500, "changes_count": round(moved / 12.5),
    }  # fmt: skip


RULE = Rule(
    code="fan-pair",
    title="Air through the sleeping place",
    topic="warmth",
    category="comfort",
    inputs=Fans,
    read=read,
    judge=judge,
    formula="in(p) + leaks(p) = out(p); fan: Q = Q₀ · (1 − p/p₀)",
    sources=(
        Source("EN 16798-7:2017", "flow through openings; fan curves as straight lines are an assumption"),
        COMMON_PRACTICE,
    ),
    says={
        "ok": "Two roof fans, one in and one out, move up to {moved_m3_h} past the bed with every window shut, "
        "{changes_count} times the air inside in an hour. One alone moves {alone_m3_h}.",
        "note": "{why} up to {moved_m3_h}, {changes_count} times the air inside in an hour. With every window shut one "
        "fan alone moves {alone_m3_h}.{still}",
    },
    remedy="Add a second roof fan at the other end of the bed.",
    examples=lambda: (
        Example(_fans(2), "ok", "two fans round the bed"),
        Example(_fans(2, STILL.format("they stand")), "note", "two fans and no battery"),
        Example(_fans(1), "note", "one fan"),
    ),
    offers="vent-fan",
)
