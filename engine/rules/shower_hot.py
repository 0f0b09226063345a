"""The water heater's store gives a warm shower as long as wanted.

Hot water from the store is mixed with cold to 38 °C (100 °F). How much comes out warm depends on how far cold water
mixes with hot inside, so the minutes have a wide band: a small round store lies near its middle.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.water import COLD_DEGC
from engine.catalogue.facets import Battery, Pump, WaterHeater
from engine.physics.hot_water import SKIN_DEGC, heat_up_wh, shower_minutes
from engine.rule import COMMON_PRACTICE, AtLeast, Example, Holds, Inputs, Rule, Softened, Source, fact, listed

AGAIN = {
    "engine": "It warms up while the engine runs.",
    "battery": "It heats from the battery.",
    "mains": "It heats through the inverter.",
    "gas": "It burns gas.",
    "diesel": "It burns diesel.",
}
"""Where the next filling's heat comes from."""


class Shower(Inputs):
    """A store's warm water against one shower."""

    name: str = fact("water heater", "chosen")
    why_not: str = fact("why no water is warm", "computed", default="")
    store_l: float = fact("hot water in store", "catalogue", ge=0)
    hot_degc: float = fact("temperature of the store", "catalogue")
    cold_degc: float = fact("cold of the water from the tank", "assumed", default=COLD_DEGC)
    skin_degc: float = fact("warmth of the water at the shower", "assumed", default=SKIN_DEGC)
    flow_l_min: float = fact("flow of the shower", "catalogue", gt=0)
    put_in_heat_w: float = fact("heat put in meanwhile", "catalogue", default=0.0, ge=0)
    low_minutes: float = fact("minutes of warm water when the store mixes fully", "computed", ge=0)
    high_minutes: float = fact("minutes of warm water when it does not mix", "computed", ge=0)
    wanted_minutes: float = fact("minutes of one shower", "chosen", gt=0)
    again_h: float = fact("hours to heat a cold filling", "computed", ge=0)
    source: str = fact("where the heat comes from", "catalogue")


def read(build: Build, figures: Figures) -> Shower | None:
    """The store that lasts longest; nothing to ask without a shower inside, or without anybody who wants one."""
    hot = figures.hot_water
    if not hot.shower_ids or not build.trip.showers_per_day:
        return None
    usual = {"flow_l_min": figures.water.shower_flow_l_min, "wanted_minutes": build.trip.shower_minutes}
    none = {"store_l": 0, "hot_degc": COLD_DEGC, "low_minutes": 0, "high_minutes": 0, "again_h": 0, "source": ""}
    if (hot.stores or hot.instants) and build.facets(Pump) and not build.facets(Battery):
        return None  # no water comes at all, which another rule says
    if hot.stores:
        best = max(hot.stores, key=lambda s: s.high_minutes)
        return Shower(
            options=(best.option_id, *hot.shower_ids),
            name=best.name,
            store_l=best.volume_l,
            hot_degc=best.hot_degc,
            put_in_heat_w=best.heat_w,
            low_minutes=round(best.low_minutes, 1),
            high_minutes=round(best.high_minutes, 1),
            again_h=best.heat_up_h,
            source=AGAIN[best.energy],
            **usual,
        )
    if hot.instants:
        return None
    if hot.hookup_only:
        why = f"Away from a hook-up the shower is cold: {listed(hot.hookup_only)}."
        return Shower(options=build.ids(WaterHeater), name=listed(hot.hookup_only), why_not=why, **none, **usual)
    if hot.sourceless:
        names, source = listed(name for name, _ in hot.sourceless), hot.sourceless[0][1]
        why = f"The shower is cold, for {source}, which feeds this, is not chosen: {names}."
        return Shower(options=build.ids(WaterHeater), name=names, why_not=why, **none, **usual)
    if hot.lifeless:
        why = f"The shower is cold, for without a house battery this does not run: {listed(hot.lifeless)}."
        return Shower(options=build.ids(WaterHeater), name=listed(hot.lifeless), why_not=why, **none, **usual)
    if hot.undriven:
        little = "so little driving does not warm it" if build.trip.driving_h else "no driving of the trip warms it"
        why = f"The shower is cold, for {little}: {listed(hot.undriven)}."
        return Shower(options=build.ids(WaterHeater), name=listed(hot.undriven), why_not=why, **none, **usual)
    why = "No water heater is chosen, so the shower is cold."
    return Shower(options=hot.shower_ids, lacks="water-heater", name="none", why_not=why, **none, **usual)


def judge(x: Shower) -> AtLeast | Softened | Holds:
    """Most stores lie near the middle of their band; it fails only where even one that does not mix would run out."""
    if x.why_not:
        return Holds(False, "note")
    if x.high_minutes < x.wanted_minutes:
        return AtLeast(x.high_minutes, x.wanted_minutes, "minutes")
    return Softened(AtLeast((x.low_minutes + x.high_minutes) / 2, x.wanted_minutes, "minutes"), "tight")


def _ten(wanted_minutes: float = 0.0) -> dict[str, str | float]:
    """Ten litres at 60 °C, heated by 1.5 kW, under a head of 4 L/min; by default as long as the middle of its band."""
    low, high = (round(x, 1) for x in shower_minutes(10.0, 60.0, COLD_DEGC, 4.0, 1500.0))
    return {
        "name": "Boiler", "store_l": 10, "hot_degc": 60, "put_in_heat_w": 1500, "flow_l_min": 4,
        "low_minutes": low, "high_minutes": high, "again_h": heat_up_wh(10.0, COLD_DEGC, 60.0) / 1500.0,
        "wanted_minutes": wanted_minutes or (low + high) / 2, "source": AGAIN["gas"],
    }  # fmt: skip


RULE = Rule(
    code="shower-hot",
    title="Minutes of warm shower",
    topic="water",
    category="comfort",
    inputs=Shower,
    read=read,
    judge=judge,
    formula="minutes = V·(θ_hot − 38 °C … 10 °C) / (28 K · flow − heat put in / 1.163 Wh/(L·K))",
    sources=(Source("Heat balance of mixing", "any text on heat"), COMMON_PRACTICE),
    says={
        "ok": "{name}: warm shower for {low_minutes} to {high_minutes} minutes at {flow_l_min}; {limit:# is|# are} "
        "wanted. The next filling is hot after {again_h}. {source}",
        "tight": "{name}: warm shower for {low_minutes} to {high_minutes} minutes at {flow_l_min}, close to the "
        "{limit} wanted. The next filling is hot after {again_h}. {source}",
        "fails": "{name}: the shower turns lukewarm after {low_minutes} to {high_minutes} minutes at {flow_l_min}, "
        "before the {limit} wanted. The next filling is hot after {again_h}. {source}",
        "note": "{why_not}",
    },
    remedy="Shower shorter, choose a head that lets through less, or a larger store.",
    examples=lambda: (
        Example(_ten(2), "ok", "two minutes under a sparing head"),
        Example(_ten(), "tight", "exactly the middle of the band"),
        Example(_ten(5.5), "tight", "it depends on how the store mixes"),
        Example(_ten(8), "fails", "a long shower from a small store"),
        Example(
            {
                "name": "none",
                "store_l": 0,
                "hot_degc": COLD_DEGC,
                "flow_l_min": 4,
                "low_minutes": 0,
                "high_minutes": 0,
                "again_h": 0,
                "source": "",
                "wanted_minutes": 3,
                "why_not": "No water heater is chosen, so the shower is cold.",
            },
            "note",
            "a shower and no heater",
        ),
    ),
    offers="water-heater",
    caution=cautions.SCALDING,
)
