"""Three strings of panels and more in parallel have a fuse in each string.

When one string has a fault, the others drive their current backward through it. One string can do no harm to itself,
and of two the other one cannot drive more than a panel stands. From three on, each string needs a fuse: large enough
for its own current, and no larger than its panels allow.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.solar_strings import needs_string_fuses, survives_more
from engine.rule import Example, Holds, Inputs, Rule, Source, fact

SERIES = "Connect more panels in series, so that two strings at most are in parallel"
FEWER = "Share the panels out to more controllers, or choose panels whose maker allows a larger fuse"


class Strings(Inputs):
    """Strings in parallel."""

    name: str = fact("panels and how many", "chosen")
    wired: str = fact("how they are connected", "computed")
    needed: bool = fact("whether each string needs a fuse", "computed")
    fuse_a: float = fact("fuse of each string; 0 when no size fits", "computed", default=0.0, ge=0)
    way: str = fact("what spares the fuse", "computed", default=SERIES)
    stated: str = fact("what the panel's maker allows", "catalogue", default="")


def read(build: Build, figures: Figures) -> list[Strings]:
    """One question for each group of panels on a controller."""
    return [
        Strings(
            options=(g.panel_id, g.controller_id),
            name=f"{g.panel_count} × {g.panel_name}",
            wired=g.wired,
            needed=needs_string_fuses(g),
            fuse_a=g.layout.string_fuse_a or 0.0,
            way=SERIES if not g.into.switching and survives_more(g) else FEWER,
            stated=(
                f" The panel's maker allows {g.panel.series_fuse_a:g} A."
                if g.panel.series_fuse_a is not None
                else " What fuse the panel's maker allows is not stated."
            ),
        )
        for g in figures.power.strings
        if not g.idle
    ]


def judge(x: Strings) -> Holds:
    """Two strings hold; a fuse for each of more is a note; none that fits fails."""
    if not x.needed:
        return Holds(True)
    return Holds(False, "note" if x.fuse_a else "fails")


RULE = Rule(
    code="string-fuse",
    title="Fuses of panels in parallel",
    topic="power",
    category="safety",
    inputs=Strings,
    read=read,
    judge=judge,
    formula="1.25·I_sc·(n − 1) ≤ largest series fuse of the panel, else a fuse of 1.5625·I_sc to that size in each "
    "string",
    sources=(
        Source("NFPA 70 (NEC) 2023", "690.9(A) and (B), 690.8(A)(1)", "2026-11-25"),
        Source("Common practice", "three strings and more without a stated series fuse"),
    ),
    says={
        "ok": "{name}, {wired}: no string needs a fuse of its own.",
        "note": "{name}, {wired}: each string gets its own fuse, {fuse_a}.{stated}",
        "fails": "{name}, {wired}: each string needs its own fuse, and no size carries its current and protects "
        "it.{stated}",
    },
    remedy="{way}.",
    examples=lambda: (
        Example({"name": "4 × Panel", "wired": "2 in series, 2 such strings", "needed": False}, "ok", "two strings"),
        Example(
            {
                "name": "3 × Panel",
                "wired": "all 3 in parallel",
                "needed": True,
                "fuse_a": 15,
                "stated": " The panel's maker allows 20 A.",
            },
            "note",
            "three strings of 9.5 A, fuse allowed 20 A",
        ),
        Example(
            {
                "name": "3 × Panel",
                "wired": "all 3 in parallel",
                "needed": True,
                "stated": " The panel's maker allows 20 A.",
            },
            "fails",
            "three strings of 13.5 A: 21 A are needed, 20 A allowed",
        ),
    ),
    offers="solar-panel",
    caution=cautions.PANELS,
)
