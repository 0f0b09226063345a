"""How hot it gets inside on the trip's hottest day, where no cooler is used.

Shut and in the sun, a vehicle is far hotter than the air outside. Shade, a window open and a fan bring it down
to little more than the air, for next to no power.
"""

from engine.build import Build, Figures
from engine.catalogue.facets import VentFan
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, Softened, Source, fact

MOST_DEGC = 35.0
"""In hotter air than skin a fan cools nobody (World Health Organization on heat and health; from memory)."""


class Aired(Inputs):
    """The hottest day without a cooler, everybody aboard."""

    outside_degc: float = fact("hottest hour of the chosen months", "catalogue")
    alone_degc: float = fact("warmest hour inside, shut and in the sun", "computed")
    shade_degc: float = fact("warmest hour inside in the shade and aired", "computed")
    aired: str = fact("how it is aired", "chosen")
    largest: str = fact("what brings most heat in the sun", "computed")


def read(build: Build, figures: Figures) -> Aired | None:
    """Nothing to ask where a cooler runs, or no day is hot."""
    d = figures.cool_day
    if d is None or d.running_h:
        return None
    return Aired(
        options=build.ids(VentFan), outside_degc=d.hottest_degc, alone_degc=d.alone_degc, shade_degc=d.shade_degc,
        aired="a window open and a fan" if build.ids(VentFan) else "windows open", largest=d.largest,
    )  # fmt: skip


def judge(x: Aired) -> Softened:
    """Warmth in the shade against what is bearable; more is worth knowing."""
    return Softened(AtMost(x.shade_degc, MOST_DEGC, "degc", tight_from=1.0001), "note")


def _day(outside_degc: float, shade_degc: float) -> dict[str, float | str]:
    return {
        "outside_degc": outside_degc, "alone_degc": outside_degc + 9.0, "shade_degc": shade_degc,
        "aired": "a window open and a fan", "largest": "sun through glass",
    }  # fmt: skip


_SAYS = (
    "At {outside_degc} outside it gets {measured} inside in the shade with {aired}. "
    "Shut and in the sun it gets {alone_degc}; most heat: {largest}."
)

RULE = Rule(
    code="hot-day",
    title="A hot day without a cooler",
    topic="warmth",
    category="comfort",
    inputs=Aired,
    read=read,
    judge=judge,
    formula="hourly heat balance of a cloudless day, shut in the sun and aired in the shade; warmest hour ≤ 35 °C",
    sources=(
        Source("ASHRAE Handbook Fundamentals 2013", "chapter 18, heat of people, air through the day (from memory)"),
        Source("World Health Organization", "heat and health: fans above 35 °C (from memory)"),
        COMMON_PRACTICE,
    ),
    says={"ok": _SAYS, "note": _SAYS},
    remedy="Stand in the shade, cover glass from outside, air at night, or use a cooler.",
    examples=(
        Example(_day(29, 30.5), "ok", "a warm week in the hills"),
        Example(_day(34, 35), "ok", "exactly 35 °C"),
        Example(_day(40, 41), "note", "the desert in July"),
    ),
    offers="vent-fan",
    caution="Never leave people or animals in a shut vehicle in the sun.",
)
