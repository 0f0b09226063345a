"""A room by the hour: air and light things as one store of heat, lining, furniture and water as another.

Within an hour nothing outside changes, so both temperatures are sums of two exponentials and every hour is exact,
however long: no step to choose, nothing to go unstable.
"""

from functools import lru_cache
from math import exp, sqrt
from typing import NamedTuple

from engine.physics.heat import AIR_HEAT_WH_M3K
from engine.physics.ranges import within

WOOD_WH_KGK = 1600 / 3600
"""Specific heat of wood, plywood and plastics, 1.6 kJ/(kg·K). ISO 10456:2007, table 3."""

WATER_WH_KGK = 1.163
"""Specific heat of water, 4.187 kJ/(kg·K)."""

INSIDE_FILM_W_M2K = 1 / 0.13
"""Between air and lining: the inside surface resistance of ISO 6946:2017."""


class Room(NamedTuple):
    """Two stores of heat and the ways out of them."""

    air_wh_k: float
    """Air with what warms and cools as fast: bedding, clothes, thin fronts."""
    mass_wh_k: float
    """Lining, furniture, water inside."""
    air_loss_w_k: float
    """Straight from the air to outside: exchanged air, glass."""
    coupling_w_k: float
    """Between air and lining."""
    mass_loss_w_k: float
    """From the lining through the shell to outside."""

    @property
    def steady_w_k(self) -> float:
        """Heat lost for each kelvin once nothing changes any more."""
        return self.air_loss_w_k + 1 / (1 / self.coupling_w_k + 1 / self.mass_loss_w_k)


class RoomHour(NamedTuple):
    """What acts on the room in an hour."""

    outside_degc: float
    skin_degc: float
    """What the shell feels outside: the air, or the sol-air temperature in the sun."""
    air_gain_w: float = 0.0
    """People, equipment, cooking."""
    mass_gain_w: float = 0.0
    """Sun through glass, that falls on floor and furniture first."""
    heat_to_degc: float = -50.0
    heating_w: float = 0.0
    """The most the heater gives."""
    cool_to_degc: float = 80.0
    cooling_w: float = 0.0
    """The most the cooler takes away, sensible heat, at this hour's outside temperature."""


class RoomState(NamedTuple):
    """The room at the end of an hour, and means over the hour; heat − cooling + gains = lost + stored."""

    air_degc: float
    mass_degc: float
    mean_air_degc: float
    heat_w: float
    cooling_w: float
    gains_w: float
    lost_w: float
    stored_w: float


def room_of(
    shell_w_k: float,
    direct_w_k: float,
    inside_m2: float,
    air_m3: float,
    light_kg: float,
    heavy_kg: float,
    water_kg: float,
) -> Room:
    """A room from what a builder knows; its steady loss is exactly shell_w_k + direct_w_k.

    shell_w_k: Σ U·A of walls, roof, floor, 0.5 to 2000. direct_w_k: glass and exchanged air, 0 to 2000. inside_m2:
    lining and furniture that face the air, 1 to 500, and enough that the film lets the shell's loss through. air_m3:
    0.5 to 200. light_kg: bedding, clothes, thin fronts, 0 to 500. heavy_kg: furniture, lining, 0.1 to 5000. water_kg:
    in tanks inside, 0 to 2000. Source: as the two-node forms of ISO 52016-1 and ISO 13790 annex C, with the inside film
    of ISO 6946 as the coupling.

    >>> room = room_of(43.2, 7.0, 60, 15, 40, 250, 80)
    >>> round(room.steady_w_k, 3), round(room.mass_wh_k)
    (50.2, 204)
    """
    within("shell_w_k", shell_w_k, 0.5, 2000)
    within("inside_m2", inside_m2, 1, 500)
    coupling = within("coupling_w_k", inside_m2 * INSIDE_FILM_W_M2K, 1.05 * shell_w_k, 1e5)
    return Room(
        AIR_HEAT_WH_M3K * within("air_m3", air_m3, 0.5, 200) + WOOD_WH_KGK * within("light_kg", light_kg, 0, 500),
        WOOD_WH_KGK * within("heavy_kg", heavy_kg, 0.1, 5000) + WATER_WH_KGK * within("water_kg", water_kg, 0, 2000),
        within("direct_w_k", direct_w_k, 0, 2000),
        coupling,
        1 / (1 / shell_w_k - 1 / coupling),
    )


def room_hours(
    room: Room, hours: tuple[RoomHour, ...], start_degc: float, start_mass_degc: float | None = None
) -> tuple[RoomState, ...]:
    """Temperatures and heat hour by hour.

    Heater and cooler give in each hour the steady power that brings the air to the wanted temperature by the hour's
    end, as far as they can; a heater that cannot turn down so far cycles and gives the same on average.

    hours: 1 to 2000; temperatures −60 to 90 °C, gains −10 to 50 kW, powers 0 to 100 kW, heat_to_degc not above
    cool_to_degc. start_degc, start_mass_degc (the same when left out): −60 to 90. Source: heat balance of two stores
    (ISO 52016-1:2017, its hourly idea), solved exactly.

    >>> room = room_of(43.2, 7.0, 60, 15, 40, 250, 80)
    >>> night = (RoomHour(-10, -10, heat_to_degc=20, heating_w=1200),) * 10
    >>> [round(s.air_degc, 1) for s in room_hours(room, night, 20)][::3]
    [20.0, 16.9, 15.4, 14.6]
    """
    within("hours_count", len(hours), 1, 2000)
    _check_room(room)
    air = within("start_degc", start_degc, -60, 90)
    mass = air if start_mass_degc is None else within("start_mass_degc", start_mass_degc, -60, 90)
    found = []
    for h in hours:
        _check_hour(h)
        state = _free(room, h, air, mass, 0.0)
        lift_k_w = _free(room, h, air, mass, 1.0)[0] - state[0]
        power = 0.0
        if state[0] < h.heat_to_degc:
            power = min(h.heating_w, (h.heat_to_degc - state[0]) / lift_k_w)
        elif state[0] > h.cool_to_degc:
            power = -min(h.cooling_w, (state[0] - h.cool_to_degc) / lift_k_w)
        end_air, end_mass, mean_air, mean_mass = _free(room, h, air, mass, power)
        lost = room.air_loss_w_k * (mean_air - h.outside_degc) + room.mass_loss_w_k * (mean_mass - h.skin_degc)
        stored = room.air_wh_k * (end_air - air) + room.mass_wh_k * (end_mass - mass)
        heat, cooling = max(0.0, power), max(0.0, -power)
        found.append(RoomState(end_air, end_mass, mean_air, heat, cooling, h.air_gain_w + h.mass_gain_w, lost, stored))
        air, mass = end_air, end_mass
    return tuple(found)


def after(
    room: Room, hour: RoomHour, start_degc: float, start_mass_degc: float, power_w: float, time_h: float
) -> tuple[float, float]:
    """Air and lining after any time under steady conditions and steady power (below 0: cooling).

    time_h: 0 to 10,000. power_w: −100 to 100 kW. Others as for ``room_hours``. Source: two coupled linear equations.

    >>> room = room_of(43.2, 7.0, 60, 15, 40, 250, 80)
    >>> [round(t, 1) for t in after(room, RoomHour(-10, -10), 20, 20, 0, 8)]
    [-5.6, -5.6]
    """
    _check_room(room)
    _check_hour(hour)
    for t in (start_degc, start_mass_degc):
        within("start_degc", t, -60, 90)
    within("power_w", power_w, -1e5, 1e5)
    return _free(room, hour, start_degc, start_mass_degc, power_w, within("time_h", time_h, 0, 1e4))[:2]


@lru_cache(maxsize=512)
def _steps(room: Room, time_h: float) -> tuple[float, float, float, float]:
    """The matrix exponential of the two stores over a time, row by row."""
    out_air, out_mass = (room.air_loss_w_k + room.coupling_w_k), (room.mass_loss_w_k + room.coupling_w_k)
    a, b = -out_air / room.air_wh_k, room.coupling_w_k / room.air_wh_k
    c, d = room.coupling_w_k / room.mass_wh_k, -out_mass / room.mass_wh_k
    middle = (a + d) / 2
    root = sqrt((a - d) ** 2 / 4 + b * c)
    slow, fast = exp((middle + root) * time_h), exp((middle - root) * time_h)
    even, odd = (slow + fast) / 2, (slow - fast) / (2 * root)
    return even + odd * (a - middle), odd * b, odd * c, even + odd * (d - middle)


def _free(
    room: Room, h: RoomHour, air: float, mass: float, power_w: float, time_h: float = 1.0
) -> tuple[float, float, float, float]:
    """Temperatures at the end and their means, with a steady power into the air."""
    into_air = power_w + h.air_gain_w + room.air_loss_w_k * h.outside_degc
    into_mass = h.mass_gain_w + room.mass_loss_w_k * h.skin_degc
    out_air, out_mass, link = (
        room.air_loss_w_k + room.coupling_w_k,
        room.mass_loss_w_k + room.coupling_w_k,
        room.coupling_w_k,
    )
    det = out_air * out_mass - link * link
    rest_air = (out_mass * into_air + link * into_mass) / det
    rest_mass = (link * into_air + out_air * into_mass) / det
    e11, e12, e21, e22 = _steps(room, time_h)
    off_air, off_mass = air - rest_air, mass - rest_mass
    end_air = rest_air + e11 * off_air + e12 * off_mass
    end_mass = rest_mass + e21 * off_air + e22 * off_mass
    if time_h == 0:
        return air, mass, air, mass
    # What the stores gave up is the integral of what flowed: solve it for the means.
    gone_air, gone_mass = room.air_wh_k * (air - end_air) / time_h, room.mass_wh_k * (mass - end_mass) / time_h
    mean_air = rest_air + (out_mass * gone_air + link * gone_mass) / det
    mean_mass = rest_mass + (link * gone_air + out_air * gone_mass) / det
    return end_air, end_mass, mean_air, mean_mass


def _check_room(room: Room) -> None:
    within("air_wh_k", room.air_wh_k, 0.1, 1e4)
    within("mass_wh_k", room.mass_wh_k, 0.01, 1e5)
    within("air_loss_w_k", room.air_loss_w_k, 0, 2000)
    within("coupling_w_k", room.coupling_w_k, 0.1, 1e5)
    within("mass_loss_w_k", room.mass_loss_w_k, 0.1, 1e5)


def _check_hour(h: RoomHour) -> None:
    for t in (h.outside_degc, h.skin_degc, h.heat_to_degc, h.cool_to_degc):
        within("hour_degc", t, -60, 90)
    within("heat_to_degc", h.heat_to_degc, -60, h.cool_to_degc)
    for w in (h.air_gain_w, h.mass_gain_w):
        within("gain_w", w, -1e4, 5e4)
    within("heating_w", h.heating_w, 0, 1e5)
    within("cooling_w", h.cooling_w, 0, 1e5)
