"""A circuit with its cable and protection: the line of a schedule."""

from functools import lru_cache
from typing import NamedTuple

from engine.build.circuit_asks import LETTER, Ask, Group
from engine.build.wiring_practice import Lay, practice
from engine.physics.circuit_schedule import Circuit, Row, scheduled
from engine.physics.overcurrent import FUSE_KINDS, FuseKind, breaks_a, kinds_that_break

KINDS = {k.code: k for k in FUSE_KINDS}

ESTIMATE_FRAC = 0.9
"""A short-circuit current is an estimate: a fuse is proposed only where it breaks a tenth more."""

MOST_A, MOST_M = 5000.0, 100.0
"""No cable is looked for beyond this: it is more than any list carries."""

BLADE_MOST_A = 30.0
"""Largest circuit that hangs on a board of blade fuses (common practice)."""


class Line(NamedTuple):
    """One circuit of the schedule; each of ``parallel`` cables has its own fuse."""

    ask: Ask
    number: str
    size: str | None
    """None when no size of the list is enough."""
    parallel: int
    drop_v: float
    ampacity_a: float
    fuse_a: float | None
    kind: FuseKind | None
    """Kind of fuse; None for breakers and isolators, and where none breaks the fault."""
    faults: tuple[str, ...]

    @property
    def name(self) -> str:
        """What it is, with how many alike."""
        return self.ask.what if self.ask.pieces == 1 else f"{self.ask.pieces} × {self.ask.what}"

    @property
    def group(self) -> Group:
        """Part of the schedule it stands in."""
        return self.ask.group

    @property
    def drop_frac(self) -> float:
        """Share of the voltage that is lost."""
        return self.drop_v / self.ask.system_v

    @property
    def share_a(self) -> float:
        """Current in each of its cables."""
        return self.ask.current_a / self.parallel

    @property
    def breaks_a(self) -> float:
        """Fault current that its fuse breaks; 0 without a kind."""
        return breaks_a(self.kind, self.ask.system_v) if self.kind else 0.0

    @property
    def unbroken(self) -> bool:
        """It takes a fuse, and none of the kinds that may be proposed breaks the fault."""
        return self.ask.device == "fuse" and self.fuse_a is not None and self.kind is None

    @property
    def unprotected(self) -> bool:
        """It takes a fuse, and none fits or breaks the fault."""
        return self.unbroken or (self.fuse_a is None and self.ask.device == "fuse")

    def strongest(self, allowed: tuple[str, ...] = ()) -> FuseKind | None:
        """Kind of fuse that breaks most in its rating and at its voltage; None where none is made for them."""
        made = kinds_that_break(1.0, self.ask.system_v, self.fuse_a) if self.fuse_a is not None else ()
        return next((k for k in reversed(made) if not allowed or k.code in allowed), None)

    @property
    def cable_words(self) -> str:
        """Its cable in words."""
        if self.size is None:
            return "none"
        many = {1: "", 2: "two of ", 3: "three of ", 4: "four of "}
        return f"{many[self.parallel]}{self.size}"

    @property
    def device(self) -> str:
        """What protects it, in words, without its rating."""
        if self.ask.device == "breaker":
            return "breaker"
        if self.ask.device == "isolator":
            return "isolator"
        return self.kind.title if self.kind else "fuse, of no usual kind" if self.unbroken else "fuse"


def _kind(ask: Ask, fuse_a: float, allowed: tuple[str, ...]) -> FuseKind | None:
    if ask.fuse_kind is not None:
        return KINDS[ask.fuse_kind]
    for share in (ESTIMATE_FRAC, 1.0):
        need_a = (ask.prospective_a or 0.0) / share
        found = [k for k in kinds_that_break(need_a, ask.system_v, fuse_a) if not allowed or k.code in allowed]
        if ask.prospective_a is None:
            # Behind a board's own fuse: the common kinds first, as they are listed.
            found.sort(key=FUSE_KINDS.index)
        if found:
            return found[0]
    return None


def _row(ask: Ask, lay: Lay) -> Row:
    """The physics' answer for a circuit; its drop is told for ``design_a``."""
    ratio = ask.design_a / ask.current_a
    return scheduled(
        Circuit(
            "", ask.design_a, ask.one_way_m, ask.system_v, min(0.5, ask.drop_limit_frac * ratio), ask.at_least,
            ask.bundled_count, ask.engine_space, continuous=False, chosen=ask.conductor,
            parallel=ask.parallel if ask.conductor else 1, chosen_fuse_a=ask.fuse_a,
        ),
        practice(lay._replace(mains=ask.mains), ask.conductor)._replace(conductor_degc=ask.conductor_degc),
    )  # fmt: skip


@lru_cache(maxsize=4096)
def one_line(ask: Ask, lay: Lay, allowed: tuple[str, ...]) -> Line:
    """One circuit with its cable and protection, not yet numbered."""
    if ask.design_a > MOST_A or ask.one_way_m > MOST_M:
        return Line(ask, "", None, 1, 0.0, 0.0, None, None, ("no-cable-enough",))
    row = _row(ask, lay)
    fuse_a = row.fuse_a if ask.device != "isolator" else None
    kind = _kind(ask, fuse_a, allowed) if ask.device == "fuse" and fuse_a is not None else None
    return Line(
        ask, "", row.size, row.parallel, row.drop_v * ask.current_a / ask.design_a, row.ampacity_a, fuse_a, kind,
        row.faults,
    )  # fmt: skip


@lru_cache(maxsize=256)
def lines(asks: tuple[Ask, ...], lay: Lay, allowed: tuple[str, ...]) -> tuple[Line, ...]:
    """The schedule: every circuit with cable and protection, numbered within its group.

    allowed: codes of the kinds of fuse that may be proposed; empty: all.
    """
    counts: dict[str, int] = {}
    found = []
    for ask in asks:
        counts[ask.group] = n = counts.get(ask.group, 0) + 1
        found.append(one_line(ask, lay, allowed)._replace(number=f"{LETTER[ask.group]}{n}"))
    return tuple(found)
