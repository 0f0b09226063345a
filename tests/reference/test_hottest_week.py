"""The day that stands for a month's hottest week, against the hours of typical years."""

import numpy as np
import pytest

from engine.build.cool_day import week_hottest_degc
from tests.reference.test_sun_hours import year

pytestmark = pytest.mark.reference


@pytest.mark.parametrize("place", ["Greensboro", "Miami"])
@pytest.mark.parametrize("month", [6, 7, 8, 9])
def test_its_warmest_hour_is_the_mean_one_of_the_week_or_a_little_above(place, month):
    air = year(place)[0]["air"]
    hours = air[air.index.month == month].to_numpy()
    warmest = hours.reshape(-1, 24).max(axis=1)
    week = np.convolve(warmest, np.full(7, 1 / 7), "valid").max()
    assert -0.5 <= week_hottest_degc(hours.mean(), hours.max()) - week <= 2.5
