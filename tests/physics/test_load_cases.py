"""The search for the worst filling against trying every one."""

import random
from itertools import combinations, permutations, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.physics import load_cases
from engine.physics.axle import PointLoad, wheel_loads
from engine.physics.load_cases import Filling, Load, Loading, Measure, Seat, least_ratio, most, sums

WHEELBASE_M = 3.8
MEASURES = {
    "total": load_cases.total(),
    "front": load_cases.front(WHEELBASE_M),
    "rear": load_cases.rear(WHEELBASE_M),
    "front left": load_cases.wheel(load_cases.front(WHEELBASE_M), 1.7, right=False),
    "front right": load_cases.wheel(load_cases.front(WHEELBASE_M), 1.7, right=True),
    "rear left": load_cases.wheel(load_cases.rear(WHEELBASE_M), 1.6, right=False),
    "rear right": load_cases.wheel(load_cases.rear(WHEELBASE_M), 1.6, right=True),
    "height": Measure(0.0, z=1.0),
}


def random_loading(seed: int) -> Loading:
    """Few enough things to try every mix of them."""
    draw = random.Random(seed)

    def load(name: str, low: float, high: float) -> Load:
        return Load(name, draw.uniform(low, high), draw.uniform(-0.5, 5.6), draw.uniform(-0.9, 0.9),
                    draw.uniform(0.4, 2.5))  # fmt: skip

    water = tuple(load("tank", 20, 200) for _ in range(draw.randint(0, 4)))
    seats = tuple(Seat(*load("seat", 1, 2)[2:5]) for _ in range(draw.randint(2, 4)))
    return Loading(
        always=(load("driver", 60, 90),),
        free=tuple(load("thing", -70, 150) for _ in range(draw.randint(0, 5))),
        water=water,
        water_kg=draw.uniform(0, 1.1) * sum(w.mass_kg for w in water),
        people=tuple(load("person", 30, 90) for _ in range(draw.randint(0, len(seats)))),
        seats=seats,
    )


def corners(of: Loading):
    """Every filling that can be the best for anything that is linear: things aboard or not, any people in any seats,
    and tanks full or empty but for one that takes what is left."""
    waters = []
    for full in product((0, 1), repeat=len(of.water)):
        kg = sum(f * w.mass_kg for f, w in zip(full, of.water, strict=True))
        if kg <= of.water_kg + 1e-9:
            waters.append(tuple(map(float, full)))
            for i, w in enumerate(of.water):
                if not full[i]:
                    part = min(1.0, (of.water_kg - kg) / w.mass_kg)
                    waters.append(tuple(part if j == i else float(f) for j, f in enumerate(full)))
    peoples = [
        tuple(p.moved(s) for p, s in zip(who, where, strict=True))
        for n in range(len(of.people) + 1)
        for who in combinations(of.people, n)
        for where in permutations(of.seats, n)
    ]
    for free in product((False, True), repeat=len(of.free)):
        for water in waters:
            for people in peoples:
                yield Filling(free, water, people)


@pytest.mark.parametrize("seed", range(12))
def test_no_filling_is_worse_than_the_one_found(seed):
    loading = random_loading(seed)
    best = dict.fromkeys(MEASURES, float("-inf"))
    for filling in corners(loading):
        all_ = sums(filling.loads(loading))
        for name, by in MEASURES.items():
            best[name] = max(best[name], all_.measured_kg(by))
    for name, by in MEASURES.items():
        found = sums(most(loading, by).loads(loading)).measured_kg(by)
        assert found == pytest.approx(best[name], abs=1e-9), name


@pytest.mark.parametrize("seed", range(12))
def test_no_filling_has_a_smaller_share_than_the_one_found(seed):
    loading = random_loading(100 + seed)
    built_in = sums([Load("front", 1300, 0.0, 0.0, 0.8), Load("rear", 1100, WHEELBASE_M, 0.0, 0.8)])
    for top in (MEASURES["front"], MEASURES["rear left"], Measure(0.0, z=-1.0)):
        least = float("inf")
        for filling in corners(loading):
            all_ = built_in.plus(sums(filling.loads(loading)))
            least = min(least, all_.measured_kg(top) / all_.mass_kg)
        all_ = built_in.plus(sums(least_ratio(loading, built_in, top, load_cases.total()).loads(loading)))
        assert all_.measured_kg(top) / all_.mass_kg == pytest.approx(least, abs=1e-12)


@pytest.mark.parametrize("seed", range(30))
def test_water_is_moved_and_not_made(seed):
    loading = random_loading(200 + seed)
    for by in MEASURES.values():
        filling = most(loading, by)
        kg = sum(f * w.mass_kg for f, w in zip(filling.water_frac, loading.water, strict=True))
        assert kg <= loading.water_kg + 1e-9
        assert all(0 <= f <= 1 for f in filling.water_frac)
        assert len(filling.people) <= len(loading.people)


LOADS = st.lists(
    st.builds(
        Load, st.just("part"), st.floats(0, 500), st.floats(-2, 9), st.floats(-1.2, 1.2), st.floats(0.2, 3),
    ),
    max_size=12,
)  # fmt: skip


@given(LOADS, st.floats(2.2, 7), st.floats(1.3, 2.2), st.floats(1.3, 2.2))
def test_measures_agree_with_moments_and_add_up(loads, wheelbase_m, front_track_m, rear_track_m):
    all_ = sums(loads)
    front, rear = load_cases.front(wheelbase_m), load_cases.rear(wheelbase_m)
    ends = [
        load_cases.wheel(axle, track_m, right)
        for axle, track_m in ((front, front_track_m), (rear, rear_track_m))
        for right in (False, True)
    ]
    expected = wheel_loads(
        [PointLoad(i.mass_kg, i.x_m, i.y_m) for i in loads], wheelbase_m, front_track_m, rear_track_m
    )
    measured = [all_.measured_kg(by) for by in ends]
    assert measured == pytest.approx(list(expected), abs=1e-6)
    assert measured[0] + measured[1] == pytest.approx(all_.measured_kg(front), abs=1e-6)
    assert measured[2] + measured[3] == pytest.approx(all_.measured_kg(rear), abs=1e-6)
    assert sum(measured) == pytest.approx(all_.mass_kg, abs=1e-6)


@given(LOADS, st.floats(2.2, 7), st.floats(1.3, 2.2))
def test_a_mirrored_vehicle_swaps_its_sides(loads, wheelbase_m, track_m):
    axle = load_cases.front(wheelbase_m)
    left, right = (load_cases.wheel(axle, track_m, side) for side in (False, True))
    here, there = sums(loads), sums(i._replace(y_m=-i.y_m) for i in loads)
    assert here.measured_kg(left) == pytest.approx(there.measured_kg(right), abs=1e-6)
    assert here.measured_kg(right) == pytest.approx(there.measured_kg(left), abs=1e-6)


def test_what_subtracting_leaves_over_is_no_water_in_a_tank():
    """Another Python adds floats in another way; a last tank with 1e-14 kg would bring its whole tank's error along."""
    tanks = tuple(Load("waste tanks", kg, x, 0.0, 0.5, 5.0) for kg, x in ((113.7, 4.1), (75.8, 3.9), (19.0, 3.0)))
    of = Loading((), (), tanks, 113.7 + 75.8 + 1e-13, (), ())
    assert most(of, load_cases.rear(4.4)).water_frac == (1.0, 1.0, 0.0)
