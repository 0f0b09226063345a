"""What hours of surplus and need do to a battery: the one place where energy is stored and taken."""

from itertools import accumulate
from math import exp
from typing import NamedTuple

from engine.physics.energy_system import Store


class Wishes(NamedTuple):
    """What each hour would add to the store if it were neither full nor empty."""

    gain_wh: list[float]
    refused_wh: float
    """Surplus at the terminals that cold or the charge limit keeps out."""
    lacking_wh: float
    """Need at the terminals beyond the discharge limit."""


class Stored(NamedTuple):
    """The store after each hour, and what did not fit."""

    stored_wh: list[float]
    surplus_wh: float
    """Refused because full, counted as it would have been stored."""
    short_wh: float
    """Not given because empty, counted as it would have been taken out."""
    emptied_hour: int | None
    """First hour with a need that an empty store leaves unmet."""


EMPTY_WH = 1e-9
"""A shortage up to this is rounding."""


def wishes(store: Store, net_w: list[float], locked: list[bool] | None) -> Wishes:
    """What a day's hours ask of the store: a surplus times charge_frac, a need over discharge_frac, within its limits.

    net_w: sources less loads of each hour. Source: definition of the efficiencies.

    >>> wishes(Store(1000.0, 100.0, 500.0, 0.9, 0.9), [200.0, -90.0], None)
    Wishes(gain_wh=[90.0, -100.0], refused_wh=100.0, lacking_wh=0.0)
    """
    into, out = store.charge_frac, 1 / store.discharge_frac
    if locked is None and max(net_w) <= store.charge_w and -min(net_w) <= store.discharge_w:
        return Wishes([n * into if n > 0 else n * out for n in net_w], 0.0, 0.0)
    gains, refused, lacking = [], 0.0, 0.0
    for hour, n in enumerate(net_w):
        if n > 0:
            taken = 0.0 if locked is not None and locked[hour] else min(n, store.charge_w)
            refused += n - taken
            gains.append(taken * into)
        else:
            given = min(-n, store.discharge_w)
            lacking += -n - given
            gains.append(-given * out)
    return Wishes(gains, refused, lacking)


def run_store(store: Store, stored_wh: float, gain_wh: list[float]) -> Stored:
    """The store through a row of hours.

    Between empty and full the hours add up. Near full it takes at most what is still missing over ``taper_h``: within
    the hour first the full gain until that binds, then the missing part falls by exp(−t/taper_h); exact.
    stored_wh: 0 to usable_wh. Source: integral of dx/dt = −min(gain, x/taper) for the missing part x.

    >>> run_store(Store(100.0, 100.0, 100.0), 50.0, [30.0, 30.0, -120.0])
    Stored(stored_wh=[80.0, 100.0, 0.0], surplus_wh=10.0, short_wh=20.0, emptied_hour=2)
    """
    full, taper = store.usable_wh, store.taper_h
    straight = list(accumulate(gain_wh, initial=stored_wh))
    slack = taper * max(0.0, max(gain_wh)) if taper else 0.0
    if min(straight) >= 0 and max(straight) + slack <= full:
        del straight[0]
        return Stored(straight, 0.0, 0.0, None)
    after: list[float] = []
    surplus = short = 0.0
    emptied: int | None = None
    now = stored_wh
    for hour, gain in enumerate(gain_wh):
        wished = now + gain
        if wished < 0:
            short -= wished
            if emptied is None and wished < -EMPTY_WH:
                emptied = hour
            now = 0.0
        elif gain > 0 and wished + gain * taper > full:
            now = full - _missing(full - now, gain, taper)
            surplus += wished - now
        else:
            now = wished
        after.append(now)
    return Stored(after, surplus, short, emptied)


def _missing(missing: float, gain: float, taper: float) -> float:
    if taper <= 0:
        return 0.0
    bound = gain * taper
    if missing > bound:
        return bound * exp(-(1 - (missing - bound) / gain) / taper)
    return missing * exp(-1 / taper)
