"""Each fuse at the battery can break a short circuit there.

A lithium battery gives thousands of amperes into a short circuit. A fuse that is not made for that does not break it:
it burns on as an arc, or bursts. The current is estimated from the resistance of the cells alone, a tenth of a milliohm
or so each; a datasheet's figure has priority. Battery electronics are no help, because they may fail closed.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.circuit_lines import Line
from engine.physics.overcurrent import FUSE_KINDS, FuseKind, breaks_a, kinds_that_break
from engine.rule import AtMost, Example, Inputs, Rule, Source, Unknown, fact, listed

NONE = FuseKind("none", "none", (), 0, 0, "")
"""Stands for a fuse that nobody makes: it breaks nothing."""


class Breaking(Inputs):
    """A fuse and the short circuit it has to break."""

    circuit: str = fact("the circuit with least to spare", "computed")
    fuse: str = fact("its fuse, in words", "computed")
    system_v: float = fact("voltage there", "computed", gt=0)
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
            system_v=x.ask.system_v,
            short_a=x.ask.prospective_a or 0.0,
            breaks_a=breaks_a(x.kind or x.strongest(allowed) or NONE, x.ask.system_v),
            instead=_instead(x),
        )
        for x in shown
    ]


def _fuse(x: Line, allowed: tuple[str, ...]) -> str:
    """The fuse that is stated or proposed; where none breaks the fault, the strongest of those that could be fitted."""
    if x.kind is not None:
        return f"{'its' if x.ask.fuse_kind else 'the proposed'} {x.device} of {x.fuse_a:g} A"
    strongest, whose = x.strongest(allowed), "that the workshop fits" if allowed else "in common use"
    of = f" ({strongest.title})" if strongest else ""
    return f"the strongest fuse of {x.fuse_a:g} A {whose}{of}"


def _instead(x: Line) -> str:
    """Kinds of fuse that would break the fault and more than this one does; where none does, less behind one fuse."""
    fit = kinds_that_break(x.ask.prospective_a or 0.0, x.ask.system_v, x.fuse_a or 0.5)
    more = [k for k in fit if breaks_a(k, x.ask.system_v) > x.breaks_a]
    if more:
        return f"Fit one of these at the battery: {listed(k.title for k in more)}"
    none = "No fuse in common use breaks more." if fit else "No fuse in common use breaks that much."
    return f"{none} Split the battery, each part with its own fuses, or choose less of it"


def judge(x: Breaking) -> AtMost:
    """Fault current against what the fuse breaks."""
    return AtMost(x.short_a, x.breaks_a, "a", tight_from=0.9 + 1e-6)


def _behind(code: str, rating_a: float, short_a: float, system_v: float = 12.8) -> dict[str, str | float]:
    """A main cable behind a fuse of that kind."""
    kind = next(k for k in FUSE_KINDS if k.code == code)
    return {
        "circuit": "Main cable", "fuse": f"its {kind.title} of {rating_a:g} A", "system_v": system_v,
        "short_a": short_a, "breaks_a": breaks_a(kind, system_v),
    }  # fmt: skip


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
    remedy="{instead}; or ask for the short-circuit current in the battery's datasheet.",
    examples=lambda: (
        Example(_behind("class-t", 300, 12400), "ok", "62 % of what a class T fuse breaks"),
        Example(_behind("mrbf", 300, 10000), "tight", "exactly what a terminal fuse breaks on a 12 V battery"),
        Example(_behind("mrbf", 300, 12400), "fails", "a quarter more than a terminal fuse breaks there"),
        Example(_behind("mrbf", 300, 6200, 25.6), "fails", "the same fuse on a 24 V battery breaks half as much"),
        Example(
            _behind("nh", 350, 29200) | {"fuse": "the strongest fuse of 350 A in common use (NH fuse)"},
            "fails",
            "three large batteries side by side",
        ),
        Example(_behind("mega", 350, 12400, 51.2), "fails", "a strip fuse for 32 V on a 48 V battery"),
        Example(_behind("anl", 300, 12400), "fails", "twice what an ANL fuse breaks"),
    ),
    offers="wired",
    caution=cautions.BATTERY,
)
