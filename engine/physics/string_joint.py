"""Which way to connect unlike panels that share one charge controller: the best of all arrangements together."""

from functools import lru_cache
from typing import NamedTuple

from engine.physics.panel import Panel
from engine.physics.panel_curve import BRIGHT_CELL_DEGC, Strings, together_w
from engine.physics.ranges import within
from engine.physics.string_current import needs_fuse, string_fuse_a
from engine.physics.string_layout import Input, Objection, Split, split, splits

KEPT_COUNT = 48
"""So many arrangements of the first kinds are carried on to the next one; two or three kinds hardly ever have more."""

LEAVING_GAIN = 1.005
"""A kind is left out where the others give so much more without it (assumption)."""


class Kind(NamedTuple):
    """Equal panels."""

    panel: Panel
    panel_count: int
    hottest_cell_degc: float
    series: int | None = None
    """How many the workshop puts in series, where it says."""


@lru_cache(maxsize=256)
def joint_splits(kinds: tuple[Kind, ...], into: Input, coldest_degc: float) -> tuple[Split | None, ...]:
    """The best way to connect several kinds to one controller, a split for each kind; None for one best left out.

    Best: nothing speaks against it, no string above the voltage that the controller survives, then most power at the
    one voltage that they share on a bright day (switching: at the battery's), then no fuses in strings, then voltages
    under 90 % of the controller's limit, then the longest strings. Currents of all strings add up, and each string's
    fuse is for what all others drive into it. A kind that costs the others more than it brings is left out, so that
    one panel more never brings less; for too much current none is. kinds: 1 to 40. Ranges as for ``split``.

    Source: `split`, `together_w`, `needs_fuse`.

    >>> large, small, house = Panel(200, 24.5, 20.5, 10.4), Panel(115, 24.3, 20.3, 6.1), Panel(430, 39, 32, 13.9)
    >>> best = joint_splits((Kind(large, 2, 70), Kind(small, 1, 70)), Input(100, 14.2), -10)
    >>> [(x.series, x.parallel) for x in best]
    [(1, 2), (1, 1)]
    >>> joint_splits((Kind(house, 3, 70), Kind(small, 1, 70)), Input(50, 14.2), -10)[1] is None
    True
    """
    within("kinds", len(kinds), 1, 40)
    full = _best_of(kinds, into, coldest_degc)
    against = {o for x in full if x for o in x.objections}
    if into.switching or against - {"hot-voltage"}:
        return full
    fewer = _best_of(kinds, into, coldest_degc, leave=True, short=bool(against))
    return fewer if given_w(kinds, into, fewer) > LEAVING_GAIN * given_w(kinds, into, full) else full


def given_w(kinds: tuple[Kind, ...], into: Input, layouts: tuple[Split | None, ...]) -> float:
    """What kinds of panels, so connected, give on one controller in full sun with cells as on a bright day.

    Source: `together_w`; on a switching controller each gives its current at the battery's voltage.

    >>> kinds, into = (Kind(Panel(100, 22.5, 18.8, 5.7), 1, 70),), Input(50, 14.1, switching=True)
    >>> round(given_w(kinds, into, joint_splits(kinds, into, 0)))
    75
    """
    joined = [(k, x) for k, x in zip(kinds, layouts, strict=True) if x]
    if into.switching:
        return sum(k.panel.power_w * x.panel_count * x.used_frac for k, x in joined)
    curves = tuple(Strings(k.panel, x.series, x.parallel) for k, x in joined)
    return together_w(curves, into.charge_v + into.headroom_v, BRIGHT_CELL_DEGC) if curves else 0.0


def _best_of(
    kinds: tuple[Kind, ...], into: Input, coldest_degc: float, leave: bool = False, short: bool = False
) -> tuple[Split | None, ...]:
    """leave: kinds may be left out. short: being short of voltage on the hottest noon counts by what it costs only."""
    kept: list[tuple[Split | None, ...]] = [()]
    for i, kind in enumerate(kinds):
        every: list[Split | None] = [*_ways(kind, into, coldest_degc)]
        below: list[Split | None] = [x for x in every if x and "cold-voltage" not in x.objections]
        ways = [*below, None] if leave else below or every
        seen = kinds[: i + 1]
        grown = (_together(seen, into, (*before, x)) for before in kept for x in ways)
        kept = sorted(grown, key=lambda x: _rank(seen, into, x, short))[:KEPT_COUNT]
    return kept[0]


def _ways(kind: Kind, into: Input, coldest_degc: float) -> tuple[Split, ...]:
    if kind.series is not None:
        series = min(kind.series, kind.panel_count)
        return (split(kind.panel, into, series, kind.panel_count // series, coldest_degc, kind.hottest_cell_degc),)
    return splits(kind.panel, into, kind.panel_count, coldest_degc, kind.hottest_cell_degc)


def _together(kinds: tuple[Kind, ...], into: Input, layouts: tuple[Split | None, ...]) -> tuple[Split | None, ...]:
    """Each split with what speaks against it beside the others."""
    pairs = list(zip(kinds, layouts, strict=True))
    all_a = sum(k.panel.short_circuit_a * x.parallel for k, x in pairs if x)
    all_count = sum(x.parallel for x in layouts if x)
    found: list[Split | None] = []
    for kind, x in pairs:
        if x is None:
            found.append(None)
            continue
        own_a, rating_a = kind.panel.short_circuit_a, kind.panel.series_fuse_a
        against: list[Objection] = [o for o in x.objections if o in ("cold-voltage", "hot-voltage")]
        if into.highest_a is not None and all_a > into.highest_a * (1 + 1e-9):
            against.append("input-current")
        fuse_a = None
        if needs_fuse(own_a, x.parallel, rating_a, max(0.0, all_a - own_a * x.parallel), all_count - x.parallel):
            fuse_a = string_fuse_a(own_a, rating_a)
            if fuse_a is None:
                against.append("no-string-fuse")
        found.append(x._replace(string_fuse_a=fuse_a, objections=tuple(against)))
    return tuple(found)


def _rank(kinds: tuple[Kind, ...], into: Input, layouts: tuple[Split | None, ...], short: bool) -> tuple[float, ...]:
    rated_w = sum(k.panel.power_w * k.panel_count for k in kinds)
    joined = [x for x in layouts if x]
    against = {o for x in joined for o in x.objections}
    if short:
        against.discard("hot-voltage")
    return (
        bool(against),
        "cold-voltage" in against,
        -round(given_w(kinds, into, layouts) / rated_w, 3),
        any(x.string_fuse_a is not None for x in joined),
        any(x.cold_open_v > 0.9 * into.highest_v for x in joined),
        *(-(x.series if x else 0) for x in layouts),
    )
