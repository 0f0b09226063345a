"""When on a day each load runs and the engine charges: 24 hours by the sundial, for the hourly reckoning."""

from functools import lru_cache

from engine.build.inverting import InverterFigures
from engine.build.loads import Load
from engine.build.power import PowerFigures
from engine.catalogue.facets import Habit
from engine.physics.energy_system import DayPlan, Hours, WarmthLoad

# All windows are assumptions: hours in which people do such things, from midnight.
WINDOWS: dict[Habit, tuple[int, ...]] = {
    "always": tuple(range(7, 23)),
    "cooking": (7, 8, 12, 18, 19),
    "computers": (9, 10, 11, 14, 15, 16),
    "showers": (7, 8, 21),
    "evenings": (18, 19, 20, 21, 22),
    "media": (19, 20, 21, 22),
    "cooling": (12, 13, 14, 15, 16, 17, 18),
    "heating": tuple(range(24)),
    "outdoors": (8, 17, 18),
}
"""Hours in which a load that somebody switches on is used, by its habit."""

DRIVING = (10, 11, 9, 12, 8, 13, 14, 15, 16, 17, 7, 18, 19, 6)
"""Hours of driving, in the order in which a day fills up with them."""


@lru_cache(maxsize=1024)
def shares(hours_d: float, window: tuple[int, ...]) -> Hours:
    """Share of each hour in which something runs: evenly in its window, what does not fit there evenly elsewhere."""
    inside = min(1.0, hours_d / len(window))
    others = 24 - len(window)
    outside = min(1.0, max(0.0, hours_d - len(window)) / others) if others else 0.0
    return tuple(inside if h in window else outside for h in range(24))


@lru_cache(maxsize=64)
def driving_shares(hours_d: float) -> Hours:
    """Share of each hour in which the engine runs."""
    found = [0.0] * 24
    for h in DRIVING:
        found[h] = min(1.0, max(0.0, hours_d))
        hours_d -= 1.0
    return tuple(found)


def load_shares(load: Load) -> Hours:
    """Share of each hour in which one load runs; what runs by itself runs all day alike."""
    window = WINDOWS[load.habit] if load.by_hand or load.habit in ("evenings", "media", "cooling") else tuple(range(24))
    return shares(min(24.0, load.hours_d), window)


def follows_warmth(load: Load) -> bool:
    """Whether a load's hours follow the warmth around it."""
    return load.heats_degc is not None or (load.keeps_degc is not None and load.rated_degc is not None)


def _added(hours: list[float], share: Hours, watts: float, standby_w: float) -> None:
    for h, x in enumerate(share):
        hours[h] += watts * x + standby_w * (1 - x)


def _awake(inverter: InverterFigures, on: list[float]) -> Hours:
    """The inverter's own draw by the hour; its sum is the day's figure."""
    if inverter.awake_h >= 24:
        return (inverter.idle_w,) * 24
    busy = [min(1.0, x) for x in on]
    total = sum(busy)
    return tuple(inverter.idle_wh_d * x / total if total else 0.0 for x in busy)


def day_plan(power: PowerFigures, driving_h: float) -> DayPlan:
    """A day away from any hook-up. Loads that follow warmth are left to ``warmth_loads``."""
    dc, ac, on = [0.0] * 24, [0.0] * 24, [0.0] * 24
    inverter = power.inverter
    for x in power.all_loads:
        if x.shore_only or (x.mains and inverter is None) or not x.daily_wh:
            continue
        share = load_shares(x)
        if x.mains and inverter is not None:
            # Standing by at mains voltage needs an inverter that is awake.
            standby_w = x.standby_w * x.pieces_count * (1.0 if inverter.awake_h >= 24 else 0.0)
            _added(ac, share, 0.0 if follows_warmth(x) else x.power_w * x.pieces_count, standby_w)
            on = [a + b for a, b in zip(on, share, strict=True)]
        else:
            watts, standby_w = (power.converting.battery_w(x, w * x.pieces_count) for w in (x.power_w, x.standby_w))
            _added(dc, share, 0.0 if follows_warmth(x) else watts, standby_w)
    return DayPlan(
        dc_w=tuple(w + power.converting.idle_w for w in dc),
        ac_w=tuple(ac),
        idle_w=_awake(inverter, on) if inverter is not None else (0.0,) * 24,
        alternator_w=tuple(power.alternator.output_w * x for x in driving_shares(driving_h)),
    )


def warmth_loads(power: PowerFigures, least_degc: float) -> tuple[WarmthLoad, ...]:
    """Fridges, freezers and heaters, at battery voltage. least_degc: the room round fridges is never colder."""
    found = []
    for x in power.all_loads:
        if x.shore_only or (x.mains and power.inverter is None):
            continue
        watts = x.power_w * x.pieces_count
        watts = watts / power.efficiency_frac if x.mains else power.converting.battery_w(x, watts)
        duty = x.rated_hours_d / 24
        if x.heats_degc is not None:
            at, rests = x.heats_degc
            found.append(WarmthLoad(watts, at, duty, -duty / (rests - at)))
            continue
        if x.keeps_degc is None or x.rated_degc is None:
            continue
        found.append(WarmthLoad(watts, x.rated_degc, duty, duty / (x.rated_degc - x.keeps_degc), least_degc=least_degc))
    return tuple(found)
