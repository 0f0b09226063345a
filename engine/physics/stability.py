"""How far a vehicle is from tipping sideways."""

from math import atan, degrees

from engine.physics.ranges import within


def static_stability_frac(track_m: float, height_m: float) -> float:
    """Static stability factor t/(2·h): the sideways pull, as a share of the weight, at which a rigid vehicle tips.

    track_m: 1 to 2.6. height_m of the centre of gravity: 0.2 to 4. Springs and tyres give way and make it less.
    Source: NHTSA, "Rollover Resistance" (49 CFR 575, 68 FR 59250, 2003): SSF = T/(2H).

    >>> static_stability_frac(1.8, 0.9)
    1.0
    """
    return within("track_m", track_m, 1, 2.6) / (2 * within("height_m", height_m, 0.2, 4))


def tilt_deg(stability_frac: float) -> float:
    """Side slope at which a rigid vehicle of that static stability factor tips: its arc tangent, from 0.01 to 10.

    Source: statics, the centre of gravity stands over the lower wheels (any mechanics text).

    >>> round(tilt_deg(1.0), 6)
    45.0
    """
    return degrees(atan(within("stability_frac", stability_frac, 0.01, 10)))
