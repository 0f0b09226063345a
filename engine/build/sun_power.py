"""The panels that found a place on the roof, as the hourly reckoning takes them, and their mean day."""

from functools import lru_cache
from math import asin, degrees
from typing import NamedTuple

from engine.build.battery_bank import BankFigures
from engine.build.model import Build
from engine.build.roof import RoofFigures
from engine.build.solar_strings import StringGroup, by_controller
from engine.catalogue.facets import SolarController, SolarPanel
from engine.physics.cell import KEPT_FRAC, LOSSES_FRAC
from engine.physics.month_sun import mean_sun_wh
from engine.physics.panel_curve import BRIGHT_CELL_DEGC, Strings, fall_in_heat, shared_frac, string_w
from engine.physics.panel_day import PanelGroup, shade_frac
from engine.physics.roof_shade import MEAN_DAYS
from engine.physics.sun_day import sun_day
from engine.physics.weather_years import Climate


class ControllerSun(NamedTuple):
    """One charge controller with the panels that hang on it."""

    strings: tuple[StringGroup, ...]
    limit_a: float
    tracked_frac: float
    """Of its panels' power what is left at the one voltage at which they stand."""
    full_a: float
    """Into the battery with panels at their ratings."""
    bright_a: float
    """Into the battery on a bright day: full sun, cells at 45 °C, the usual losses."""


class SunSystem(NamedTuple):
    """Panels and charge controllers."""

    panels: tuple[PanelGroup, ...]
    """None without a controller."""
    panel_w: float
    """Rated power of the panels that have a place, controlled or not."""
    controlled: bool
    controller_frac: float
    """Output over input energy of the best controller; that of others is in ``panels``."""
    controllers_w: tuple[float, ...]
    """Output limit of each; none that counts where no battery says at which voltage."""
    controllers: tuple[ControllerSun, ...]
    """Those that have panels, by ``StringGroup.unit``; none where no battery says at which voltage."""


DARK_KWH_M2_D = 0.2
"""Sun of a day below which no panel is worth its place: 100 W of them bring some 15 Wh (assumption)."""


def too_dark(build: Build, month: int) -> bool:
    """Whether the sun of that month gives next to nothing at the place, as in the polar night."""
    return build.climate.ghi_kwh_m2_d[month - 1] < DARK_KWH_M2_D


def charging_v(bank: BankFigures) -> float | None:
    """Battery voltage in the midst of charging: half way from its nominal voltage to that at the end of a charge."""
    return None if bank.nominal_v is None or bank.charge_v is None else (bank.nominal_v + bank.charge_v) / 2


def climate_of(build: Build) -> Climate:
    """The build's place as the weather is drawn from it."""
    c = build.climate
    return Climate(c.latitude_deg, c.ghi_kwh_m2_d, c.mean_degc, c.coldest_night_degc, c.hottest_day_degc, c.altitude_m)


def panel_mount(f: SolarPanel) -> str:
    """How air gets at a panel's back; a tilted one has it all round."""
    return "open" if f.tilt_deg else f.mount


def beyond_usual(shaded_frac: tuple[float, ...]) -> tuple[float, ...]:
    """What shade takes beyond the usual loss that the yield holds anyway, at each height of the sun."""
    beyond = tuple(max(0.0, 1 - (1 - share) / (1 - LOSSES_FRAC["shading"])) for share in shaded_frac)
    return beyond if any(beyond) else ()


def shade_off_frac(build: Build, roof: RoofFigures, month: int) -> float:
    """What the yield of a month's middle day loses to shade of things on the roof, hour by hour, beyond the usual."""
    beyond = beyond_usual(roof.shaded_by_height_frac)
    return _off_frac(beyond, build.climate.latitude_deg, MEAN_DAYS[month - 1]) if beyond else 0.0


@lru_cache(maxsize=1024)
def _off_frac(beyond: tuple[float, ...], latitude_deg: float, day_of_year: int) -> float:
    hours = sun_day(latitude_deg, day_of_year).hours
    return sum(h.total_frac * shade_frac(beyond, degrees(asin(h.up_frac))) for h in hours)


def sun_system(build: Build, roof: RoofFigures, strings: tuple[StringGroup, ...], battery_v: float | None) -> SunSystem:
    """Panels in their places on their controllers; battery_v: see ``charging_v``.

    Tilted panels face the sun at noon: their owner parks that way. Panels on one tracking controller stand at one
    voltage, and never below the battery's, where hot ones give less; those on a switching one at the battery's: there
    they give their current, whatever their warmth, as long as hot cells still reach that voltage, and less of it where
    they do not. Panels that are left over without a string bring nothing.
    """
    facets = build.facets(SolarController)
    placed = dict(roof.packing.counts)
    panels = {p.option.id: f for p, f in build.facets(SolarPanel) if placed.get(p.option.id)}
    best_frac = max((f.efficiency_frac for _, f in facets), default=1.0)
    beyond = beyond_usual(roof.shaded_by_height_frac)
    noon_deg = 180.0 if build.climate.latitude_deg >= 0 else 0.0
    groups: list[PanelGroup] = []

    def hang(
        f: SolarPanel, count: int, kept: float, gamma: float, unit: int, falls: tuple[float, float] = (0.0, 0.0)
    ) -> float:
        group = PanelGroup(count * f.power_w, gamma, panel_mount(f), f.tilt_deg, noon_deg, kept, unit, beyond, *falls)
        groups.append(group)
        left = max(0.0, 1 - falls[1] * max(0.0, BRIGHT_CELL_DEGC - falls[0]))
        return count * f.power_w * kept * (1 + gamma * (BRIGHT_CELL_DEGC - 25)) * left

    controllers = []
    if battery_v is None:
        for key, f in panels.items():
            hang(f, placed[key], KEPT_FRAC, f.power_coefficient_frac_k, 0)
    else:
        by_id = {p.option.id: f for p, f in facets}
        for unit, on_it in enumerate(by_controller(strings)):
            made, into = by_id[on_it[0].controller_id], on_it[0].into
            joined = tuple(g for g in on_it if not g.idle)
            curves = tuple(Strings(g.panel, g.layout.series, g.layout.parallel) for g in joined)
            full_w = bright_w = 0.0
            for g, curve in zip(joined, curves, strict=True):
                rated_w, gamma = g.panel.power_w * g.layout.panel_count, panels[g.panel_id].power_coefficient_frac_k
                if into.switching:
                    share = max(0.0, string_w(curve, battery_v)) / rated_w
                    gamma = 0.0
                else:
                    share = shared_frac(curves)
                full_w += share * rated_w
                share *= made.efficiency_frac / best_frac
                kept = min(1.0, KEPT_FRAC * share)
                held_v = battery_v + g.layout.needed_v - into.charge_v
                falls = fall_in_heat(curve, battery_v if into.switching else held_v, into.switching)
                bright_w += best_frac * hang(panels[g.panel_id], g.layout.panel_count, kept, gamma, unit, falls)
            tracked = full_w / sum(g.panel.power_w * g.layout.panel_count for g in on_it)
            full_a = full_w * made.efficiency_frac / battery_v
            controllers.append(ControllerSun(on_it, made.max_output_a, tracked, full_a, bright_w / battery_v))
    return SunSystem(
        panels=tuple(groups) if facets else (),
        panel_w=sum(placed[key] * f.power_w for key, f in panels.items()),
        controlled=bool(facets),
        controller_frac=best_frac,
        controllers_w=tuple(c.limit_a * battery_v for c in controllers) if battery_v and controllers else (1e6,),
        controllers=tuple(controllers),
    )


def held_back_wh(controllers: tuple[ControllerSun, ...], unit: int, sun_wh: float) -> float:
    """What one controller's panels lose by the voltage at which they stand, while all together bring so much sun."""
    one = controllers[unit]
    share = one.bright_a / sum(c.bright_a for c in controllers)
    return sun_wh * share * (1 / one.tracked_frac - 1)


def mean_sun_wh_d(build: Build, sun: SunSystem, month: int) -> float:
    """What the controllers offer on the mean day of a month."""
    return mean_sun_wh(climate_of(build), month, sun.panels, sun.controller_frac, sun.controllers_w)
