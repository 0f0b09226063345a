"""The mean day of a month is that of the hourly reckoning over the month's days."""

import pytest

from engine.enquiry.climate import load_places
from engine.physics.energy_system import DayPlan, EnergySystem, Store
from engine.physics.energy_trip import simulate_trip
from engine.physics.month_sun import mean_sun_wh
from engine.physics.panel_day import PanelGroup
from engine.physics.ranges import OutOfRangeError
from engine.physics.weather_years import Climate, month_of


def climate(place: str) -> Climate:
    p = load_places()[place]
    return Climate(p.latitude_deg, p.ghi_kwh_m2_d, p.mean_degc, p.coldest_night_degc, p.hottest_day_degc, p.altitude_m)


@pytest.mark.parametrize(
    ("place", "within"), [("london", 0.03), ("tucson", 0.03), ("sydney", 0.03), ("northway", 0.07)]
)
@pytest.mark.parametrize("month", [1, 3, 6, 9, 12])
@pytest.mark.parametrize("tilted_w", [0.0, 150.0])
def test_it_is_the_mean_of_the_hourly_reckoning(place, within, month, tilted_w):
    here = climate(place)
    noon_deg = 180.0 if here.latitude_deg > 0 else 0.0
    panels = (PanelGroup(400.0), PanelGroup(tilted_w, tilt_deg=20.0, facing_deg=noon_deg))
    days = tuple(d for d in range(1, 366) if month_of(d) == month)
    for limit_w in (1e6, 300.0, (400.0 + tilted_w) / 2):
        system = EnergySystem(Store(1000.0, 500.0, 500.0), panels, controllers_w=(limit_w,))
        drawn = simulate_trip(here, system, days, (DayPlan(),) * len(days), 20).sun_wh_d
        assert mean_sun_wh(here, month, panels, 0.96, (limit_w,)) == pytest.approx(drawn, rel=within)


def test_no_sun_and_no_panels_bring_nothing():
    assert mean_sun_wh(climate("london"), 6, ()) == 0
    dark = Climate(78.0, (0.0,) * 12, (-10.0,) * 12, (-30.0,) * 12, (5.0,) * 12)
    assert mean_sun_wh(dark, 12, (PanelGroup(400.0),)) == 0


def test_out_of_range_raises():
    panels = (PanelGroup(400.0),)
    for month, share, limit_w in ((0, 0.96, 1e3), (13, 0.96, 1e3), (6, 0.4, 1e3), (6, 0.96, -1.0)):
        with pytest.raises(OutOfRangeError):
            mean_sun_wh(climate("london"), month, panels, share, (limit_w,))
