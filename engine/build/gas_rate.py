"""Gas that burns for hours on the coldest night, against what a cylinder can boil then; and the pipe it takes."""

from functools import lru_cache
from math import pi
from typing import NamedTuple

from engine.build.gas import propane_frac_of
from engine.build.habits import factor
from engine.build.mass_items import gas_content_kg
from engine.build.model import Build
from engine.build.warmth import WarmthFigures, gives_w
from engine.catalogue.facets import GasAppliance, GasLine, GasRegulator, GasStore, SpaceHeater, WaterHeater
from engine.physics.fuel import gas_gross_kwh_kg, gas_kwh_kg
from engine.physics.gas_pipe import DROP_KPA, least_bore_m, pipe_loss_kpa, pipe_w
from engine.physics.gas_rate import Cylinder, Rate, lying_wetted_m2, vapour_kg_h, wetted_m2
from engine.physics.gas_supply import FILLING_KG_L
from engine.physics.gas_vapour import FULL_FLOW_KPA, coldest_feed_degc, left_propane_frac

LEFT_FRAC = 0.3
"""Share of its gas at which a cylinder is looked at: fuller it gives more, emptier less (assumption)."""

LONG_H = 4.0
"""An appliance that burns so many hours a day draws on the cylinder without a break; the heat of liquid and steel
carries shorter ones (assumption)."""

SOME_KPA = 5.0
"""Pressure at which gas still comes at all, at 3 to 5 kPa behind the regulator (common practice)."""

MIX_KPA = 20.0
"""Inlet pressure that is enough for the small regulators which butane is used with (common practice)."""

FITTINGS_M = 2.0
"""Pipe up, down and round corners, over the way along the vehicle (assumption)."""


class GasRateFigures(NamedTuple):
    """The coldest night of a trip, at the cylinder."""

    store_ids: tuple[str, ...]
    burner_ids: tuple[str, ...]
    name: str
    """The store that gives most."""
    steady_kg_h: float
    """Burnt for hours on end that night."""
    short_kg_h: float
    """Burnt for a while, as a hob."""
    rate: Rate
    """What one cylinder gives without end, with its band."""
    full_rate: Rate
    left_propane_frac: float
    night_degc: float
    feeds_degc: float
    """Colder than this no gas comes at all."""
    propane_frac: float
    """Of the store when full."""
    propane_helps: bool
    """Whether propane would give gas that night."""
    cylinders_count: int
    """0 where a tank gives the gas."""
    known: bool = True
    """Whether it is known which gas it is: a label says so, or the region has one only."""

    @property
    def frozen(self) -> bool:
        """Whether no gas comes that night, from however many cylinders."""
        return self.night_degc < self.feeds_degc or not self.rate.high_kg_h


OUTLET_KPA = {"us": 11 * 0.249089, "eu": 3.0, "uk": 3.0, "au": 2.75}
"""Gas pressure behind the regulator by region: 11 inches of water (NFPA 1192), 30 mbar (EN 1949), 2.75 kPa (AS/NZS
5601.2); all from memory. Older European vehicles have 28/37 or 50 mbar."""

LOSS_KPA = {"us": DROP_KPA, "eu": 0.25, "uk": 0.25, "au": 0.25}
"""Loss from the regulator to the farthest appliance that is allowed: half an inch of water (International Fuel Gas
Code, table seen); 2.5 mbar and 0.25 kPa (European and Australian practice, from memory)."""

LEAST_LOSS_KPA = 0.02
"""A pipe is sized for no less than this; a hose that leaves less of what may be lost is too narrow itself."""

USUAL_BORE_M = 0.008
"""Bore of the 10 mm pipe that small conversions use (common practice)."""

SAME_KPA = 0.25
"""Pressures that differ by no more count as the same: appliances for 28 to 30 mbar are one kind (common practice)."""


class GasPipe(NamedTuple):
    """The run of pipe to the farthest appliance if it carried everything, with the regulator before it."""

    input_w: float
    """As plates state it, with the heat of condensed water."""
    length_m: float
    least_bore_m: float
    """That loses what the region allows and the hose leaves of it."""
    bore_m: float
    """As the catalogue states, else as usual."""
    stated: bool
    loss_kpa: float
    """In pipe and hose, 1 kPa standing for any more."""
    hose_kpa: float
    """Of that in the hose alone."""
    allowed_kpa: float
    burnt_kg_h: float
    """Everything at full flame at once."""
    regulator_ids: tuple[str, ...]
    regulator_kg_h: float | None
    """What the weakest regulator passes; None where none is stated."""
    outlet_kpa: float | None
    region_kpa: float
    odd_kpa: tuple[tuple[str, float], ...]
    """Appliances made for another pressure than the regulator gives, with theirs."""


@lru_cache(maxsize=512)
def cylinder_rates(
    full_kg: float, propane_frac: float, night_degc: float, lying: bool = False
) -> tuple[Rate, Rate, float, float]:
    """What a store of propane and butane gives on such a night: (three tenths full, full, propane in what is left then,
    colder than which no gas comes)."""
    left = left_propane_frac(propane_frac, 1 - LEFT_FRAC, night_degc)
    # Larger and smaller stores than the formula covers count as its ends.
    full_kg = min(60.0, max(0.25, full_kg))
    least_m2, most_m2 = _walls_m2(full_kg) if lying else (wetted_m2(Cylinder(full_kg), x) for x in (LEFT_FRAC, 1.0))
    need = FULL_FLOW_KPA if left >= 0.5 else MIX_KPA
    rate = vapour_kg_h(least_m2, night_degc, round(left, 6), need)
    full = vapour_kg_h(most_m2, night_degc, propane_frac, need)
    return rate, full, left, coldest_feed_degc(round(left, 6), SOME_KPA)


def _walls_m2(full_kg: float) -> tuple[float, float]:
    """Wetted walls of a lying tank, three times as long as wide, three tenths and wholly full (assumption)."""
    d = max(0.1, (4 * full_kg / FILLING_KG_L / 1000 / (3 * pi)) ** (1 / 3))
    return lying_wetted_m2(d, 3 * d, LEFT_FRAC * 0.8), lying_wetted_m2(d, 3 * d, 0.8)


def _burners(build: Build, warmth: WarmthFigures, propane_frac: float) -> tuple[float, float]:
    """(kg/h for hours on end, kg/h for a while) on the coldest night."""
    gross, net = 1000 * gas_gross_kwh_kg(propane_frac), 1000 * gas_kwh_kg(propane_frac)
    steady = short = 0.0
    for part, f in build.facets(GasAppliance):
        hours = min(24.0, f.hours_per_day_h * factor(build, f.habit))
        if hours >= LONG_H:
            # A thermostat spreads a fridge's many hours over the day; a fire burns full while it burns.
            steady += f.input_w * part.count / gross * (hours / 24 if hours > 12 else 1.0)
        elif hours > 0:
            short = max(short, f.input_w / gross)
    for part, h in build.facets(SpaceHeater):
        if h.fuel == "gas" and part.option.id in warmth.heater_ids:
            given = gives_w(build, h) * part.count * warmth.duty_frac(h, warmth.design_loss_w)
            steady += given / h.efficiency_frac / net
    for _, w in build.facets(WaterHeater):
        if w.energy == "gas":
            short = max(short, w.heat_w / w.efficiency_frac / net)
    return steady, short


def gas_rate_figures(build: Build, warmth: WarmthFigures) -> GasRateFigures | None:
    """None without gas aboard, or without anything that burns it."""
    stores = [(p, f, gas_content_kg(f)) for p, f in build.facets(GasStore)]
    if not stores:
        return None
    # One cylinder is in use, the others wait.
    part, store, content = max(stores, key=lambda x: (x[2], x[1].counted_propane_frac))
    steady, short = _burners(build, warmth, store.counted_propane_frac)
    if not steady and not short:
        return None
    night = warmth.design_degc
    rate, full, left, feeds = cylinder_rates(content, store.counted_propane_frac, night, store.container == "tank")
    return GasRateFigures(
        tuple(dict.fromkeys(p.option.id for p, _, _ in stores)),
        gas_burner_ids(build), part.option.name, steady, short, rate, full, left, night, feeds,
        store.counted_propane_frac, night >= coldest_feed_degc(1.0, FULL_FLOW_KPA),
        0 if store.container == "tank" else sum(p.count for p, f, _ in stores if f.container != "tank"),
        store.propane_frac is not None or build.workshop.region == "us",
    )  # fmt: skip


def gas_burner_ids(build: Build) -> tuple[str, ...]:
    """Options that burn gas."""
    found = [p.option.id for p, _ in build.facets(GasAppliance)]
    found += [p.option.id for p, f in build.facets(SpaceHeater) if f.fuel == "gas"]
    found += [p.option.id for p, f in build.facets(WaterHeater) if f.energy == "gas"]
    return tuple(dict.fromkeys(found))


def gas_pipe(build: Build) -> GasPipe | None:
    """The pipe from the store to the farthest appliance, as if it carried all that burns at once; None without both."""
    stores = build.facets(GasStore)
    # Plates count the heat of condensed water too, efficiencies of heaters do not: one kind of heat for all.
    frac = propane_frac_of(build)
    kwh_kg = gas_gross_kwh_kg(frac)
    gross = kwh_kg / gas_kwh_kg(frac)
    ends = [(p, f.input_w, f.gas_pressure_kpa) for p, f in build.facets(GasAppliance)]
    ends += [
        (p, gross * h.output_w / h.efficiency_frac, h.gas_pressure_kpa)
        for p, h in build.facets(SpaceHeater)
        if h.fuel == "gas"
    ]
    heaters = [(p, w) for p, w in build.facets(WaterHeater) if w.energy == "gas"]
    ends += [(p, gross * w.heat_w / w.efficiency_frac, w.gas_pressure_kpa) for p, w in heaters]
    if not stores or not ends:
        return None
    first, region = stores[0][0], build.workshop.region
    input_w = sum(w * p.count for p, w, _ in ends)
    length = max(abs(p.x_m - first.x_m) + abs(p.y_m - first.y_m) for p, _, _ in ends) + FITTINGS_M
    length, asked_w = min(60.0, length), min(5e5, max(100.0, input_w))
    lines, regulators = [f for _, f in build.facets(GasLine)], build.facets(GasRegulator)
    bore = min((f.bore_m for f in lines), default=USUAL_BORE_M)
    loss, hose = _loss_kpa(bore, length, asked_w), 0.0
    for f in lines[:1]:
        if f.hose_m:
            # The formula begins at a metre; a shorter hose loses its share of that.
            hose = min(1.0, f.hose_m) * _loss_kpa(f.hose_bore_m, max(1.0, f.hose_m), asked_w)
    outlet = min((r.outlet_kpa for _, r in regulators), default=None)
    odd = tuple((p.option.name, k) for p, _, k in ends if k and outlet and abs(k - outlet) > SAME_KPA)
    return GasPipe(
        input_w, length, _bore_m(length, asked_w, max(LEAST_LOSS_KPA, LOSS_KPA[region] - hose)), bore, bool(lines),
        min(1.0, loss + hose), min(1.0, hose), LOSS_KPA[region],
        input_w / 1000 / kwh_kg, build.ids(GasRegulator),
        min((r.capacity_kg_h or (r.passes_heat_w or 0) / 1000 / kwh_kg for _, r in regulators), default=None),
        outlet, OUTLET_KPA[region], odd,
    )  # fmt: skip


@lru_cache(maxsize=512)
def _loss_kpa(bore_m: float, length_m: float, input_w: float) -> float:
    most = 1.0
    return most if input_w >= pipe_w(bore_m, length_m, most) else pipe_loss_kpa(bore_m, length_m, input_w)


@lru_cache(maxsize=512)
def _bore_m(length_m: float, input_w: float, loss_kpa: float) -> float:
    return least_bore_m(length_m, input_w, loss_kpa)
