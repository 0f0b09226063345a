"""Hook-ups: what a supply on a pitch gives, and which loads to switch off when they are too many."""

from functools import lru_cache
from typing import NamedTuple

from engine.physics.ranges import within


class Supply(NamedTuple):
    """A supply on a pitch, one breaker on each leg."""

    code: str
    supply_v: float
    """Voltage of a leg."""
    breaker_a: float
    legs: int
    continuous_frac: float
    """Share of the breaker that may run for three hours and more."""
    source: str

    @property
    def supply_w(self) -> float:
        """All it gives, legs equally loaded."""
        return self.supply_v * self.breaker_a * self.legs

    @property
    def continuous_w(self) -> float:
        """What may run for hours."""
        return self.supply_w * self.continuous_frac


_US = "NFPA 70 (NEC), 551.71 and 551.73, as trade papers give them; 80 % for continuous loads: 210.20(A)"
_EU = "common practice on sites in Europe; sockets to EN 60309-2"

SUPPLIES = {
    x.code: x
    for x in (
        Supply("us-15", 120, 15, 1, 0.8, _US),
        Supply("us-20", 120, 20, 1, 0.8, _US),
        Supply("us-30", 120, 30, 1, 0.8, _US),
        Supply("us-50", 120, 50, 2, 0.8, _US),
        Supply("eu-6", 230, 6, 1, 1.0, _EU),
        Supply("eu-10", 230, 10, 1, 1.0, _EU),
        Supply("eu-16", 230, 16, 1, 1.0, _EU),
        Supply("eu-32", 230, 32, 1, 1.0, _EU),
        Supply("au-10", 230, 10, 1, 1.0, "common practice"),
        Supply("au-15", 230, 15, 1, 1.0, "common practice"),
    )
}
"""us-50 is 120/240 V: two legs of 50 A, 12 kW in all."""


class Drawn(NamedTuple):
    """A load on a hook-up."""

    name: str
    power_w: float
    essential: bool = False
    """It is not switched off."""


class Shed(NamedTuple):
    """What loads ask of a supply, and what has to be switched off."""

    wanted_w: float
    limit_w: float
    off: tuple[Drawn, ...]
    """The smallest number of loads; of such sets, the one that gives up least power."""
    enough: bool
    """False when the essential loads alone are too many."""

    @property
    def share_frac(self) -> float:
        """Of the supply; more than 1 is too much."""
        return self.wanted_w / self.limit_w


def charger_w(output_a: float, output_v: float, efficiency_frac: float) -> float:
    """What a charger takes from the hook-up: I·U/η.

    output_a: 0 to 100 000. output_v: 8 to 100. efficiency_frac: 0.5 to 1.

    Source: power balance.

    >>> round(charger_w(60, 14.4, 0.9))
    960
    """
    within("output_a", output_a, 0, 1e5)
    within("output_v", output_v, 8, 100)
    return output_a * output_v / within("efficiency_frac", efficiency_frac, 0.5, 1)


def charger_left_a(limit_w: float, loads_w: float, output_a: float, output_v: float, efficiency_frac: float) -> float:
    """Charging current that a supply still feeds beside loads, when the charger can be turned down.

    limit_w: 0 to 1e6. loads_w: 0 to 1e8; the others as for `charger_w`. Source: power balance.

    >>> round(charger_left_a(1380, 900, 60, 14.4, 0.9)), charger_left_a(3680, 900, 60, 14.4, 0.9)
    (30, 60.0)
    """
    within("limit_w", limit_w, 0, 1e6)
    within("loads_w", loads_w, 0, 1e8)
    wanted_w = charger_w(output_a, output_v, efficiency_frac)
    return output_a * min(1.0, max(0.0, limit_w - loads_w) / wanted_w) if wanted_w else 0.0


@lru_cache(maxsize=512)
def shed(loads: tuple[Drawn, ...], limit_w: float) -> Shed:
    """The smallest number of loads to switch off so that the rest stay within a limit; exactly at it nothing has to go.

    power_w: 0 to 1e6. limit_w: 1 to 1e6. Source: exact search.

    >>> three = (Drawn("Air conditioner", 7 * 230), Drawn("Microwave", 5 * 230), Drawn("Toaster", 9 * 230))
    >>> result = shed(three, 15 * 230)
    >>> round(result.share_frac, 2), [x.name for x in result.off]
    (1.4, ['Air conditioner'])
    """
    within("limit_w", limit_w, 1, 1e6)
    for load in loads:
        within("power_w", load.power_w, 0, 1e6)
    wanted_w = sum(x.power_w for x in loads)
    excess_w = wanted_w - limit_w * (1 + 1e-9)
    free = sorted((x for x in loads if not x.essential), key=lambda x: (-x.power_w, x.name))
    if excess_w <= 0:
        return Shed(wanted_w, limit_w, (), True)
    given_w, number = 0.0, 0
    for load in free:
        if given_w >= excess_w:
            break
        given_w += load.power_w
        number += 1
    if given_w < excess_w:
        return Shed(wanted_w, limit_w, tuple(free), False)
    return Shed(wanted_w, limit_w, _lightest(free, number, excess_w), True)


def _lightest(loads: list[Drawn], number: int, excess_w: float) -> tuple[Drawn, ...]:
    """That number of loads, heaviest first in the list, with the least power that is still enough."""
    best: tuple[float, tuple[Drawn, ...]] = (float("inf"), ())

    def walk(at: int, taken: tuple[Drawn, ...], given_w: float) -> None:
        nonlocal best
        left = number - len(taken)
        if left == 0:
            if given_w >= excess_w and given_w < best[0]:
                best = (given_w, taken)
            return
        before = None
        for i in range(at, len(loads) - left + 1):
            if loads[i].power_w == before:
                continue  # Loads alike in power give nothing new here.
            before = loads[i].power_w
            if given_w + sum(x.power_w for x in loads[i : i + left]) < excess_w:
                break  # From here on even the heaviest are not enough.
            if given_w + loads[i].power_w + sum(x.power_w for x in loads[len(loads) - left + 1 :]) < best[0]:
                walk(i + 1, (*taken, loads[i]), given_w + loads[i].power_w)

    walk(0, (), 0.0)
    return best[1]
