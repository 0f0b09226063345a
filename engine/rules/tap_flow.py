"""The shower keeps most of its flow when somebody opens another tap."""

from engine.build import Build, Figures
from engine.rule import JUST_ENOUGH, AtLeast, Example, Inputs, Rule, Softened, Source, fact

KEEPS_FRAC = 0.6
"""Share of its flow at which a shower still feels like one (assumption)."""


class Taps(Inputs):
    """A shower alone, and with another tap."""

    alone_l_min: float = fact("the shower alone", "computed", gt=0)
    both_l_min: float = fact("the shower while the other tap runs", "computed", ge=0)
    other: str = fact("the other tap", "chosen")


def read(build: Build, figures: Figures) -> Taps | None:
    """Nothing to ask without a pump, a shower and another tap inside."""
    t = figures.taps
    if t is None or not t.alone_l_min:
        return None
    return Taps(options=t.ids, alone_l_min=t.alone_l_min, both_l_min=t.both_l_min, other=t.other_name)


def judge(x: Taps) -> Softened:
    """A weaker shower is worth a note, no more."""
    return Softened(AtLeast(x.both_l_min, KEEPS_FRAC * x.alone_l_min, "l_min", tight_from=JUST_ENOUGH), "note")


RULE = Rule(
    code="tap-flow",
    title="Two taps at once",
    topic="water",
    category="comfort",
    inputs=Taps,
    read=read,
    judge=judge,
    formula="pump curve = (f·l/d + Σ K)·ρ·v²/2 + tap, for both taps behind one run; none gives more than it states",
    sources=(
        Source("Darcy and Weisbach with Colebrook", "any text on fluid mechanics"),
        Source("EN 246 and EN 1112", "heads and aerators that hold their flow, at 1 bar and more (from memory)"),
        Source("Common practice", "pipe of 10 mm bore, 4 m in common and 2 m to each tap"),
    ),
    says={
        "ok": "The shower gives {alone_l_min} alone and {both_l_min} while this runs too: {other}.",
        "note": "The shower gives {alone_l_min} alone, but only {both_l_min} while this runs too: {other}.",
    },
    remedy="Choose a stronger pump, or wait.",
    examples=lambda: (
        Example({"alone_l_min": 5.5, "both_l_min": 4.6, "other": "Galley"}, "ok", "a strong pump"),
        Example({"alone_l_min": 5, "both_l_min": 3, "other": "Galley"}, "ok", "exactly six tenths"),
        Example({"alone_l_min": 5, "both_l_min": 2.5, "other": "Galley"}, "note", "a weak pump"),
    ),
    offers="pump",
)
