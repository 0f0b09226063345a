"""A tall vehicle has its height on a notice that the driver can read.

In the United Kingdom that is law above 3 m; everywhere else it is wise, since bridges do not give way. What stands on
the roof counts.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.legal_limits import SIZES
from engine.rule import JUST_ENOUGH, AtMost, Example, Inputs, Rule, Softened, Source, fact


class Height(Inputs):
    """Outside height."""

    height_m: float = fact("height with what stands on the roof", "computed", gt=0)
    bare_m: float = fact("height of the bare roof", "catalogue", gt=0)
    notice_m: float = fact("height above which the notice is asked for", "regulation", gt=0)


def read(build: Build, figures: Figures) -> Height | None:
    """Nothing to ask where the region's law has no such notice."""
    notice_m = figures.legal.size.notice_above_m
    if notice_m is None:
        return None
    bare_m, roof = build.vehicle.height_m, figures.roof_load
    return Height(
        options=roof.tallest_ids if bare_m <= notice_m else (),
        height_m=roof.height_m,
        bare_m=bare_m,
        notice_m=notice_m,
    )


def judge(x: Height) -> Softened:
    """Above the limit is worth a note; exactly at it nothing is asked."""
    return Softened(AtMost(x.height_m, x.notice_m, "m", tight_from=JUST_ENOUGH), "note")


_LAW = SIZES["uk"].law
RULE = Rule(
    code="height-notice",
    title="Height notice in the cab",
    topic="mass",
    category="legal",
    inputs=Height,
    read=read,
    judge=judge,
    formula="bare height + tallest thing on the roof ≤ 3 m",
    sources=(Source(_LAW.title, "regulation 10", _LAW.checked),),
    says={
        "ok": "It stands {measured} high, with what is on the roof; no notice is asked for up to {limit}. "
        "Check with your authority.",
        "note": "It stands {measured} high, with what is on the roof. Above {limit} the height must be on a notice "
        "that the driver can read. Measure the finished vehicle, and check with your authority.",
    },
    remedy="Measure the finished vehicle and put the figure where the driver can read it.",
    examples=lambda: (
        Example({"height_m": 2.68, "bare_m": 2.58, "notice_m": 3}, "ok", "van with a roof fan"),
        Example({"height_m": 3.0, "bare_m": 2.9, "notice_m": 3}, "ok", "exactly 3 m"),
        Example({"height_m": 3.36, "bare_m": 3.26, "notice_m": 3}, "note", "box with a roof fan"),
    ),
    regions=" ".join(r for r, size in SIZES.items() if size.notice_above_m is not None),
    caution=cautions.HEIGHT,
)
