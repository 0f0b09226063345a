"""Sun on roof and walls over all headings against pvlib."""

import pytest

from engine.physics.solar_gain import shell_sun

pytestmark = pytest.mark.reference


@pytest.mark.parametrize(("latitude", "day"), [(45, 196), (60, 172), (25, 196), (45, 15), (-33, 15)])
def test_shell_sun_is_that_of_pvlib(latitude, day):
    import pandas as pd
    import pvlib

    # On the Greenwich meridian, 2025; the sundial by pvlib's own equation of time.
    noon = pd.DatetimeIndex([pd.Timestamp("2025-01-01 12:00", tz="UTC") + pd.Timedelta(days=day - 1)])
    shift = pvlib.solarposition.get_solarposition(noon, latitude, 0).equation_of_time.iloc[0]
    times = pd.date_range(noon[0] - pd.Timedelta(hours=11.5, minutes=shift), periods=24, freq="h")
    place = pvlib.location.Location(latitude, 0, "UTC", 300)
    stands = place.get_solarposition(times)
    clear = place.get_clearsky(times, model="ineichen", linke_turbidity=3.5)
    headings = range(0, 360, 5)
    walls = [
        pvlib.irradiance.get_total_irradiance(
            90,
            a,
            stands.apparent_zenith,
            stands.azimuth,
            clear.dni,
            clear.ghi,
            clear.dhi,
            albedo=0.2,
            model="isotropic",
        ).poa_global
        for a in headings
    ]
    mean = sum(walls) / len(walls)
    worst = pd.concat(walls, axis=1).max(axis=1)
    for hour, ours in enumerate(shell_sun(latitude, day, 300, 3.5)):
        # pvlib's sun is that of the moment, ours that of noon: a few watts at the edges of the day.
        assert ours.roof_w_m2 == pytest.approx(clear.ghi.iloc[hour], rel=0.005, abs=4), hour
        assert ours.wall_w_m2 == pytest.approx(mean.iloc[hour], rel=0.01, abs=6), hour
        assert ours.worst_wall_w_m2 == pytest.approx(worst.iloc[hour], rel=0.01, abs=12), hour
