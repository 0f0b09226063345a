"""The vehicle stands wide for its height.

Half the track over the height of the centre of gravity is the sideways pull, as a share of the weight, at which a
rigid vehicle would tip; its arc tangent is the side slope. Campers carry beds, lockers and panels high up. The height
taken is the highest that any filling gives. Springs and tyres give way, so the true figure is lower: slow down in bends
and wind.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.rule import JUST_ENOUGH, AtLeast, Example, Inputs, Rule, Softened, Source, fact

LEAST_FRAC = 0.70
"""Tangent of 35°, the side slope that single-decked buses have to stand in the United Kingdom."""


class Standing(Inputs):
    """The highest centre of gravity that can occur."""

    case: str = fact("load case", "computed")
    height_m: float = fact("centre of gravity above the road", "computed", gt=0)
    track_m: float = fact("track, mean of both axles", "catalogue", gt=0)
    factor_frac: float = fact("static stability factor", "computed", gt=0)


def read(build: Build, figures: Figures) -> Standing | None:
    """Nothing to say where tracks or the delivered centre of gravity are not stated."""
    s = figures.mass.stability
    if s is None:
        return None
    return Standing(
        options=s.option_ids, case=s.case, height_m=s.height_m, track_m=s.track_m, factor_frac=s.factor_frac
    )


def judge(x: Standing) -> Softened:
    """Below what buses have to stand it is worth a word."""
    return Softened(AtLeast(x.factor_frac, LEAST_FRAC, "frac", tight_from=JUST_ENOUGH), "note")


_VAN = {"case": "fresh water full, all aboard", "track_m": 1.8}
RULE = Rule(
    code="static-stability",
    title="Height of the centre of gravity",
    topic="mass",
    category="function",
    inputs=Standing,
    read=read,
    judge=judge,
    formula="track / (2 · height of the centre of gravity) ≥ 0.70, the tangent of 35°",
    sources=(
        Source("49 CFR 575, Rollover Resistance", "68 FR 59250, 2003: static stability factor T/(2H)", "2026-11-25"),
        Source(
            "Public Service Vehicles (Conditions of Fitness) Regulations",
            "UK, stability: 35° for single-decked buses",
            "2026-11-25",
        ),
    ),
    says={
        "ok": "Centre of gravity at {height_m} at most: a sideways pull of {measured} of its weight would tip it.",
        "note": "It stands high: with the centre of gravity at {height_m}, a sideways pull of {measured} of its weight "
        "would tip it ({case}). Buses are built for {limit}. Take bends and gusts gently.",
    },
    remedy="Put heavy things low: batteries and tanks by the floor, nothing heavy on the roof.",
    examples=lambda: (
        Example(_VAN | {"height_m": 0.92, "factor_frac": 0.978}, "ok", "a van"),
        Example(_VAN | {"height_m": 1.2857, "factor_frac": 0.70}, "ok", "exactly what buses are built for"),
        Example(_VAN | {"height_m": 1.40, "factor_frac": 0.643}, "note", "a tall box"),
    ),
    caution=f"{cautions.WEIGHBRIDGE} What stands high tips over sooner: slow down for bends, slopes and side winds.",
)
