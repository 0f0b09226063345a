"""Two legs of a split-phase supply: nothing is lost, and no way is more even."""

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.physics.legs import balanced
from engine.physics.ranges import OutOfRangeError


@given(st.lists(st.floats(0, 3000), max_size=9), st.floats(0, 5000))
def test_no_way_to_share_out_is_more_even(loads, both_va):
    found = balanced(tuple(loads), both_va)
    assert found.heavier_va + found.lighter_va == pytest.approx(sum(loads) + both_va)
    assert found.heavier_va >= found.lighter_va - 1e-6
    best = min(
        max(sum(x for x, left in zip(loads, way, strict=True) if left == side) for side in (True, False))
        for way in product((True, False), repeat=len(loads))
    )
    assert best - 1e-6 <= found.heavier_va - both_va / 2 <= best + 0.5 * len(loads) + 1e-6


def test_beyond_its_range_it_raises():
    for loads, both_va in (((-1.0,), 0.0), ((1e6,), 0.0), ((1.0,), -1.0), ((), 1e6)):
        with pytest.raises(OutOfRangeError):
            balanced(loads, both_va)
