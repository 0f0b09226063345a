"""Power lasts from one hook-up to the next, in the darkest chosen month.

A plain daily balance: what the loads take, less what sun and driving bring, out of the usable part of the battery. It
uses the darkest of the chosen months, because a yearly average hides the winter. Weather makes single days better or
worse than this mean. A battery too cold to be charged gets nothing from either.
"""

from engine.build import Build, Figures
from engine.build.inverting import InverterFigures
from engine.catalogue.facets import Battery, SolarPanel
from engine.rule import AtLeast, Example, Inputs, Rule, Source, Unknown, fact

WITHOUT_END_D = 365.0
"""Shown when the day's gain covers the day's use."""

MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip


class Energy(Inputs):
    """A mean day of the darkest chosen month."""

    month: str = fact("darkest of the chosen months", "chosen")
    use_wh: float = fact("taken a day, at the battery", "computed", ge=0)
    sun_wh: float = fact("from the sun a day", "computed", ge=0)
    driving_wh: float = fact("from driving a day", "computed", ge=0)
    usable_wh: float = fact("usable part of a full battery", "catalogue", ge=0)
    wanted_d: float = fact("days from one hook-up to the next", "chosen", gt=0)
    largest: str = fact("largest load", "computed")
    awake: str = fact("what an inverter takes that is on all day", "computed", default="")
    sun_band_frac: float = fact("how far a month's sun differs from the mean year", "assumed", default=0.2, ge=0, le=1)


def read(build: Build, figures: Figures) -> Energy | Unknown | None:
    """Nothing to ask while nothing takes power; not known for a battery colder than anything known of its kind."""
    p = figures.power
    if not p.use_wh_d:
        return None
    if p.usable_wh is None:
        return Unknown("what the battery holds in such cold", "Choose one that sits inside.", build.ids(Battery))
    heavy = tuple(x.option_id for x in p.loads[:2])
    return Energy(
        options=tuple(dict.fromkeys(build.ids(Battery, SolarPanel) + heavy)),
        month=MONTHS[p.sun_month - 1],
        use_wh=p.use_wh_d,
        sun_wh=p.sun_wh_d,
        driving_wh=p.driving_wh_d,
        usable_wh=p.usable_wh,
        wanted_d=build.trip.days_off_grid_d,
        largest=f"{p.loads[0].name} ({p.loads[0].energy_wh_d:,.0f} Wh)",
        awake=_awake(p.inverter),
    )


def _awake(inverter: InverterFigures | None) -> str:
    """A sentence, with its space before it, on an inverter that is on all day; none for any other."""
    if inverter is None or inverter.awake_h < 24 or not inverter.idle_wh_d:
        return ""
    why = f"kept awake day and night by {inverter.awake_for}" if inverter.awake_for else "wired to stay on"
    return f" Of that, the inverter itself takes {inverter.idle_wh_d:,.0f} Wh: it is {why}."


def _days(x: Energy, sun: float) -> float:
    short_wh = x.use_wh - x.sun_wh * sun - x.driving_wh
    return min(WITHOUT_END_D, x.usable_wh / short_wh) if short_wh > 0 else WITHOUT_END_D


def judge(x: Energy) -> AtLeast:
    """Days from full to empty against the days wanted, with a band for a dull and a bright month."""
    return AtLeast(_days(x, 1), x.wanted_d, "d", low=_days(x, 1 - x.sun_band_frac), high=_days(x, 1 + x.sun_band_frac))


_WEEKEND = {
    "month": "July", "use_wh": 343, "sun_wh": 0, "driving_wh": 0, "usable_wh": 1152,
    "largest": "Cooler (288 Wh)",
}  # fmt: skip
RULE = Rule(
    code="energy-days",
    title="Days off the grid",
    topic="power",
    category="function",
    inputs=Energy,
    read=read,
    judge=judge,
    formula="days = usable battery / (use − sun − driving);  sun = P·H·(1 − losses)·(1 + γ·(T_cell − 25 °C))",
    sources=(
        Source("PVWatts version 5, NREL/TP-6A20-62641", "losses and temperature of panels", "2026-11-25"),
        Source("Typical-year climate data", "see the page on climate sources", "2026-11-25"),
    ),
    says={
        "ok": "In {month} power lasts {measured} off the grid; {limit:# is|# are} wanted. "
        "Use {use_wh} a day, sun {sun_wh}, driving {driving_wh}.{awake}",
        "tight": "In {month} power lasts {measured} off the grid, close to the {limit} wanted. "
        "Use {use_wh} a day, sun {sun_wh}, driving {driving_wh}.{awake}",
        "fails": "In {month} power lasts {measured} off the grid, not {limit}. "
        "Use {use_wh} a day, sun {sun_wh}, driving {driving_wh}; largest load: {largest}.{awake}",
    },
    remedy="Add battery or panels, use less of {largest}, drive more, or hook up sooner.",
    examples=(
        Example(_WEEKEND | {"wanted_d": 2}, "ok", "small weekend system: 3.4 days with no sun"),
        Example(_WEEKEND | {"wanted_d": 3.2}, "tight", "asked for almost all of it"),
        Example(_WEEKEND | {"use_wh": 576, "wanted_d": 2}, "tight", "exactly two days"),
        Example(
            _WEEKEND | {"month": "December", "use_wh": 900, "sun_wh": 180, "usable_wh": 2048, "wanted_d": 4},
            "fails",
            "400 W flat at 51° north in December: about 2.8 days",
        ),
        Example(
            _WEEKEND | {"month": "June", "use_wh": 900, "sun_wh": 1500, "usable_wh": 2048, "wanted_d": 4},
            "ok",
            "the same build in June lives from the sun",
        ),
        Example(
            _WEEKEND
            | {
                "use_wh": 460.8,
                "usable_wh": 640,
                "wanted_d": 3,
                "largest": "Inverter, awake without a load (461 Wh)",
                "awake": " Of that, the inverter itself takes 461 Wh: it is wired to stay on.",
            },
            "fails",
            "idle inverter, lead battery",
        ),
    ),
    follows=("panels-on-roof", "battery-cold-charge"),
    offers="battery",
)
