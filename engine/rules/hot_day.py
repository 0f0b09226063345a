"""How hot it gets inside on the trip's hottest day, where no cooler is used.

Shut and in the sun, a vehicle is far hotter than the air outside. Shade, a window open and a fan bring it down
to little more than the air, for next to no power.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.standstill import running_fans
from engine.catalogue.facets import AirConditioner, VentFan
from engine.rule import (
    COMMON_PRACTICE,
    JUST_ENOUGH,
    AtMost,
    Example,
    Holds,
    Inputs,
    Rule,
    Softened,
    Source,
    Verdict,
    fact,
    listed,
)
from engine.units import show

MOST_DEGC = 35.0
"""In hotter air than skin a fan cools nobody (World Health Organization on heat and health; from memory)."""

ANIMALS_DEGC = 29.4
"""Where dogs travel, no more than this for four hours on end: 85 °F (9 CFR 3.5; from memory)."""

DEADLY_DEGC = 38.5
"""A dog's own temperature: in hotter air nothing but panting cools it (any veterinary handbook; from memory)."""

AIRED = {True: "a window open and a fan", False: "windows open"}

_STAY = "Stand in the shade, cover glass from outside, air at night, or use a cooler"
_UNUSED = "Not counted, for the trip has no cooling chosen"
_LACKING = "The trip asks for cooling, and no cooler is chosen."
_LIFELESS = "Without a house battery this does not run"
_ANIMALS = "Never leave animals alone in it. Use a cooler with an alert that calls you when it gets warm"


class Aired(Inputs):
    """The hottest day without a cooler, everybody aboard."""

    outside_degc: float = fact("hottest hour of the chosen months", "catalogue")
    alone_degc: float = fact("warmest hour inside, shut and in the sun", "computed")
    shade_degc: float = fact("warmest hour inside in the shade and aired", "computed")
    aired: str = fact("how it is aired", "chosen")
    largest: str = fact("what brings most heat in the sun", "computed")
    pets_count: int = fact("animals aboard", "chosen", default=0, ge=0)
    most_degc: float = fact("most for animals that travel", "regulation", default=ANIMALS_DEGC)
    unused: str = fact("cooler that the trip does not use", "chosen", default="")
    unused_wh: float = fact("what it would take on a mean day of the hottest week", "computed", default=0, ge=0)
    lacking: str = fact("that a wish has no cooler", "computed", default="")
    helps: str = fact("what helps", "computed", default=_STAY)


def read(build: Build, figures: Figures) -> Aired | None:
    """Nothing to ask where a cooler runs, or no day is hot."""
    d = figures.cool_day
    if d is None or d.running_h:
        return None
    would, holds = (show(x or 0.0, "wh", build.workshop.units) for x in (d.unused_wh_d, figures.power.usable_wh))
    would = f" It would take {would} a day; the full battery holds {holds}." if d.unused_wh_d else ""
    coolers = listed(dict.fromkeys(p.option.name for p, _ in build.facets(AirConditioner)))
    return Aired(
        options=build.ids(AirConditioner, VentFan),
        outside_degc=d.hottest_degc, alone_degc=d.alone_degc, shade_degc=d.shade_degc,
        aired=AIRED[bool(running_fans(build))], largest=d.largest,
        unused="" if not coolers else f"{_LIFELESS if build.trip.cooling else _UNUSED}: {coolers}.{would}",
        lacking=_LACKING if build.trip.cooling and not coolers else "",
        unused_wh=d.unused_wh_d, pets_count=build.trip.pets, helps=_ANIMALS if build.trip.pets else _STAY,
    )  # fmt: skip


def judge(x: Aired) -> Softened | Holds:
    """Warmth in the shade against what is bearable; more is worth knowing, and for animals, who cannot leave, a
    warning."""
    if x.unused and x.shade_degc <= (DEADLY_DEGC if x.pets_count else MOST_DEGC):
        return Holds(False, "note")
    if not x.pets_count:
        return Softened(AtMost(x.shade_degc, MOST_DEGC, "degc", tight_from=JUST_ENOUGH), "note")
    worst: Verdict = "tight" if x.shade_degc > DEADLY_DEGC else "note"
    return Softened(AtMost(x.shade_degc, ANIMALS_DEGC, "degc", tight_from=JUST_ENOUGH), worst)


def _day(outside_degc: float, shade_degc: float) -> dict[str, float | str]:
    return {
        "outside_degc": outside_degc, "alone_degc": outside_degc + 9.0, "shade_degc": shade_degc,
        "aired": "a window open and a fan", "largest": "sun through glass",
    }  # fmt: skip


_SAYS = (
    "At {outside_degc} outside it gets {shade_degc} inside in the shade with {aired}. "
    "Shut and in the sun it gets {alone_degc}; most heat: {largest}."
)
_HOT = (
    _SAYS + "{pets_count:| # animal bears at most {most_degc}.| # animals bear at most {most_degc}.}{unused:|| #}"
    "{lacking:|| #}"
)

RULE = Rule(
    code="hot-day",
    title="A hot day without a cooler",
    topic="warmth",
    category="comfort",
    inputs=Aired,
    read=read,
    judge=judge,
    formula="hourly heat balance of a cloudless day, shut in the sun and aired in the shade; warmest hour ≤ 35 °C, "
    "for animals 29.4 °C",
    sources=(
        Source("ASHRAE Handbook Fundamentals 2013", "chapter 18, heat of people, air through the day (from memory)"),
        Source("World Health Organization", "heat and health: fans above 35 °C (from memory)"),
        Source("9 CFR 3.5", "dogs that travel: no more than 85 °F for four hours on end (from memory)"),
        COMMON_PRACTICE,
    ),
    says={"ok": _SAYS, "note": _HOT, "tight": _HOT},
    remedy="{helps}, or travel in cooler months.",
    examples=lambda: (
        Example(_day(29, 30.5), "ok", "a warm week in the hills"),
        Example(_day(34, 35), "ok", "exactly 35 °C"),
        Example(_day(40, 41), "note", "the desert in July"),
        Example(
            _day(34, 34)
            | {
                "unused": f"{_UNUSED}: Roof cooler.",
                "unused_wh": 4200.0,
            },
            "note",
            "a cooler aboard that the trip does not use",
        ),
        Example(_day(40, 41) | {"lacking": _LACKING}, "note", "a wish for cooling, and nothing that cools"),
        Example(_day(28, 29.4) | {"pets_count": 1}, "ok", "a dog, exactly 85 °F"),
        Example(_day(29, 30.5) | {"pets_count": 1}, "note", "a dog on a warm day"),
        Example(_day(36, 38.5) | {"pets_count": 1}, "note", "exactly its own temperature"),
        Example(_day(40, 41) | {"pets_count": 2, "helps": _ANIMALS}, "tight", "two dogs in the desert in July"),
    ),
    offers="vent-fan",
    caution=cautions.HEAT,
)
