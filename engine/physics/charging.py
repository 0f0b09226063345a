"""How long a charge takes: full current first, then a tail that dies away."""

from math import log
from typing import NamedTuple

from engine.physics.battery_chemistry import Chemistry
from engine.physics.battery_temperature import charge_limit_a
from engine.physics.ranges import within


class Source(NamedTuple):
    """Something that charges the house battery."""

    name: str
    charge_a: float
    """Current at the house battery."""


class Charge(NamedTuple):
    """A charge by one source."""

    name: str
    accepted_a: float
    """What the battery takes of it at its temperature."""
    constant_h: float
    """Hours at that current."""
    tail_h: float
    """Hours of the tail until it is full."""

    @property
    def all_h(self) -> float:
        """Hours until the battery is full."""
        return self.constant_h + self.tail_h


def charge(
    chemistry: Chemistry, capacity_ah: float, charged_frac: float, source: Source, cell_degc: float = 25.0
) -> Charge | None:
    """How long one source takes to fill a battery; None when it never does.

    Constant current I₀ up to the chemistry's taper, then I₀·exp(−t/τ) down to its tail I₁, during which the charge
    Q = (1 − taper)·C/η flows: τ = Q/(I₀ − I₁), t = τ·ln(I₀/I₁). A source weaker than the tail charges evenly to the
    end. capacity_ah: 0.1 to 100 000. charged_frac: 0 to 1, where it starts. charge_a: 0 to 10 000. cell_degc: −60 to
    100.

    Source: constant current, constant voltage, as battery makers describe it; the tail's shape is common practice.

    >>> from engine.physics.battery_chemistry import AGM, LFP
    >>> c = charge(LFP, 200, 0.2, Source("Hook-up", 40))
    >>> round(c.constant_h, 2), round(c.tail_h, 2)
    (3.79, 0.47)
    >>> charge(LFP, 200, 0.2, Source("Hook-up", 40), cell_degc=-5) is None
    True
    """
    within("capacity_ah", capacity_ah, 0.1, 1e5)
    within("charged_frac", charged_frac, 0, 1)
    within("charge_a", source.charge_a, 0, 1e4)
    accepted_a = min(source.charge_a, charge_limit_a(chemistry, capacity_ah, cell_degc))
    if accepted_a <= 0:
        return None if charged_frac < 1 else Charge(source.name, 0.0, 0.0, 0.0)
    in_ah = capacity_ah / chemistry.coulombic_frac
    tail_a = chemistry.tail_frac * capacity_ah
    if accepted_a <= tail_a:
        return Charge(source.name, accepted_a, (1 - charged_frac) * in_ah / accepted_a, 0.0)
    constant_h = max(0.0, chemistry.taper_from_frac - charged_frac) * in_ah / accepted_a
    # A battery that is fuller than the taper's start enters the tail where its charge says.
    whole_ah = (1 - chemistry.taper_from_frac) * in_ah
    left_ah = (1 - max(charged_frac, chemistry.taper_from_frac)) * in_ah
    tau_h = whole_ah / (accepted_a - tail_a)
    begins_a = tail_a + left_ah / tau_h
    return Charge(source.name, accepted_a, constant_h, tau_h * log(begins_a / tail_a))
