"""Power lasts from one hook-up to the next, in the hardest chosen month.

The battery is followed hour by hour through many years of the month's weather: what the loads take, less what sun and
driving bring. In half of the years it lasts as long as the figure says or longer; one year in ten is as poor as the
poor year or poorer. The hardest of the chosen months counts, because a yearly average hides the winter: the darkest,
or a hot one in which cooling empties the battery sooner. While the hours are still being worked out, the mean day's
balance is a first estimate. A battery too cold to be charged gets nothing from sun or engine.
"""

from engine.build import Build, Figures
from engine.build.battery_cold import takes_charge
from engine.build.energy_inputs import days_looked_at
from engine.build.inverting import InverterFigures
from engine.build.power import largest_choice
from engine.build.sun_power import too_dark
from engine.catalogue.facets import AlternatorCharger, Battery, ShoreCharger, SolarPanel
from engine.rule import AtLeast, Example, Inputs, Rule, Source, Unknown, fact, sentence
from engine.units import MONTHS, System, show


class Energy(Inputs):
    """The trip's energy in the hardest chosen month."""

    month: str = fact("hardest of the chosen months", "chosen")
    use_wh: float = fact("taken a day, at the battery", "computed", ge=0)
    sun_wh: float = fact("from the sun on its mean day", "computed", ge=0)
    driving_wh: float = fact("from driving a day", "computed", ge=0)
    usable_wh: float = fact("usable part of a full battery", "catalogue", ge=0)
    wanted_d: float = fact("days from one hook-up to the next", "chosen", gt=0)
    lasts_d: float = fact("days until empty in a usual year, or all days looked at", "computed", ge=0)
    poor_d: float = fact("days until empty in the poor year of ten, or all days looked at", "computed", ge=0)
    lasts: str = fact("how long it lasts, in words", "computed")
    largest: str = fact("largest load", "computed")
    awake: str = fact("what an inverter takes that is on all day", "computed", default="")
    cold: str = fact("that no source charges such cold cells", "computed", default="")
    helps: str = fact("the one change that helps most", "computed", default="")
    ways: str = fact("what helps beside that", "computed", default="Add battery or panels, or use less")


def read(build: Build, figures: Figures) -> Energy | Unknown | None:
    """Nothing to ask while nothing takes power; not known for a battery colder than anything known of its kind."""
    p = figures.hardest
    if not p.use_wh_d:
        return None
    if p.usable_wh is None:
        return Unknown("what the battery holds in such cold", "Keep the battery warmer.", build.ids(Battery))
    cold = not takes_charge(build, figures.warmth, p.sun_month)
    heavy = tuple(x.option_id for x in p.loads[:2])
    lasts_d, poor_d, lasts = _hourly(build, figures) if figures.energy else _estimate(build, figures)
    return Energy(
        options=tuple(dict.fromkeys(build.ids(Battery, SolarPanel) + heavy)),
        lacks="" if build.ids(Battery) else "battery",
        month=MONTHS[p.sun_month - 1],
        use_wh=p.use_wh_d,
        sun_wh=p.sun_wh_d,
        driving_wh=p.driving_wh_d,
        usable_wh=p.usable_wh,
        wanted_d=build.trip.days_off_grid_d,
        lasts_d=lasts_d,
        poor_d=poor_d,
        lasts=lasts,
        largest=f"{p.loads[0].name} ({show(p.loads[0].energy_wh_d, 'wh', build.workshop.units)})",
        awake=_awake(p.inverter, build.workshop.units),
        helps=_helps(build, figures),
        ways=_ways(build, figures, cold),
        cold=" On a mean day its cells are too cold to be charged." if cold else "",
    )


def _ways(build: Build, figures: Figures, cold: bool) -> str:
    """What this build can do about it, as a sentence without its end: only ways that it has."""
    if not build.ids(Battery):
        return "Choose a house battery"
    largest = largest_choice(build, figures.hardest)
    less = [f"use less of {largest.name}"] if largest else []
    if cold:
        return _row(["Keep the battery warm enough for charging", *less])
    # A roof that has no place for all the chosen panels has none for more.
    sun = figures.roof.packing.complete and not too_dark(build, figures.hardest.sun_month)
    ways = ["Add battery or panels" if sun else "Add battery", *less]
    ways += ["drive more"] if build.ids(AlternatorCharger) else []
    ways += ["hook up sooner"] if build.ids(ShoreCharger) else []
    return _row(ways)


def _row(ways: list[str]) -> str:
    """Ways out in a row, the last one behind “or”."""
    return ways[0] if len(ways) == 1 else f"{', '.join(ways[:-1])}, or {ways[-1]}"


DULL_FRAC = 0.2
"""How far under its mean the sun of a dull month lies, for the first estimate (assumption)."""


def _helps(build: Build, figures: Figures) -> str:
    """A sentence, with its space after it, on the change that helps most; none until that is known."""
    e = figures.energy
    best = e.changes[0] if e and e.changes else None
    if e is None or best is None or not best.helps:
        return ""
    if best.before_d is None:
        return f"{sentence(best.what)[:-1]} would help most. "
    after = f"beyond {e.days_count} days" if best.after_d is None else show(best.after_d, "d", build.workshop.units)
    return f"What helps most is {best.what}: then it lasts {after}. "


def _hourly(build: Build, figures: Figures) -> tuple[float, float, str]:
    """(days in the median year, in the poor one, words). Never empty: the days looked at stand for both."""
    e = figures.energy
    assert e is not None  # held by the caller
    units, seen = build.workshop.units, float(e.days_count)
    usual, poor = e.trip.median_empty_d, e.trip.poor_empty_d
    if usual is not None:
        often = show(usual, "d", units)
        rarely = often if poor is None else show(poor, "d", units)
        words = f"power lasts {often} in a usual year"
        words += f" and {rarely} in the poor year of ten" if rarely != often else ", and in the poor year of ten too"
    elif poor is not None:
        words = (
            f"power lasts beyond the {e.days_count} days looked at in a usual year, and {show(poor, 'd', units)} in "
        )
        words += "the poor year of ten"
    else:
        words = (
            f"sun and driving keep the battery from running empty in all {e.days_count} days looked at, also in the "
        )
        words += f"poor year of ten; the battery alone would hold {show(e.alone_d, 'd', units)}"
        if e.alone_d >= e.days_count:
            words = f"the battery alone holds all {e.days_count} days looked at"
    return (seen if usual is None else usual), (seen if poor is None else poor), words


def _estimate(build: Build, figures: Figures) -> tuple[float, float, str]:
    """The same by the mean day, with the sun a fifth under the mean for the poor year; also without any battery."""
    p, units = figures.hardest, build.workshop.units
    seen = float(days_looked_at(build.trip.days_off_grid_d))
    usable_wh = p.usable_wh or 0.0
    if not usable_wh:
        return 0.0, 0.0, "power lasts 0 days for want of a house battery"

    def days(sun_frac: float) -> float | None:
        short_wh = p.use_wh_d - p.sun_wh_d * sun_frac - p.driving_wh_d
        return usable_wh / short_wh if short_wh > 0 else None

    usual, poor = days(1.0), days(1 - DULL_FRAC)
    if usual is not None and usual > seen:
        usual, words = None, f"power lasts beyond the {seen:.0f} days looked at by the mean day"
    elif usual is None:
        alone = show(usable_wh / p.use_wh_d, "d", units)
        words = f"sun and driving cover the mean day; the battery alone would hold {alone}"
    else:
        words = f"power lasts {show(usual, 'd', units)} by the mean day"
    least = seen if poor is None else min(seen, poor)
    return (seen if usual is None else usual), (least if usual is None else min(least, usual)), words


def _awake(inverter: InverterFigures | None, units: System) -> str:
    """A sentence, with its space before it, on an inverter that is on all day; none for any other."""
    if inverter is None or inverter.awake_h < 24 or not inverter.idle_wh_d:
        return ""
    why = f"kept awake day and night by {inverter.awake_for}" if inverter.awake_for else "wired to stay on"
    return f" The inverter itself takes {show(inverter.idle_wh_d, 'wh', units)} of the day's use: it is {why}."


def judge(x: Energy) -> AtLeast:
    """Days from full to empty in the median year against the days wanted; the poor year tells how near that is."""
    return AtLeast(x.lasts_d, x.wanted_d, "d", low=min(x.poor_d, x.lasts_d))


def _mean_day(
    month: str, use_wh: float, sun_wh: float, usable_wh: float, wanted_d: float, largest: str, **more: str
) -> dict[str, str | float]:
    """A build by its mean day, and by one with a fifth less sun for the poor year; 14 days are looked at."""
    days = []
    for sun_frac in (1.0, 1 - DULL_FRAC):
        short_wh = use_wh - sun_frac * sun_wh
        days.append(min(14.0, usable_wh / short_wh) if short_wh > 0 else 14.0 if usable_wh else 0.0)
    usual, poor = (show(x, "d", "metric") for x in days)
    words = f"power lasts {usual} in a usual year and {poor} in the poor year of ten"
    if usual == poor:
        words = f"power lasts {usual} in a usual year, and in the poor year of ten too"
    if days[1] >= 14:
        alone = show(usable_wh / use_wh, "d", "metric")
        words = "sun and driving keep the battery from running empty in all 14 days looked at, also in the poor year "
        words += f"of ten; the battery alone would hold {alone}"
    if not usable_wh:
        words = "power lasts 0 days for want of a house battery"
    return {
        "month": month, "use_wh": use_wh, "sun_wh": sun_wh, "driving_wh": 0, "usable_wh": usable_wh,
        "wanted_d": wanted_d, "lasts_d": days[0], "poor_d": days[1], "lasts": words, "largest": largest, **more,
    }  # fmt: skip


_COOLER, _ALL = "Cooler (288 Wh)", "Everything (900 Wh)"
_DAY = " Use {use_wh} a day, sun {sun_wh}, driving {driving_wh}"
RULE = Rule(
    code="energy-days",
    title="Days off the grid",
    topic="power",
    category="function",
    inputs=Energy,
    read=read,
    judge=judge,
    formula="each hour: content + (sun + driving − loads − losses), between empty and full; sun = P·E/1000·(1 − losses)"
    "·(1 + γ·(T_cell − 25 °C)); first estimate: days = usable battery / (use − sun − driving)",
    sources=(
        Source("PVWatts version 5, NREL/TP-6A20-62641", "losses and temperature of panels", "2026-11-25"),
        Source("Typical-year climate data", "see the page on climate sources", "2026-11-25"),
        Source(
            "V. A. Graham, K. G. T. Hollands, T. E. Unny", "Solar Energy 40 (1988) 83: days' clearness", "2026-11-25"
        ),
    ),
    says={
        "ok": "In {month} {lasts}; {limit:# is|# are} wanted." + _DAY + ".{cold}{awake}",
        "tight": "In {month} {lasts}, close to the {limit} wanted." + _DAY + ".{cold}{awake}",
        "fails": "In {month} {lasts}, not {limit}." + _DAY + "; largest load: {largest}.{cold}{awake}",
    },
    remedy="{helps}{ways}.",
    examples=lambda: (
        Example(_mean_day("July", 343, 0, 1152, 2, _COOLER), "ok", "small weekend system: 3.4 days with no sun"),
        Example(_mean_day("July", 343, 0, 1152, 3.2, _COOLER), "tight", "asked for almost all of it"),
        Example(_mean_day("July", 576, 0, 1152, 2, "Cooler (521 Wh)"), "tight", "exactly two days"),
        Example(_mean_day("March", 900, 600, 2048, 5.5, _ALL), "tight", "enough in most years, not in the poor one"),
        Example(_mean_day("December", 900, 180, 2048, 4, _ALL), "fails", "400 W flat at 51° north in December"),
        Example(_mean_day("June", 900, 1500, 2048, 4, _ALL), "ok", "the same build in June lives from the sun"),
        Example(
            _mean_day(
                "July",
                460.8,
                0,
                640,
                3,
                "Inverter, awake without a load (461 Wh)",
                awake=" The inverter itself takes 461 Wh of the day's use: it is wired to stay on.",
            ),
            "fails",
            "idle inverter, lead battery",
        ),
        Example(
            _mean_day(
                "December",
                900,
                0,
                2048,
                4,
                _ALL,
                cold=" On a mean day its cells are too cold to be charged.",
                ways="Keep the battery warm enough for charging, or use less of Everything",
            ),
            "fails",
            "lithium cells in a van without heat",
        ),
        Example(_mean_day("July", 343, 500, 0, 2, _COOLER), "fails", "loads and sun, but no battery"),
    ),
    follows=("panels-on-roof", "battery-cold-charge"),
    offers="battery",
)
