"""What panels bring on the mean day of a month: the hourly reckoning's mean, without drawing weather."""

from functools import lru_cache
from math import sqrt

from engine.physics.clearness import clearness_frac
from engine.physics.panel_day import PanelGroup, panel_day, panel_path, passed_w
from engine.physics.ranges import within
from engine.physics.sun_day import DAYS_IN_MONTH
from engine.physics.weather_years import Climate, month_weather

_KINDS = ((0.5 - sqrt(0.15), 5 / 18), (0.5, 8 / 18), (0.5 + sqrt(0.15), 5 / 18))
"""Three kinds of days of a month: the share of its days that are darker, and the share of its days that each stands
for. Gauss' rule: nearer to the whole spread than five kinds of as many days, at three fifths of the work."""

_DATES = (5, 15, 25)
"""Each stands for a third of the month: at high latitudes the sun changes much within one."""


@lru_cache(maxsize=1024)
def mean_sun_wh(
    climate: Climate,
    month: int,
    panels: tuple[PanelGroup, ...],
    controller_frac: float = 0.96,
    controllers_w: tuple[float, ...] = (1e6,),
) -> float:
    """Energy that the charge controller offers on the mean day of a month.

    Three days of the month, each dull, middling and clear. With controllers of half the panels' power or more within
    3 % of ``simulate_trip`` over the month's days below 55° of latitude and 7 % nearer the poles; tested. month: 1 to
    12. controller_frac: 0.5 to 1. controllers_w: 0 to 10,000,000, output limit of each by ``PanelGroup.unit``, at least
    one. Raises OutOfRangeError.
    Source: see ``panel_day`` and ``clearness_frac``.

    >>> place = Climate(52.0, (2.5,) * 12, (10.0,) * 12, (0.0,) * 12, (20.0,) * 12)
    >>> round(mean_sun_wh(place, 9, (PanelGroup(400.0),)))
    785
    """
    within("controller_frac", controller_frac, 0.5, 1)
    within("len(controllers_w)", len(controllers_w), 1, 100)
    for limit_w in controllers_w:
        within("controllers_w", limit_w, 0, 1e7)
    spread, air = month_weather(climate, month)
    if spread is None or not panels:
        return 0.0
    first = sum(DAYS_IN_MONTH[: month - 1])
    # The three together have not quite the month's mean clearness.
    clear = [(clearness_frac(spread, darker), share) for darker, share in _KINDS]
    scale = spread.mean_frac / sum(k * share for k, share in clear)
    total = 0.0
    for date in _DATES:
        path = panel_path(climate.latitude_deg, first + date, panels)
        for k, share in clear:
            day = panel_day(path, min(spread.high_frac, k * scale), air, spread.mean_frac)
            total += share * sum(passed_w(day, controller_frac, controllers_w))
    return total / len(_DATES)
