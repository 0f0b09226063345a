"""Sun, cloudless sky, tilted light and warm cells against pvlib, each within what its formula promises."""

import itertools

import pytest

from engine.physics.cell import LOSSES_FRAC, MOUNTS, cell_degc, kept_frac, panel_w
from engine.physics.clear_sky import air_mass_multiple, clear_sky
from engine.physics.sky import (
    direct_frac,
    glass_frac,
    ground_glass_frac,
    panel_light,
    panel_ways,
    sky_glass_frac,
    toward_sun_frac,
)
from engine.physics.solar_position import (
    Sun,
    daily_extraterrestrial_kwh_m2_d,
    extraterrestrial_w_m2,
    refraction_deg,
    sun_on,
    sun_position,
)

pvlib = pytest.importorskip("pvlib")
pd = pytest.importorskip("pandas")
pytestmark = pytest.mark.reference

PLACES = ((-45.0, 170.0), (-12.0, -77.0), (1.4, 103.8), (36.1, -79.9), (52.3, 4.8), (66.0, 25.0))


def _ours(moment, latitude_deg, longitude_deg, year):
    hour_h = moment.hour + moment.minute / 60
    sun = sun_on(moment.day_of_year, hour_h, year)
    solar_h = hour_h + longitude_deg / 15 + sun.equation_of_time_h
    return sun_position(latitude_deg, sun.declination_deg, solar_h), sun


@pytest.mark.parametrize("year", [2000, 2023, 2024, 2025, 2049])
@pytest.mark.parametrize(("latitude_deg", "longitude_deg"), PLACES)
def test_the_sun_stands_where_the_solar_position_algorithm_puts_it(latitude_deg, longitude_deg, year):
    moments = pd.date_range(f"{year}-01-01 00:30", f"{year}-12-31 23:30", freq="31h", tz="UTC")
    theirs = pvlib.solarposition.get_solarposition(moments, latitude_deg, longitude_deg)
    for moment, row in zip(moments, theirs.itertuples(), strict=True):
        ours, sun = _ours(moment, latitude_deg, longitude_deg, year)
        assert ours.elevation_deg == pytest.approx(row.elevation, abs=0.02)
        # Near the zenith a direction means little: compare it as an arc.
        arc = abs((ours.azimuth_deg - row.azimuth + 180) % 360 - 180) * max(0.0, 90 - abs(row.elevation)) / 90
        assert arc < 0.02
        assert sun.equation_of_time_h * 60 == pytest.approx(row.equation_of_time, abs=0.1)


@pytest.mark.parametrize("year", [1999, 2010, 2022, 2024, 2027, 2028])
def test_the_typical_year_stands_for_others(year):
    # A calendar day comes up to 0.9 day early or late in the sun's year: 0.35° where the declination runs fastest.
    for day in range(1, 366):
        assert sun_on(day).declination_deg == pytest.approx(sun_on(day, 12.0, year).declination_deg, abs=0.36)


def test_light_bends_as_the_solar_position_algorithm_says():
    moments = pd.date_range("2025-03-20 06:00", periods=12 * 12, freq="5min", tz="UTC")
    theirs = pvlib.solarposition.get_solarposition(moments, 0.0, 0.0, pressure=101000, temperature=10)
    # Its horizon is 0.8° below; under that it bends nothing.
    up = theirs[theirs["elevation"] > -0.8]
    assert len(up) > 130
    for row in up.itertuples():
        bent = row.apparent_elevation - row.elevation
        assert refraction_deg(row.elevation) == pytest.approx(bent, abs=0.005)


def test_sun_above_the_air_over_a_year():
    for day in range(1, 366):
        theirs = pvlib.irradiance.get_extra_radiation(day)
        assert extraterrestrial_w_m2(sun_on(day).distance_multiple) == pytest.approx(theirs, rel=1.5e-3)


@pytest.mark.parametrize(
    ("latitude_deg", "declination_deg", "day", "mj"),
    # Duffie and Beckman's equation 1.10.3 by hand; their example 1.10.1 prints 33.8 MJ/m² for 43° on 15 April.
    [(43, 9.4149, 105, 33.775), (40, 23.4498, 172, 41.892), (40, -23.4498, 355, 13.511), (60, -23.4498, 355, 2.109)],
)
def test_daily_sun_above_the_air(latitude_deg, declination_deg, day, mj):
    sun = Sun(declination_deg, 0.0, sun_on(day).distance_multiple)
    ours = daily_extraterrestrial_kwh_m2_d(latitude_deg, sun) * 3.6
    assert ours == pytest.approx(mj, rel=3e-3)


@pytest.mark.parametrize("altitude_m", [0.0, 500.0, 1600.0, 3500.0])
@pytest.mark.parametrize("turbidity", [2.0, 3.0, 5.0])
def test_cloudless_sky(altitude_m, turbidity):
    for elevation in (1.0, 5.0, 15.0, 40.0, 75.0, 90.0):
        mass = pvlib.atmosphere.get_relative_airmass(90 - elevation)
        assert air_mass_multiple(elevation) == pytest.approx(mass, rel=1e-4)
        pressure = pvlib.atmosphere.alt2pres(altitude_m)
        theirs = pvlib.clearsky.ineichen(
            90 - elevation, pvlib.atmosphere.get_absolute_airmass(mass, pressure), turbidity, altitude_m, 1380.0
        )
        ours = clear_sky(elevation, 1380.0, altitude_m, turbidity)
        expected = [float(theirs[name]) for name in ("ghi", "dni", "dhi")]
        assert list(ours) == pytest.approx(expected, rel=2e-3, abs=0.05)


@pytest.mark.parametrize("elevation", [5.0, 10.0, 20.0, 45.0, 80.0])
def test_hourly_split_into_direct_and_diffuse(elevation):
    above = float(pvlib.irradiance.get_extra_radiation(172, 1370.0, "spencer"))
    for step in range(101):
        clearness = step / 100
        level = clearness * above * pvlib.tools.sind(elevation)
        theirs = pvlib.irradiance.disc(level, 90 - elevation, 172, pressure=None)
        # Their air mass is that of Kasten (1966), ours of Kasten and Young (1989).
        assert direct_frac(clearness, air_mass_multiple(elevation)) == pytest.approx(
            float(theirs["dni"]) / above, abs=2e-3
        )


GRID = list(
    itertools.product((5.0, 20.0, 50.0, 80.0), (90.0, 180.0, 250.0), (0.0, 10.0, 35.0, 60.0, 90.0), (160.0, 180.0))
)


@pytest.mark.parametrize("clearness", [0.1, 0.45, 0.75])
def test_light_on_tilted_panels(clearness):
    for elevation, azimuth, tilt, facing in GRID:
        up = pvlib.tools.sind(elevation)
        level_extra = 1380.0 * up
        total = clearness * level_extra
        diffuse = total - direct_frac(clearness, air_mass_multiple(elevation)) * level_extra
        theirs = pvlib.irradiance.get_total_irradiance(
            tilt, facing, 90 - elevation, azimuth, (total - diffuse) / up, total, diffuse, 1380.0, albedo=0.2,
            model="haydavies",
        )  # fmt: skip
        toward = toward_sun_frac(elevation, azimuth, tilt, facing)
        assert toward == pytest.approx(max(0, pvlib.irradiance.aoi_projection(tilt, facing, 90 - elevation, azimuth)))
        ours = panel_light(total, diffuse, level_extra, panel_ways(up, toward, tilt))
        assert ours.light_w_m2 == pytest.approx(float(theirs["poa_global"]), rel=1e-9)


def test_glass():
    for angle in range(0, 91, 5):
        theirs = pvlib.iam.martin_ruiz(angle)
        assert glass_frac(max(0.0, pvlib.tools.cosd(angle))) == pytest.approx(float(theirs), abs=1e-9)
    for tilt in (0.0, 5.0, 30.0, 60.0, 90.0):
        theirs = pvlib.iam.martin_ruiz_diffuse(tilt)
        # pvlib rounds the constant 4/(3π) to four digits.
        assert sky_glass_frac(tilt) == pytest.approx(float(theirs["sky"]), abs=2e-5)
        if tilt:
            assert ground_glass_frac(tilt) == pytest.approx(float(theirs["ground"]), abs=2e-5)


NAMES = {
    "open": "open_rack_glass_glass",
    "raised": "close_mount_glass_glass",
    "glued": "insulated_back_glass_polymer",
}


@pytest.mark.parametrize("mount", MOUNTS)
def test_cells(mount):
    known = pvlib.temperature.TEMPERATURE_MODEL_PARAMETERS["sapm"][NAMES[mount]]
    for light, air, wind in itertools.product((0.0, 120.0, 1000.0), (-15.0, 30.0), (0.5, 3.0, 8.0)):
        theirs = pvlib.temperature.sapm_cell(light, air, wind, **known)
        assert cell_degc(light, air, mount, wind) == pytest.approx(theirs, abs=1e-9)
        cells = min(150.0, theirs)
        power = pvlib.pvsystem.pvwatts_dc(light, cells, 400, -0.0035)
        assert panel_w(400, light, cells, -0.0035, 1.0) == pytest.approx(power, abs=1e-9)


def test_losses():
    assert 1 - kept_frac(LOSSES_FRAC) == pytest.approx(pvlib.pvsystem.pvwatts_losses() / 100, abs=1e-12)
