"""U-values against worked build-ups by ISO 6946 and against two-dimensional heat flow, solved here with scipy."""

from itertools import pairwise

import pytest

from engine.physics.heat import Layer, u_value

pytestmark = pytest.mark.reference

INSIDE, OUTSIDE = 0.13, 0.04

# 1 mm steel, insulation, 6 mm plywood with films of 0.13 and 0.04 m²K/W: thickness in m and conductivity in W/(m·K)
# of the insulation, and 1/(sum of resistances) worked by hand (ISO 6946:2017, 6.7.1).
HOMOGENEOUS = {
    (0.050, 0.035): 0.6080,
    (0.030, 0.023): 0.6577,
    (0.050, 0.023): 0.4184,
    (0.040, 0.033): 0.7001,
    (0.025, 0.032): 1.0026,
    (0.019, 0.033): 1.2627,
    (0.100, 0.040): 0.3682,
}
TIMBER_WALL = (Layer(0.006, 0.13), Layer(0.040, 0.033, 0.10, 0.13), Layer(0.001, 160))
"""6 mm plywood, 40 mm extruded polystyrene with a tenth softwood, 1 mm aluminium."""


@pytest.mark.parametrize("insulation", HOMOGENEOUS)
def test_plain_layers(insulation):
    wall = (Layer(0.006, 0.13), Layer(*insulation), Layer(0.001, 50))
    u = u_value(wall, INSIDE, OUTSIDE)
    assert u.u_w_m2k == pytest.approx(HOMOGENEOUS[insulation], abs=5.1e-5)
    assert u.low_w_m2k == pytest.approx(u.high_w_m2k)


def test_single_sheets():
    # One pane of glass (4 mm, 1.0 W/(m·K)) and of acrylic (3 mm, 0.20 W/(m·K)), by hand.
    assert u_value((Layer(0.004, 1.0),), INSIDE, OUTSIDE).u_w_m2k == pytest.approx(5.747, abs=5.1e-4)
    assert u_value((Layer(0.003, 0.20),), INSIDE, OUTSIDE).u_w_m2k == pytest.approx(5.405, abs=5.1e-4)


def test_timber_framing_by_the_combined_method():
    # Worked by hand after ISO 6946:2017, 6.7.2: R' 1.21799, R'' 1.15293, U 0.84355.
    u = u_value(TIMBER_WALL, INSIDE, OUTSIDE)
    assert 1 / u.low_w_m2k == pytest.approx(1.21799, abs=5.1e-6)
    assert 1 / u.high_w_m2k == pytest.approx(1.15293, abs=5.1e-6)
    assert u.u_w_m2k == pytest.approx(0.84355, abs=5.1e-6)


def test_timber_framing_against_two_dimensional_heat_flow():
    # A 60 mm batten every 600 mm is the same tenth. The combined method lies 1.2 % above the solved field, on the safe
    # side, and the field lies within the method's two limits.
    wall = [(0.006, _all(0.13)), (0.040, lambda x: 0.13 if x < 0.030 else 0.033), (0.001, _all(160))]
    solved = _u_2d(wall, half_width_m=0.300, joints_m=(0.030,))
    u = u_value(TIMBER_WALL, INSIDE, OUTSIDE)
    assert solved == pytest.approx(0.8332, rel=2e-3)  # the same wall, solved apart from this project
    assert u.low_w_m2k < solved < u.high_w_m2k
    assert u.u_w_m2k / solved == pytest.approx(1.012, abs=0.002)


def test_steel_ribs_raise_the_u_value_by_about_half():
    # 0.8 mm steel skin, 40 mm at 0.035 W/(m·K), 4 mm plywood; ribs of 1.2 mm steel every 500 mm through the whole
    # insulation, each with a 40 mm flange on the room side.
    steel, foam, ply = 50.0, 0.035, 0.13
    flange_m, sheet_m = 0.040, 0.0012
    web = lambda x: steel if x < sheet_m / 2 else foam  # noqa: E731
    flange = lambda x: steel if x < flange_m / 2 else foam  # noqa: E731
    ribbed = [
        (0.004, _all(ply)),
        (sheet_m, flange),
        (0.040 - sheet_m, web),
        (0.0008, _all(steel)),
    ]
    solved = _u_2d(ribbed, half_width_m=0.250, joints_m=(sheet_m / 2, flange_m / 2))
    plain = u_value((Layer(0.004, ply), Layer(0.040, foam), Layer(0.0008, steel)), INSIDE, OUTSIDE).u_w_m2k
    assert plain == pytest.approx(0.7442, abs=5.1e-5)
    assert solved == pytest.approx(1.146, rel=5e-3)  # the same wall, solved apart from this project
    assert solved / plain == pytest.approx(1.54, abs=0.01)


def test_a_wall_without_ribs_is_the_same_in_two_dimensions():
    # Checks the solver below itself, where the answer is known.
    wall = [(0.006, _all(0.13)), (0.040, _all(0.033)), (0.001, _all(50))]
    assert _u_2d(wall, half_width_m=0.1, joints_m=()) == pytest.approx(0.7001, abs=5.1e-5)


def _all(conductivity_w_mk):
    return lambda x_m: conductivity_w_mk


def _edges(marks, coarse_m, fine_m):
    """Cell edges between marks: fine cells beside each mark that grow by a fifth towards the middle."""
    edges = [marks[0]]
    for a, b in pairwise(marks):
        half, steps, size = (b - a) / 2, [], fine_m
        while sum(steps) + size < half:
            steps.append(size)
            size = min(size * 1.2, coarse_m)
        scale = half / sum(steps) if steps else 1.0
        steps = [s * scale for s in steps] or [half]
        for step in (*steps, *reversed(steps)):
            edges.append(edges[-1] + step)
        edges[-1] = b
    return edges


def _u_2d(layers, half_width_m, joints_m):
    """U-value of a wall that repeats mirror-wise every half width, by finite volumes.

    layers: (thickness, conductivity as a function of the distance from the middle of the framing), from the room out.
    Room at 1, outside at 0, no heat through the sides.
    """
    import numpy as np
    from scipy.sparse import coo_array
    from scipy.sparse.linalg import spsolve

    depth = [0.0]
    for thickness_m, _ in layers:
        depth.append(depth[-1] + thickness_m)
    x = np.array(_edges([0.0, *joints_m, half_width_m], 0.004, 0.0002))
    y = np.array(_edges(depth, 0.001, 0.0001))
    dx, dy = np.diff(x), np.diff(y)
    xm, ym = (x[:-1] + x[1:]) / 2, (y[:-1] + y[1:]) / 2
    of = np.searchsorted(depth, ym) - 1
    k = np.array([[layers[j][1](xi) for xi in xm] for j in of])
    n = np.arange(k.size).reshape(k.shape)
    down = dx / (dy[:-1, None] / 2 / k[:-1] + dy[1:, None] / 2 / k[1:])
    across = dy[:, None] / (dx[:-1] / 2 / k[:, :-1] + dx[1:] / 2 / k[:, 1:])
    room = dx / (INSIDE + dy[0] / 2 / k[0])
    out = dx / (OUTSIDE + dy[-1] / 2 / k[-1])
    diagonal = np.zeros(k.shape)
    diagonal[0] += room
    diagonal[-1] += out
    rows, columns, values = [], [], []
    for a, b, g in ((n[:-1], n[1:], down), (n[:, :-1], n[:, 1:], across)):
        for p, q in ((a, b), (b, a)):
            rows.append(p.ravel())
            columns.append(q.ravel())
            values.append(-g.ravel())
    diagonal[:-1] += down
    diagonal[1:] += down
    diagonal[:, :-1] += across
    diagonal[:, 1:] += across
    rows.append(n.ravel())
    columns.append(n.ravel())
    values.append(diagonal.ravel())
    matrix = coo_array((np.concatenate(values), (np.concatenate(rows), np.concatenate(columns)))).tocsr()
    source = np.zeros(k.shape)
    source[0] = room
    t = spsolve(matrix, source.ravel()).reshape(k.shape)
    return float((room * (1 - t[0])).sum() / half_width_m)
