"""What a schedule takes to make: cable by size, fuses, breakers, isolators and lugs."""

from functools import lru_cache
from typing import NamedTuple

from engine.build.circuit_lines import Line
from engine.physics.conductor import AWG, CLASS_5

WASTE = 1.1
"""A tenth more cable than the runs are long (common practice)."""

_AREA = {c.label: c.area_m2 for c in (*AWG, *CLASS_5)}

LUGS_FROM_M2 = 5.9e-6
"""From 6 mm², or 8 AWG, cables end in lugs (common practice)."""


class Needed(NamedTuple):
    """One line of the list."""

    kind: str
    """Cable, mains cable, fuse, breaker, isolator or lug."""
    what: str
    pieces: int
    """0 for cable."""
    length_m: float
    """0 for pieces."""


@lru_cache(maxsize=256)
def needed(lines: tuple[Line, ...]) -> tuple[Needed, ...]:
    """The list, thick before thin. Circuits for which no cable is found are left out."""
    cables: dict[tuple[str, str], float] = {}
    pieces: dict[tuple[str, str], int] = {}
    for x in lines:
        if x.size is None:
            continue
        pairs = x.parallel * x.ask.pieces
        kind = "mains cable, three cores" if x.ask.mains else "single cable"
        length = x.ask.one_way_m * pairs * (1 if x.ask.mains else 2)
        cables[kind, x.size] = cables.get((kind, x.size), 0.0) + length
        if x.ask.device == "isolator":
            key = ("isolator", f"for {x.ask.system_v:.0f} V, two poles")
            pieces[key] = pieces.get(key, 0) + x.ask.pieces
        elif x.fuse_a is not None:
            what = f"{x.fuse_a:g} A, to break {x.ask.prospective_a:,.0f} A" if x.unbroken else f"{x.fuse_a:g} A"
            key = ("breaker" if x.ask.device == "breaker" else x.device, what)
            pieces[key] = pieces.get(key, 0) + pairs
        if not x.ask.mains and _AREA[x.size] >= LUGS_FROM_M2:
            key = ("lug", f"for {x.size}")
            pieces[key] = pieces.get(key, 0) + 4 * pairs
    found = [Needed(k, size, 0, WASTE * m) for (k, size), m in cables.items()]
    found.sort(key=lambda n: (n.kind != "single cable", -_AREA[n.what]))
    rest = [Needed(k, what, n, 0.0) for (k, what), n in pieces.items()]
    rest.sort(key=lambda n: (n.kind == "lug", n.kind, -_number(n.what)))
    return (*found, *rest)


def _number(what: str) -> float:
    digits = "".join(c if c.isdigit() or c == "." else " " for c in what).split()
    return float(digits[0]) if digits else 0.0
