"""Hot water: what a store gives at the shower, how long it takes to heat, and what it costs."""

from math import exp, inf, log
from typing import NamedTuple

from engine.physics.ranges import within

WATER_WH_LK = 1.163
"""Heat to warm a litre by a kelvin, 4.187 kJ. The true value of 10 to 60 °C is 0.13 % less (IAPWS-95)."""

SKIN_DEGC = 38.0
"""A shower most people find right (common practice)."""


class Litres(NamedTuple):
    """Between a store that mixes fully while it is drawn from and one in which cold water lifts hot water out unmixed.

    Small round stores lie near the middle of it, tall ones with a baffle near the top (common practice).
    """

    low_l: float
    high_l: float


class Minutes(NamedTuple):
    """The same in minutes."""

    low_minutes: float
    high_minutes: float


def mixed_l(stored_l: float, hot_degc: float, cold_degc: float, mixed_degc: float = SKIN_DEGC) -> Litres:
    """Mixed water a store gives before it runs lukewarm, heater off.

    Unmixed: V·(θ_h − θ_c)/(θ_m − θ_c). Fully mixing: its heat above θ_m only, V·(θ_h − θ_m)/(θ_m − θ_c). stored_l: 0 to
    500. Temperatures 0 to 99, mixed_degc above cold_degc. Source: heat balance.

    >>> [round(x, 3) for x in mixed_l(20, 60, 10)]
    [15.714, 35.714]
    """
    _check_water(hot_degc, cold_degc, mixed_degc)
    rise_k = within("mixed_rise_k", mixed_degc - cold_degc, 0.1, 99)
    within("stored_l", stored_l, 0, 500)
    if hot_degc < mixed_degc:
        return Litres(0.0, 0.0)
    return Litres(stored_l * (hot_degc - mixed_degc) / rise_k, stored_l * (hot_degc - cold_degc) / rise_k)


def shower_minutes(
    stored_l: float,
    hot_degc: float,
    cold_degc: float,
    flow_l_min: float,
    heat_w: float = 0.0,
    mixed_degc: float = SKIN_DEGC,
) -> Minutes:
    """Minutes of shower with the heater running meanwhile; infinite when it keeps up with the flow.

    Heat drawn c·F·(θ_m − θ_c) less heat put in empties the store's heat. flow_l_min: mixed, 0.5 to 30. heat_w: into the
    water, 0 to 50,000. An instant heater is a store of 0 L. Others as for ``mixed_l``. Source: heat balance.

    >>> [round(x, 1) for x in shower_minutes(20, 60, 10, 6)]
    [2.6, 6.0]
    >>> [round(x, 1) for x in shower_minutes(20, 60, 10, 6, 1700)]
    [3.1, 7.0]
    """
    litres = mixed_l(stored_l, hot_degc, cold_degc, mixed_degc)
    within("flow_l_min", flow_l_min, 0.5, 30)
    drawn_w = WATER_WH_LK * flow_l_min * 60 * (mixed_degc - cold_degc)
    share = within("heat_w", heat_w, 0, 5e4) / drawn_w
    if share >= 1:
        return Minutes(inf, inf)
    return Minutes(*(x / flow_l_min / (1 - share) for x in litres))


def instant_flow_l_min(heat_w: float, cold_degc: float, mixed_degc: float = SKIN_DEGC) -> float:
    """Flow an instant heater warms to the wanted temperature.

    heat_w: into the water, 0 to 50,000. mixed_degc above cold_degc, 0 to 99. Source: heat balance.

    >>> round(instant_flow_l_min(10_000, 10), 2)
    5.12
    """
    _check_water(mixed_degc, cold_degc, mixed_degc)
    rise_k = within("mixed_rise_k", mixed_degc - cold_degc, 0.1, 99)
    return within("heat_w", heat_w, 0, 5e4) / (WATER_WH_LK * rise_k * 60)


def heat_up_wh(volume_l: float, cold_degc: float, hot_degc: float) -> float:
    """Heat to warm water, none lost on the way.

    volume_l: 0 to 1e5. Temperatures 0 to 99, hot_degc not below cold_degc. Source: 1.163 Wh/(L·K).

    >>> round(heat_up_wh(22.71, 10, 54.4))
    1173
    """
    _check_water(hot_degc, cold_degc, cold_degc)
    rise_k = within("rise_k", hot_degc - cold_degc, 0, 99)
    return within("volume_l", volume_l, 0, 1e5) * WATER_WH_LK * rise_k


def heat_up_h(
    volume_l: float, cold_degc: float, hot_degc: float, heat_w: float, loss_w_k: float = 0.0, around_degc: float = 20.0
) -> float | None:
    """Hours to heat a store, with what it loses meanwhile; None when the loss eats the heat before it is hot.

    τ·ln((θ_end − θ_c)/(θ_end − θ_h)), τ = C/UA, θ_end = around + P/UA. heat_w: 1 to 50,000. loss_w_k: 0 to 50.
    around_degc: −40 to 60. Others as for ``heat_up_wh``. Source: heat balance of one store.

    >>> round(60 * heat_up_h(20, 10, 60, 1700), 1), round(60 * heat_up_h(20, 10, 60, 1700, 1.5), 1)
    (41.0, 41.6)
    """
    need_wh = heat_up_wh(volume_l, cold_degc, hot_degc)
    within("heat_w", heat_w, 1, 5e4)
    within("around_degc", around_degc, -40, 60)
    if within("loss_w_k", loss_w_k, 0, 50) < 1e-6 or need_wh == 0:
        return need_wh / heat_w
    ends_degc = around_degc + heat_w / loss_w_k
    if ends_degc <= hot_degc:
        return None
    return volume_l * WATER_WH_LK / loss_w_k * log((ends_degc - cold_degc) / (ends_degc - hot_degc))


def stands_degc(volume_l: float, hot_degc: float, loss_w_k: float, around_degc: float, time_h: float) -> float:
    """Temperature of a store that stands unheated.

    volume_l: 0.1 to 1000. hot_degc: 0 to 99. loss_w_k: 0 to 50. around_degc: −40 to 60. time_h: 0 to 1000. Does not
    freeze here: ``engine.physics.freezing`` goes on below 0 °C. Source: heat balance of one store.

    >>> round(stands_degc(20, 60, 1.5, 20, 12), 1)
    38.4
    """
    within("hot_degc", hot_degc, 0, 99)
    within("around_degc", around_degc, -40, 60)
    rate_h = within("loss_w_k", loss_w_k, 0, 50) / (within("volume_l", volume_l, 0.1, 1000) * WATER_WH_LK)
    return around_degc + (hot_degc - around_degc) * exp(-rate_h * within("time_h", time_h, 0, 1000))


def recovery_l_h(heat_w: float, rise_k: float) -> float:
    """Litres an hour a heater warms by a rise. heat_w: 0 to 50,000. rise_k: 1 to 99. Source: heat balance.

    >>> round(recovery_l_h(10_000 * 0.8 * 0.29307107, 100 / 1.8) / 3.785412, 2)
    9.59
    """
    return within("heat_w", heat_w, 0, 5e4) / (WATER_WH_LK * within("rise_k", rise_k, 1, 99))


def _check_water(*degrees: float) -> None:
    for t in degrees:
        within("water_degc", t, 0, 99)
