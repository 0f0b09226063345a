"""How much of the panels the things on the roof put into shade at noon.

Panels are laid clear of noon shade where that costs no power. Where it would, they stand in it, and the shaded share
of their area at noon of the trip's lowest useful sun is told: parked the worst way round, and on average over four
ways. The yield of the sun already holds a usual loss for shade; what the average is more than that is taken off it,
hour by hour as the sun rises and sinks, in each month by its own sun. A shaded cell can hold back its whole string, so
the true loss may be larger.
"""

from engine.build import Build, Figures
from engine.build.sun_power import shade_off_frac
from engine.physics.cell import LOSSES_FRAC
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtMost, Example, Inputs, Rule, Softened, fact
from engine.units import MONTHS


class Shaded(Inputs):
    """Noon shade on the panels."""

    worst_frac: float = fact("share of panel area in shade at noon, parked the worst way round", "computed", ge=0, le=1)
    mean_frac: float = fact("the same on average over four ways to park", "computed", ge=0, le=1)
    altitude_deg: float = fact("height of the noon sun", "computed", ge=0, le=90)
    month: str = fact("month with the lowest useful noon sun of the trip", "computed")
    usual_frac: float = fact("share of shade that the yield of the sun already allows for", "assumed", gt=0, le=1)
    off_frac: float = fact("taken off that month's yield for it, beyond that", "computed", ge=0, le=1)


def read(build: Build, figures: Figures) -> Shaded | None:
    """Nothing to ask without panels or without anything taller on the roof."""
    shade = figures.roof.shade
    if shade is None or not figures.roof.panels_placed:
        return None
    return Shaded(
        options=build.panel_ids,
        worst_frac=shade.worst_frac,
        mean_frac=shade.mean_frac,
        altitude_deg=shade.altitude_deg,
        month=MONTHS[shade.month - 1],
        usual_frac=LOSSES_FRAC["shading"],
        off_frac=shade_off_frac(build, figures.roof, shade.month),
    )


def judge(x: Shaded) -> Softened:
    """Worth a note above what the yield allows for."""
    return Softened(AtMost(x.worst_frac, x.usual_frac, "frac", tight_from=JUST_ENOUGH), "note")


_CLEAR = {"mean_frac": 0.0, "altitude_deg": 30, "month": "October", "usual_frac": 0.03, "off_frac": 0.0}
RULE = Rule(
    code="panel-shade",
    title="Noon shade on the panels",
    topic="roof",
    category="comfort",
    inputs=Shaded,
    read=read,
    judge=judge,
    formula="panel area within (height above the panel / tan(noon sun)) of a tall thing ÷ panel area ≤ 3 %",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "At noon in {month}, the lowest sun of the trip worth having, {measured} of the panels' area is in the "
        "shade of what stands beside them, however you park.",
        "note": "At noon in {month} up to {measured} of the panels' area is in the shade of what stands beside them, "
        "{mean_frac} on average over the ways to park. With all hours of the day the month's yield counts {off_frac} "
        "less for it.",
    },
    remedy="Park so that the shade falls elsewhere, or leave out or lower what stands beside the panels.",
    examples=lambda: (
        Example(_CLEAR | {"worst_frac": 0.0}, "ok", "laid clear of the fan's shade"),
        Example(_CLEAR | {"worst_frac": 0.03, "mean_frac": 0.01}, "ok", "exactly what the yield allows for"),
        Example(
            _CLEAR | {"worst_frac": 0.12, "mean_frac": 0.05, "altitude_deg": 16, "off_frac": 0.021},
            "note",
            "a cooler in low sun",
        ),
    ),
)
