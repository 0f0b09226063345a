"""Gas that burns for hours on the coldest night, against what a cylinder can boil then; and the pipe it takes."""

from functools import lru_cache
from typing import NamedTuple

from engine.build.habits import factor
from engine.build.mass_items import gas_content_kg
from engine.build.model import Build
from engine.build.warmth import WarmthFigures
from engine.catalogue.facets import GasAppliance, GasStore, SpaceHeater, WaterHeater
from engine.physics.fuel import gas_gross_kwh_kg, gas_kwh_kg
from engine.physics.gas_pipe import least_bore_m
from engine.physics.gas_rate import Cylinder, Rate, vapour_kg_h, wetted_m2
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


class GasPipe(NamedTuple):
    """The run of pipe to the farthest appliance if it carried everything."""

    input_w: float
    length_m: float
    least_bore_m: float


@lru_cache(maxsize=512)
def _rates(full_kg: float, propane_frac: float, night_degc: float) -> tuple[Rate, Rate, float, float]:
    left = left_propane_frac(propane_frac, 1 - LEFT_FRAC, night_degc)
    # Larger and smaller stores than the formula covers count as its ends.
    cylinder = Cylinder(min(60.0, max(0.25, full_kg)))
    need = FULL_FLOW_KPA if left >= 0.5 else MIX_KPA
    rate = vapour_kg_h(wetted_m2(cylinder, LEFT_FRAC), night_degc, round(left, 6), need)
    full = vapour_kg_h(wetted_m2(cylinder, 1.0), night_degc, propane_frac, need)
    return rate, full, left, coldest_feed_degc(round(left, 6), SOME_KPA)


def _burners(build: Build, warmth: WarmthFigures, propane_frac: float) -> tuple[float, float]:
    """(kg/h for hours on end, kg/h for a while) on the coldest night."""
    gross, net = 1000 * gas_gross_kwh_kg(propane_frac), 1000 * gas_kwh_kg(propane_frac)
    steady = short = 0.0
    for part, f in build.facets(GasAppliance):
        hours = f.hours_per_day_h * factor(build, f.habit)
        if hours >= LONG_H:
            # A thermostat spreads a fridge's many hours over the day; a fire burns full while it burns.
            steady += f.input_w * part.count / gross * (hours / 24 if hours > 12 else 1.0)
        elif hours > 0:
            short = max(short, f.input_w / gross)
    for part, h in build.facets(SpaceHeater):
        if h.fuel == "gas" and h.role != "spot" and warmth.output_w:
            given = h.output_w * part.count * min(1.0, warmth.design_loss_w / warmth.output_w)
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
    part, store, content = max(stores, key=lambda x: (x[2], x[1].propane_frac))
    steady, short = _burners(build, warmth, store.propane_frac)
    if not steady and not short:
        return None
    night = warmth.design_degc
    rate, full, left, feeds = _rates(content, store.propane_frac, night)
    return GasRateFigures(
        tuple(dict.fromkeys(p.option.id for p, _, _ in stores)),
        gas_burner_ids(build), part.option.name, steady, short, rate, full, left, night, feeds,
    )  # fmt: skip


def gas_burner_ids(build: Build) -> tuple[str, ...]:
    """Options that burn gas."""
    found = [p.option.id for p, _ in build.facets(GasAppliance)]
    found += [p.option.id for p, f in build.facets(SpaceHeater) if f.fuel == "gas"]
    found += [p.option.id for p, f in build.facets(WaterHeater) if f.energy == "gas"]
    return tuple(dict.fromkeys(found))


def gas_pipe(build: Build) -> GasPipe | None:
    """The pipe from the store to the farthest appliance, as if it carried all that burns at once; None without both."""
    stores = [p for p, _ in build.facets(GasStore)]
    ends = [(p, f.input_w) for p, f in build.facets(GasAppliance)]
    ends += [(p, f.output_w / f.efficiency_frac) for p, f in build.facets(SpaceHeater) if f.fuel == "gas"]
    ends += [(p, f.heat_w / f.efficiency_frac) for p, f in build.facets(WaterHeater) if f.energy == "gas"]
    if not stores or not ends:
        return None
    input_w = sum(w * p.count for p, w in ends)
    length = max(abs(p.x_m - s.x_m) + abs(p.y_m - s.y_m) for p, _ in ends for s in stores[:1]) + FITTINGS_M
    return GasPipe(input_w, length, _bore_m(min(60.0, length), min(5e5, max(100.0, input_w))))


@lru_cache(maxsize=512)
def _bore_m(length_m: float, input_w: float) -> float:
    return least_bore_m(length_m, input_w)
