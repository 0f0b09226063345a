"""The heater is not far too large for mild weather.

A burner cannot go below its least output. When the vehicle needs much less, it starts and stops all night, and a diesel
burner that hardly runs soots up. How often follows from what air and lining store between the thermostat's two
temperatures, and no burner does so faster than it lights and its fan runs on. Months whose mean is below the wanted
warmth less 6 K are heated; in milder ones whose usual nights are as cold as that the coldest night counts.
"""

from math import inf

from pydantic import Field

from engine import cautions
from engine.build import Build, Figures
from engine.build.warm_room import AFTER_RUN_S, THERMOSTAT_K
from engine.physics.room_heat import Room, room_of
from engine.physics.warm_up import cycle_h
from engine.rule import COMMON_PRACTICE, EXACT, JUST_ENOUGH, AtLeast, Example, Inputs, Rule, Softened, fact
from engine.units import System, show

LEAST_DUTY_FRAC = 0.5
"""Share of its least output below which a burner starts and stops often."""

LEAST_LIGHTING_WH = 20.0
"""From so much a day on it is worth a word what lighting takes."""


class Mild(Inputs):
    """Need on a mild day against the heater's least output."""

    outside_degc: float = fact("mean of the mildest heated month, or coldest night of milder ones", "catalogue")
    need_heat_w: float = fact("heat lost then", "computed", ge=0)
    starts_count: int = fact("starts in an hour; 0: hardly one, or not known", "computed", ge=0)
    lighting_wh: float = fact("taken from the battery in such a day for starts alone", "computed", ge=0, default=0.0)
    least_heat_w: float = fact("least steady output of the heater", "catalogue", gt=0)
    lighting: str = Field(default="", description="what to say of that, with its space before it")

    @property
    def runs(self) -> str:
        """How it runs then, where that is often enough."""
        through = self.need_heat_w >= self.least_heat_w * (1 - EXACT)
        return "runs through" if through else "stops at times and runs at least half of the time"


def _lighting(lighting_wh: float, units: System) -> str:
    """What to say of what starts take."""
    if lighting_wh < LEAST_LIGHTING_WH:
        return ""
    some = show(lighting_wh, "wh", units)
    return f" Lighting takes some {some} a day from the battery then, over what its sums count for heating."


def read(build: Build, figures: Figures) -> Mild | None:
    """Nothing to ask without a heater that has a least output, or in months that need no heat."""
    w = figures.warmth
    if not w.min_output_w or not w.mild_loss_w:
        return None
    every_h, start_wh = (figures.warm_up.cycle_h, figures.warm_up.start_wh) if figures.warm_up else (inf, 0.0)
    lighting_wh, often = 24 / every_h * start_wh, w.mild_loss_w < LEAST_DUTY_FRAC * w.min_output_w
    return Mild(
        options=w.heater_ids, outside_degc=w.mild_degc, need_heat_w=w.mild_loss_w, least_heat_w=w.min_output_w,
        starts_count=round(1 / every_h), lighting_wh=lighting_wh,
        lighting=_lighting(lighting_wh, build.workshop.units) if often else "",
    )  # fmt: skip


_VAN, _BUS = room_of(43.2, 7.0, 60, 15, 40, 250, 80), room_of(120.0, 20.0, 160, 60, 70, 900, 150)


def judge(x: Mild) -> Softened:
    """Half the least output is still fair; below it is worth knowing, no more."""
    return Softened(AtLeast(x.need_heat_w, LEAST_DUTY_FRAC * x.least_heat_w, "heat_w", tight_from=JUST_ENOUGH), "tight")


def _mild(outside_degc: float, need_w: float, least_w: float, room: Room = _VAN) -> dict[str, float]:
    """A diesel heater that takes 3 min to light, at 80 W more than it takes running."""
    every_h = cycle_h(room, THERMOSTAT_K, need_w, least_w, (180 + AFTER_RUN_S) / 3600)
    return {
        "outside_degc": outside_degc, "need_heat_w": need_w, "least_heat_w": least_w,
        "starts_count": round(1 / every_h), "lighting_wh": 24 / every_h * 80 * 180 / 3600,
    }  # fmt: skip


RULE = Rule(
    code="heater-too-large",
    title="Heating in mild weather",
    topic="warmth",
    category="comfort",
    inputs=Mild,
    read=read,
    judge=judge,
    formula="heat loss at the mildest heated month's mean, or on a mild trip's coldest night ≥ 50 % of the heater's "
    "least output",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "At {outside_degc} outside {measured:# is|# are} needed; the least steady output of the heater is "
        "{least_heat_w}, so it {runs}.",
        "tight": "At {outside_degc} outside only {measured:# is|# are} needed; the heater cannot go below "
        "{least_heat_w} and will start and stop{starts_count:|, once an hour|, # times an hour}.{lighting}",
    },
    remedy="Choose a smaller heater, or one that turns further down.",
    examples=lambda: (
        Example(_mild(10, 493, 1500), "tight", "a 5 kW heater on a mild day: a third of its least output"),
        Example(_mild(2, 1146, 3500, _BUS), "tight", "an 8 kW heater in May: too much even for its coldest night"),
        Example(_mild(10, 750, 1500), "ok", "exactly half"),
        Example(_mild(-7, 1600, 1500), "ok", "in the cold it runs through"),
    ),
    offers="space-heater",
    caution=cautions.CARBON_MONOXIDE,
)
