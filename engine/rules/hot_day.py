"""How hot it gets inside on the trip's hottest day, where no cooler is used.

Shut and in the sun, a vehicle is far hotter than the air outside. Shade, a window open and a fan bring it down
to little more than the air, for next to no power. A trip that asks for cooling fails where that is not enough and no
cooler runs.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.standstill import running_coolers, running_fans
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
_LIFELESS = "The trip asks for cooling, and nothing feeds this"
_CHOOSE = "Choose a cooler"
_BATTERY = "Add a house battery for the cooler"
_MAINS = "Add a hook-up inlet, a generator, or an inverter on a house battery for the cooler"
_NEVER = "Never leave animals alone in it. "
_ANIMALS = f"{_NEVER}Use a cooler with an alert that calls you when it gets warm"


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
    lacking: str = fact("that a wish for cooling has no cooler that runs", "computed", default="")
    helps: str = fact("what helps", "computed", default=_STAY)


def read(build: Build, figures: Figures) -> Aired | None:
    """Nothing to ask where a cooler runs, or no day is hot."""
    d = figures.cool_day
    if d is None or d.running_h:
        return None
    every = build.facets(AirConditioner)
    coolers = listed(dict.fromkeys(p.option.name for p, _ in every))
    lacking, unused, lacks, helps = "", "", "", _ANIMALS if build.trip.pets else _STAY
    if build.trip.cooling and not every:
        lacking, lacks, helps = _LACKING, "air-conditioner", _CHOOSE
    elif build.trip.cooling and not running_coolers(build):
        lacking = f"{_LIFELESS}: {coolers}."
        battery = any(f.supply == "battery" for _, f in every)
        lacks, helps = ("battery", _BATTERY) if battery else ("shore-inlet", _MAINS)
    elif every and not build.trip.cooling:
        would, holds = (show(x or 0.0, "wh", build.workshop.units) for x in (d.unused_wh_d, figures.power.usable_wh))
        would = f" It would take {would} a day; the full battery holds {holds}." if d.unused_wh_d else ""
        unused = f"{_UNUSED}: {coolers}.{would}"
    if lacking and build.trip.pets:
        helps = _NEVER + helps
    return Aired(
        options=build.ids(AirConditioner, VentFan),
        outside_degc=d.hottest_degc, alone_degc=d.alone_degc, shade_degc=d.shade_degc,
        aired=AIRED[bool(running_fans(build))], largest=d.largest,
        unused=unused, lacking=lacking, lacks=lacks, helps=helps,
        unused_wh=d.unused_wh_d, pets_count=build.trip.pets,
    )  # fmt: skip


def judge(x: Aired) -> AtMost | Softened | Holds:
    """Warmth in the shade against what is bearable; more is worth knowing, and for animals, who cannot leave, a
    warning. A wish for cooling that nothing meets fails."""
    most = x.most_degc if x.pets_count else MOST_DEGC
    aired = AtMost(x.shade_degc, most, "degc", tight_from=JUST_ENOUGH)
    if x.lacking:
        return aired if aired.verdict() == "fails" else Holds(False, "note")
    if x.unused and x.shade_degc <= (DEADLY_DEGC if x.pets_count else MOST_DEGC):
        return Holds(False, "note")
    worst: Verdict = "tight" if x.pets_count and x.shade_degc > DEADLY_DEGC else "note"
    return Softened(aired, worst)


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
_UNMET = (
    _SAYS + "{pets_count: Above {limit} a fan cools nobody.| # animal bears at most {limit}.| # animals bear at most "
    "{limit}.} {lacking}"
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
    says={"ok": _SAYS, "note": _HOT, "tight": _HOT, "fails": _UNMET},
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
        Example(
            _day(34, 35) | {"lacking": _LACKING, "helps": _CHOOSE}, "note", "a wish for cooling, and exactly 35 °C"
        ),
        Example(
            _day(40, 41) | {"lacking": _LACKING, "helps": _CHOOSE},
            "fails",
            "cooling is asked for, and nothing cools",
        ),
        Example(
            _day(40, 41) | {"lacking": f"{_LIFELESS}: Roof cooler.", "helps": _BATTERY},
            "fails",
            "a cooler, and no battery that feeds it",
        ),
        Example(_day(28, 29.4) | {"pets_count": 1}, "ok", "a dog, exactly 85 °F"),
        Example(_day(29, 30.5) | {"pets_count": 1}, "note", "a dog on a warm day"),
        Example(_day(36, 38.5) | {"pets_count": 1}, "note", "exactly its own temperature"),
        Example(_day(40, 41) | {"pets_count": 2, "helps": _ANIMALS}, "tight", "two dogs in the desert in July"),
        Example(
            _day(29, 30.5) | {"pets_count": 1, "lacking": _LACKING, "helps": _NEVER + _CHOOSE},
            "fails",
            "a dog on a warm day, and cooling that is asked for",
        ),
    ),
    offers="vent-fan",
    caution=cautions.HEAT,
)
