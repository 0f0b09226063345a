"""Each fuse at the battery can break a short circuit there.

A lithium battery gives thousands of amperes into a short circuit. A fuse that is not made for that does not break it:
it burns on as an arc, or bursts. The current is estimated from the resistance of the cells alone, a tenth of a milliohm
or so each; a datasheet's figure has priority. Battery electronics are no help, because they may fail closed.
"""

from engine.build import Build, Figures
from engine.build.circuit_lines import Line
from engine.physics.overcurrent import FuseKind, breaks_a, kinds_that_break
from engine.rule import AtMost, Example, Inputs, Rule, Source, Unknown, fact, listed

NONE = FuseKind("none", "none", (), 0, 0, "")
"""Stands for a fuse that nobody makes: it breaks nothing."""


class Breaking(Inputs):
    """A fuse and the short circuit it has to break."""

    circuit: str = fact("the circuit with least to spare", "computed")
    fuse: str = fact("its fuse, in words", "computed")
    short_a: float = fact("prospective short-circuit current there", "computed", ge=0)
    breaks_a: float = fact("what such a fuse breaks at this voltage", "catalogue", ge=0)
    instead: str = fact("what helps", "computed", default="Fit a fuse that breaks more")


def read(build: Build, figures: Figures) -> list[Breaking | Unknown] | Unknown | None:
    """Each kind of fuse that the workshop states, and of the proposed ones the one with least to spare."""
    c = figures.circuits
    if c.main_a is None:
        return None
    if c.short_a is None:
        if figures.power.bank.nominal_v is None:
            return None  # no one bank: another check's matter
        ids = tuple(g.option_id for g in figures.power.bank.groups)
        return Unknown(
            "short-circuit current of the battery", "Ask for a battery whose voltage is a whole number of cells.", ids
        )
    asked = [x for x in c.lines if x.ask.prospective_a is not None and x.fuse_a is not None]
    proposed = [x for x in asked if x.ask.fuse_kind is None]
    allowed = build.workshop.wiring.fuse_kinds
    worst = min(proposed, key=lambda x: (x.breaks_a / max(1.0, x.ask.prospective_a or 0.0), x.number), default=None)
    shown = [x for x in asked if x.ask.fuse_kind is not None] + ([worst] if worst is not None else [])
    return [
        Breaking(
            options=x.ask.option_ids,
            circuit=x.ask.what,
            fuse=_fuse(x, allowed),
            short_a=x.ask.prospective_a or 0.0,
            breaks_a=breaks_a(x.kind or x.strongest(allowed) or NONE, x.ask.system_v),
            instead=_instead(x),
        )
        for x in shown
    ]


def _fuse(x: Line, allowed: tuple[str, ...]) -> str:
    """The fuse that is stated or proposed; where none breaks the fault, the strongest of those that could be fitted."""
    if x.kind is not None:
        return f"its {x.device} of {x.fuse_a:g} A"
    strongest, whose = x.strongest(allowed), "that the workshop fits" if allowed else "in common use"
    of = f" ({strongest.title})" if strongest else ""
    return f"the strongest fuse of {x.fuse_a:g} A {whose}{of}"


def _instead(x: Line) -> str:
    """Kinds of fuse that would break the fault; where none does, less battery behind one fuse."""
    fit = kinds_that_break(x.ask.prospective_a or 0.0, x.ask.system_v, x.fuse_a or 0.5)
    if fit:
        return f"Fit one of these at the battery: {listed(k.title for k in fit)}"
    return (
        "No fuse in common use breaks that much. Split the battery, each part with its own fuses, or choose less of it"
    )


def judge(x: Breaking) -> AtMost:
    """Fault current against what the fuse breaks."""
    return AtMost(x.short_a, x.breaks_a, "a", tight_from=0.9 + 1e-6)


_MAIN = {"circuit": "Main cable", "short_a": 12400}
RULE = Rule(
    code="fuse-interrupts",
    title="Fuses at the battery in a short circuit",
    topic="power",
    category="safety",
    inputs=Breaking,
    read=read,
    judge=judge,
    formula="E / (R_cells + R_cable) ≤ interrupting rating",
    sources=(
        Source("ABYC E-11", "interrupting ratings at the battery, as a supplier reproduces it", "2026-11-25"),
        Source("Common practice", "interrupting ratings by kind of fuse; a maker's datasheet decides"),
    ),
    says={
        "ok": "{circuit}: a short circuit gives up to {measured}, and {fuse} breaks {limit}.",
        "tight": "{circuit}: a short circuit gives up to {measured}, close to the {limit} that {fuse} breaks.",
        "fails": "{circuit}: a short circuit gives up to {measured}; "
        "{breaks_a:no fuse there is made for that rating and voltage|{fuse} breaks no more than #"
        "|{fuse} breaks no more than #}.",
    },
    remedy="{instead}; or ask for the short-circuit current of its datasheet.",
    examples=(
        Example(_MAIN | {"fuse": "its class T fuse of 300 A", "breaks_a": 20000}, "ok", "62 %"),
        Example(
            _MAIN | {"fuse": "its terminal fuse (MRBF) of 300 A", "breaks_a": 12400}, "tight", "exactly what it breaks"
        ),
        Example(
            _MAIN | {"fuse": "the strongest fuse of 350 A in common use", "short_a": 29200, "breaks_a": 25000},
            "fails",
            "three large batteries side by side",
        ),
        Example(_MAIN | {"fuse": "the strongest fuse of 350 A", "breaks_a": 0}, "fails", "none for such a voltage"),
        Example(_MAIN | {"fuse": "its ANL fuse of 300 A", "breaks_a": 6000}, "fails", "twice what an ANL fuse breaks"),
    ),
    offers="wired",
    caution="Battery currents can weld metal and start fires. Wiring and protection belong in trained hands.",
)
