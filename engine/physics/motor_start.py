"""What motors take while they start."""

from typing import NamedTuple

from engine.physics.ranges import within

CODE_LETTER_VA = {
    "A": (0, 3140), "B": (3150, 3540), "C": (3550, 3990), "D": (4000, 4490), "E": (4500, 4990), "F": (5000, 5590),
    "G": (5600, 6290), "H": (6300, 7090), "J": (7100, 7990), "K": (8000, 8990), "L": (9000, 9990), "M": (10000, 11190),
    "N": (11200, 12490), "P": (12500, 13990), "R": (14000, 15990), "S": (16000, 17990), "T": (18000, 19990),
    "U": (20000, 22390),
}  # fmt: skip
"""Locked-rotor volt-amperes for each horsepower, from and to. Letter V has no upper end and is left out. Source: NEMA
MG 1 and NFPA 70 (NEC), table 430.7(B) (compared in five reproductions)."""

START_MULTIPLE = {
    "heating": (1.0, 1.0),
    "electronics": (1.0, 1.5),
    "brush-motor": (2.0, 3.0),
    "dc-pump": (2.0, 3.0),
    "induction-motor": (4.0, 6.0),
    "compressor": (4.0, 6.0),
    "compressor-soft-start": (1.5, 2.0),
    "inverter-compressor": (1.0, 1.5),
}
"""Starting over running current by kind of load, from and to (common practice). Only the locked-rotor current of a
nameplate settles it."""


class Span(NamedTuple):
    """From and to."""

    low_va: float
    high_va: float


def locked_rotor(code_letter: str, horsepower_w: float) -> Span:
    """Volt-amperes of a motor's start by the code letter of its nameplate.

    horsepower_w: its shaft power, 10 to 10 000 W (1 hp is 745.7 W). ValueError for a letter that the table lacks.

    Source: NFPA 70 (NEC), table 430.7(B).

    >>> span = locked_rotor("L", 1.5 * 745.7)
    >>> round(span.low_va), round(span.high_va), round(span.high_va / 120, 1)
    (13500, 14985, 124.9)
    """
    within("horsepower_w", horsepower_w, 10, 10_000)
    if code_letter not in CODE_LETTER_VA:
        raise ValueError(f"no code letter {code_letter!r}")
    low, high = CODE_LETTER_VA[code_letter]
    return Span(low * horsepower_w / 745.7, high * horsepower_w / 745.7)


def start_va(running_a: float, supply_v: float, start_a: float | None = None, start_multiple: float = 1.0) -> float:
    """Apparent power of a start: by the nameplate's locked-rotor current, else by a multiple of the running current.

    running_a, start_a: 0 to 500. supply_v: 5 to 500. start_multiple: 1 to 10. Source: S = U·I.

    >>> start_va(9, 120, start_a=40), start_va(9, 120)
    (4800, 1080.0)
    """
    within("running_a", running_a, 0, 500)
    within("supply_v", supply_v, 5, 500)
    within("start_multiple", start_multiple, 1, 10)
    if start_a is not None:
        return supply_v * within("start_a", start_a, 0, 500)
    return supply_v * running_a * start_multiple
