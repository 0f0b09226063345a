"""Panels hour by hour against pvlib over three typical years that it ships, and the drawn weather against those years.

Each bound says how far off the model was found; what is worse than wished is written down, not widened in silence.
"""

from functools import cache
from itertools import pairwise
from math import radians, sin
from pathlib import Path
from statistics import NormalDist

import pytest

from engine.physics.air import WAVE_FRAC, month_air
from engine.physics.cell import KEPT_FRAC, cell_degc, panel_w
from engine.physics.clear_sky import air_mass_multiple
from engine.physics.clearness import DARKEST_FRAC, clearness_frac, clearness_spread, cloudless_frac
from engine.physics.panel_day import STEP_FRAC, PanelGroup, panel_day, panel_path
from engine.physics.sky import direct_frac, panel_light, panel_ways, toward_sun_frac
from engine.physics.solar_position import (
    daily_extraterrestrial_kwh_m2_d,
    extraterrestrial_w_m2,
    sun_on,
    sun_position,
)
from engine.physics.sun_day import DAYS_IN_MONTH

np = pytest.importorskip("numpy")
pvlib = pytest.importorskip("pvlib")
pd = pytest.importorskip("pandas")
pytestmark = pytest.mark.reference

PLACES = ("Greensboro", "Sand Point", "Miami")
ENDS = np.cumsum((0, *DAYS_IN_MONTH))
GAMMA = -0.0035


@cache
def year(place):
    """Hours of a typical year: frame of ghi, dni, dhi, air, wind; and the place's latitude, longitude and offset."""
    data = Path(pvlib.__file__).parent / "data"
    if place == "Miami":
        raw, meta = pvlib.iotools.read_tmy2(data / "12839.tm2")
        # This format counts temperature and wind in tenths.
        columns = {"ghi": raw["GHI"], "dni": raw["DNI"], "dhi": raw["DHI"], "air": raw["DryBulb"] / 10,
                   "wind": raw["Wspd"] / 10}  # fmt: skip
    else:
        name = {"Greensboro": "723170TYA.CSV", "Sand Point": "703165TY.csv"}[place]
        raw, meta = pvlib.iotools.read_tmy3(data / name, coerce_year=2025, map_variables=True)
        columns = {"ghi": raw["ghi"], "dni": raw["dni"], "dhi": raw["dhi"], "air": raw["temp_air"],
                   "wind": raw["wind_speed"]}  # fmt: skip
    times = pd.date_range("2025-01-01 00:30", periods=8760, freq="1h", tz=f"Etc/GMT{-int(meta['TZ']):+d}")
    hours = pd.DataFrame({n: np.asarray(v, float) for n, v in columns.items()}, index=times)
    return hours, meta["latitude"], meta["longitude"], meta["TZ"]


@cache
def theirs(place, tilt, split):
    """Watts of 1 kW raised panels by pvlib; direct and diffuse from the file or by Maxwell."""
    hours, latitude, longitude, _ = year(place)
    sun = pvlib.solarposition.get_solarposition(hours.index, latitude, longitude)
    extra = pvlib.irradiance.get_extra_radiation(hours.index)
    dni, dhi = hours["dni"], hours["dhi"]
    if split == "disc":
        dni = pvlib.irradiance.disc(hours["ghi"], sun["zenith"], hours.index, pressure=None)["dni"]
        dhi = hours["ghi"] - dni * np.cos(np.radians(sun["zenith"])).clip(0)
    light = pvlib.irradiance.get_total_irradiance(
        tilt, 180, sun["zenith"], sun["azimuth"], dni, hours["ghi"], dhi, extra, albedo=0.2, model="haydavies"
    )
    angle = pvlib.irradiance.aoi(tilt, 180, sun["zenith"], sun["azimuth"])
    diffuse = pvlib.iam.martin_ruiz_diffuse(tilt)
    through = light["poa_direct"] * pvlib.iam.martin_ruiz(angle) + light["poa_sky_diffuse"] * diffuse["sky"]
    through = (through + light["poa_ground_diffuse"] * diffuse["ground"]).fillna(0).to_numpy()
    on = light["poa_global"].fillna(0).to_numpy()
    model = pvlib.temperature.TEMPERATURE_MODEL_PARAMETERS["sapm"]["close_mount_glass_glass"]
    cells = pvlib.temperature.sapm_cell(on, hours["air"].to_numpy(), hours["wind"].to_numpy(), **model)
    return pvlib.pvsystem.pvwatts_dc(through, cells, 1000, GAMMA) * KEPT_FRAC


@cache
def ours_by_hours(place, tilt, split):
    """Watts of the same from the file's own hourly level sun, by our formulas one after the other."""
    hours, latitude, longitude, offset = year(place)
    watts = []
    for i, row in enumerate(hours.itertuples()):
        day, clock = i // 24 + 1, i % 24 + 0.5
        sun = sun_on(day, clock - offset)
        solar = clock - offset + longitude / 15 + sun.equation_of_time_h
        at = sun_position(latitude, sun.declination_deg, solar)
        up = max(0.0, sin(radians(at.elevation_deg)))
        level_extra = extraterrestrial_w_m2(sun.distance_multiple) * up
        if row.ghi <= 0 or up <= 0:
            watts.append(0.0)
            continue
        # In the hours of sunrise and sunset the middle of the hour is not the middle of the light.
        clear = min(1.0, row.ghi / max(level_extra, 1e-9))
        direct = direct_frac(clear, air_mass_multiple(at.elevation_deg)) * level_extra if at.elevation_deg > 3 else 0.0
        diffuse = min(row.ghi, row.dhi) if split == "file" else row.ghi - min(row.ghi, direct)
        ways = panel_ways(up, toward_sun_frac(at.elevation_deg, at.azimuth_deg, tilt, 180.0), tilt)
        on, through = panel_light(row.ghi, diffuse, level_extra, ways)
        watts.append(panel_w(1000, through, cell_degc(on, row.air, "raised"), GAMMA, KEPT_FRAC))
    return np.array(watts)


@cache
def ours_by_days(place, tilt):
    """Watts of the same from nothing but each day's sum and the month's temperatures, as drawn weather has them."""
    hours, latitude, *_ = year(place)
    ghi = hours["ghi"].to_numpy().reshape(365, 24).sum(1) / 1000
    air = hours["air"].to_numpy().reshape(365, 24)
    group = (PanelGroup(1000.0, GAMMA, "raised", tilt, 180.0),)
    days = []
    for begin, end in pairwise(ENDS):
        above = [daily_extraterrestrial_kwh_m2_d(latitude, sun_on(d + 1)) for d in range(begin, end)]
        mean = ghi[begin:end].sum() / sum(above)
        weather = month_air(air[begin:end].mean(), air[begin:end].min(), air[begin:end].max(), mean)
        for i in range(begin, end):
            path = panel_path(latitude, i + 1, group)
            made = panel_day(path, ghi[i] / above[i - begin], weather, mean)
            days.append(sum(made.power_w))
    return np.array(days)


def by_month(days):
    return np.array([days[a:b].sum() for a, b in pairwise(ENDS)])


def daily(hours):
    return hours.reshape(365, 24).sum(1)


@pytest.mark.parametrize("tilt", [0, 30, 60])
@pytest.mark.parametrize("place", PLACES)
def test_panels_from_the_years_own_direct_and_diffuse_light(place, tilt):
    # Position, tilt, glass, cells and power, with nothing of ours before them.
    reference, ours = daily(theirs(place, tilt, "file")), daily(ours_by_hours(place, tilt, "file"))
    assert ours.sum() == pytest.approx(reference.sum(), rel=0.01)
    assert by_month(ours) == pytest.approx(by_month(reference), rel=0.03)


@pytest.mark.parametrize("tilt", [0, 30])
@pytest.mark.parametrize("place", PLACES)
def test_panels_from_the_years_own_level_hours(place, tilt):
    ours = daily(ours_by_hours(place, tilt, "ours"))
    # The same split by pvlib, and direct and diffuse light of the file.
    assert ours.sum() == pytest.approx(daily(theirs(place, tilt, "disc")).sum(), rel=0.015)
    reference = daily(theirs(place, tilt, "file"))
    assert ours.sum() == pytest.approx(reference.sum(), rel=0.015)
    assert by_month(ours) == pytest.approx(by_month(reference), rel=0.05)


@pytest.mark.parametrize("place", PLACES)
def test_level_panels_from_daily_sums_alone(place):
    reference, ours = daily(theirs(place, 0, "file")), ours_by_days(place, 0)
    assert ours.sum() == pytest.approx(reference.sum(), rel=0.01)
    assert by_month(ours) == pytest.approx(by_month(reference), rel=0.031 if place == "Sand Point" else 0.016)


@pytest.mark.parametrize("place", PLACES)
def test_tilted_panels_from_daily_sums_alone(place):
    reference, ours = daily(theirs(place, 30, "file")), ours_by_days(place, 30)
    ratio = by_month(ours) / by_month(reference)
    # An hour's mean hides how bright and dark take turns: too little direct light where days are mixed, the more so in
    # the islands at 55° north, never more than a little too much.
    if place == "Sand Point":
        assert ours.sum() == pytest.approx(reference.sum(), rel=0.035)
        assert 0.92 < ratio.min() < ratio.max() < 1.03
    else:
        assert ours.sum() == pytest.approx(reference.sum(), rel=0.01)
        assert 0.96 < ratio.min() < ratio.max() < 1.03


def test_between_steps_of_clearness_power_is_nearly_straight():
    for latitude, month, day, tilt in ((52.0, 6, 172, 0), (52.0, 12, 344, 30), (25.0, 3, 80, 0), (62.0, 3, 80, 15)):
        path = panel_path(latitude, day, (PanelGroup(1000.0, tilt_deg=tilt),))
        air = month_air(12.0, 0.0, 24.0, 0.45)
        # Up to the clearest day that is drawn.
        for step in range(int((cloudless_frac(latitude, 0.0, month) - DARKEST_FRAC) / STEP_FRAC) + 1):
            low = DARKEST_FRAC + step * STEP_FRAC
            ends = [sum(panel_day(path, low + x, air, 0.45).power_w) for x in (0, STEP_FRAC)]
            middle = sum(panel_day(path, low + STEP_FRAC / 2, air, 0.45).power_w)
            # Direct light begins with a bend.
            assert sum(ends) / 2 == pytest.approx(middle, rel=(0.035 if low < 0.25 else 0.01) if tilt else 0.002)


@pytest.mark.parametrize("altitude", [0.0, 1600.0])
@pytest.mark.parametrize("latitude", [0.0, 33.0, 52.0, -40.0])
def test_a_cloudless_day(latitude, altitude):
    for month, day in ((3, 75), (6, 162), (12, 344)):
        times = pd.date_range("2025-01-01", periods=24 * 12, freq="5min", tz="UTC") + pd.Timedelta(days=day - 1)
        place = pvlib.location.Location(latitude, 0.0, altitude=altitude)
        level = place.get_clearsky(times, model="ineichen", linke_turbidity=2.0)["ghi"].sum() / 12000
        above = daily_extraterrestrial_kwh_m2_d(latitude, sun_on(day))
        assert cloudless_frac(latitude, altitude, month) == pytest.approx(level / above, rel=0.01)


@pytest.mark.parametrize("place", PLACES)
def test_the_spread_of_days_is_that_of_typical_years_or_wider(place):
    hours, latitude, *_ = year(place)
    ghi = hours["ghi"].to_numpy().reshape(365, 24).sum(1) / 1000
    above = np.array([daily_extraterrestrial_kwh_m2_d(latitude, sun_on(d + 1)) for d in range(365)])
    ratios, dark = [], []
    for month, (begin, end) in enumerate(pairwise(ENDS), 1):
        clear, mean = ghi[begin:end] / above[begin:end], ghi[begin:end].sum() / above[begin:end].sum()
        spread = clearness_spread(mean, cloudless_frac(latitude, 0.0, month))
        drawn = np.array([clearness_frac(spread, (n + 0.5) / 500) for n in range(500)])
        ratios.append(drawn.std() / clear.std())
        dark.append(np.quantile(drawn, 0.1) / np.quantile(clear, 0.1))
    assert 1.0 < np.mean(ratios) < 1.75
    assert 0.65 < np.mean(dark) < 1.0


@pytest.mark.parametrize("place", PLACES)
def test_days_follow_each_other_as_in_typical_years(place):
    hours, latitude, *_ = year(place)
    ghi = hours["ghi"].to_numpy().reshape(365, 24).sum(1) / 1000
    above = np.array([daily_extraterrestrial_kwh_m2_d(latitude, sun_on(d + 1)) for d in range(365)])
    clear, air = ghi / above, hours["air"].to_numpy().reshape(365, 24)
    stays, warm = [], []
    for begin, end in pairwise(ENDS):
        order = clear[begin:end].argsort().argsort()
        deviates = np.array([NormalDist().inv_cdf((n + 0.5) / (end - begin)) for n in order])
        stays.append(np.corrcoef(deviates[:-1], deviates[1:])[0, 1])
        mean = air[begin:end].mean(1)
        warm.append(np.corrcoef(mean[:-1], mean[1:])[0, 1])
    # Twelve months of 30 days each tell such a correlation to 0.06.
    assert np.mean(stays) == pytest.approx(0.29, abs=0.08)
    assert np.mean(warm) == pytest.approx(0.7, abs=0.1)


@pytest.mark.parametrize("place", PLACES)
def test_the_wave_of_day_and_night(place):
    hours, latitude, *_ = year(place)
    ghi = hours["ghi"].to_numpy().reshape(365, 24).sum(1) / 1000
    air = hours["air"].to_numpy().reshape(365, 24)
    for begin, end in pairwise(ENDS):
        above = sum(daily_extraterrestrial_kwh_m2_d(latitude, sun_on(d + 1)) for d in range(begin, end))
        days = air[begin:end]
        ours = month_air(days.mean(), days.min(), days.max(), ghi[begin:end].sum() / above)
        profile = days.mean(0) - days.mean()
        assert ours.swing_k == pytest.approx(profile.max() - profile.min(), abs=4)
        # A typical year's own extremes say how far days differ.
        assert ours.daily_sigma_k == pytest.approx(days.mean(1).std(), abs=2.2)
        if profile.max() - profile.min() > 5:
            assert np.corrcoef(profile, WAVE_FRAC)[0, 1] > (0.8 if place == "Miami" else 0.9)
