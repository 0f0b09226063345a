"""How long the house battery lasts, used as on the trip."""

from engine.build.battery_bank import BankFigures
from engine.build.model import Build
from engine.physics.battery_chemistry import CHEMISTRIES
from engine.physics.battery_life import life_d


def days_to_80(build: Build, bank: BankFigures, use_wh_d: float) -> float | None:
    """Days until 80 % of the capacity is left; None without one sound bank or without loads.

    Every day of the chosen months takes its whole use from the battery once, which is cautious: by day the sun feeds
    loads straight. More than the usable part a day counts as several cycles of that depth.
    """
    if bank.nominal_v is None or not bank.groups or not use_wh_d or not bank.usable_wh:
        return None
    depth = min(use_wh_d, bank.usable_wh) / bank.energy_wh
    per_day = max(1.0, use_wh_d / bank.usable_wh) * len(build.trip.months) / 12
    return min(life_d(CHEMISTRIES[g.chemistry], max(0.01, depth), min(10.0, per_day)) for g in bank.groups)
