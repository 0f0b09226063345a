"""Condensing faces and rates against a linear programme, which knows nothing of hulls."""

import pytest

from engine.physics.glaser import MONTH_DAYS, TIGHT_M, Climate, VapourLayer, damp_year
from engine.physics.moist_air import saturation_kpa, vapour_kpa

pytestmark = pytest.mark.reference

PERMEABILITY = 2e-10
WALLS = {
    "steel and wool": (
        VapourLayer("steel", 0.001, 50, TIGHT_M), VapourLayer("wool", 0.05, 0.037, 0.05),
        VapourLayer("plywood", 0.006, 0.13, 0.4),
    ),
    "plastic sandwich": (
        VapourLayer("plastic", 0.002, 0.4, 60), VapourLayer("foam", 0.04, 0.033, 4),
        VapourLayer("plastic", 0.001, 0.4, 30),
    ),
    "brick, lined inside": (
        VapourLayer("brick", 0.115, 0.8, 1.2), VapourLayer("wool", 0.10, 0.04, 0.1),
        VapourLayer("board", 0.0125, 0.25, 0.1),
    ),
}  # fmt: skip


def _faces(layers, c, parts=4):
    """Places along s_d and saturation at them, each layer in so many parts as gives steps below 0.25 m²K/W."""
    r, s = [], [0.0]
    for x in layers:
        part = x.thickness_m / x.conductivity_w_mk
        n = -(-part // 0.25) or 1
        r += [part / n] * int(n)
        for _ in range(int(n)):
            s.append(s[-1] + x.air_m / n)
    whole, at, sat = 0.17 + sum(r), 0.04, []
    for step in (0.0, *r):
        at += step
        sat.append(1000 * saturation_kpa(c.outside_degc + (c.inside_degc - c.outside_degc) * at / whole))
    return s, sat


@pytest.mark.parametrize("wall", WALLS)
@pytest.mark.parametrize("outside_degc", [-15, -5, 2, 8])
def test_first_month_against_a_linear_programme(wall, outside_degc):
    from scipy.optimize import linprog

    # The profile is the highest one below saturation that nowhere bends down: maximise its sum.
    c = Climate(20, 0.6, outside_degc, 0.85)
    s, sat = _faces(WALLS[wall], c)
    n = len(s)
    rows = []
    for i in range(1, n - 1):
        row = [0.0] * n
        a, b = 1 / (s[i] - s[i - 1]), 1 / (s[i + 1] - s[i])
        row[i - 1], row[i], row[i + 1] = -a, a + b, -b
        scale = a + b
        rows.append([v / scale for v in row])
    ends = (1000 * vapour_kpa(outside_degc, 0.85), 1000 * vapour_kpa(20, 0.6))
    bounds = [(ends[0], ends[0]), *((0, p) for p in sat[1:-1]), (ends[1], ends[1])]
    p = linprog([-1.0] * n, A_ub=rows, b_ub=[0.0] * len(rows), bounds=bounds, method="highs").x
    expected = [
        PERMEABILITY * ((p[i + 1] - p[i]) / (s[i + 1] - s[i]) - (p[i] - p[i - 1]) / (s[i] - s[i - 1]))
        for i in range(1, n - 1)
    ]
    warm = Climate(20, 0.6, 25, 0.3)
    year = damp_year(WALLS[wall], (c, *[warm] * 11))
    first = next(m for m in year.months if m.month == 0)
    for ours, lp in zip(first.gained_kg_m2, expected, strict=True):
        assert ours == pytest.approx(lp * MONTH_DAYS[0] * 86400, abs=1e-5)


def test_drying_against_small_steps_of_an_hour():
    # The same year in steps of an hour with the flux through one wet face written out: no splitting, no hull.
    months = (2, 3, 6, 9, 13, 16, 18, 18, 15, 11, 6, 3)
    layers = WALLS["steel and wool"]
    year = damp_year(layers, tuple(Climate(20, 0.55, t, 0.8) for t in months))
    held, by_hand = 0.0, []
    for m in (10, 11, *range(10)):
        c = Climate(20, 0.55, months[m], 0.8)
        s, sat = _faces(layers, c)
        out, room = 1000 * vapour_kpa(c.outside_degc, 0.8), 1000 * vapour_kpa(20, 0.55)
        rate = PERMEABILITY * ((room - sat[1]) / (s[-1] - s[1]) - (sat[1] - out) / s[1])
        for _ in range(MONTH_DAYS[m] * 24):
            held = max(0.0, held + rate * 3600)
        by_hand.append(held)
    assert [sum(m.held_kg_m2) for m in year.months] == pytest.approx(by_hand, abs=2e-3)
