"""Steady heat flow through a section of wall in two dimensions, by finite volumes, for other tests to compare with."""

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

import numpy as np
from scipy.sparse import coo_array
from scipy.sparse.linalg import spsolve


class Box(NamedTuple):
    """A rectangle of one material: across the wall from its mirror line, deep from the room outwards."""

    from_m: float
    to_m: float
    depth_from_m: float
    depth_to_m: float
    conductivity_w_mk: float


class Section(NamedTuple):
    """What the solution says: heat per area and kelvin, and the coldest spot on the room side (1 room, 0 outside)."""

    u_w_m2k: float
    coldest_frac: float


def edges(marks: Sequence[float], fine_m: float, coarse_m: float, growth: float = 1.25) -> np.ndarray:
    """Cell edges: fine beside every mark, growing towards the middle between two."""
    marks = sorted({round(m, 9) for m in marks})
    found = [marks[0]]
    for a, b in pairwise(marks):
        half, steps, size = (b - a) / 2, [], min(fine_m, (b - a) / 4)
        while sum(steps) + size < half:
            steps.append(size)
            size = min(size * growth, coarse_m)
        scale = half / sum(steps)
        steps = [s * scale for s in steps]
        inner = np.cumsum([*steps, *reversed(steps)])
        found.extend(a + inner[:-1])
        found.append(b)
    return np.array(found)


def solve(
    boxes: Sequence[Box], half_width_m: float, depth_m: float, inside_m2k_w: float, outside_m2k_w: float, fine_m=2e-4
) -> Section:
    """Solve half of a wall that repeats by mirroring; later boxes lie over earlier ones."""
    x = edges([0.0, half_width_m, *(v for b in boxes for v in b[:2])], fine_m, 0.006)
    y = edges([0.0, depth_m, *(v for b in boxes for v in b[2:4])], fine_m, 0.003)
    dx, dy = np.diff(x), np.diff(y)
    xm, ym = (x[:-1] + x[1:]) / 2, (y[:-1] + y[1:]) / 2
    k = np.full((dy.size, dx.size), np.nan)
    for b in boxes:
        rows, columns = (ym > b.depth_from_m) & (ym < b.depth_to_m), (xm > b.from_m) & (xm < b.to_m)
        k[np.ix_(rows, columns)] = b.conductivity_w_mk
    assert np.isfinite(k).all(), "a part of the section has no material"
    number = np.arange(k.size).reshape(k.shape)
    down = dx / (dy[:-1, None] / 2 / k[:-1] + dy[1:, None] / 2 / k[1:])
    across = dy[:, None] / (dx[:-1] / 2 / k[:, :-1] + dx[1:] / 2 / k[:, 1:])
    room = dx / (inside_m2k_w + dy[0] / 2 / k[0])
    out = dx / (outside_m2k_w + dy[-1] / 2 / k[-1])
    diagonal = np.zeros(k.shape)
    diagonal[0] += room
    diagonal[-1] += out
    parts = []
    for a, b, g in ((number[:-1], number[1:], down), (number[:, :-1], number[:, 1:], across)):
        parts += [(a.ravel(), b.ravel(), -g.ravel()), (b.ravel(), a.ravel(), -g.ravel())]
        np.add.at(diagonal.ravel(), a.ravel(), g.ravel())
        np.add.at(diagonal.ravel(), b.ravel(), g.ravel())
    parts.append((number.ravel(), number.ravel(), diagonal.ravel()))
    rows, columns, values = (np.concatenate(p) for p in zip(*parts, strict=True))
    source = np.zeros(k.shape)
    source[0] = room
    t = spsolve(coo_array((values, (rows, columns))).tocsc(), source.ravel()).reshape(k.shape)
    heat = room * (1 - t[0])
    surface = 1 - heat / dx * inside_m2k_w
    return Section(float(heat.sum() / half_width_m), float(surface.min()))


def ribbed(lining, cover_m, insulation_w_mk, depth_m, skin, rib, inside_m2k_w=0.13, outside_m2k_w=0.04, fine_m=2e-4):
    """A wall with metal ribs: lining (m, W/mK) or None, insulation over and between ribs, outer skin (m, W/mK).

    rib: (flange width, sheet, number of webs 1 or 2, conductivity, spacing). One web stands on the mirror line; two
    stand at the ends of the flange as in a hat section, whose hollow is filled like the rest.
    """
    flange_m, sheet_m, webs, metal, spacing_m = rib
    half = spacing_m / 2
    lining_m, lining_w_mk = lining or (0.0, 1.0)
    skin_m, skin_w_mk = skin
    y1, y2, y3 = lining_m, lining_m + cover_m, lining_m + cover_m + depth_m
    boxes = [Box(0, half, y1, y3, insulation_w_mk), Box(0, half, y3, y3 + skin_m, skin_w_mk)]
    if lining:
        boxes.append(Box(0, half, 0, y1, lining_w_mk))
    if flange_m:
        boxes.append(Box(0, flange_m / 2, y2, y2 + sheet_m, metal))
    if webs == 1:
        boxes.append(Box(0, sheet_m / 2, y2, y3, metal))
    else:
        boxes.append(Box(flange_m / 2 - sheet_m, flange_m / 2, y2, y3, metal))
    return solve(boxes, half, y3 + skin_m, inside_m2k_w, outside_m2k_w, fine_m)
