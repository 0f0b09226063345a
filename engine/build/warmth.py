"""Heat loss of the living space and the heaters against it."""

from typing import NamedTuple

from engine.build.habits import HALF_DAY_K, altitude_m, coldest_degc, heating_from_degc, month_means
from engine.build.model import Build, Part
from engine.build.shell import SurfaceLoss, shell_losses
from engine.build.standstill import heater_stands_still, without_source
from engine.catalogue.facets import GasAppliance, SpaceHeater
from engine.physics.fixed_vents import FLAME_AIR_M3_KG, FLUE_AIR_M3_KWH
from engine.physics.fuel import gas_gross_kwh_kg, gas_kg, gas_kwh_kg, thin_air_frac
from engine.physics.heat import air_loss_w_k, balance_degc

FRESH_AIR_M3_H = 14.4
"""Fresh air for each sleeper: 4 L/s (EN 16798-1, category III; figure from memory)."""

LIVING_FURNITURE_FRAC = 0.75
"""Share of the cabin's bare volume that is air (assumption: furniture takes a quarter)."""


def living_air_m3(build: Build) -> float:
    """Air of the living space, furniture taken off."""
    cabin = build.vehicle.cabin
    return cabin.length_m * cabin.width_m * cabin.height_m * LIVING_FURNITURE_FRAC


def heat_wanted_w(build: Build, total_w_k: float, mean_degc: float) -> float:
    """Heat that holds the wanted warmth in a shell that loses so much; none in weather in which nobody heats."""
    cold = mean_degc < heating_from_degc(build.trip)
    return max(0.0, total_w_k * (build.trip.inside_degc - mean_degc)) if cold else 0.0


class Uncounted(NamedTuple):
    """A heater that does not count, and why."""

    option_id: str
    name: str
    why: str


NEEDS_BATTERY = "needs a house battery to run"
NEEDS_SOURCE = "is a branch of {source}, which is not chosen"
COMFORT = "is a comfort beside another heater"


class WarmthFigures(NamedTuple):
    """Heat loss and heaters."""

    surfaces: tuple[SurfaceLoss, ...]
    air_m3_h: float
    """For people, through leaks or up a flue, whichever is most."""
    flame_m3_h: float
    """On top of that for flames without a flue, as they burn on the coldest night. Not for hobs, which bring more
    warmth than their air takes."""
    air_loss_w_k: float
    """With both."""
    total_w_k: float
    low_w_k: float
    high_w_k: float
    design_degc: float
    design_loss_w: float
    output_w: float
    burning_w: float
    """Of that by what burns fuel, which heats first; the battery makes what is then lacking."""
    floors_comfort: bool
    """Floors warmed from the battery are a comfort beside another heater, and do not count."""
    mild_heater: SpaceHeater | None
    """Of several heaters the one which would run in the mild."""
    held_degc: float | None
    """Coldest night at which the wanted warmth is held, told no lower than the coldest of the year; None without a
    heater."""
    year_coldest_degc: float
    """Coldest hour of the place's typical year."""
    mild_loss_w: float
    """Loss at the mean temperature of the mildest chosen month in which heating is wanted; where only usual nights
    want it, on the coldest night; else 0."""
    mild_degc: float
    mean_heat_wh_d: float
    """Heat on a mean day of the coldest chosen month."""
    heater_ids: tuple[str, ...]
    uncounted: tuple[Uncounted, ...]
    """Heaters that are no help on the coldest night."""

    @property
    def min_output_w(self) -> float:
        """Least steady output of the heater which would run in the mild."""
        return self.mild_heater.min_output_w if self.mild_heater else 0.0

    @property
    def for_battery(self) -> bool:
        """A house battery would run a heater that stands still without one."""
        return any(u.why == NEEDS_BATTERY for u in self.uncounted)

    def turn_w(self, heater: SpaceHeater) -> tuple[float, float]:
        """(heat wanted from which on heaters like this one come on, what they all give then at most)."""
        return (0.0, self.burning_w) if heater.burns else (self.burning_w, self.output_w - self.burning_w)

    def duty_frac(self, heater: SpaceHeater, need_w: float) -> float:
        """Share of their output that heaters like this one give while so much heat is wanted."""
        first_w, own_w = self.turn_w(heater)
        return min(1.0, max(0.0, need_w - first_w) / own_w) if own_w > 0 else 0.0

    def comforts(self, heater: SpaceHeater) -> bool:
        """Whether somebody switches it on for a while, on the battery, and something else heats."""
        return heater.fuel == "battery" and (heater.role == "spot" or (heater.role == "floor" and self.floors_comfort))


def _no_help(build: Build, part: Part, heater: SpaceHeater) -> str:
    """Why a heater does not count on the coldest night; empty when it does."""
    if source := without_source(build, part):
        return NEEDS_SOURCE.format(source=source)
    if heater.fuel == "mains":
        return "runs on a hook-up only"
    if heater_stands_still(build, heater):
        return NEEDS_BATTERY
    return "warms one spot" if heater.role == "spot" else ""


def _heats(heater: SpaceHeater) -> bool:
    """Of heaters that count: whether floors warmed from the battery are a comfort beside it."""
    return heater.role == "main" or heater.burns


def gives_w(build: Build, heater: SpaceHeater) -> float:
    """Heat that a heater gives at the place: a gas burner less in thin air, others as stated."""
    return heater.output_w * (thin_air_frac(altitude_m(build)) if heater.fuel == "gas" else 1.0)


def _burners_air_m3_h(build: Build, need_w: float) -> tuple[float, float]:
    """Room air that goes up open flues, and air that flames without a flue need, where so much heat is wanted."""
    flue = flame = 0.0
    for p, f in build.facets(SpaceHeater):
        burnt_w = min(gives_w(build, f) * p.count, need_w) / f.efficiency_frac
        if f.flue == "none" and f.fuel == "gas":
            flame += gas_kg(burnt_w, gas_kwh_kg(1.0)) * FLAME_AIR_M3_KG
        elif f.burns and f.flue in ("open-flued", "none"):
            flue += burnt_w / 1000 * FLUE_AIR_M3_KWH
    for p, a in build.facets(GasAppliance):
        burnt_w = a.input_w * p.count
        if a.outdoors or a.habit == "cooking":
            continue
        if a.flue == "none":
            flame += gas_kg(burnt_w * a.hours_per_day_h / 24, gas_gross_kwh_kg(1.0)) * FLAME_AIR_M3_KG
        elif a.flue == "open-flued":
            flue += burnt_w / 1000 * FLUE_AIR_M3_KWH
    return min(500.0, flue), min(1000.0, flame)


def _mild_heater(build: Build, heaters: list[tuple[Part, SpaceHeater]], mild_w: float) -> SpaceHeater | None:
    """Of main heaters that alone give what a mild day wants the one that turns down furthest runs; else all do, and the
    one whose least is most tells."""
    main = [f for _, f in heaters if f.role == "main"] or [f for _, f in heaters]
    able = [f for f in main if gives_w(build, f) >= mild_w]
    if able:
        return min(able, key=lambda f: f.min_output_w)
    return max(main, key=lambda f: f.min_output_w, default=None)


def warmth_figures(build: Build) -> WarmthFigures:
    """Heat loss by surface at the coldest night of the trip, and what the heaters hold."""
    surfaces = shell_losses(build)
    low_w_k, high_w_k = sum(s.low_w_k for s in surfaces), sum(s.high_w_k for s in surfaces)
    leak_m3_h = build.vehicle.shell.air_changes_per_hour * living_air_m3(build)
    altitude, inside, design = altitude_m(build), build.trip.inside_degc, coldest_degc(build)
    still_m3_h = max(leak_m3_h, FRESH_AIR_M3_H * build.trip.people)
    still_w_k = sum(s.loss_w_k for s in surfaces) + air_loss_w_k(still_m3_h, altitude)
    flue_m3_h, flame_m3_h = _burners_air_m3_h(build, max(0.0, still_w_k * (inside - design)))
    air_m3_h = max(still_m3_h, flue_m3_h)
    air_w_k = air_loss_w_k(min(2000.0, air_m3_h + flame_m3_h), altitude)
    total_w_k = sum(s.loss_w_k for s in surfaces) + air_w_k
    whys = [(p, f, _no_help(build, p, f)) for p, f in build.facets(SpaceHeater)]
    comfort = any(_heats(f) for _, f, why in whys if not why)
    whys = [(p, f, why or (COMFORT if comfort and not _heats(f) else "")) for p, f, why in whys]
    heaters = [(p, f) for p, f, why in whys if not why]
    output_w = sum(gives_w(build, f) * p.count for p, f in heaters)
    year_coldest = min(build.climate.coldest_night_degc)
    means = [t for t in month_means(build) if t < heating_from_degc(build.trip)]
    # In milder months usual nights may still be as cold as that: the coldest of them is what asks most of a heater.
    nightly = min(month_means(build)) - HALF_DAY_K < heating_from_degc(build.trip)
    mild = max(means, default=min(inside, design) if nightly else inside)
    mild_loss_w = max(0.0, total_w_k * (inside - mild))
    return WarmthFigures(
        surfaces=surfaces,
        air_m3_h=air_m3_h,
        flame_m3_h=flame_m3_h,
        air_loss_w_k=air_w_k,
        total_w_k=total_w_k,
        # The same sum in another order can come out a rounding error apart.
        low_w_k=min(total_w_k, low_w_k + air_loss_w_k(min(2000.0, leak_m3_h + flame_m3_h), altitude)),
        high_w_k=max(total_w_k, high_w_k + air_w_k),
        design_degc=design,
        design_loss_w=max(0.0, total_w_k * (inside - design)),
        output_w=output_w,
        burning_w=sum(gives_w(build, f) * p.count for p, f in heaters if f.burns),
        floors_comfort=comfort,
        mild_heater=_mild_heater(build, heaters, mild_loss_w),
        held_degc=max(year_coldest, balance_degc(inside, output_w, total_w_k)) if output_w else None,
        year_coldest_degc=year_coldest,
        mild_loss_w=mild_loss_w,
        mild_degc=mild,
        mean_heat_wh_d=24 * heat_wanted_w(build, total_w_k, min(month_means(build))),
        heater_ids=tuple(p.option.id for p, _ in heaters),
        uncounted=tuple(Uncounted(p.option.id, p.option.name, why) for p, _, why in whys if why),
    )
