"""A cable that the workshop states leaves enough voltage at its end.

The way to a load and back counts, so a cable has twice its length. A motor that starts on too little voltage looks like
a broken fridge. Up to 3 % may be lost where it matters (motors, electronics, chargers) and up to 10 % elsewhere; more
than 10 %, or less than a load works with, is a fault.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.circuits import sized_lines
from engine.physics.conductor import AWG, WORKSHOP_METRIC, sized
from engine.physics.voltage_drop import CRITICAL_FRAC, drop_v
from engine.rule import ELSEWHERE, AtMost, Example, Inputs, Rule, Source, fact

FAULT_FRAC = 0.10
"""More than this is lost nowhere."""


class Drop(Inputs):
    """One circuit whose cable is stated."""

    circuit: str = fact("the circuit", "catalogue")
    cable: str = fact("its cable", "catalogue")
    current_a: float = fact("current at which it is told, a start included", "computed", gt=0)
    one_way_run_m: float = fact("length one way", "computed", gt=0)
    system_v: float = fact("voltage of the system", "computed", gt=0)
    drop_v: float = fact("voltage lost there and back", "computed", ge=0)
    wanted_frac: float = fact("share of the voltage that a cable should not lose", "assumed", gt=0, le=0.2)
    lowest_v: float = fact("voltage below which the load stops; 0 when not stated", "catalogue", ge=0)

    @property
    def allowed_v(self) -> float:
        """What may be lost at all."""
        limit = max(FAULT_FRAC, self.wanted_frac) * self.system_v
        return min(limit, max(0.01, self.system_v - self.lowest_v)) if self.lowest_v else limit

    @property
    def left_v(self) -> float:
        """What arrives."""
        return self.system_v - self.drop_v

    @property
    def lost_frac(self) -> float:
        """Share that is lost, to a tenth of a percent."""
        return round(self.drop_v / self.system_v, 3)

    @property
    def lost(self) -> str:
        """The same in words."""
        return f"{self.drop_v:.2f} V, {self.lost_frac * 100:.1f} %"


def read(build: Build, figures: Figures) -> list[Drop]:
    """One question for each cable that the workshop states."""
    return [
        Drop(
            options=x.ask.option_ids,
            circuit=x.ask.what,
            cable=x.cable_words,
            current_a=x.ask.current_a,
            one_way_run_m=x.ask.one_way_m,
            system_v=x.ask.system_v,
            drop_v=x.drop_v,
            wanted_frac=x.ask.drop_limit_frac,
            lowest_v=x.ask.lowest_v or 0.0,
        )
        for x in sized_lines(figures.circuits, figures.power)
        if x.ask.conductor is not None
    ]


def judge(x: Drop) -> AtMost:
    """Voltage lost against what may be; tight beyond the share that is wanted."""
    tight_from = min(0.999, x.wanted_frac * x.system_v / x.allowed_v * (1 + 1e-9))
    return AtMost(x.drop_v, x.allowed_v, "v", tight_from=tight_from if tight_from < 0.999 else 0.9)


def _fridge(label: str, lowest_v: float = 0.0, lost_v: float | None = None) -> dict[str, str | float]:
    """A fridge of 8 A, or of the current that loses so much, at the end of 25 ft or 7.5 m of cable."""
    metric = label.endswith("mm²")
    cable, way_m, current_a = sized(label, WORKSHOP_METRIC if metric else AWG), 7.5 if metric else 7.62, 8.0
    if lost_v is not None:
        current_a = lost_v / drop_v(cable, 1.0, way_m)
    return {
        "circuit": "Fridge", "cable": label, "current_a": current_a, "one_way_run_m": way_m, "system_v": 12,
        "drop_v": drop_v(cable, current_a, way_m), "wanted_frac": CRITICAL_FRAC, "lowest_v": lowest_v,
    }  # fmt: skip


RULE = Rule(
    code="wire-drop",
    title="Voltage lost in a stated cable",
    topic="power",
    category="function",
    inputs=Drop,
    read=read,
    judge=judge,
    formula="2·L·I·R' ≤ 10 % of U, and ≤ U − lowest; wanted: ≤ 3 % or 10 % by use",
    sources=(
        Source("ABYC E-11", "3 % and 10 %, as marine suppliers reproduce it", "2026-11-25"),
        Source("ISO 10133:2012", "the same shares for critical and other circuits", "2026-11-25"),
        Source("IEC 60028", "resistivity of copper", "2026-11-25"),
    ),
    says={
        "ok": "{circuit}: {cable} loses {lost}, and {left_v} arrive.",
        "tight": "{circuit}: {cable} loses {lost} over {one_way_run_m} one way. It works, but that is more than "
        "it should.",
        "fails": "{circuit}: {cable} loses {lost} over {one_way_run_m} one way; {limit} may be lost. Only "
        "{left_v} arrive.",
    },
    remedy="Take a thicker cable, or a shorter way. Fuse holders and lugs lose another 0.1 to 0.3 V.",
    examples=lambda: (
        Example(_fridge("8 AWG"), "ok", "thick enough for a fridge", "us"),
        Example(_fridge("10 AWG"), "tight", "it works", "us"),
        Example(_fridge("12 AWG"), "tight", "it works, with less to spare", "us"),
        Example(_fridge("14 AWG", lost_v=1.2), "tight", "a larger fridge, exactly 10 %", "us"),
        Example(_fridge("16 AWG"), "fails", "too thin", "us"),
        Example(_fridge("14 AWG", lowest_v=11.1), "fails", "less than 10 %, but it stops below 11.1 V", "us"),
        Example(_fridge("6 mm²"), "ok", "thick enough for a fridge", ELSEWHERE),
        Example(_fridge("4 mm²"), "tight", "it works", ELSEWHERE),
        Example(_fridge("2.5 mm²", lost_v=1.2), "tight", "a larger fridge, exactly 10 %", ELSEWHERE),
        Example(_fridge("1.5 mm²"), "fails", "too thin", ELSEWHERE),
        Example(_fridge("2.5 mm²", lowest_v=11.2), "fails", "less than 10 %, but it stops below 11.2 V", ELSEWHERE),
    ),
    offers="wired",
    caution=cautions.BATTERY,
)
