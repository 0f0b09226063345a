"""Winter: a section through the wall, where heat goes, the coldest night, and a damp day."""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise

from markupsafe import Markup

from engine.build.winter_hours import DampDay, Night, Through
from engine.sheets.charts.kit import (
    BOTTOM,
    HEIGHT,
    LEFT,
    RIGHT,
    TOP,
    WIDTH,
    Key,
    along,
    bar,
    grid,
    num,
    path,
    plot,
    quiet,
    text,
)
from engine.sheets.charts.scale import LINE_GAP, Energy, Scale
from engine.sheets.charts.share import Part, bars
from engine.spelling import begun, spelled
from engine.units import System, clock, converted, show

WALL, HEAT, NIGHT, DAMP = "Through the wall", "Where the heat goes", "The trip's coldest night", "A damp day"

_FLOOR = HEIGHT - BOTTOM
_AIR = 34.0
"""Width of the air in front of the wall and behind it."""

_THINNEST = 2.0
"""No layer is drawn thinner, for a skin to be seen."""

_HOURS = 3

Point = tuple[float, float, float]
"""Place, temperature and dew point."""


def _degrees(degc: float, units: System) -> float:
    return converted(degc, "degc", units)


def _axis(values: list[float], units: System) -> tuple[Scale, str]:
    """A scale for temperatures, in the reader's degrees, and their unit."""
    told = [_degrees(v, units) for v in values]
    room = 0.06 * (max(told) - min(told)) + 0.5
    return Scale(min(told) - room, max(told) + room, _FLOOR, TOP), "°F" if units == "us" else "°C"


def _edges(layers: tuple[tuple[str, str, float], ...]) -> list[float]:
    """Where layers meet: to scale, but for skins."""
    wide = WIDTH - RIGHT - LEFT - 2 * _AIR
    whole = sum(t for _, _, t in layers)
    thin = [max(_THINNEST, wide * t / whole) for _, _, t in layers]
    at = [LEFT + _AIR]
    for w in thin:
        at.append(at[-1] + w * wide / sum(thin))
    return at


def _course(w: Through, at: list[float]) -> list[Point]:
    """Along the wall as far as vapour is known, with a point wherever both lines cross."""
    points = [(at[i] + share * (at[i + 1] - at[i]), t, dew) for i, share, t, dew in w.dew_degc]
    if not points:
        return []
    found = points[:1]
    for (x0, t0, d0), (x1, t1, d1) in pairwise(points):
        before, after = d0 - t0, d1 - t1
        if before * after < 0:
            share = before / (before - after)
            both = t0 + share * (t1 - t0)
            found.append((x0 + share * (x1 - x0), both, both))
        found.append((x1, t1, d1))
    return found


def _wet(points: list[Point], y: Scale, units: System) -> list[str]:
    """Areas between both lines where the wall is colder than the dew point."""
    runs: list[list[Point]] = [[]]
    for p in points:
        if p[2] >= p[1]:
            runs[-1].append(p)
        elif runs[-1]:
            runs.append([])
    found = []
    for run in runs:
        if any(dew > t for _, t, dew in run):
            above = [(x, y.at(_degrees(dew, units))) for x, _, dew in run]
            below = [(x, y.at(_degrees(t, units))) for x, t, _ in reversed(run)]
            found.append(path([*above, *below], "wet", closed=True))
    return found


@lru_cache(maxsize=64)
def wall(w: Through, units: System, at_rib: tuple[str, float] | None = None, below: tuple[str, ...] = ()) -> Markup:
    """The chart ``warmth-wall``. at_rib: what bridges it, and the inner face there. below: sentences on water."""
    at, (inside, outside) = _edges(w.layers_m), w.films_degc
    y, unit = _axis([inside, outside, w.room_dew_degc, *(dew for *_, dew in w.dew_degc)], units)

    def height(degc: float) -> float:
        return y.at(_degrees(degc, units))

    end, whole = WIDTH - RIGHT, show(sum(t for *_, t in w.layers_m), "thick_m", units)
    body = [
        bar(left, TOP, right - left, _FLOOR - TOP, f"ply {part}")
        for (left, right), (_, part, _) in zip(pairwise(at), w.layers_m, strict=True)
    ]
    course = _course(w, at)
    faces = [(x, height(t)) for x, t in zip(at, w.faces_degc, strict=True)]
    dew = [(LEFT, height(w.room_dew_degc)), (at[0], height(w.room_dew_degc))]
    dew += [(x, height(d)) for x, _, d in course]
    body += [
        grid(y, 5, Energy("", 1.0), unit),
        *_wet(course, y, units),
        path(dew, "line-poor"),
        path(
            [(LEFT, height(inside)), (at[0] - 12, height(inside)), *faces, (at[-1] + 12, height(outside)),
             (end, height(outside))], "line",
        ),
        text(LEFT + _AIR / 2, _FLOOR + LINE_GAP * 0.7, "room", "axis"),
        text(end - _AIR / 2 + RIGHT / 2, _FLOOR + LINE_GAP * 0.7, "outside", "axis"),
        text((at[0] + at[-1]) / 2, _FLOOR + LINE_GAP * 0.7, whole, "axis"),
    ]  # fmt: skip
    listed = "; ".join(f"{name} ({show(t, 'thick_m', units)})" for name, _, t in w.layers_m)
    face, skin = (show(w.faces_degc[i], "degc", units) for i in (0, -1))
    vapour = spelled("vapour", units)
    known = "" if not w.unknown else f"; further in it is not known: {w.unknown} states no {vapour} figure"
    dew_told = f"dew point, {show(w.room_dew_degc, 'degc', units)} in the room{known}"
    shaded = f"shaded: colder than the dew point; {vapour} that gets so far turns to water there"
    over = f", {show(at_rib[1], 'degc', units)} over {at_rib[0]}" if at_rib else ""
    key = [Key("line", f"temperature, {face} at the inner face{over}"), Key("line-poor", dew_told)]
    key += [Key("wet", shaded)] if w.wet else []
    key.append(Key("none", f"From the room outwards, between ribs and battens: {listed}."))
    where = ""
    if w.wet:
        layer = next(w.layers_m[i][0] for i, _, t, dew in w.dew_degc if dew > t)
        first = show(next(t for _, t, dew in course if dew >= t), "degc", units)
        where = f" From {first} on, in {layer}, it is colder."
    said = (
        f"{show(inside, 'degc', units)} inside, {show(outside, 'degc', units)} outside; {face} at the inner face"
        f"{over}, {skin} at the outer. Layers: {listed}. {begun(dew_told)}.{where}"
    )
    title = f"{WALL} on the trip's coldest night"
    return plot("warmth-wall", title, f"Section through the {w.surface}", said, body, key, below=quiet(below))


@lru_cache(maxsize=64)
def heat(parts: tuple[Part, ...], inside_degc: float, outside_degc: float, units: System) -> Markup:
    """The chart ``warmth-heat``: parts in W on the coldest night."""
    body, height = bars(parts, "heat_w", units)
    total = sum(p.amount for p in parts)
    at = f"{show(inside_degc, 'degc', units)} inside, {show(outside_degc, 'degc', units)} outside"
    said = "; ".join(f"{p.name} {show(p.amount, 'heat_w', units)}" for p in parts)
    return plot(
        "warmth-heat", f"{HEAT}: {show(total, 'heat_w', units)} at {show(outside_degc, 'degc', units)}",
        "Heat lost by part of the shell", f"{at}: {show(total, 'heat_w', units)} in all. {said}.", body, (), height,
    )  # fmt: skip


def _hour_axis(hours: tuple[int, ...], x: Scale) -> str:
    return along([(x.at(i), f"{h % 24:02d}") for i, h in enumerate(hours) if h % _HOURS == 0], HEIGHT - BOTTOM / 2)


@lru_cache(maxsize=64)
def night(n: Night, inside_degc: float, below: tuple[str, ...], units: System) -> Markup:
    """The chart ``warmth-night``. below: sentences on fuel."""
    last = len(n.hours) - 1
    x = Scale(0, last, LEFT, WIDTH - RIGHT)
    y, unit = _axis([*n.outside_degc, *n.heated_degc, *n.off_degc, inside_degc], units)

    def line(values: tuple[float, ...], css: str) -> str:
        return path([(x.at(i), y.at(_degrees(v, units))) for i, v in enumerate(values)], css)

    wanted = num(y.at(_degrees(inside_degc, units)))
    body = [
        grid(y, 5, Energy("", 1.0), unit),
        line(n.outside_degc, "soft-line"),
        line(n.off_degc, "line-poor"),
        line(n.heated_degc, "line") if n.heated_degc else "",
        f'<path class="wanted" d="M{num(LEFT)} {wanted}H{num(WIDTH - RIGHT)}"/>',
        _hour_axis(n.hours, x),
    ]
    coldest = show(min(n.outside_degc), "degc", units)
    off = f"without heat from {clock(n.hours[0], units)} on: {show(min(n.off_degc), 'degc', units)} by morning"
    heated = f"heated: never below {show(min(n.heated_degc), 'degc', units)}" if n.heated_degc else "no main heater"
    key = [Key("line", heated)] if n.heated_degc else []
    key += [
        Key("line-poor", off), Key("soft-line", f"outside, {coldest} at the coldest"),
        Key("none", f"dotted: {show(inside_degc, 'degc', units)} wanted"),
    ]  # fmt: skip
    said = f"{show(inside_degc, 'degc', units)} wanted, outside {coldest} at the coldest. {begun(heated)}. "
    return plot(
        "warmth-night", f"{NIGHT}, {coldest} outside", "Inside temperature by the hour", f"{said}{begun(off)}.",
        body, key, below=quiet(below),
    )  # fmt: skip


@lru_cache(maxsize=64)
def damp(d: DampDay, month: str, below: tuple[str, ...], units: System) -> Markup:
    """The chart ``warmth-damp``. below: sentences on air and water."""
    x, y = Scale(0, 24, LEFT, WIDTH - RIGHT), Scale(0, 1, _FLOOR, TOP)

    def line(values: tuple[float, ...], css: str) -> str:
        # The hour that ends at midnight is the one that the day begins with.
        return path([(x.at(i), y.at(v)) for i, v in enumerate((values[-1], *values))], css)

    body = [
        grid(y, 5, Energy("", 100.0), "relative humidity, %"),
        line(d.glass_frac, "line-poor") if d.glass else "",
        line(d.structure_frac, "over") if d.structure else "",
        line(d.humidity_frac, "line"),
        _hour_axis(tuple(range(25)), x),
    ]
    most, least = show(max(d.humidity_frac), "frac", units), show(min(d.humidity_frac), "frac", units)
    key = [Key("line", f"inside, {least} to {most}")]
    limits = []
    if d.glass:
        limits.append(("line-poor", d.glass, d.glass_frac))
    if d.structure:
        limits.append(("over", d.structure, d.structure_frac))
    said = f"Inside {least} to {most}, highest at {clock(1 + d.humidity_frac.index(max(d.humidity_frac)), units)}."
    for css, name, values in limits:
        key.append(Key(css, f"above it, water on: {name}"))
        wet_h = sum(h > v for h, v in zip(d.humidity_frac, values, strict=True))
        said += f" {name} stays dry up to {show(min(values), 'frac', units)}; above its line in {wet_h} of 24 hours."
    return plot(
        "warmth-damp", f"{DAMP}, {month}", "Humidity inside by the hour", said, body, key, below=quiet(below)
    )  # fmt: skip
