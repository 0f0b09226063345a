"""Every water heater on offer at this trip's shower: minutes of it, the wait for the next, the heat's source."""

from __future__ import annotations

from functools import lru_cache

from markupsafe import Markup

from engine.build.hot_water import LONG_MINUTES, warm_shower
from engine.build.water import COLD_DEGC
from engine.catalogue.facets import AcLoad, WaterHeater
from engine.sheets.templates import render
from engine.sheets.view import Scene
from engine.spelling import spelled
from engine.units import System, show

HEAT = {
    "gas": "burns gas", "diesel": "burns diesel", "battery": "at battery voltage",
    "mains": "at mains voltage, through the inverter", "engine": "from the running engine",
}  # fmt: skip


def _span(low: float, high: float, units: System) -> str:
    if low >= LONG_MINUTES:
        return f"over {show(LONG_MINUTES, 'minutes', units)}"
    return f"{low:.1f} to {show(high, 'minutes', units)}"


@lru_cache(maxsize=256)
def _told(f: WaterHeater, hookup: bool, flow_l_min: float, minutes: float, units: System) -> str:
    w = warm_shower(f, flow_l_min, minutes)
    heat = "on a hook-up only" if hookup else spelled(HEAT[f.energy], units)
    if not f.volume_l:
        return f"{show(w.flow_l_min, 'l_min', units)} for as long as wanted; {heat}"
    warm = f"warm for {_span(w.low_minutes, w.high_minutes, units)}"
    if f.energy != "engine":
        return f"{warm}, the next shower after {show(w.next_h, 'h', units)}; {heat}"
    morning = f"the morning after the drive {show(w.morning_degc, 'degc', units)}"
    if w.morning_high_minutes:
        morning += f", warm for {_span(w.morning_low_minutes, w.morning_high_minutes, units)}"
    return f"{warm}, {morning}; {heat}"


def hot_showers(scene: Scene) -> Markup:
    """The list ``hot-showers``, the chosen heaters marked."""
    build, units = scene.build, scene.build.workshop.units
    flow, minutes = scene.figures.water.shower_flow_l_min, build.trip.shower_minutes
    lines = []
    for section in scene.catalogue.sections:
        for o in section.options:
            heaters = [f for f in o.facets if isinstance(f, WaterHeater)]
            if heaters and (not o.fits or build.vehicle.id in o.fits):
                hookup = any(isinstance(f, AcLoad) and f.shore_only for f in o.facets)
                told = _told(heaters[0], hookup, flow, minutes, units)
                lines.append((o.name, told, o.id in scene.enquiry.options))
    return _list(
        tuple(lines), show(flow, "l_min", units), show(minutes, "minutes", units), show(COLD_DEGC, "degc", units)
    )


@lru_cache(maxsize=64)
def _list(lines: tuple[tuple[str, str, bool], ...], flow: str, minutes: str, cold: str) -> Markup:
    return render("hot_showers", lines=lines, flow=flow, minutes=minutes, cold=cold)
