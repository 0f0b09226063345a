"""Questions a heater has to answer: how fast it is warm, how much it takes, which grade it meets, how it cycles."""

from math import expm1, inf

from engine.physics.ranges import within
from engine.physics.room_heat import Room, RoomHour, after

GRADE_HEAT_UP_H = 4.0
GRADE_INSIDE_DEGC = 20.0
"""Test of EN 1646-1, clause 9: ten hours in the cold with all shut, then at most four to the inside temperature (two
descriptions of the test; the standard itself was not seen)."""


def warm_up_h(
    room: Room, start_degc: float, outside_degc: float, target_degc: float, output_w: float, gains_w: float = 0.0
) -> float | None:
    """Hours from a room cold through to a wanted air temperature, heater full on; None when it never gets there.

    start_degc, outside_degc, target_degc: −60 to 60. output_w: 0 to 100,000. gains_w: 0 to 10,000. Found
    by halving, to a second. Source: ``engine.physics.room_heat``.

    >>> from engine.physics.room_heat import room_of
    >>> room = room_of(43.2, 7.0, 60, 15, 40, 250, 80)
    >>> round(warm_up_h(room, -5, -10, 18, 4000), 2), warm_up_h(room, -5, -10, 18, 1000)
    (1.13, None)
    """
    within("target_degc", target_degc, -60, 60)
    within("outside_degc", outside_degc, -60, 60)
    within("gains_w", gains_w, 0, 1e4)
    within("output_w", output_w, 0, 1e5)
    if within("start_degc", start_degc, -60, 60) >= target_degc:
        return 0.0
    if outside_degc + (output_w + gains_w) / room.steady_w_k <= target_degc:
        return None
    hour = RoomHour(outside_degc, outside_degc, air_gain_w=gains_w)
    low, high = 0.0, 1.0
    while after(room, hour, start_degc, start_degc, output_w, high)[0] < target_degc:
        low, high = high, 2 * high
        if high > 1e4:
            return None  # a heater that just balances takes for ever
    while high - low > 1 / 3600:
        middle = (low + high) / 2
        if after(room, hour, start_degc, start_degc, output_w, middle)[0] < target_degc:
            low = middle
        else:
            high = middle
    return high


def warm_up_w(room: Room, start_degc: float, outside_degc: float, target_degc: float, within_h: float) -> float:
    """Output that brings a room cold through to the target in a given time; 0 when it is that warm by itself.

    Temperatures as for ``warm_up_h``. within_h: 0.05 to 100. Source: ``engine.physics.room_heat``; the end temperature
    rises evenly with the output.

    >>> from engine.physics.room_heat import room_of
    >>> round(warm_up_w(room_of(43.2, 7.0, 60, 15, 40, 250, 80), -5, -10, 18, 1.13), -2)
    4000.0
    """
    within("target_degc", target_degc, -60, 60)
    within("within_h", within_h, 0.05, 100)
    hour = RoomHour(outside_degc, outside_degc)
    cold, one = (after(room, hour, start_degc, start_degc, w, within_h)[0] for w in (0.0, 1000.0))
    return max(0.0, 1000 * (target_degc - cold) / (one - cold))


def heating_grade(room: Room, output_w: float) -> int:
    """Grade of EN 1646-1, clause 9: 3 holds 20 °C at −15 and gets there in four hours, 2 holds 20 °C at 0, else 1.

    output_w: 0 to 100,000. The test wants every point of the room within 7 K: that is the air's distribution, which
    this cannot know. Source: EN 1646-1 (descriptions of the test), ``engine.physics.room_heat``.

    >>> from engine.physics.room_heat import room_of
    >>> room = room_of(43.2, 7.0, 60, 15, 40, 250, 80)
    >>> [heating_grade(room, w) for w in (900, 1500, 2000, 4000)]
    [1, 2, 2, 3]
    """
    takes_h = warm_up_h(room, -15, -15, GRADE_INSIDE_DEGC, output_w)
    if takes_h is not None and takes_h <= GRADE_HEAT_UP_H:
        return 3
    return 2 if output_w >= room.steady_w_k * GRADE_INSIDE_DEGC else 1


def duty_frac(need_w: float, least_w: float) -> float:
    """Share of the time a heater runs at its lowest output when less is needed; 1 when it need not cycle.

    need_w: 0 to 100,000. least_w: 0 to 100,000, its lowest steady output. Source: heat balance.

    >>> round(duty_frac(493, 1500), 2), duty_frac(1500, 1500)
    (0.33, 1.0)
    """
    within("need_w", need_w, 0, 1e5)
    within("least_w", least_w, 0, 1e5)
    return 1.0 if need_w >= least_w else need_w / least_w


def cycle_h(room: Room, band_k: float, need_w: float, least_w: float, least_run_h: float = 0.0) -> float:
    """Time from one start of a cycling heater to the next; infinite when it need not cycle or is not needed.

    Running a share d of the time at P, in cycles of T, it makes the air swing by P·d·(1 − d)·T/(C_a + C_m) with all
    that stores heat, and on top, to and from the lining, by
    P/G·(C_m/(C_a + C_m))²·(1 − e^(−d·T/τ))·(1 − e^(−(1 − d)·T/τ))/(1 − e^(−T/τ)), τ = C_a·C_m/((C_a + C_m)·G). T is
    found by halving so that this is the thermostat's band, or longer where the heater has to run for least_run_h. What
    the shell loses more or less within the swing is left out. band_k: between its switching on and off, 0.2 to 10.
    need_w, least_w: 0 to 100,000. least_run_h: 0 to 2. Source: heat balance of the two stores of
    ``engine.physics.room_heat``.

    >>> from engine.physics.room_heat import room_of
    >>> room = room_of(43.2, 7.0, 60, 15, 40, 250, 80)
    >>> [round(60 * cycle_h(room, 2, 493, 1500, least_run_h), 1) for least_run_h in (0, 0.1, 0.2)]
    [10.0, 18.3, 36.5]
    """
    within("band_k", band_k, 0.2, 10)
    within("least_run_h", least_run_h, 0, 2)
    share = duty_frac(need_w, least_w)
    if share >= 1 or share * (1 - share) == 0:
        return inf
    air, mass, link = (
        within("air_wh_k", room.air_wh_k, 0.1, 1e4),
        within("mass_wh_k", room.mass_wh_k, 0.01, 1e5),
        within("coupling_w_k", room.coupling_w_k, 0.1, 1e5),
    )
    both, apart_h = air + mass, air * mass / ((air + mass) * link)
    pulse_w = least_w * share * (1 - share)
    link_k = least_w / link * (mass / both) ** 2

    def swing_k(time_h: float) -> float:
        on, off, whole = (-expm1(-x * time_h / apart_h) for x in (share, 1 - share, 1.0))
        return pulse_w * time_h / both + link_k * on * off / whole

    # Between the air by itself and all that stores heat.
    low, high = air * band_k / pulse_w, both * band_k / pulse_w
    while high - low > 1e-3 * high:
        middle = (low + high) / 2
        low, high = (middle, high) if swing_k(middle) < band_k else (low, middle)
    return max(high, least_run_h / share)
