"""Steady heat loss of a shell: U-values by the combined method of ISO 6946, and the sum over surfaces and air."""

from typing import NamedTuple

from engine.physics.ranges import within

SURFACE_INSIDE_M2K_W = {"walls": 0.13, "roof": 0.10, "floor": 0.17}
"""Inside surface resistance by direction of heat flow (sideways, up, down). ISO 6946:2017, Table 7."""

SURFACE_OUTSIDE_M2K_W = 0.04
"""Outside surface resistance. ISO 6946:2017, Table 7."""

LIMIT_RATIO = 1.5
"""The combined method does not hold when the upper limit of R is more than this times the lower. ISO 6946:2017, 6.7.2.1
(from memory)."""

AIR_HEAT_WH_M3K = 1.2 * 1006 / 3600
"""Heat capacity of air at 20 °C by volume: 1.2 kg/m³ and 1006 J/(kg·K)."""


class Layer(NamedTuple):
    """A layer, perhaps bridged by framing of another conductivity over part of its area."""

    thickness_m: float
    conductivity_w_mk: float
    framing_frac: float = 0.0
    framing_conductivity_w_mk: float = 0.13


class UValue(NamedTuple):
    """Transmittance by the combined method, with the two limits between which the truth lies."""

    u_w_m2k: float
    low_w_m2k: float
    high_w_m2k: float

    @property
    def holds(self) -> bool:
        """Whether the limits lie near enough for the combined method."""
        return self.high_w_m2k <= LIMIT_RATIO * self.low_w_m2k


def u_value(layers: tuple[Layer, ...], inside_m2k_w: float, outside_m2k_w: float = SURFACE_OUTSIDE_M2K_W) -> UValue:
    """U-value of a build-up with repeating timber framing, by the combined method.

    Upper limit of R: heat flows straight through each of the parallel paths, 1/R' = Σ f/R_path. Lower limit: every
    layer's plane has one temperature, R'' = Rsi + Σ 1/(Σ f/R) + Rse. R = (R' + R'')/2. Framing in two layers is taken
    to lie in line: the smaller share stands within the larger one. Not valid for metal framing: the standard excludes
    it (``engine.physics.metal_rib``).

    inside_m2k_w, outside_m2k_w: 0.01 to 0.3. Layers: thickness_m 0.00001 to 10, conductivity_w_mk 0.005 to 400,
    framing_frac 0 to 0.5, framing_conductivity_w_mk 0.01 to 1 (timber and plastics). Source: ISO 6946:2017, 6.7.2.

    >>> wall = (Layer(0.006, 0.13), Layer(0.040, 0.033, 0.10, 0.13), Layer(0.001, 160))
    >>> round(u_value(wall, 0.13, 0.04).u_w_m2k, 5)
    0.84355
    """
    within("inside_m2k_w", inside_m2k_w, 0.01, 0.3)
    within("outside_m2k_w", outside_m2k_w, 0.01, 0.3)
    clear = lower = inside_m2k_w + outside_m2k_w
    framed: list[tuple[float, float]] = []  # (share, what the framing takes off the resistance of its path)
    for layer in layers:
        thickness_m = within("thickness_m", layer.thickness_m, 1e-5, 10)
        r_clear = thickness_m / within("conductivity_w_mk", layer.conductivity_w_mk, 0.005, 400)
        f = within("framing_frac", layer.framing_frac, 0, 0.5)
        clear += r_clear
        if f > 0:
            r_framed = thickness_m / within("framing_conductivity_w_mk", layer.framing_conductivity_w_mk, 0.01, 1)
            framed.append((f, r_clear - r_framed))
            lower += 1 / ((1 - f) / r_clear + f / r_framed)
        else:
            lower += r_clear
    # From the path without any framing to the path that has all of it.
    per_r, done, path = 0.0, 1.0, clear
    for f, less in sorted(framed, reverse=True):
        per_r += (done - f) / path
        done, path = f, path - less
    upper = 1 / (per_r + done / path)
    return UValue(2 / (upper + lower), 1 / max(upper, lower), 1 / min(upper, lower))


def air_loss_w_k(flow_m3_h: float, altitude_m: float = 0.0) -> float:
    """Heat lost per kelvin with exchanged air, which is thinner higher up.

    flow_m3_h: 0 to 2000. altitude_m: −500 to 6,000. Source: enthalpy balance; EN 12831 uses the same form with
    0.34 Wh/(m³K); pressure by altitude from the standard atmosphere, ISO 2533:1975.

    >>> round(air_loss_w_k(20.9), 3), round(air_loss_w_k(20.9, 1650), 3)
    (7.008, 5.742)
    """
    thin: float = (1 - 2.25577e-5 * within("altitude_m", altitude_m, -500, 6000)) ** 5.25588
    return AIR_HEAT_WH_M3K * within("flow_m3_h", flow_m3_h, 0, 2000) * thin


def balance_degc(inside_degc: float, output_w: float, loss_w_k: float) -> float:
    """Outside temperature at which a heater of this output just holds the inside temperature.

    inside_degc: −50 to 60. output_w: 0 to 1 GW. loss_w_k: above 0, to 1,000,000. Source: steady heat balance.

    >>> balance_degc(20, 1500, 50)
    -10.0
    """
    within("inside_degc", inside_degc, -50, 60)
    within("output_w", output_w, 0, 1e9)
    within("loss_w_k", loss_w_k, 1e-6, 1e6)
    return inside_degc - output_w / loss_w_k
