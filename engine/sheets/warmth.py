"""Charts of warmth and damp, each in its chapter; they come after the answer to a pick, as all drawings do."""

from __future__ import annotations

from markupsafe import Markup

from engine.build.damp import DampFigures
from engine.build.shell import SurfaceLoss
from engine.build.winter_hours import cold_night, damp_day, through
from engine.physics.condensation import surface_degc
from engine.sheets.book import Book
from engine.sheets.charts import warmth as charts
from engine.sheets.charts.kit import plot
from engine.sheets.charts.share import Part
from engine.sheets.view import Scene
from engine.spelling import spelled
from engine.units import MONTHS, System, show

_RIBS = "metal ribs"

TRACE_KG_M2 = 0.0005
"""Less water than half a gram on a square metre is next to none."""


def _none(name: str, caption: str) -> Markup:
    return plot(name, "", caption, "No month of this trip needs heating.", (), height=1)


def _parts(scene: Scene) -> tuple[Part, ...]:
    """Heat lost on the coldest night by part, what ribs add told by itself, the largest first."""
    w = scene.figures.warmth
    kelvins = scene.build.trip.inside_degc - w.design_degc
    flames = w.air_loss_w_k * w.flame_m3_h / (w.air_m3_h + w.flame_m3_h)
    lost = [(s.name, s.loss_w_k - s.rib_w_k) for s in w.surfaces]
    lost += [(_RIBS, sum(s.rib_w_k for s in w.surfaces)), ("fresh air", w.air_loss_w_k - flames),
             ("air for flames without a flue", flames)]  # fmt: skip
    return tuple(sorted((Part(n, kelvins * x) for n, x in lost if x > 0), key=lambda p: -p.amount))


def _fuel(scene: Scene) -> tuple[str, ...]:
    w, units = scene.figures.warm_up, scene.build.workshop.units
    if w is None:
        return ()
    f = w.fuel
    burnt = [f"{show(x, unit, units)} of {name}" for x, unit, name in (
        (f.gas_kg, "kg", "gas"), (f.diesel_l, "l", "diesel"), (f.battery_wh, "wh", "electricity")
    ) if x]  # fmt: skip
    told = [f"From evening to morning {show(f.heat_wh, 'heat_wh', units)} of heat", *burnt]
    lasts = "" if f.nights_count is None else f" {f.lasting} lasts {int(f.nights_count)} such nights."
    return (f"{', '.join(told)}.{lasts}", f"The floor is at {show(w.floor_degc, 'degc', units)} when the room is warm.")


def _water(damp: DampFigures, walls: SurfaceLoss, wet: bool, units: System) -> tuple[str, ...]:
    """How much water the shaded part of the wall comes to, where its layers are known."""
    year = dict(damp.years).get(walls.name)
    if year is None:
        return ()
    if year.peak_kg_m2 < TRACE_KG_M2:
        few = "Month by month next to no vapour turns to water in it: one such night is too short for that."
        return (spelled(few, units),) if wet else ()
    area = show(walls.area_m2, "m2", units)

    def amount(kg_m2: float) -> str:
        whole = show(kg_m2 * walls.area_m2, "kg" if units == "us" else "l", units)
        return f"{show(kg_m2, 'water_kg_m2', units)}, {whole} on all {area}"

    left = year.left_kg_m2
    dries = "all of it dries within a year" if left < TRACE_KG_M2 else f"{amount(left)}, are left after a year"
    return (f"Month by month at most {amount(year.peak_kg_m2)}, gather in it; {dries}. Gaps would let in more.",)


def _at_rib(walls: SurfaceLoss, inside_degc: float, outside_degc: float) -> tuple[str, float] | None:
    if walls.coldest_frac >= walls.face_frac - 1e-6:
        return None
    return "steel ribs" if walls.rib_w_k else "battens", surface_degc(inside_degc, outside_degc, walls.coldest_frac)


def _wall(damp: DampFigures, walls: SurfaceLoss, units: System) -> Markup:
    inside, night = damp.inside_degc, damp.night_degc
    cut = through(walls.name, walls.plies, inside, damp.humidity_frac, night)
    return charts.wall(cut, units, _at_rib(walls, inside, night), _water(damp, walls, cut.wet, units))


def warmth(scene: Scene, book: Book) -> dict[str, Markup]:
    """The elements of the charts by their ids; only those that have a chapter."""
    return {name: html for name, html in _drawn(scene).items() if any(name in names for names in book.charts.values())}


def _drawn(scene: Scene) -> dict[str, Markup]:
    f, trip, units = scene.figures, scene.build.trip, scene.build.workshop.units
    w, d, inside = f.warmth, f.damp, float(scene.build.trip.inside_degc)
    n = cold_night(scene.build, w)
    walls = w.surfaces[0]
    parts = {
        "warmth-wall": _none("warmth-wall", charts.WALL) if d is None or not walls.plies else _wall(d, walls, units),
        "warmth-heat": _none("warmth-heat", charts.HEAT)
        if w.design_loss_w <= 0
        else charts.heat(_parts(scene), inside, w.design_degc, units),
        "warmth-night": _none("warmth-night", charts.NIGHT)
        if n is None
        else charts.night(n, inside, _fuel(scene), units),
    }
    day = damp_day(scene.build, w, d, f.openings, f.gas.room_kg_d)
    if day is None or d is None:
        return parts | {"warmth-damp": _none("warmth-damp", charts.DAMP)}
    month = min(trip.months, key=lambda m: (scene.build.climate.mean_degc[m - 1], m))
    told = [f"{show(sum(day.source_kg), 'kg', units)} of water go into the air in a day."]
    if day.wiped_kg >= 0.005:
        told.append(f"{show(day.wiped_kg, 'kg', units)} of it is on cold glass in the evening.")
    if f.openings.high_m2 and f.openings.low_m2:
        told.append(
            f"The fixed vents move {show(day.still_m3_h, 'm3_h', units)} in still air and "
            f"{show(day.wind_m3_h, 'm3_h', units)} in a light wind; {show(d.air_m3_h, 'm3_h', units)} are reckoned "
            "with."
        )
    else:
        told.append(f"{show(d.air_m3_h, 'm3_h', units)} of fresh air are reckoned with; something must let them in.")
    return parts | {"warmth-damp": charts.damp(day, MONTHS[month - 1], tuple(told), units)}
