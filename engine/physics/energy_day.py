"""A day's hours before the battery: sun and other sources less loads, for a day of any clearness and warmth."""

from math import inf
from typing import NamedTuple

from engine.physics.air import WAVE_FRAC
from engine.physics.clearness import DARKEST_FRAC
from engine.physics.energy_system import DayPlan, EnergySystem, check_plan, check_system
from engine.physics.panel_day import STEP_FRAC, PanelDay, panel_day, panel_path
from engine.physics.store_hours import wishes
from engine.physics.warmth_loads import BentLine, bent_line, segment
from engine.physics.weather_years import WeatherYears

_COLDEST, _WARMEST = min(WAVE_FRAC), max(WAVE_FRAC)


class HoursNet(NamedTuple):
    """A day's hours at the battery's terminals."""

    sun_w: list[float]
    """What the controller offers."""
    load_w: list[float]
    """What all loads take, with the inverter's losses and the battery's warmer."""
    net_w: list[float]
    """All sources less all loads."""
    locked: list[bool] | None
    """Hours in which cells are too cold for charging; None when none is."""


class DayGains(NamedTuple):
    """What a day's hours would add to a store that is neither full nor empty, and the day's sums at its terminals."""

    gain_wh: list[float]
    sun_wh: float
    load_wh: float
    refused_wh: float
    lacking_wh: float
    clipped_wh: tuple[float, ...] = ()
    """More that the panels would have brought past each controller's output limit; none where none is passed."""


class _Piece(NamedTuple):
    """Controller output between two steps of clearness: (p + x·q)·(1 + warmer·(s + x·t)) in each lit hour, x 0 to 1."""

    p_w: tuple[float, ...]
    q_w: tuple[float, ...]
    s_frac_k: float
    t_frac_k: float
    p_wh: float
    q_wh: float
    peak_w: float
    most_multiple: float
    """Up to this multiple of its hours no controller's limit is passed."""
    units_w: tuple[tuple[tuple[float, ...], tuple[float, ...]], ...]
    """``p_w`` and ``q_w`` by controller."""


class _Span(NamedTuple):
    """One day's fixed hours, those with sun apart from those without."""

    lit_w: list[float]
    lit_wave_frac: tuple[float, ...]
    dark_w: list[float]
    dark_wave_frac: tuple[float, ...]
    first: int
    most_w: float
    least_w: float


class DayMaker:
    """Makes days of one system in one set of weather years.

    Days of one date share what is worked out in full: their power at steps of clearness.
    """

    def __init__(
        self, latitude_deg: float, system: EnergySystem, weather: WeatherYears, plans: tuple[DayPlan, ...]
    ) -> None:
        """Raise OutOfRangeError for values out of range, ValueError unless there is a plan for each day."""
        if len(plans) != len(weather.days):
            raise ValueError(f"{len(plans)} plans for {len(weather.days)} days")
        check_system(system)
        self.system = system
        self.plans = plans
        self._months = weather.months
        self._line: BentLine | None = bent_line(system.by_warmth) if system.by_warmth else None
        self._paths = [panel_path(latitude_deg, d, system.panels, system.wind_m_s) for d in weather.days]
        pieces: dict[int, dict[int, _Piece]] = {}
        rows: dict[int, dict[int, PanelDay]] = {}
        self._pieces = [pieces.setdefault(day, {}) for day in weather.days]
        self._rows = [rows.setdefault(day, {}) for day in weather.days]
        clock: dict[DayPlan, list[float]] = {}
        for plan in dict.fromkeys(plans):
            check_plan(plan)
            clock[plan] = clock_load_w(plan, system.inverter_frac)
        self._clock_w = [clock[plan] for plan in plans]
        self._clock_wh = [sum(load) for load in self._clock_w]
        self.offered_w = [[a + s for a, s in zip(p.alternator_w, p.shore_w, strict=True)] for p in plans]
        """By day: what alternator and shore offer, hour by hour."""
        self._spans = [
            _span([a - b for a, b in zip(offered, load, strict=True)], path.first, path.last)
            for offered, load, path in zip(self.offered_w, self._clock_w, self._paths, strict=True)
        ]

    def hours(self, i: int, clearness_frac: float, warmer_k: float) -> HoursNet:
        """The hours of the i-th day, one by one."""
        store, (spread, air) = self.system.store, self._months[i]
        swing_k = air.swing_k if spread is None else air.swing_k * clearness_frac / spread.mean_frac
        mean_degc = air.mean_degc + warmer_k
        sun = self._sun(i, clearness_frac, warmer_k)
        load = [a + b for a, b in zip(self._clock_w[i], self._bent(mean_degc, swing_k), strict=True)]
        offered = [a + b for a, b in zip(self.offered_w[i], sun, strict=True)]
        locked = None
        if self._cold(mean_degc, swing_k):
            follow_k, cells_degc = store.cells_swing_frac * swing_k, mean_degc + store.cells_warmer_k
            locked = [cells_degc + follow_k * w < store.min_charge_degc for w in WAVE_FRAC]
            if store.warmer_w:
                warms = [cold and watts > store.warmer_w for cold, watts in zip(locked, offered, strict=True)]
                load = [w + store.warmer_w if on else w for w, on in zip(load, warms, strict=True)]
                locked = [cold and not on for cold, on in zip(locked, warms, strict=True)]
        return HoursNet(sun, load, [a - b for a, b in zip(offered, load, strict=True)], locked)

    def gains(self, i: int, clearness_frac: float, warmer_k: float) -> DayGains:
        """What the i-th day's hours would add to the store; the same as ``wishes`` of ``hours``.

        It runs for every day of every year. On most days no limit binds, cells are warm and loads follow warmth along
        one straight piece: then each hour is one expression, and the sums need no adding up (the wave of day and night
        adds up to nothing).
        """
        store, (spread, air) = self.system.store, self._months[i]
        swing_k = air.swing_k if spread is None else air.swing_k * clearness_frac / spread.mean_frac
        mean_degc = air.mean_degc + warmer_k
        base = rise = 0.0
        straight = spread is not None and not self._cold(mean_degc, swing_k)
        if self._line is not None:
            low = segment(self._line, mean_degc + swing_k * _COLDEST)
            straight = straight and low == segment(self._line, mean_degc + swing_k * _WARMEST)
            base = self._line.offset_w[low] + self._line.slope_w_k[low] * mean_degc
            rise = self._line.slope_w_k[low] * swing_k
        if straight:
            place = (clearness_frac - DARKEST_FRAC) / STEP_FRAC
            step = int(place)
            x = place - step
            piece = self._pieces[i].get(step) or self._piece(i, step)
            p_w, q_w, s, t, p_wh, q_wh, peak_w, most_multiple, _ = piece
            m = 1 + warmer_k * (s + x * t)
            if 0 <= m <= most_multiple:
                into, out, xm = store.charge_frac, 1 / store.discharge_frac, x * m
                lit_w, lit_wave, dark_w, dark_wave, first, most_w, least_w = self._spans[i]
                dark = [
                    n * into if n > 0 else n * out
                    for f, w in zip(dark_w, dark_wave, strict=True)
                    for n in [f - base - rise * w]
                ]
                gain = [
                    n * into if n > 0 else n * out
                    for f, w, p, q in zip(lit_w, lit_wave, p_w, q_w, strict=True)
                    for n in [f - base - rise * w + m * p + xm * q]
                ]
                gain[:0] = dark[:first]
                gain += dark[first:]
                # Often a look at the largest possible hours is enough.
                if (most_w + m * peak_w <= store.charge_w and base + abs(rise) - least_w <= store.discharge_w) or (
                    max(gain) <= store.charge_w * into and min(gain) >= -store.discharge_w * out
                ):
                    return DayGains(gain, m * p_wh + xm * q_wh, self._clock_wh[i] + 24 * base, 0.0, 0.0)
        day = self.hours(i, clearness_frac, warmer_k)
        wished = wishes(store, day.net_w, day.locked)
        clipped_wh = self._clipped_wh(i, clearness_frac, warmer_k)
        return DayGains(
            wished.gain_wh, sum(day.sun_w), sum(day.load_w), wished.refused_wh, wished.lacking_wh, clipped_wh
        )

    def _cold(self, mean_degc: float, swing_k: float) -> bool:
        """Whether any hour's cells may be too cold for charging."""
        store = self.system.store
        coldest = mean_degc + store.cells_warmer_k + store.cells_swing_frac * swing_k * _COLDEST
        return coldest < store.min_charge_degc and store.cells_least_degc < store.min_charge_degc

    def _at(self, i: int, clearness_frac: float, warmer_k: float) -> tuple[_Piece, float, float]:
        """The straight piece about a clearness of the i-th day, how far along it, and what its warmth makes of it."""
        place = (clearness_frac - DARKEST_FRAC) / STEP_FRAC
        step = int(place)
        x, piece = place - step, self._pieces[i].get(step) or self._piece(i, step)
        # Far from the month's mean a steep fall would go on below nothing.
        return piece, x, max(0.0, 1 + warmer_k * (piece.s_frac_k + x * piece.t_frac_k))

    def _clipped_wh(self, i: int, clearness_frac: float, warmer_k: float) -> tuple[float, ...]:
        """What each controller cuts off the i-th day's sun."""
        if self._months[i].spread is None:
            return ()
        piece, x, m = self._at(i, clearness_frac, warmer_k)
        if m <= piece.most_multiple:
            return ()
        return tuple(
            sum(max(0.0, m * (p + x * q) - most) for p, q in zip(*unit, strict=True))
            for most, unit in zip(self.system.controllers_w, piece.units_w, strict=False)
        )

    def _sun(self, i: int, clearness_frac: float, warmer_k: float) -> list[float]:
        sun = [0.0] * 24
        if self._months[i].spread is None:
            return sun
        path = self._paths[i]
        piece, x, m = self._at(i, clearness_frac, warmer_k)
        for most, unit in zip(self.system.controllers_w, piece.units_w, strict=False):
            for hour, (p, q) in enumerate(zip(*unit, strict=True), path.first):
                sun[hour] += min(most, m * (p + x * q))
        return sun

    def _bent(self, mean_degc: float, swing_k: float) -> list[float]:
        if self._line is None:
            return [0.0] * 24
        loads = []
        for w in WAVE_FRAC:
            degc = mean_degc + swing_k * w
            at = segment(self._line, degc)
            loads.append(self._line.offset_w[at] + self._line.slope_w_k[at] * degc)
        return loads

    def _piece(self, i: int, step: int) -> _Piece:
        self._pieces[i][step] = made = _piece(self._row(i, step), self._row(i, step + 1), self.system.controllers_w)
        return made

    def _row(self, i: int, step: int) -> PanelDay:
        row = self._rows[i].get(step)
        if row is None:
            spread, air = self._months[i]
            mean, keeps = spread.mean_frac if spread else 0.0, self.system.controller_frac
            power, slope, units = panel_day(self._paths[i], DARKEST_FRAC + step * STEP_FRAC, air, mean)
            row = PanelDay(
                tuple(keeps * w for w in power), slope, tuple(tuple(keeps * w for w in unit) for unit in units)
            )
            self._rows[i][step] = row
        return row


def _piece(below: PanelDay, above: PanelDay, controllers_w: tuple[float, ...]) -> _Piece:
    p, s, _ = below
    units = []
    most = inf
    ends = zip(below.units_w or (p,), above.units_w or (above.power_w,), strict=True)
    for limit_w, (low, high) in zip(controllers_w, ends, strict=False):
        units.append((low, tuple(b - a for a, b in zip(low, high, strict=True))))
        peak_w = max(low + high, default=0.0)
        most = min(most, limit_w / peak_w if peak_w > 0 else inf)
    q = units[0][1] if len(units) == 1 else tuple(b - a for a, b in zip(p, above.power_w, strict=True))
    peak = max(p + above.power_w, default=0.0)
    return _Piece(p, q, s, above.warmer_frac_k - s, sum(p), sum(q), peak, most, tuple(units))


def _span(fixed_w: list[float], first: int, last: int) -> _Span:
    dark, wave = fixed_w[:first] + fixed_w[last:], WAVE_FRAC[:first] + WAVE_FRAC[last:]
    return _Span(fixed_w[first:last], WAVE_FRAC[first:last], dark, wave, first, max(fixed_w), min(fixed_w))


def clock_load_w(plan: DayPlan, inverter_frac: float) -> list[float]:
    """What the loads that the clock rules take from the battery's terminals, hour by hour.

    Sockets over the inverter's efficiency and its own draw; nothing of both while shore feeds the sockets.
    inverter_frac: 0.5 to 1. Source: definition of ``DayPlan``.

    >>> clock_load_w(DayPlan(dc_w=(5.0,) * 24, ac_w=(90.0,) + (0.0,) * 23), 0.9)[:2]
    [105.0, 5.0]
    """
    return [
        dc + (0.0 if plan.shore_feeds_ac and shore > 0 else ac / inverter_frac + idle)
        for dc, ac, idle, shore in zip(plan.dc_w, plan.ac_w, plan.idle_w, plan.shore_w, strict=True)
    ]
