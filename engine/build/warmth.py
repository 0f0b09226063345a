"""Heat loss of the living space and the heaters against it."""

from functools import lru_cache
from typing import NamedTuple

from engine.build.habits import HEATING_FROM_DEGC, coldest_degc, month_means
from engine.build.model import Build
from engine.build.resolve import surface_m2
from engine.catalogue.facets import Door, InsulationLayer, SpaceHeater, Trim, Window
from engine.physics.heat import (
    METAL_RIB_FACTOR,
    SURFACE_INSIDE_M2K_W,
    Layer,
    air_loss_w_k,
    balance_degc,
    u_value,
)

FRESH_AIR_M3_H = 14.4
"""Fresh air for each sleeper: 4 L/s (EN 16798-1, category III; figure from memory)."""

LIVING_FURNITURE_FRAC = 0.75
"""Share of the cabin's bare volume that is air (assumption: furniture takes a quarter)."""


class SurfaceLoss(NamedTuple):
    """One part of the shell with the heat it loses per kelvin."""

    name: str
    area_m2: float
    u_w_m2k: float
    loss_w_k: float


class Uncounted(NamedTuple):
    """A heater that does not count, and why."""

    option_id: str
    name: str
    why: str


class WarmthFigures(NamedTuple):
    """Heat loss and heaters."""

    surfaces: tuple[SurfaceLoss, ...]
    air_m3_h: float
    air_loss_w_k: float
    total_w_k: float
    low_w_k: float
    high_w_k: float
    design_degc: float
    design_loss_w: float
    output_w: float
    min_output_w: float
    held_degc: float | None
    """Coldest night at which the wanted warmth is held, told no lower than the coldest of the year; None without a
    heater."""
    year_coldest_degc: float
    """Coldest hour of the place's typical year."""
    mild_loss_w: float
    """Loss at the mean temperature of the mildest chosen month in which heating is wanted at all, else 0."""
    mild_degc: float
    mean_heat_wh_d: float
    """Heat on a mean day of the coldest chosen month."""
    heater_ids: tuple[str, ...]
    uncounted: tuple[Uncounted, ...]
    """Heaters that are no help on the coldest night."""
    has_insulation: bool


@lru_cache(maxsize=2048)
def _surface(
    name: str, gross_m2: float, openings_m2: float, layers: tuple[Layer, ...], ribs: bool
) -> tuple[SurfaceLoss, float, float]:
    u = u_value(layers, SURFACE_INSIDE_M2K_W[name])
    factor = METAL_RIB_FACTOR if ribs else 1.0
    net_m2 = max(0.0, gross_m2 - openings_m2)
    # Without a look at the ribs themselves the truth lies between none at all and a rib through everything.
    low, high = (u.low_w_m2k, u.high_w_m2k * factor) if ribs else (u.low_w_m2k, u.high_w_m2k)
    return SurfaceLoss(name, net_m2, u.u_w_m2k * factor, net_m2 * u.u_w_m2k * factor), net_m2 * low, net_m2 * high


def _layers(build: Build, surface: str) -> tuple[Layer, ...]:
    bare = [Layer(x.thickness_m, x.conductivity_w_mk) for x in build.vehicle.shell.layers if surface in x.surfaces]
    insulation = [
        Layer(f.thickness_m * p.count, f.conductivity_w_mk, f.framing_frac, f.framing_conductivity_w_mk)
        for p, f in build.facets(InsulationLayer)
        if surface in f.surfaces
    ]
    trims = [
        Layer(f.thickness_m, f.conductivity_w_mk)
        for _, f in build.facets(Trim)
        if surface in f.surfaces and f.coverage_frac > 0.5
    ]
    return tuple(bare + insulation + trims)


def _openings(build: Build) -> list[tuple[str, str, float, float]]:
    """(surface, name, area, U-value) of every window and door, the bare body's own first."""
    found: list[tuple[str, str, float, float]] = [
        (w.surface, w.name, w.area_m2, w.u_value_w_m2k) for w in build.vehicle.shell.windows
    ]
    found += [
        (str(f.surface), p.option.name, f.width_m * f.height_m * p.count, f.u_value_w_m2k)
        for p, f in build.facets(Window)
    ]
    found += [
        ("walls", p.option.name, f.width_m * f.height_m * p.count, f.u_value_w_m2k) for p, f in build.facets(Door)
    ]
    return found


def _no_help(heater: SpaceHeater) -> str:
    """Why a heater does not count on the coldest night; empty when it does."""
    if heater.fuel == "mains":
        return "runs on a hook-up only"
    return "warms one spot" if heater.role == "spot" else ""


def warmth_figures(build: Build) -> WarmthFigures:
    """Heat loss by surface at the coldest night of the trip, and what the heaters hold."""
    openings = _openings(build)
    surfaces: list[SurfaceLoss] = []
    low_w_k = high_w_k = 0.0
    for name in ("walls", "roof", "floor"):
        cut_m2 = sum(area for surface, _, area, _ in openings if surface == name)
        ribs = build.vehicle.shell.metal_ribs and name != "floor"
        loss, low, high = _surface(name, surface_m2(build.vehicle, name), cut_m2, _layers(build, name), ribs)
        surfaces.append(loss)
        low_w_k += low
        high_w_k += high
    for _, name, area, u in openings:
        surfaces.append(SurfaceLoss(name, area, u, area * u))
        low_w_k += area * u
        high_w_k += area * u
    cabin = build.vehicle.cabin
    volume_m3 = cabin.length_m * cabin.width_m * cabin.height_m * LIVING_FURNITURE_FRAC
    leak_m3_h = build.vehicle.shell.air_changes_per_hour * volume_m3
    air_m3_h = max(leak_m3_h, FRESH_AIR_M3_H * build.trip.people)
    air_w_k = air_loss_w_k(air_m3_h)
    total_w_k = sum(s.loss_w_k for s in surfaces) + air_w_k
    heaters = [(p, f) for p, f in build.facets(SpaceHeater) if not _no_help(f)]
    output_w = sum(f.output_w * p.count for p, f in heaters)
    inside = build.trip.inside_degc
    design = coldest_degc(build)
    year_coldest = min(build.climate.coldest_night_degc)
    means = [t for t in month_means(build) if t < HEATING_FROM_DEGC]
    mild = max(means, default=inside)
    return WarmthFigures(
        surfaces=tuple(surfaces),
        air_m3_h=air_m3_h,
        air_loss_w_k=air_w_k,
        total_w_k=total_w_k,
        # The same sum in another order can come out a rounding error apart.
        low_w_k=min(total_w_k, low_w_k + air_loss_w_k(leak_m3_h)),
        high_w_k=max(total_w_k, high_w_k + air_w_k),
        design_degc=design,
        design_loss_w=max(0.0, total_w_k * (inside - design)),
        output_w=output_w,
        min_output_w=max((f.min_output_w for _, f in heaters), default=0.0),
        held_degc=max(year_coldest, balance_degc(inside, output_w, total_w_k)) if output_w else None,
        year_coldest_degc=year_coldest,
        mild_loss_w=max(0.0, total_w_k * (inside - mild)),
        mild_degc=mild,
        mean_heat_wh_d=24 * max(0.0, total_w_k * (inside - min(means))) if means else 0.0,
        heater_ids=tuple(p.option.id for p, _ in heaters),
        uncounted=tuple(
            Uncounted(p.option.id, p.option.name, _no_help(f)) for p, f in build.facets(SpaceHeater) if _no_help(f)
        ),
        has_insulation=any(True for _ in build.facets(InsulationLayer)),
    )
