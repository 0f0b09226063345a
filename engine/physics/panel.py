"""A solar panel as on its label."""

from typing import NamedTuple


class Panel(NamedTuple):
    """One panel, as on its label at 25 °C. Coefficients per kelvin."""

    power_w: float
    open_circuit_v: float
    max_power_v: float
    short_circuit_a: float
    open_coefficient_frac_k: float | None = None
    """Of the open-circuit voltage; None takes the code's table."""
    power_voltage_coefficient_frac_k: float = -0.0040
    """Of the voltage at greatest power, which falls about as the power does (common practice)."""
    series_fuse_a: float | None = None
    """Largest fuse that its maker allows in its string."""
