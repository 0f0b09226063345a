"""The noon sun against pvlib's solar position algorithm, hour by hour over a leapless year."""

import pytest

from engine.physics.roof_shade import MEAN_DAYS, noon_altitude_deg

pvlib = pytest.importorskip("pvlib")
pandas = pytest.importorskip("pandas")
pytestmark = pytest.mark.reference


@pytest.mark.parametrize("latitude_deg", [-45.0, -12.0, 0.0, 33.0, 52.0, 66.0])
def test_noon_altitude_agrees_with_the_highest_sun_of_the_day(latitude_deg):
    for month, day in enumerate(MEAN_DAYS, 1):
        start = pandas.Timestamp("2025-01-01", tz="UTC") + pandas.Timedelta(days=day - 1)
        around_noon = pandas.date_range(start + pandas.Timedelta(hours=11.5), periods=61, freq="1min")
        found = pvlib.solarposition.get_solarposition(around_noon, latitude_deg, 0.0)["elevation"].max()
        assert noon_altitude_deg(latitude_deg, month) == pytest.approx(found, abs=0.6)
