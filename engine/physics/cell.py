"""What a panel makes of its light: warmth of its cells, power, and the losses on the way one by one."""

from collections.abc import Mapping
from math import exp, prod

from engine.physics.ranges import within

WIND_M_S = 3.0
"""Wind at 10 m taken where none is known (assumed). At half of it the power of a full-sun hour is 1 % less."""

MOUNTS: dict[str, tuple[float, float, float]] = {
    "open": (-3.47, -0.0594, 3.0),
    "raised": (-2.98, -0.0471, 1.0),
    "glued": (-2.81, -0.0455, 0.0),
}
"""(a, b, ΔT) by mount: tilted up with air all round (open rack, glass both sides), on low brackets over a roof (close
mount, glass both sides), and with nothing but roof behind (insulated back). Source: D. L. King, W. E. Boyson and
J. A. Kratochvil, "Photovoltaic Array Performance Model", SAND2004-3535, table 1."""

LOSSES_FRAC: dict[str, float] = {
    "soiling": 0.02,
    "shading": 0.03,
    "snow": 0.0,
    "mismatch": 0.02,
    "wiring": 0.02,
    "connections": 0.005,
    "first-light": 0.015,
    "nameplate": 0.01,
    "age": 0.0,
    "out-of-order": 0.03,
}
"""What is lost between light and controller, one by one. Source: A. P. Dobos, "PVWatts Version 5 Manual",
NREL/TP-6A20-62641 (2014), table 5. Shading stands for what is not worked out apart."""


def cell_degc(light_w_m2: float, air_degc: float, mount: str, wind_m_s: float = WIND_M_S) -> float:
    """Temperature of a panel's cells.

    T = T_air + E·exp(a + b·v) + E/1000·ΔT. light_w_m2: 0 to 1,700, on the panel. air_degc: −60 to 60. wind_m_s: 0 to
    30, at 10 m. mount: see ``MOUNTS``. Good to 5 K or so. Source: SAND2004-3535, equations 11 and 12.

    >>> round(cell_degc(1000.0, 25.0, "raised", 1.0), 3)
    74.456
    """
    return within("air_degc", air_degc, -60, 60) + within("light_w_m2", light_w_m2, 0, 1700) * rise_m2k_w(
        mount, wind_m_s
    )


def rise_m2k_w(mount: str, wind_m_s: float = WIND_M_S) -> float:
    """Kelvin above the air for each W/m² on the panel; see ``cell_degc``. wind_m_s: 0 to 30. Source: see there.

    >>> round(rise_m2k_w("glued", 1.0), 5)
    0.05753
    """
    a, b, more = MOUNTS[mount]
    return exp(a + b * within("wind_m_s", wind_m_s, 0, 30)) + more / 1000


def kept_frac(losses_frac: Mapping[str, float]) -> float:
    """What is left after losses one after the other: Π(1 − loss). Each: 0 to 1. Source: PVWatts 5, equation 10.

    >>> round(1 - kept_frac(LOSSES_FRAC), 6)
    0.140757
    """
    return prod(1 - within(name, loss, 0, 1) for name, loss in losses_frac.items())


KEPT_FRAC = kept_frac(LOSSES_FRAC)
"""What all the usual losses leave."""


def panel_w(
    power_w: float, through_w_m2: float, cell_degc: float, power_coefficient_frac_k: float, kept_frac: float
) -> float:
    """Power of panels at the charge controller.

    P = P₀·E/1000·(1 + γ·(T − 25 °C))·kept, never below nothing. power_w: 0 to 100,000, rated. through_w_m2: 0 to 1,700,
    light through the glass. cell_degc: −60 to 150. power_coefficient_frac_k: −0.01 to 0. kept_frac: 0 to 1.
    Source: PVWatts 5 (NREL/TP-6A20-62641), equation 8.

    >>> round(panel_w(400.0, 1000.0, 61.25, -0.0035, 1.0), 2)
    349.25
    """
    within("power_w", power_w, 0, 1e5)
    within("through_w_m2", through_w_m2, 0, 1700)
    within("cell_degc", cell_degc, -60, 150)
    within("power_coefficient_frac_k", power_coefficient_frac_k, -0.01, 0)
    within("kept_frac", kept_frac, 0, 1)
    return power_w * through_w_m2 / 1000 * max(0.0, 1 + power_coefficient_frac_k * (cell_degc - 25)) * kept_frac
