"""The heater is not far too large for mild weather.

A burner cannot go below its least output. When the vehicle needs much less, it starts and stops all night, and a diesel
burner that hardly runs soots up. Months whose mean is below 12 °C are heated; in milder ones whose usual nights are as
cold as that the coldest night counts.
"""

from math import inf

from engine import cautions
from engine.build import Build, Figures
from engine.build.warm_room import THERMOSTAT_K
from engine.physics.warm_up import cycle_h
from engine.rule import COMMON_PRACTICE, EXACT, JUST_ENOUGH, AtLeast, Example, Inputs, Rule, Softened, fact

LEAST_DUTY_FRAC = 0.5
"""Share of its least output below which a burner starts and stops often."""


class Mild(Inputs):
    """Need on a mild day against the heater's least output."""

    outside_degc: float = fact("mean of the mildest heated month, or coldest night of milder ones", "catalogue")
    need_heat_w: float = fact("heat lost then", "computed", ge=0)
    starts_count: int = fact("starts in an hour; 0: none or not known", "computed", ge=0)
    least_heat_w: float = fact("least steady output of the heater", "catalogue", gt=0)

    @property
    def runs(self) -> str:
        """How it runs then, where that is often enough."""
        through = self.need_heat_w >= self.least_heat_w * (1 - EXACT)
        return "runs through" if through else "stops at times and runs at least half of the time"


def read(build: Build, figures: Figures) -> Mild | None:
    """Nothing to ask without a heater that has a least output, or in months that need no heat."""
    w = figures.warmth
    if not w.min_output_w or not w.mild_loss_w:
        return None
    every_h = figures.warm_up.cycle_h if figures.warm_up else inf
    return Mild(
        options=w.heater_ids, outside_degc=w.mild_degc, need_heat_w=w.mild_loss_w, least_heat_w=w.min_output_w,
        starts_count=round(1 / every_h),
    )  # fmt: skip


def judge(x: Mild) -> Softened:
    """Half the least output is still fair; below it is worth knowing, no more."""
    return Softened(AtLeast(x.need_heat_w, LEAST_DUTY_FRAC * x.least_heat_w, "heat_w", tight_from=JUST_ENOUGH), "tight")


def _mild(outside_degc: float, need_w: float, least_w: float, air_wh_k: float = 23.0) -> dict[str, float]:
    """A room whose air and light things store so much heat."""
    return {
        "outside_degc": outside_degc, "need_heat_w": need_w, "least_heat_w": least_w,
        "starts_count": round(1 / cycle_h(air_wh_k, THERMOSTAT_K, need_w, least_w)),
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
        "{least_heat_w} and will start and stop{starts_count:|, once an hour|, # times an hour}.",
    },
    remedy="Choose a smaller heater, or one that turns further down.",
    examples=lambda: (
        Example(_mild(10, 493, 1500), "tight", "a 5 kW heater on a mild day: a third of its least output"),
        Example(_mild(2, 1146, 3500, 130.0), "tight", "an 8 kW heater in May: too much even for its coldest night"),
        Example(_mild(10, 750, 1500), "ok", "exactly half"),
        Example(_mild(-7, 1600, 1500), "ok", "in the cold it runs through"),
    ),
    offers="space-heater",
    caution=cautions.CARBON_MONOXIDE,
)
