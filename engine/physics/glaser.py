"""Water inside a wall through the year, by diffusion: months of condensing and drying after ISO 13788 (Glaser).

The profile of vapour pressure is the highest one that nowhere bends downwards (no water comes from nowhere) and nowhere
lies above saturation: the lower hull of saturation pressures over vapour resistance. Where it touches, water forms;
where water lies, the pressure is held at saturation until it is gone. A month in which a layer dries is split there.
"""

from functools import lru_cache
from itertools import pairwise
from math import ceil
from typing import NamedTuple

from engine.physics.moist_air import saturation_kpa, vapour_kpa
from engine.physics.ranges import within

AIR_PERMEABILITY_KG_MSPA = 2e-10
"""Vapour permeability of still air. ISO 13788:2012, 4.2 (from memory: 2·10⁻¹⁰ kg/(m·s·Pa))."""

TIGHT_M = 1500.0
"""Air layer that stands for metal, glass and foil (ISO 10456:2007 calls more than that vapour-tight; from memory)."""

MOST_STEP_M2K_W = 0.25
"""Layers with more resistance are cut into equal parts. ISO 13788:2012, 6.2 (from memory)."""

MONTH_DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


class VapourLayer(NamedTuple):
    """A layer as heat and vapour see it; ``air_m`` is the still air that hinders vapour as much (its s_d value)."""

    name: str
    thickness_m: float
    conductivity_w_mk: float
    air_m: float


class Climate(NamedTuple):
    """Mean air inside and outside in one month."""

    inside_degc: float
    inside_frac: float
    outside_degc: float
    outside_frac: float


class DampMonth(NamedTuple):
    """What a month does: 0 is January. Amounts at each face between layers (and cuts), from outside in."""

    month: int
    gained_kg_m2: tuple[float, ...]
    held_kg_m2: tuple[float, ...]
    from_room_kg_m2: float
    """Vapour that entered the wall from the room; below 0 it left that way."""
    to_outside_kg_m2: float


class DampYear(NamedTuple):
    """A wall over twelve months, from the first that condenses."""

    months: tuple[DampMonth, ...]
    peak_kg_m2: float
    """Most water at any one time, all faces together."""
    left_kg_m2: float
    """What has not dried after twelve months: above 0 it grows from year to year."""
    place: str
    """Name of the layer on whose room-side face most water lay, or empty."""
    faces: tuple[str, ...]
    """Name of the layer outside each face, in the order of the amounts."""


@lru_cache(maxsize=256)
def damp_year(
    layers: tuple[VapourLayer, ...],
    climate: tuple[Climate, ...],
    inside_m2k_w: float = 0.13,
    outside_m2k_w: float = 0.04,
) -> DampYear:
    """Condensation and drying in a wall over the year.

    layers: from the outside in; thickness_m 0.0001 to 1, conductivity_w_mk 0.01 to 400, air_m 0.001 to 10,000.
    climate: twelve months, January first; temperatures −50 to 50 °C, humidities 0.05 to 1. The year starts with the
    first condensing month after a dry one. Neither air that leaks behind linings nor water stored in wood is in it, and
    it errs both ways for that. Source: ISO 13788:2012, 6 (from memory), R. W. Glaser 1958.

    >>> shell = (VapourLayer("steel", 0.001, 50, TIGHT_M), VapourLayer("wool", 0.050, 0.037, 0.05),
    ...          VapourLayer("plywood", 0.006, 0.13, 0.4))
    >>> mild = [2, 3, 6, 9, 13, 16, 18, 18, 15, 11, 6, 3]
    >>> year = damp_year(shell, tuple(Climate(20, 0.55, t, 0.8) for t in mild))
    >>> year.place, round(year.peak_kg_m2, 1), round(year.left_kg_m2, 1)
    ('steel', 2.7, 0.0)
    """
    within("months_count", len(climate), 12, 12)
    within("inside_m2k_w", inside_m2k_w, 0.04, 0.5)
    within("outside_m2k_w", outside_m2k_w, 0.005, 0.2)
    r, s, faces = _cut(layers)
    whole = outside_m2k_w + sum(r) + inside_m2k_w
    states = []
    for c in climate:
        for t in (c.inside_degc, c.outside_degc):
            within("air_degc", t, -50, 50)
        for h in (c.inside_frac, c.outside_frac):
            within("humidity_frac", h, 0.05, 1)
        at, sat = outside_m2k_w, []
        for step in (0.0, *r):
            at += step
            sat.append(1000 * saturation_kpa(c.outside_degc + (c.inside_degc - c.outside_degc) * at / whole))
        # A wall's own surface may be below the air's dew point: then the air at it is saturated.
        out = min(sat[0], 1000 * vapour_kpa(c.outside_degc, c.outside_frac))
        room = min(sat[-1], 1000 * vapour_kpa(c.inside_degc, c.inside_frac))
        states.append((tuple(sat), out, room))
    dry = (0.0,) * (len(s) - 2)
    begun = [_rates(s, sat, out, room, dry) for sat, out, room in states]
    condensing = [any(g > 0 for g in rates) for rates, _, _ in begun]
    start = next((m for m in range(12) if condensing[m] and not condensing[m - 1]), 0)
    held, months, most = dry, [], dry
    for m in ((start + i) % 12 for i in range(12)):
        before = held
        if held == dry and not condensing[m]:
            _, entering, leaving = begun[m]
            from_room, to_outside = (flux * MONTH_DAYS[m] * 86400.0 for flux in (entering, leaving))
        else:
            held, from_room, to_outside = _through(s, *states[m], held, MONTH_DAYS[m] * 86400.0)
        gained = tuple(h - b for h, b in zip(held, before, strict=True))
        months.append(DampMonth(m, gained, held, from_room, to_outside))
        most = tuple(map(max, most, held))
    peak = max(sum(m.held_kg_m2) for m in months)
    place = faces[max(range(len(most)), key=most.__getitem__)] if peak > 0 else ""
    return DampYear(tuple(months), peak, sum(held), place, faces)


def _cut(layers: tuple[VapourLayer, ...]) -> tuple[list[float], tuple[float, ...], tuple[str, ...]]:
    """Resistances of the parts, their places along s_d, and the name of the layer outside each inner face."""
    within("layers_count", len(layers), 1, 20)
    r: list[float] = []
    s, names = [0.0], []
    for layer in layers:
        thickness_m = within("thickness_m", layer.thickness_m, 1e-4, 1)
        part = thickness_m / within("conductivity_w_mk", layer.conductivity_w_mk, 0.01, 400)
        cuts = max(1, ceil(part / MOST_STEP_M2K_W))
        for _ in range(cuts):
            r.append(part / cuts)
            s.append(s[-1] + within("air_m", layer.air_m, 1e-3, 1e4) / cuts)
            names.append(layer.name)
    if len(r) == 1:  # a single plain sheet has no inner face; halves give it one
        r, s, names = [r[0] / 2] * 2, [0.0, s[1] / 2, s[1]], names * 2
    return r, tuple(s), tuple(names[:-1])


def _through(
    s: tuple[float, ...], sat: tuple[float, ...], out: float, room: float, held: tuple[float, ...], seconds: float
) -> tuple[tuple[float, ...], float, float]:
    """Water at each face after a time, and vapour from the room and to the outside in it."""
    from_room = to_outside = 0.0
    while seconds > 0:
        rates, entering, leaving = _rates(s, sat, out, room, held)
        drying = [h / -g for h, g in zip(held, rates, strict=True) if h > 0 and g < 0]
        step = min([seconds, *drying])
        # What runs dry in this step is exactly empty after it, whatever the rounding.
        held = tuple(
            0.0 if g < 0 and h / -g <= step else max(0.0, h + g * step) for h, g in zip(held, rates, strict=True)
        )
        from_room += entering * step
        to_outside += leaving * step
        seconds -= step
    return held, from_room, to_outside


def _rates(
    s: tuple[float, ...], sat: tuple[float, ...], out: float, room: float, held: tuple[float, ...]
) -> tuple[list[float], float, float]:
    """Rate of condensing at each inner face (below 0 drying), flux from the room, flux to the outside; kg/(m²·s)."""
    last = len(s) - 1
    p = [out, *sat[1:last], room]
    fixed = [0, *(i for i in range(1, last) if held[i - 1] > 0), last]
    hull: list[int] = [0]
    for i in range(1, last + 1):
        # Andrew's monotone chain; a face that holds water stays a corner.
        while len(hull) > 1 and hull[-1] not in fixed and _above(s, p, hull[-2], hull[-1], i):
            hull.pop()
        hull.append(i)
    slope = [(p[b] - p[a]) / (s[b] - s[a]) for a, b in pairwise(hull)]
    rates = [0.0] * (last - 1)
    for n, i in enumerate(hull[1:-1]):
        rates[i - 1] = AIR_PERMEABILITY_KG_MSPA * (slope[n + 1] - slope[n])
    return rates, AIR_PERMEABILITY_KG_MSPA * slope[-1], AIR_PERMEABILITY_KG_MSPA * slope[0]


def _above(s: tuple[float, ...], p: list[float], a: int, b: int, c: int) -> bool:
    """Whether point b lies on or above the line from a to c."""
    return (p[b] - p[a]) * (s[c] - s[a]) >= (p[c] - p[a]) * (s[b] - s[a])
