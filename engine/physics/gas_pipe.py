"""Gas pipes at appliance pressure: how much passes, what pressure is lost, which bore it takes.

Sizing by this does not replace local codes, the appliances' instructions and a licensed fitter.
"""

from math import pi

from engine.physics.ranges import within

DROP_KPA = 0.5 * 0.249089
"""Loss that US tables allow between regulator and appliance at 11 inches of water: half an inch, 0.125 kPa."""

PROPANE_KWH_M3 = 2488 * 0.00029307107 / 0.0283168466
"""Gross heat in a cubic metre of propane at 60 °F and 30 inches of mercury: 2,488 BTU in a cubic foot (trade figure of
the United States; with it the formula meets the code's tables within 1 %)."""

PROPANE_TERM = 1.2462
"""C_r for propane, of density and viscosity. International Fuel Gas Code 2018, table 402.4 (from memory)."""

PROPANE_KG_MS = 8.0e-6
"""Viscosity of propane gas at 15 °C, Pa·s (the code's 0.008 centipoise)."""

_W_PER_M3_S = PROPANE_KWH_M3 * 3.6e6
_POWER = 0.206 / 0.381


def pipe_w(bore_m: float, length_m: float, loss_kpa: float = DROP_KPA) -> float:
    """Heat input of propane, gross, that a pipe carries at less than 10 kPa.

    D = Q^0.381 / (19.17·(ΔH/(C_r·L))^0.206), solved for Q: inches, cubic feet an hour, inches of water, feet. In thin
    long pipes not more than calm flow lets through: π·d⁴·Δp/(128·μ·l). The code asks for no more length for an ordinary
    number of fittings. bore_m: 0.004 to 0.06. length_m: 1 to 60, the longest run. loss_kpa: 0.02 to 1. Source:
    International Fuel Gas Code 2018, 402.4 (formula from memory, its tables for copper tube and steel pipe seen);
    Hagen and Poiseuille.

    >>> round(pipe_w(0.305 * 0.0254, 3.048) / 293.07107)  # 3/8 in tube over 10 ft: 45,000 BTU/h in the table
    45
    """
    within("bore_m", bore_m, 0.004, 0.06)
    within("length_m", length_m, 1, 60)
    within("loss_kpa", loss_kpa, 0.02, 1)
    return min(_by_code_w(bore_m, length_m, loss_kpa), _calm_w(bore_m, length_m, loss_kpa))


def pipe_loss_kpa(bore_m: float, length_m: float, input_w: float) -> float:
    """Pressure lost at a heat input of propane; 0 at none.

    input_w: 0 to 500,000, gross, all appliances beyond this pipe together. Others as for ``pipe_w``. The
    result may be up to 5 kPa: beyond that gas thins out on the way and it raises. Source: as for
    ``pipe_w``.

    >>> round(pipe_loss_kpa(0.008, 6, 12_000), 3)
    0.176
    """
    within("bore_m", bore_m, 0.004, 0.06)
    within("length_m", length_m, 1, 60)
    share_code = within("input_w", input_w, 0, 5e5) / _by_code_w(bore_m, length_m, DROP_KPA)
    share_calm = input_w / _calm_w(bore_m, length_m, DROP_KPA)
    return within("pipe_loss_kpa", DROP_KPA * max(float(share_code ** (1 / _POWER)), share_calm), 0, 5)


def least_bore_m(length_m: float, input_w: float, loss_kpa: float = DROP_KPA) -> float:
    """Smallest bore that carries a heat input with no more than a loss; take the next larger pipe that is sold.

    input_w: 100 to 500,000. 4 mm when less would do; raises beyond 60 mm. Others as for ``pipe_w``. Source: as
    there.

    >>> round(least_bore_m(6, 12_000) * 1000, 1)
    8.6
    """
    within("length_m", length_m, 1, 60)
    within("loss_kpa", loss_kpa, 0.02, 1)
    within("input_w", input_w, 100, 5e5)
    code = 0.010 * (input_w / _by_code_w(0.010, length_m, loss_kpa)) ** 0.381
    calm = 0.010 * (input_w / _calm_w(0.010, length_m, loss_kpa)) ** 0.25
    return max(0.004, within("least_bore_m", float(max(code, calm)), 0, 0.06))


def _by_code_w(bore_m: float, length_m: float, loss_kpa: float) -> float:
    head = loss_kpa / 0.249089 / (PROPANE_TERM * length_m / 0.3048)
    cubic_feet_h = (19.17 * bore_m / 0.0254 * head**0.206) ** (1 / 0.381)
    return float(cubic_feet_h * 0.0283168466 / 3600 * _W_PER_M3_S)


def _calm_w(bore_m: float, length_m: float, loss_kpa: float) -> float:
    return pi * bore_m**4 * loss_kpa * 1000 / (128 * PROPANE_KG_MS * length_m) * _W_PER_M3_S
