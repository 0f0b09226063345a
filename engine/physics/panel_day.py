"""Power of a roof's panels by hours of a day, for any clearness and warmth of that day."""

from functools import lru_cache
from math import asin, degrees
from typing import NamedTuple

from engine.physics.air import WAVE_FRAC, MonthAir
from engine.physics.cell import KEPT_FRAC, WIND_M_S, rise_m2k_w
from engine.physics.curve import Curve
from engine.physics.ranges import within
from engine.physics.sky import Ways, panel_light, panel_ways, toward_sun_frac
from engine.physics.sun_day import SunDay, light_hours, sun_day

STEP_FRAC = 0.04
"""Clearness between two days that are worked out in full; between them power is a straight line, within 0.2 %
on level panels and 1 % on tilted ones, 3 % where direct light just begins on a dull winter's day."""


SHADE_AT_DEG = (4.0, 8.0, 12.0, 16.0, 22.0, 30.0, 45.0, 60.0, 90.0)
"""Heights of the sun at which shade is told; between them it is a straight line, below them as at the lowest."""


class PanelGroup(NamedTuple):
    """Panels of one kind, mount, tilt and facing."""

    power_w: float
    """Rated power of all of them."""
    power_coefficient_frac_k: float = -0.0035
    mount: str = "raised"
    """See ``engine.physics.cell.MOUNTS``."""
    tilt_deg: float = 0.0
    facing_deg: float = 180.0
    """Clockwise from north; of no meaning without tilt."""
    kept_frac: float = KEPT_FRAC
    """What soiling, wiring and the like leave."""
    unit: int = 0
    """Which charge controller they hang on."""
    shaded_frac: tuple[float, ...] = ()
    """Taken off with the sun at each of ``SHADE_AT_DEG``, for what stands beside them; none: nothing."""
    falls_from_degc: float = 0.0
    """Cells warmer than this fall short of the voltage that their battery wants; see ``fall_in_heat``."""
    falls_frac_k: float = 0.0
    """Share of their power lost to that for each kelvin beyond."""


class PanelDay(NamedTuple):
    """Power before the charge controller in hours ``first`` to ``last`` − 1 of a day."""

    power_w: tuple[float, ...]
    """On a day as warm as its month."""
    warmer_frac_k: float
    """What a warmer day adds to each hour for each kelvin (less than nothing): the mean of its hours by their power.
    Single hours differ by a tenth of it, which is 0.3 % of their power on a day 8 K warmer."""
    units_w: tuple[tuple[float, ...], ...] = ()
    """The same power controller by controller, where there are several."""


class PanelPath(NamedTuple):
    """A day's sun over a roof, ready for any clearness."""

    sun: SunDay
    first: int
    """First hour with any sun."""
    last: int
    """Hour after the last with any sun."""
    ways: tuple[tuple[Ways, ...], ...]
    """How light reaches each group in each lit hour."""
    groups: tuple[PanelGroup, ...]
    wind_m_s: float


@lru_cache(maxsize=512)
def panel_path(
    latitude_deg: float, day_of_year: int, groups: tuple[PanelGroup, ...], wind_m_s: float = WIND_M_S
) -> PanelPath:
    """The sun's path on a day as each group of panels sees it.

    latitude_deg: −90 to 90. day_of_year: 1 to 365. Groups: power_w 0 to 100,000, power_coefficient_frac_k −0.01 to 0,
    tilt_deg 0 to 90, facing_deg 0 to 360, kept_frac, falls_frac_k and each of shaded_frac 0 to 1, falls_from_degc −100
    to 150, unit 0 to 99. wind_m_s: 0 to 30.
    Source: see ``sun_day`` and ``panel_light``.

    >>> path = panel_path(52.0, 172, (PanelGroup(400.0),))
    >>> path.first, path.last
    (3, 21)
    """
    for group in groups:
        within("power_w", group.power_w, 0, 1e5)
        within("power_coefficient_frac_k", group.power_coefficient_frac_k, -0.01, 0)
        within("kept_frac", group.kept_frac, 0, 1)
        within("unit", group.unit, 0, 99)
        within("falls_from_degc", group.falls_from_degc, -100, 150)
        within("falls_frac_k", group.falls_frac_k, 0, 1)
        for share in group.shaded_frac:
            within("shaded_frac", share, 0, 1)
        rise_m2k_w(group.mount, wind_m_s)
    sun = sun_day(latitude_deg, day_of_year)
    # Panels that lie alike, on several controllers, see the same.
    alike = {(g.tilt_deg, g.facing_deg, g.shaded_frac): g for g in groups}
    seen = {
        lie: tuple(_ways(g, degrees(asin(h.up_frac)), h.up_frac, h.azimuth_deg) for h in sun.hours)
        for lie, g in alike.items()
    }
    ways = tuple(seen[g.tilt_deg, g.facing_deg, g.shaded_frac] for g in groups)
    hours = [h.hour for h in sun.hours]
    return PanelPath(sun, min(hours, default=12), max(hours, default=11) + 1, ways, groups, wind_m_s)


def _ways(group: PanelGroup, elevation_deg: float, up_frac: float, azimuth_deg: float) -> Ways:
    toward = toward_sun_frac(elevation_deg, azimuth_deg, group.tilt_deg, group.facing_deg)
    ways = panel_ways(up_frac, toward, group.tilt_deg)
    if not group.shaded_frac:
        return ways
    lit = 1 - shade_frac(group.shaded_frac, elevation_deg)
    return ways._replace(
        straight_glass_frac=ways.straight_glass_frac * lit,
        dome_glass_frac=ways.dome_glass_frac * lit,
        ground_glass_frac=ways.ground_glass_frac * lit,
    )


def shade_frac(shaded_frac: tuple[float, ...], elevation_deg: float) -> float:
    """Share in shade at a height of the sun, 0 to 90, from those at ``SHADE_AT_DEG``. Source: straight lines.

    >>> round(shade_frac((0.8, 0.4, 0.2, 0.1, 0.0, 0.0, 0.0, 0.0, 0.0), 10.0), 6)
    0.3
    """
    return _shade(shaded_frac).between(
        "elevation_deg", max(SHADE_AT_DEG[0], within("elevation_deg", elevation_deg, 0, 90))
    )


@lru_cache(maxsize=64)
def _shade(shaded_frac: tuple[float, ...]) -> Curve:
    return Curve(zip(SHADE_AT_DEG, shaded_frac, strict=True))


def panel_day(path: PanelPath, clearness_frac: float, air: MonthAir, mean_clearness_frac: float) -> PanelDay:
    """Hourly power of all groups together on a day of a clearness.

    P = Σ P₀·E/1000·kept·(1 + γ·(T_air + rise·E' − 25 °C)), E through the glass and E' on it; the air's wave is as large
    as the day is clear: swing·K/K̄. clearness_frac: 0 to 1. mean_clearness_frac: 0 to 0.78, the month's. Mean powers of
    hours; wattage holds up to some 70 °C of air. Source: PVWatts 5 (NREL/TP-6A20-62641), equation 8.

    >>> from engine.physics.air import month_air
    >>> path = panel_path(52.0, 172, (PanelGroup(400.0),))
    >>> day = panel_day(path, 0.5, month_air(16.0, 6.0, 28.0, 0.45), 0.45)
    >>> round(sum(day.power_w)), round(day.warmer_frac_k, 5)
    (1813, -0.00368)
    """
    light = light_hours(path.sun, clearness_frac)
    swing_k = day_swing_k(air, clearness_frac, mean_clearness_frac)
    air_degc = [air.mean_degc + swing_k * WAVE_FRAC[h.hour] for h in path.sun.hours]
    units = [[0.0] * len(light) for _ in range(max((g.unit for g in path.groups), default=0) + 1)]
    slope_w_k = 0.0
    lit = {
        alike: [
            panel_light(sun.global_w_m2, sun.diffuse_w_m2, hour.level_extraterrestrial_w_m2, ways)
            for hour, sun, ways in zip(path.sun.hours, light, alike, strict=True)
        ]
        for alike in set(path.ways)
    }
    for group, ways_by_hour in zip(path.groups, path.ways, strict=True):
        power, per_light = units[group.unit], group.power_w / 1000 * group.kept_frac
        gamma, rise = group.power_coefficient_frac_k, rise_m2k_w(group.mount, path.wind_m_s)
        for i, (on, through) in enumerate(lit[ways_by_hour]):
            watts, cell_degc = per_light * through, air_degc[i] + rise * on
            factor, slope = 1 + gamma * (cell_degc - 25), gamma
            if group.falls_frac_k and cell_degc > group.falls_from_degc:
                left = max(0.0, 1 - group.falls_frac_k * (cell_degc - group.falls_from_degc))
                factor, slope = factor * left, slope * left - factor * group.falls_frac_k if left else 0.0
            power[i] += watts * factor
            slope_w_k += watts * slope
    power = units[0] if len(units) == 1 else [sum(hour) for hour in zip(*units, strict=True)]
    total = sum(power)
    apart = tuple(map(tuple, units)) if len(units) > 1 else ()
    return PanelDay(tuple(power), slope_w_k / total if total > 0 else 0.0, apart)


def passed_w(day: PanelDay, controller_frac: float, controllers_w: tuple[float, ...]) -> list[float]:
    """What controllers let through of each hour, each up to its own limit; as many limits as controllers, at least one.
    Source: definition.

    >>> passed_w(PanelDay((80.0, 150.0), -0.004, ((30.0, 50.0), (50.0, 100.0))), 1.0, (40.0, 200.0))
    [80.0, 140.0]
    """
    if not day.units_w:
        return [min(controllers_w[0], controller_frac * w) for w in day.power_w]
    by_unit = [
        [min(most, controller_frac * w) for w in unit] for most, unit in zip(controllers_w, day.units_w, strict=False)
    ]
    return list(map(sum, zip(*by_unit, strict=True)))


def day_swing_k(air: MonthAir, clearness_frac: float, mean_clearness_frac: float) -> float:
    """From coldest to warmest hour of a day: the month's swing times the day's clearness over the month's.

    clearness_frac: 0 to 1. mean_clearness_frac: 0 to 0.78. Three typical years: the two correlate with 0.2 to 0.8.
    Source: the mean of days is the month's swing; that it follows clearness in proportion is assumed.

    >>> from engine.physics.air import month_air
    >>> round(day_swing_k(month_air(10.0, -2.0, 24.0, 0.5), 0.25, 0.5), 2)
    3.85
    """
    return air.swing_k * clearness_frac / mean_clearness_frac if mean_clearness_frac else air.swing_k
