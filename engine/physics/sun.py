"""Daily yield of flat panels from the month's sun."""

from engine.physics.ranges import within

SYSTEM_LOSS_FRAC = 0.140757
"""Soiling, shading, mismatch, wiring, connections, ageing and the like, together.
Source: PVWatts version 5 (NREL/TP-6A20-62641), default losses multiplied out."""

RISE_RAISED_K = 25.0
"""How much warmer than the air cells on brackets run, weighted by yield (common practice)."""

RISE_GLUED_K = 32.0
"""The same for panels glued flat to the roof (common practice)."""


def daily_yield_wh(
    power_w: float, sun_kwh_m2_d: float, air_degc: float, power_coefficient_frac_k: float, rise_k: float
) -> float:
    """Direct-current energy from horizontal panels on a mean day of the month, before the charge controller.

    E = P·H·(1 − losses)·(1 + γ·(T_cell − 25 °C)), T_cell = T_air + rise.

    power_w: 0 to 100,000. sun_kwh_m2_d: 0 to 12, mean daily sun on the horizontal. air_degc: −60 to 60.
    power_coefficient_frac_k: −0.01 to 0. rise_k: 0 to 80.
    Source: PVWatts version 5 (NREL/TP-6A20-62641), eq. for DC power, applied to the daily sum. Against hourly runs
    over typical years a month is at worst 9 % low (dark, cold) and 6 % high (bright); tested.

    >>> round(daily_yield_wh(1000, 5.0, 20, -0.0035, 25))
    3995
    """
    within("power_w", power_w, 0, 1e5)
    within("sun_kwh_m2_d", sun_kwh_m2_d, 0, 12)
    within("air_degc", air_degc, -60, 60)
    within("power_coefficient_frac_k", power_coefficient_frac_k, -0.01, 0)
    within("rise_k", rise_k, 0, 80)
    warm_frac = 1 + power_coefficient_frac_k * (air_degc + rise_k - 25)
    return power_w * sun_kwh_m2_d * (1 - SYSTEM_LOSS_FRAC) * warm_frac
