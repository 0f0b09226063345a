"""The panels that found a place on the roof, as the hourly reckoning takes them, and their mean day."""

from typing import NamedTuple

from engine.build.model import Build
from engine.build.roof import RoofFigures
from engine.catalogue.facets import SolarController, SolarPanel
from engine.physics.cell import KEPT_FRAC, LOSSES_FRAC
from engine.physics.month_sun import mean_sun_wh
from engine.physics.panel_day import PanelGroup
from engine.physics.weather_years import Climate


class SunSystem(NamedTuple):
    """Panels and charge controllers."""

    panels: tuple[PanelGroup, ...]
    """None without a controller."""
    panel_w: float
    """Rated power of the panels that have a place, controlled or not."""
    controlled: bool
    controller_frac: float
    """Output over input energy."""
    controller_w: float
    """Output limit of all controllers together; none that counts where no battery says at which voltage."""
    shaded_frac: float
    """Taken off for shade that things on the roof throw, beyond what is usual."""
    switched_a: float | None
    """What the panels give at the battery's voltage, where no controller does more than switch them on to it."""


def climate_of(build: Build) -> Climate:
    """The build's place as the weather is drawn from it."""
    c = build.climate
    return Climate(c.latitude_deg, c.ghi_kwh_m2_d, c.mean_degc, c.coldest_night_degc, c.hottest_day_degc, c.altitude_m)


def panel_mount(f: SolarPanel) -> str:
    """How air gets at a panel's back; a tilted one has it all round."""
    return "open" if f.tilt_deg else f.mount


def shade_off_frac(roof: RoofFigures) -> float:
    """What the yield loses to shade of things on the roof, beyond the usual loss that it holds anyway.

    The share of the panels' area in shade at noon, the mean of four ways to park, stands for the whole day.
    """
    return 0.0 if roof.shade is None else max(0.0, 1 - (1 - roof.shade.mean_frac) / (1 - LOSSES_FRAC["shading"]))


def sun_system(build: Build, roof: RoofFigures, charge_v: float | None) -> SunSystem:
    """Panels in their places on all controllers together.

    Tilted panels face the sun at noon: their owner parks that way. A switching controller pulls panels down to the
    battery's voltage, and the rest of theirs is lost. Several controllers share the panels by their output.
    """
    controllers = build.facets(SolarController)
    placed: dict[str, int] = {}
    for one in roof.packing.placed:
        placed[one.key] = placed.get(one.key, 0) + 1
    switching = bool(controllers) and all(f.technology == "pwm" for _, f in controllers)
    noon_deg = 180.0 if build.climate.latitude_deg >= 0 else 0.0
    shaded_frac = shade_off_frac(roof)
    sound_frac = KEPT_FRAC * (1 - shaded_frac)
    groups = []
    watts = panels_a = 0.0
    for part, f in build.facets(SolarPanel):
        n = placed.get(part.option.id, 0)
        if not n:
            continue
        watts += n * f.power_w
        panels_a += n * f.power_w / (f.max_power_v * (f.in_series or 1))
        kept = (
            sound_frac * min(1.0, charge_v / (f.max_power_v * (f.in_series or 1)))
            if switching and charge_v
            else sound_frac
        )
        groups.append(PanelGroup(n * f.power_w, f.power_coefficient_frac_k, panel_mount(f), f.tilt_deg, noon_deg, kept))
    return SunSystem(
        panels=tuple(groups) if controllers else (),
        panel_w=watts,
        controlled=bool(controllers),
        controller_frac=max((f.efficiency_frac for _, f in controllers), default=1.0),
        controller_w=sum(f.max_output_a * p.count for p, f in controllers) * charge_v if charge_v else 1e6,
        shaded_frac=shaded_frac,
        switched_a=panels_a if switching else None,
    )


def mean_sun_wh_d(build: Build, sun: SunSystem, month: int) -> float:
    """What the controllers offer on the mean day of a month."""
    return mean_sun_wh(climate_of(build), month, sun.panels, sun.controller_frac, sun.controller_w)
