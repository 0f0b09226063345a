"""Bands, chances and what weighings teach against drawing lots (numpy, 200,000 draws) and numpy's linear algebra."""

import random
from math import sqrt

import numpy
import pytest

from engine.physics import load_cases
from engine.physics.load_cases import Load, doubt, sums
from engine.physics.uncertainty import BAND_SIGMAS_COUNT, Error, band_kg, exceed_frac, learned, unlearned

pytestmark = pytest.mark.reference

DRAWS = 200_000
WHEELBASE_M = 3.9


def _vehicle(seed: int) -> list[Load]:
    draw = random.Random(seed)
    groups = ("", "", "", "scale", "people", "habit")
    return [
        Load(f"part {i}", kg := draw.uniform(2, 300), draw.uniform(-0.5, 5.5), draw.uniform(-0.9, 0.9), 1.0,
             kg * draw.uniform(0.02, 0.3), draw.choice(groups))
        for i in range(30)
    ]  # fmt: skip


def _drawn(loads: list[Load], seed: int) -> numpy.ndarray:
    """Masses of every load in every draw: one lot for each group, one for each load without."""
    lots = numpy.random.default_rng(seed)
    shared = {g: lots.standard_normal(DRAWS) for g in {load.group for load in loads} - {""}}
    return numpy.array(
        [
            load.mass_kg
            + load.spread_kg / BAND_SIGMAS_COUNT * (shared[load.group] if load.group else lots.standard_normal(DRAWS))
            for load in loads
        ]
    )


MEASURES = {
    "total": load_cases.total(),
    "front": load_cases.front(WHEELBASE_M),
    "rear": load_cases.rear(WHEELBASE_M),
    "front left": load_cases.wheel(load_cases.front(WHEELBASE_M), 1.7, right=False),
    "rear right": load_cases.wheel(load_cases.rear(WHEELBASE_M), 1.8, right=True),
}


@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize("what", MEASURES)
def test_band_and_chance_are_those_of_many_draws(what, seed):
    loads, by = _vehicle(seed), MEASURES[what]
    weights = numpy.array([by.per_kg(load.x_m, load.y_m, load.z_m) for load in loads])
    drawn = weights @ _drawn(loads, seed)
    value_kg = sums(loads).measured_kg(by)
    spread_kg = band_kg(Error(load.spread_kg * w, load.group) for load, w in zip(loads, weights, strict=True))
    # 200,000 draws know a mean to a thousandth of the band, and its ends to a hundredth.
    assert drawn.mean() == pytest.approx(value_kg, abs=0.005 * spread_kg)
    low, high = numpy.quantile(drawn, (0.05, 0.95))
    assert (high - low) / 2 == pytest.approx(spread_kg, rel=0.01)
    for sigmas in (-2.0, -0.7, 0.0, 0.4, 1.3, 2.3):
        limit_kg = value_kg + sigmas * spread_kg / BAND_SIGMAS_COUNT
        seen = float((drawn > limit_kg).mean())
        assert exceed_frac(value_kg, limit_kg, spread_kg) == pytest.approx(seen, abs=4 * sqrt(0.25 / DRAWS))


@pytest.mark.parametrize("seed", range(6))
def test_sums_of_errors_give_the_bands_of_both_axles(seed):
    loads = _vehicle(seed)
    half = doubt(loads[:10]).plus(doubt(loads[10:]))
    drawn = numpy.array([[1 - load.x_m / WHEELBASE_M, load.x_m / WHEELBASE_M] for load in loads]).T @ _drawn(
        loads, seed
    )
    covariance = numpy.cov(drawn) * BAND_SIGMAS_COUNT**2
    front, both, rear = half.axles_kg2(WHEELBASE_M)
    scale = sqrt(front * rear)
    assert front == pytest.approx(covariance[0][0], rel=0.015)
    assert rear == pytest.approx(covariance[1][1], rel=0.015)
    assert both == pytest.approx(covariance[0][1], abs=0.015 * scale)


@pytest.mark.parametrize("seed", range(20))
def test_what_weighings_teach_is_generalised_least_squares(seed):
    lots = numpy.random.default_rng(seed)
    causes, weighings = 4, 3
    belief = unlearned(causes)
    rows, seen, noises = [], [], []
    for _ in range(weighings):
        effect = lots.normal(0, 30, (2, causes))
        root = lots.normal(0, 10, (2, 2))
        noise = root @ root.T + numpy.eye(2) * 4
        difference = lots.normal(0, 40, 2)
        belief = learned(
            belief, tuple(map(tuple, effect.tolist())), tuple(difference.tolist()), tuple(map(tuple, noise.tolist()))
        )
        rows.append(effect), seen.append(difference), noises.append(noise)
    # All weighings at once: precision of the prior (unit) and of every weighing add up.
    precision, pull = numpy.eye(causes), numpy.zeros(causes)
    for effect, difference, noise in zip(rows, seen, noises, strict=True):
        precision += effect.T @ numpy.linalg.inv(noise) @ effect
        pull += effect.T @ numpy.linalg.inv(noise) @ difference
    covariance = numpy.linalg.inv(precision)
    assert numpy.array(belief.covariance_sigmas2) == pytest.approx(covariance, abs=1e-9)
    assert numpy.array(belief.mean_sigmas) == pytest.approx(covariance @ pull, abs=1e-8)
