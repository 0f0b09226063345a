"""What a trip's energy is reckoned from: battery, panels, inverter, loads and other sources by the hour."""

from typing import NamedTuple

from engine.physics.cell import WIND_M_S
from engine.physics.panel_day import PanelGroup
from engine.physics.ranges import within

Hours = tuple[float, ...]
"""Twenty-four values, from midnight by the sundial; a W held for an hour is a Wh."""

NONE: Hours = (0.0,) * 24


class Store(NamedTuple):
    """House battery. Stored energy is counted from the depth of discharge to plan with."""

    usable_wh: float
    charge_w: float
    """Most it takes, at its terminals."""
    discharge_w: float
    """Most it gives, at its terminals."""
    charge_frac: float = 0.97
    """Stored over taken in. Lithium 0.97, lead-acid 0.88 (common practice), and the same going out."""
    discharge_frac: float = 0.97
    min_charge_degc: float = 0.0
    """Cells colder than this are not charged."""
    cells_least_degc: float = -70.0
    """What the shell around it is kept at; cells never get colder."""
    cells_swing_frac: float = 0.0
    """Share of the air's wave of day and night that reaches the cells; 0: a heavy battery follows the day's mean."""
    taper_h: float = 0.0
    """Near full it takes at most what is still missing over this time: lead-acid 1.5 h or so (assumed), lithium 0."""
    warmer_w: float = 0.0
    """Warms its cold cells enough for charging, in hours when sources offer more than this."""
    cells_warmer_k: float = 0.0
    """By how much the place around it is warmer than the air outside."""


class WarmthLoad(NamedTuple):
    """A load at battery voltage that runs more or less of the time by the warmth around it: a fridge, a heater's fan.

    Share of time: duty_frac + duty_frac_k·(T − at_degc), between least_frac and most_frac.
    """

    power_w: float
    at_degc: float
    duty_frac: float
    duty_frac_k: float
    least_frac: float = 0.0
    most_frac: float = 1.0
    least_degc: float = -70.0
    """The room around it is never colder than this."""


class DayPlan(NamedTuple):
    """One day's loads and sources, hour by hour."""

    dc_w: Hours = NONE
    """At battery voltage."""
    ac_w: Hours = NONE
    """At mains voltage, from sockets."""
    idle_w: Hours = NONE
    """The inverter's own draw in hours when it is awake."""
    alternator_w: Hours = NONE
    """What chargers offer while the engine runs, at the battery."""
    shore_w: Hours = NONE
    """What the shore charger offers, at the battery."""
    shore_feeds_ac: bool = True
    """In hours with shore, sockets are fed from it and the inverter sleeps."""


class EnergySystem(NamedTuple):
    """Everything that does not change from day to day."""

    store: Store
    panels: tuple[PanelGroup, ...] = ()
    controller_frac: float = 0.96
    """Output over input of the charge controller."""
    controllers_w: tuple[float, ...] = (1e6,)
    """Output limit of each, by ``PanelGroup.unit``; more sun is clipped."""
    inverter_frac: float = 0.9
    by_warmth: tuple[WarmthLoad, ...] = ()
    wind_m_s: float = WIND_M_S


_RANGES: dict[type, dict[str, tuple[float, float]]] = {
    Store: {
        "usable_wh": (0, 1e6), "charge_w": (0, 1e6), "discharge_w": (0, 1e6), "charge_frac": (0.5, 1),
        "discharge_frac": (0.5, 1), "min_charge_degc": (-70, 30), "cells_least_degc": (-70, 40),
        "cells_warmer_k": (0, 100), "cells_swing_frac": (0, 1), "taper_h": (0, 20), "warmer_w": (0, 1e4),
    },
    WarmthLoad: {
        "power_w": (0, 1e5), "at_degc": (-60, 60), "duty_frac": (-5, 5), "duty_frac_k": (-1, 1),
        "least_frac": (0, 1), "most_frac": (0, 1), "least_degc": (-70, 40),
    },
    EnergySystem: {"controller_frac": (0.5, 1), "inverter_frac": (0.5, 1), "wind_m_s": (0, 30)},
}  # fmt: skip

PLAN_W = (0, 1e5)
"""Range of each hour's watts."""


def check_system(system: EnergySystem) -> None:
    """Raise OutOfRangeError for any value outside the range for which the reckoning holds.

    Source: the ranges are ours; wide enough for a bicycle trailer and a coach.

    >>> check_system(EnergySystem(Store(1200.0, 600.0, 1200.0)))
    """
    for part in (system.store, *system.by_warmth, system):
        for name, (low, high) in _RANGES[type(part)].items():
            within(name, getattr(part, name), low, high)
    for limit_w in system.controllers_w:
        within("controllers_w", limit_w, 0, 1e7)
    for group in system.panels:
        within("unit", group.unit, 0, len(system.controllers_w) - 1)
    for load in system.by_warmth:
        within("least_frac", load.least_frac, 0, load.most_frac)


def check_plan(plan: DayPlan) -> None:
    """Raise OutOfRangeError for a plan that does not have 24 hours of 0 to 100,000 W.

    >>> check_plan(DayPlan(dc_w=(40.0,) * 24))
    """
    for name in ("dc_w", "ac_w", "idle_w", "alternator_w", "shore_w"):
        hours = getattr(plan, name)
        within(f"len({name})", len(hours), 24, 24)
        for watts in hours:
            within(name, watts, *PLAN_W)
